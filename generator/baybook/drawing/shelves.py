"""Labels along a line, on as few shelves as keep them apart.

Each label belongs to a point of the line and is reached from it by a leader that runs
straight away from the line. No label overlaps another, and no leader crosses one.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

AIR = 6.0  # between labels of one shelf
BESIDE = 3.0  # between a leader and words that stand beside it
_MOST_STEPS = 1200  # of the search; the same on every machine, unlike a time
_MOST_SHELVES = 4  # more than that, and the staircase reads better


@dataclass(frozen=True, slots=True)
class Tag:
    """A label that wants to stand at a point of the line."""

    at: float
    width: float


@dataclass(frozen=True, slots=True)
class Spot:
    """Where a label stands: its left edge, its shelf counted from the line."""

    tag: Tag
    left: float
    shelf: int

    @property
    def right(self) -> float:
        return self.left + self.tag.width

    def covers(self, at: float) -> bool:
        return self.left - BESIDE / 2 < at < self.right + BESIDE / 2

    def meets(self, other: Spot) -> bool:
        apart = self.left >= other.right + AIR or other.left >= self.right + AIR
        return self.shelf == other.shelf and not apart


def crossing(spot: Spot, other: Spot) -> bool:
    """Tell whether two labels overlap, or the leader of one crosses the other."""
    if spot.shelf == other.shelf:
        return spot.meets(other)
    near, far = (spot, other) if spot.shelf < other.shelf else (other, spot)
    return near.covers(far.tag.at)


def shelve(tags: Sequence[Tag], width: float) -> tuple[Spot, ...] | None:
    """Return a place for each tag, in the order given, on the fewest shelves; else None.

    width  the line's picture; no label leaves it

    None means that no more than four shelves would do, or that the search was given up.
    """
    order = sorted(range(len(tags)), key=lambda n: tags[n].at)
    line = [tags[number] for number in order]
    for shelves in range(1, _MOST_SHELVES + 1):
        if found := _search(line, width, shelves):
            return tuple(found[order.index(number)] for number in range(len(tags)))
    return None


def _search(line: Sequence[Tag], width: float, shelves: int) -> list[Spot] | None:
    """Place the tags from left to right; where one finds no place, take back the one before."""
    done: list[Spot] = []
    open_tries: list[Iterator[Spot]] = []
    for _ in range(_MOST_STEPS):
        if len(done) == len(line):
            return done
        if len(open_tries) == len(done):
            open_tries.append(_tries(line[len(done)], width, shelves))
        spot = next((s for s in open_tries[-1] if not any(crossing(s, d) for d in done)), None)
        if spot is not None:
            done.append(spot)
            continue
        open_tries.pop()
        if not done:
            return None
        done.pop()
    return None


def _tries(tag: Tag, width: float, shelves: int) -> Iterator[Spot]:
    middle = min(max(tag.at - tag.width / 2, 0.0), width - tag.width)
    for shelf in range(shelves):
        for left in (middle, tag.at + BESIDE, tag.at - BESIDE - tag.width):
            if left >= 0 and left + tag.width <= width:
                yield Spot(tag, left, shelf)


def staircase(tags: Sequence[Tag]) -> tuple[Spot, ...]:
    """Return the tags one under the other, the rightmost nearest the line, right of their leaders.

    Nothing can overlap: every leader runs left of all labels that stand before it.
    """
    order = sorted(range(len(tags)), key=lambda n: tags[n].at, reverse=True)
    shelf_of = {number: shelf for shelf, number in enumerate(order)}
    return tuple(Spot(tag, tag.at + BESIDE, shelf_of[n]) for n, tag in enumerate(tags))
