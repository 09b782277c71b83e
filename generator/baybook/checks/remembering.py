"""The same rules for many designs that share one vehicle: no rule is asked the same twice.

What a rule looks at stands in `reads.py`. Findings are kept under the very things that were
looked at, and handed out again when the same things come back.
"""

from __future__ import annotations

from collections.abc import Callable, Hashable, Iterable, Iterator, Sequence
from dataclasses import dataclass
from functools import cache
from operator import attrgetter, itemgetter
from typing import Any, TypeAlias

from baybook.checks.judge import RANK
from baybook.checks.reads import READS, SETTING
from baybook.checks.registry import RULES
from baybook.checks.subjects import codes_about
from baybook.design import Design
from baybook.finding import Finding

_Ranked: TypeAlias = tuple[tuple[int, int], Finding]  # (verdict, place in the registry)
_Things: TypeAlias = tuple[Any, ...]
_PLACES = {code: place for place, code in enumerate(RULES)}


class Remembering:
    """A judge for fits that differ in charger, station and connector alone."""

    def __init__(self) -> None:
        # beside the findings the things that were looked at: no other gets the id of one
        self._found: dict[tuple[Hashable, ...], tuple[tuple[_Ranked, ...], _Things]] = {}

    def __call__(self, design: Design, about: str = "") -> tuple[Finding, ...]:
        """Return what `judge` would: the gravest first, then in the order of the registry."""
        found = [one for group in _groups(about) for one in self._of(group, design)]
        found.sort(key=itemgetter(0))
        return tuple(finding for _, finding in found)

    def _of(self, group: _Group, design: Design) -> tuple[_Ranked, ...]:
        things = group.things(design)
        key = (group.name, *map(id, things), *group.plain(design))
        kept = self._found.get(key)
        if kept is None:
            kept = self._found[key] = (tuple(self._asked(group, design)), things)
        return kept[0]

    def _asked(self, group: _Group, design: Design) -> Iterable[_Ranked]:
        if not group.within:
            return _ask(group.codes, design)
        return (one for inner in group.within for one in self._of(inner, design))


@dataclass(frozen=True, slots=True)
class _Group:
    """Rules that are kept together."""

    name: str  # its subject, or the code of its first rule where all look at the same
    codes: tuple[str, ...]
    things: Callable[[Design], _Things]
    plain: Callable[[Design], _Things]
    within: tuple[_Group, ...] = ()

    @classmethod
    def of(cls, name: str, codes: tuple[str, ...], within: tuple[_Group, ...] = ()) -> _Group:
        paths = {path for code in codes for path in READS.get(code, ())}
        plain = set(filter(_is_plain, paths))
        look = _look(sorted(paths - plain)), _look(sorted(plain))
        return cls(name, codes, *look, within)


def _is_plain(path: str) -> bool:
    """Tell whether a number or a word stands there: it is known by what it is."""
    if path.startswith("solved."):
        return path.count(".") > 1
    return path.startswith("choice.") or path in {"circuit.clip", "circuit.shrink"}


def _ask(codes: tuple[str, ...], design: Design) -> Iterator[_Ranked]:
    for code in codes:
        for found in RULES[code](design):
            yield (RANK[found.verdict], _PLACES[code]), found.under(code)


@cache
def _groups(about: str) -> tuple[_Group, ...]:
    """Return the rules of a subject as they are kept: together, but for what a setting moves."""
    if not about:
        return (*_groups("setting"), *_groups("fitted"), *_groups("beside"))
    codes = codes_about(about)
    alike = _alike(codes)
    return alike if SETTING.issuperset(codes) else (_Group.of(about, codes, alike),)


def _alike(codes: Iterable[str]) -> tuple[_Group, ...]:
    """Return rules of one letter that look at the same."""
    by_reads: dict[tuple[str, ...], list[str]] = {}
    for code in codes:
        by_reads.setdefault((code[:2], *READS.get(code, ())), []).append(code)
    return tuple(_Group.of(own[0], tuple(own)) for own in by_reads.values())


def _look(paths: Sequence[str]) -> Callable[[Design], tuple[Any, ...]]:
    if not paths:
        return lambda _design: ()
    if len(paths) == 1:
        one = attrgetter(paths[0])
        return lambda design: (one(design),)
    return attrgetter(*paths)
