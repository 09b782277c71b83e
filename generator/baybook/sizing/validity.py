"""Where a rule of the trade ends: outside its range a function refuses, it never clamps."""

from __future__ import annotations


class OutOfRange(ValueError):  # noqa: N818 - it says what is wrong, not that it is an error
    """An argument lies outside the range that the source of the rule covers."""


def within(value: float, low: float, high: float, what: str, unit: str = "") -> None:
    """Refuse a value outside low … high, both ends allowed; `nan` is outside.

    Raises:
        OutOfRange: names the argument, the value found and the range.
    """
    if not low <= value <= high:
        raise OutOfRange(f"{what} {_told(value, unit)}: allowed {low:g} to {_told(high, unit)}")


def above(value: float, limit: float, what: str, unit: str = "") -> None:
    """Refuse a value that is not finite and greater than the limit.

    Raises:
        OutOfRange: names the argument, the value found and the limit.
    """
    if not limit < value < float("inf"):
        raise OutOfRange(f"{what} {_told(value, unit)}: must be above {_told(limit, unit)}")


def _told(value: float, unit: str) -> str:
    return f"{value:g} {unit}".rstrip()
