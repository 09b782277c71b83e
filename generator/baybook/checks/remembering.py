"""The same rules for many designs that share one vehicle: no rule is asked the same twice.

What a rule looks at stands in `reads.py`. Findings are kept under the very things that were
looked at, and handed out again when the same things come back.
"""

from __future__ import annotations

from collections.abc import Callable, Hashable, Iterable, Iterator
from dataclasses import dataclass
from functools import cache
from operator import attrgetter, itemgetter
from typing import Any, TypeAlias

from baybook.checks.judge import RANK
from baybook.checks.reads import BAND, READS, SETTING
from baybook.checks.registry import RULES
from baybook.design import Design
from baybook.finding import Finding

_Ranked: TypeAlias = tuple[tuple[int, int], Finding]  # (verdict, place in the registry)
_Things: TypeAlias = tuple[Any, ...]
_PLACES = {code: place for place, code in enumerate(RULES)}
_OTHERS = "others"  # of all rules, those that do not look at the setting


class Remembering:
    """A judge for fits that differ in charger, station and connector alone."""

    def __init__(self) -> None:
        # beside the findings the things that were looked at: no other gets the id of one
        self._found: dict[tuple[Hashable, ...], tuple[tuple[_Ranked, ...], _Things]] = {}

    def __call__(self, design: Design, about: str = "") -> tuple[Finding, ...]:
        """Return what `judge` would: the gravest first, then in the order of the registry."""
        found: list[_Ranked] = [] if about else list(self._others(design))
        for group in _groups(about):
            found += self._of(group, design)
        found.sort(key=itemgetter(0))
        return tuple(finding for _, finding in found)

    def _others(self, design: Design) -> tuple[_Ranked, ...]:
        return self._kept(_whole(), design, self._each)

    def _each(self, design: Design) -> Iterator[_Ranked]:
        for group in _groups(_OTHERS):
            yield from self._of(group, design)

    def _of(self, group: _Group, design: Design) -> tuple[_Ranked, ...]:
        return self._kept(group, design, group.ask)

    def _kept(
        self, group: _Group, design: Design, make: Callable[[Design], Iterable[_Ranked]]
    ) -> tuple[_Ranked, ...]:
        things = group.things(design)
        key = (group.number, *map(id, things), *group.plain(design))
        kept = self._found.get(key)
        if kept is None:
            kept = self._found[key] = (tuple(make(design)), things)
        return kept[0]


@dataclass(frozen=True, slots=True)
class _Group:
    """Rules that look at the same."""

    number: int  # that of its first rule, as no rule is in two groups
    codes: tuple[str, ...]
    things: Callable[[Design], _Things]
    plain: Callable[[Design], _Things]

    @classmethod
    def of(cls, number: int, codes: tuple[str, ...], reads: Iterable[str]) -> _Group:
        paths = tuple(reads)
        things = tuple(path for path in paths if not _is_plain(path))
        return cls(number, codes, _look(things), _look(tuple(set(paths) - set(things))))

    def ask(self, design: Design) -> Iterator[_Ranked]:
        return _ask(self.codes, design)


def _is_plain(path: str) -> bool:
    """Tell whether a number or a word stands there: it is known by what it is."""
    return path.startswith("choice.") or path in {"circuit.clip", "circuit.shrink"}


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
        _Group.of(_PLACES[codes[0]], tuple(codes), reads[1:]) for reads, codes in by_reads.items()
    )


@cache
def _about(about: str) -> frozenset[str]:
    if about in {"", "setting"}:
        return SETTING
    if about == "band":
        return BAND
    return (
        frozenset(code for code in RULES if code.partition("-")[0] == about)
        or frozenset(RULES) - SETTING
    )


@cache
def _whole() -> _Group:
    codes = tuple(code for group in _groups(_OTHERS) for code in group.codes)
    return _Group.of(-1, codes, sorted({path for code in codes for path in READS.get(code, ())}))


def _look(paths: tuple[str, ...]) -> Callable[[Design], tuple[Any, ...]]:
    if not paths:
        return lambda _design: ()
    if len(paths) == 1:
        one = attrgetter(paths[0])
        return lambda design: (one(design),)
    return attrgetter(*paths)
