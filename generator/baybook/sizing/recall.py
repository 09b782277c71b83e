"""A memory for many fits that share one vehicle: what rests on the same things is solved once.

It holds no rule. A part is kept under all that it rests on besides the vehicle; the parts stay
the same objects, so that a judge can tell by them what it has judged before.
"""

from __future__ import annotations

from collections.abc import Callable, Hashable
from typing import Any, Protocol, TypeAlias, TypeVar

_Part = TypeVar("_Part")


class Recall(Protocol):
    """Hands out a part by its key, made now or before."""

    def __call__(self, key: tuple[Hashable, ...], make: Callable[[], _Part], /) -> _Part: ...

    def shared(self, key: tuple[Hashable, ...], make: Callable[[], _Part], /) -> _Part: ...

    def sheet(self, sheet: object, /) -> int: ...


class Afresh:
    """Remembers nothing: every part is made now."""

    def __call__(self, _key: tuple[Hashable, ...], make: Callable[[], _Part], /) -> _Part:
        return make()

    shared = __call__

    def sheet(self, _sheet: object, /) -> int:
        return 0


Parts: TypeAlias = dict[tuple[Hashable, ...], Any]


class Memory:
    """Remembers every part; for fits that differ in charger, station and connector alone.

    What charger and station decide between them is shared with the other vehicles of a shop.
    """

    def __init__(self, shared: Parts | None = None) -> None:
        self._parts: Parts = {}
        self._shared: Parts = {} if shared is None else shared

    def __call__(self, key: tuple[Hashable, ...], make: Callable[[], _Part], /) -> _Part:
        return _kept(self._parts, key, make)

    def shared(self, key: tuple[Hashable, ...], make: Callable[[], _Part], /) -> _Part:
        """Return a part that the vehicle has no share in."""
        return _kept(self._shared, key, make)

    def sheet(self, sheet: object, /) -> int:
        """Return a key of a data sheet, and keep the sheet, so that no other gets this key."""
        key = id(sheet)
        self._shared.setdefault((key,), sheet)
        return key


def _kept(parts: Parts, key: tuple[Hashable, ...], make: Callable[[], _Part]) -> _Part:
    try:
        part: _Part = parts[key]
    except KeyError:
        part = parts[key] = make()
    return part


AFRESH = Afresh()
