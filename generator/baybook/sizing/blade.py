"""Blade fuses as their standard describes them: opening times by type, colour by rating."""

from __future__ import annotations

from collections.abc import Sequence

from baybook.sizing.validity import above, listed
from baybook.standards.handbook import handbook

# Read once on import, so that the functions below open no file.
_TABLES = handbook()


def blade_opening(kind: str, percent: float) -> tuple[float, float]:
    """Shortest and longest time in which a blade fuse opens. [s]

    [iso8820-3], gates by type; the table's own row, never a value between two rows

    kind     "C" (medium; the miniature type F has the same gates) or "E" (high current)
    percent  of the rating as listed: 135, 160 or 350 [%]

    Raises:
        OutOfRange: a gate that was not read.
    """
    return listed(_TABLES.gates_s, (kind, float(percent)), "blade fuse, type and percent")


def blade_colour(rating_A: float) -> str:
    """Colour of a blade fuse of this rating. [iso8820-3]

    rating_A  rated current as listed, 1 to 40 [A]

    Raises:
        OutOfRange: a rating whose colour was not read.
    """
    return listed(_TABLES.blade_colour, float(rating_A), "colour of a blade fuse, A")


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
