"""The same rules for many designs that share one vehicle: no rule is asked the same twice.

What a rule looks at stands in `reads.py`. Findings are kept under the very things that were
looked at, and handed out again when the same things come back.
"""

from __future__ import annotations

from collections.abc import Callable, Hashable, Iterable, Iterator
from functools import cache
from operator import attrgetter, itemgetter
from typing import Any, TypeAlias

from baybook.checks.judge import RANK
from baybook.checks.reads import BAND, READS, SETTING
from baybook.checks.registry import RULES
from baybook.design import Design
from baybook.finding import Finding

_Ranked: TypeAlias = tuple[tuple[int, int], Finding]  # (verdict, place in the registry)
_Group: TypeAlias = tuple[int, Callable[[Design], tuple[Any, ...]], tuple[str, ...]]
_PLACES = {code: place for place, code in enumerate(RULES)}
_OTHERS = "others"  # of all rules, those that do not look at the setting


class Remembering:
    """A judge for fits that differ in charger, station and connector alone."""

    def __init__(self) -> None:
        self._found: dict[tuple[Hashable, ...], tuple[_Ranked, ...]] = {}
        self._looked_at: dict[int, object] = {}

    def __call__(self, design: Design, about: str = "") -> tuple[Finding, ...]:
        """Return what `judge` would: the gravest first, then in the order of the registry."""
        found: list[_Ranked] = [] if about else list(self._others(design))
        for group in _groups(about):
            found += self._of(group, design)
        return tuple(finding for _, finding in sorted(found, key=itemgetter(0)))

    def _others(self, design: Design) -> tuple[_Ranked, ...]:
        return self._kept((-1, *self._key(_whole()(design))), lambda: self._each(design))

    def _each(self, design: Design) -> Iterator[_Ranked]:
        for group in _groups(_OTHERS):
            yield from self._of(group, design)

    def _of(self, group: _Group, design: Design) -> tuple[_Ranked, ...]:
        number, look, codes = group
        return self._kept((number, *self._key(look(design))), lambda: _ask(codes, design))

    def _kept(
        self, key: tuple[Hashable, ...], make: Callable[[], Iterable[_Ranked]]
    ) -> tuple[_Ranked, ...]:
        try:
            return self._found[key]
        except KeyError:
            found = self._found[key] = tuple(make())
            return found

    def _key(self, looked_at: tuple[Any, ...]) -> Iterator[Hashable]:
        """Return plain values as they are and things by who they are; those are kept."""
        for one in looked_at:
            if isinstance(one, (float, int, str)):
                yield one
            else:
                self._looked_at[id(one)] = one
                yield id(one)


def _ask(codes: tuple[str, ...], design: Design) -> Iterator[_Ranked]:
    for code in codes:
        for found in RULES[code](design):
            yield (RANK[found.verdict], _PLACES[code]), found.under(code)


@cache
def _groups(about: str) -> tuple[_Group, ...]:
    """Return the rules of a subject, or those for all of them, by what they look at."""
    by_reads: dict[tuple[str, ...], list[str]] = {}
    for code in RULES:
        reads = READS.get(code, ())
        if code in _about(about):
            by_reads.setdefault((code[:2], *reads), []).append(code)
    return tuple(
        (_number(tuple(codes)), _look(reads[1:]), tuple(codes)) for reads, codes in by_reads.items()
    )


@cache
def _about(about: str) -> frozenset[str]:
    if about in {"", "setting"}:
        return SETTING
    if about == "band":
        return BAND
    return frozenset(
        code for code in RULES if code.partition("-")[0] == about
    ) or frozenset(RULES) - SETTING


@cache
def _number(codes: tuple[str, ...]) -> int:
    """Return the group's number: that of its first rule, as no rule is in two groups."""
    return _PLACES[codes[0]]


@cache
def _whole() -> Callable[[Design], tuple[Any, ...]]:
    reads = (READS.get(code, ()) for _, _, codes in _groups(_OTHERS) for code in codes)
    return _look(tuple(sorted({path for paths in reads for path in paths})))


def _look(paths: tuple[str, ...]) -> Callable[[Design], tuple[Any, ...]]:
    if not paths:
        return lambda _design: ()
    if len(paths) == 1:
        one = attrgetter(paths[0])
        return lambda design: (one(design),)
    return attrgetter(*paths)
