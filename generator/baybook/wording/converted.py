"""The second line of a figure: the same in another unit, rounded to the careful side.

The control value is the one that its source wrote. Who works to the conversion must still be on
the right side of it: a torque is rounded down, a length to be cut is rounded up. A figure whose
careful side is not known is not converted.
"""

from __future__ import annotations

from dataclasses import dataclass

from baybook.units import awg_area_mm2, convert

_NOISE = 1e-9  # what a conversion of exact factors leaves behind


@dataclass(frozen=True, slots=True)
class Conversion:
    unit: str
    digits: int  # decimals
    side: str  # "up" | "down" | "near"


TORQUE = Conversion("lbf*ft", 1, "down")
SMALL_TORQUE = Conversion("lbf*in", 1, "down")  # a tenth of a foot-pound is too coarse there
SMALL_NM = 3.0
BACK = Conversion("N*m", 1, "down")  # a torque whose source is not metric
CUT = Conversion("in", 1, "up")


_INCHES_TO = 1.0  # m; from there on feet
_FINE_TO = 0.05  # m; below, a tenth of an inch is too coarse
_GAUGES = range(-3, 41)  # 4/0 to 40, thickest first [astm-b258]
_PRINTED = 0.003  # of an area
_SIDES = {"most": "down", "least": "up", "plain": "near"}


def for_us(value: float, unit: str, side: str) -> Conversion | None:
    """Return how a length, temperature, mass or force is told to a US reader; None: it is not.

    side  what the figure limits: "most", "least", "plain", or "cut"; "" for what nobody said
    """
    if side == "cut":
        return CUT
    how = _SIDES.get(side)
    if how is None:
        return None
    if unit == "m" and value:
        if abs(value) >= _INCHES_TO:
            return Conversion("ft", 1, how)
        return Conversion("in", 2 if abs(value) < _FINE_TO else 1, how)
    if unit in {"degC", "K"}:
        return Conversion("degF" if unit == "degC" else "deltaF", 0, how)
    other = {"kg": "lb", "N": "lbf"}.get(unit)
    return Conversion(other, 1, how) if other else None


def gauge_for_us(area_mm2: float, side: str) -> str:
    """Return the AWG that a copper area is told by to a US reader; "" where nobody said its side.

    The thinnest gauge that has the area where it is the least that is wanted, else the thickest
    whose copper the area has. Areas are printed with few digits: short by 0.3 % is the gauge.
    """
    if side not in _SIDES:
        return ""
    if side == "least":
        enough = [n for n in _GAUGES if awg_area_mm2(n) >= area_mm2 * (1 - _PRINTED)]
        return _gauge(enough[-1]) if enough else ""
    within = [n for n in _GAUGES if awg_area_mm2(n) <= area_mm2 * (1 + _PRINTED)]
    return _gauge(within[0]) if within else ""


def _gauge(number: int) -> str:
    return f"AWG {number}" if number > 0 else f"AWG {1 - number}/0"


def of_torque(newton_metres: float, *, metric: bool) -> Conversion:
    """Return how a torque is converted. metric: its control value is in N·m."""
    if not metric:
        return BACK
    return SMALL_TORQUE if newton_metres < SMALL_NM else TORQUE


def converted(value: float, unit: str, how: Conversion) -> float:
    """Return `value` in the other unit, rounded to its decimals on its careful side."""
    exact = convert(value, unit, how.unit)
    return rounded(exact, how.digits, how.side)


def rounded(exact: float, digits: int, side: str) -> float:
    """Return a figure rounded so that it never lies beyond the exact one on the wrong side."""
    near = round(exact, digits)
    step = 10.0**-digits
    slack = abs(exact) * _NOISE
    if side == "down" and near > exact + slack:
        near -= step
    if side == "up" and near < exact - slack:
        near += step
    return round(near, digits)
