"""Where a rule of the trade ends: outside its range a function refuses, it never clamps."""

from __future__ import annotations

from collections.abc import Mapping
from math import inf
from typing import TypeVar

_Key = TypeVar("_Key")
_Value = TypeVar("_Value")


class OutOfRange(ValueError):  # noqa: N818 - it says what is wrong, not that it is an error
    """An argument lies outside the range that the source of the rule covers."""


def within(value: float, low: float, high: float, what: str, unit: str = "") -> None:
    """Refuse a value outside low … high, both ends allowed; `nan` is outside.

    [shop-rule]

    value  any; what is not in the range is refused [unit]
    low    any [unit]
    high   any [unit]

    Raises:
        OutOfRange: names the argument, the value found and the range.
    """
    if not low <= value <= high:
        raise OutOfRange(f"{what} {_told(value, unit)}: allowed {low:g} to {_told(high, unit)}")


def above(value: float, limit: float, what: str, unit: str = "") -> None:
    """Refuse a value that is not finite and greater than the limit.

    [shop-rule]

    value  any; what is not above the limit is refused [unit]
    limit  any [unit]

    Raises:
        OutOfRange: names the argument, the value found and the limit.
    """
    if not limit < value < inf:
        raise OutOfRange(f"{what} {_told(value, unit)}: must be above {_told(limit, unit)}")


def listed(table: Mapping[_Key, _Value], key: _Key, what: str) -> _Value:
    """The cell of a published table, never one beside it.

    [shop-rule] A cell that nobody has read is not in the table, and the tool says so.

    key   as the source prints it
    what  the cell in words, for the refusal

    Raises:
        OutOfRange: names the cell that was asked for, and the keys that the table knows.
    """
    if key not in table:
        known = ", ".join(_name(known) for known in table)
        raise OutOfRange(f"{what} {_name(key)}: no such cell was read; the table has {known}")
    return table[key]


def _name(key: object) -> str:
    if isinstance(key, tuple):
        return " ".join(_name(part) for part in key)
    return f"{key:g}" if isinstance(key, float) else str(key)


def _told(value: float, unit: str) -> str:
    return f"{value:g} {unit}".rstrip()
