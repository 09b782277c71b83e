"""Figures in a reader's language: the control value as written, a conversion under it."""

from __future__ import annotations

import math
import re
from dataclasses import replace
from functools import cache, lru_cache

from baybook.book import Told
from baybook.finding import Amount
from baybook.units import convert
from baybook.wording.converted import Conversion, converted, for_us, gauge_for_us, of_torque

# Inside unit → (unit it is usually shown in, the same as the reader sees it).
_USUAL = {"1": "%", "ohm": "mohm", "ohm/m": "mohm/m"}
_SIGNS = {
    "N*m": "N·m", "lbf*ft": "lbf·ft", "lbf*in": "lbf·in", "mm2": "mm²",
    "degC": "°C", "degF": "°F", "deltaF": "°F", "ohm": "Ω", "mohm": "mΩ",
    "ohm/m": "Ω/m", "mohm/m": "mΩ/m", "A*h": "Ah", "W*h": "Wh",
    "g_n": "g", "A*s^0.5/mm2": "A·√s/mm²", "1": "", "1/K": "1/K", "kcmil": "kcmil", "A2s": "A²s",
}  # fmt: skip
_METRIC = frozenset({"m", "cm", "mm", "°C", "K", "kg", "g", "N", "kN"})
_POINTED = "en"  # the language whose decimals are written as in the program
_POINT = re.compile(r"(?<=\d)\.(?=\d)")
_WRITTEN = re.compile(
    r"^(?P<figure>[+-]?\d+(?:\.\d+)?)\s*"
    r"(?P<unit>[^\d\s±+][^\s±+]*(?: [A-Za-z]+)?)?\s*(?P<tolerance>(?:±|\+/-).*)?$"
)


@lru_cache(maxsize=8192)  # the figures of a vehicle or two: not of ten thousand
def number(value: float, digits: int, language: str) -> str:
    """Return `value` rounded to `digits` decimals, in the language's way, with a true minus."""
    rounded = round(value, digits) + 0.0
    text = f"{rounded:.{digits}f}".replace(".", point(language)).replace("inf", "\N{INFINITY}")
    return text.replace("-", "\N{MINUS SIGN}")


@cache
def point(language: str) -> str:
    """Return the decimal mark of a language."""
    if language == _POINTED:
        return "."
    from babel.numbers import get_decimal_symbol  # noqa: PLC0415 - heavy, and a terminal is English

    return str(get_decimal_symbol(language))


def significant(value: float, unit: str, written: str = "", figures: int = 6) -> Amount:
    """Return an Amount with at most so many significant figures and no zeros behind them.

    For the inputs of a formula: a calculator that is fed with them gives the printed result.
    """
    show = _USUAL.get(unit, unit) if unit in {"ohm", "ohm/m"} else unit
    shown = convert(value, unit, show) if show != unit else value
    whole = math.floor(math.log10(abs(shown))) + 1 if shown else 1
    digits = max(0, figures - whole)
    behind = f"{shown:.{digits}f}".partition(".")[2].rstrip("0")
    return Amount(value, unit, len(behind), written, show)


def stated(value: float, unit: str, written: str = "") -> Amount:
    """Return an Amount of what somebody stated: no fewer decimals than were written."""
    amount = significant(value, unit, written)
    match = _WRITTEN.match(written)
    own = len(match["figure"].partition(".")[2]) if match else 0
    return replace(amount, digits=own) if own > amount.digits else amount


def tell_amount(
    amount: Amount, language: str, also: Conversion | None = None, *, us: bool = False
) -> dict[str, Told]:
    """Return the told form of a figure: figure and unit, converted, runs.

    also  how it is told a second time; a torque is told so without being asked
    us    whether a US reader is told it in his units too, if it says which side is careful
    """
    figure, unit = _control(amount, language)
    gauge = _gauge(amount, unit) if us else ""
    if also is None and us and unit in _METRIC:
        also = for_us(amount.value, amount.unit, amount.side)
    if also is None and amount.unit == "N*m":
        also = of_torque(amount.value, metric=unit == sign(amount.unit))
    second = _converted(amount, language, also) if also else gauge
    runs: list[Told] = [{"kind": "figure", "text": figure}]
    if unit:
        runs.append({"kind": "unit", "text": unit})
    return {
        "figure": figure,
        "unit": unit,
        "converted": second,
        "text": f"{figure}\N{NO-BREAK SPACE}{unit}" if unit else figure,
        "value": ended(amount.value),
        "inside": amount.unit,
        "runs": runs,
    }


def ended(value: float) -> float:
    """Return a number as it is. Raises ValueError for one without end, which JSON tells as null."""
    if not math.isfinite(value):
        raise ValueError(f"{value} cannot be told")
    return value


def _gauge(amount: Amount, unit: str) -> str:
    """Return the gauge that the sheet names, else that of an area in mm² with a careful side."""
    computed = gauge_for_us(amount.value, amount.side) if unit == "mm²" else ""
    return amount.gauge or computed


def _control(amount: Amount, language: str) -> tuple[str, str]:
    if amount.written and not amount.show:
        match = _WRITTEN.match(amount.written)
        if match is None:  # "13 ft 9 in", "AWG 6": printed as it stands
            return _POINT.sub(point(language), amount.written), ""
        return _pointed(match["figure"], language), sign(match["unit"] or "")
    show = amount.show or _USUAL.get(amount.unit, amount.unit)
    value = convert(amount.value, amount.unit, show) if show != amount.unit else amount.value
    return number(value, amount.digits, language), sign(show)


def _pointed(written: str, language: str) -> str:
    """Return what a person wrote with the language's decimal mark and a true minus.

    The digits stay those of the source, so that nobody takes a rounded value for the control value.
    """
    return _POINT.sub(point(language), written).replace("-", "\N{MINUS SIGN}")


def differs(amount: Amount, language: str) -> bool:
    """Tell whether a figure was written otherwise than it is shown: `150 mm` for 0.15 m."""
    match = _WRITTEN.match(amount.written)
    if match is None or match["tolerance"]:
        return bool(amount.written)
    figure, unit = _control(replace(amount, written=""), language)
    same_unit = sign(match["unit"] or "") == unit
    shown = figure.replace("\N{MINUS SIGN}", "-")
    return not (same_unit and number(float(match["figure"]), amount.digits, language) == shown)


def _converted(amount: Amount, language: str, how: Conversion) -> str:
    text = number(converted(amount.value, amount.unit, how), how.digits, language)
    return f"{text}\N{NO-BREAK SPACE}{sign(how.unit)}"


@cache
def sign(unit: str) -> str:
    """Return how a unit is printed."""
    plain = unit.strip()
    return _SIGNS.get(plain, _spelled(plain))


def _spelled(unit: str) -> str:
    spelled = unit.replace("²", "2").replace(" ", "*").replace("·", "*")
    spelled = {"Nm": "N*m", "ohm": "ohm", "mOhm": "mohm", "mΩ": "mohm", "Ω": "ohm"}.get(
        spelled, spelled
    )
    return _SIGNS.get(spelled, unit)
