"""The least of many without looking at each: a bound that costs little tells whom to ask."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import TypeVar

_Rank = TypeVar("_Rank", int, tuple[int, float])


def first_of_least(at_least: Sequence[_Rank], rank: Callable[[int], _Rank]) -> int:
    """Return where the least rank stands, the first of equals, from 0 on. [1]

    Who cannot be less than the best so far is not asked.        [shop-rule]

    at_least  what each rank is at least, any
    rank      asks for one of them by its place, any

    Raises:
        ValueError: there are none.
    """
    best: tuple[_Rank, int] | None = None
    for bound, at in sorted((bound, at) for at, bound in enumerate(at_least)):
        if best is not None and (bound, at) >= best:
            break
        found = (rank(at), at)
        best = found if best is None else min(best, found)
    if best is None:
        raise ValueError("none to choose from")
    return best[1]
