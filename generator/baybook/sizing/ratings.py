"""The smallest rating of a family that carries its current."""

from __future__ import annotations

from collections.abc import Sequence

from baybook.sizing.validity import above


def smallest_rating(ratings_A: Sequence[float], factor: float, I_B: float) -> float | None:
    """Smallest rating that carries the design current, None where none does. [A]

    I_n · factor ≥ I_B        [shop-rule]: factor k·d, continuous share times derating

    ratings_A  ratings that can be had, each above 0 [A]
    factor     share of its rating that the part carries without limit of time, above 0 [1]
    I_B        design current, above 0 [A]

    Raises:
        OutOfRange: an argument outside its range.
    """
    above(factor, 0, "continuous factor")
    above(I_B, 0, "design current", "A")
    for rating in ratings_A:
        above(rating, 0, "rating", "A")
    return min((rating for rating in ratings_A if rating * factor >= I_B), default=None)
