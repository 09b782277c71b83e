"""A printed limit as a number again, for the script that judges what a reader types."""

from __future__ import annotations

import re
from typing import Any

from babel.numbers import get_decimal_symbol

_NUMBER = re.compile(r"-?\d+(?:\.\d+)?")


def as_typed(amount: dict[str, Any] | None, language: str) -> str | None:
    """Return the control value of a told amount with a decimal point, None where it is no number.

    It is the figure as printed that a reader compares with, not the one before it was rounded.
    """
    if amount is None:
        return None
    figure = str(amount["figure"]).replace("\N{MINUS SIGN}", "-")
    figure = figure.replace(get_decimal_symbol(language), ".")
    return figure if _NUMBER.fullmatch(figure) else None


def unit_typed(low: dict[str, Any] | None, high: dict[str, Any] | None) -> str | None:
    """Return the one unit of both limits; None where there is no limit, or two units."""
    units = {str(amount["unit"]) for amount in (low, high) if amount is not None}
    return units.pop() if len(units) == 1 else None
