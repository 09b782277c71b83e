"""What copper resists, and which area a gauge names.

One temperature law for the whole house: 234.5 °C, the constant of the IEC 60364 adiabatic
formula. The factors printed in IEC 60228 follow 250/(230 + T) and those of NEC chapter 9
another base, 0.2 to 0.4 % apart; mixing them would give two answers to one question.
The formula of a gauge is that of `units`, which reads gauges; here it has its range.
"""

from __future__ import annotations

from baybook import units
from baybook.sizing.validity import above, within
from baybook.standards import load

# Read once on import, so that the functions below open no file.
_STANDARDS = load()
_ZERO = _STANDARDS.constants["copper_zero"]  # °C below 0 °C at which copper's line meets zero
_COLDEST_C, _HOTTEST_C = -40.0, 500.0  # [iso16750-4] lowest ambient; [iec60364-5-54] bare copper
_FOUR_AUGHT, _THINNEST = -3, 36  # the two gauges that define the series [astm-b258]


def resistance_factor(theta_C: float) -> float:
    """Resistance of copper at a temperature over its resistance at 20 °C. [1]

    R_theta / R_20 = 1 + (theta - 20) / (234.5 + 20)        [iec60364-5-54], annex A, beta;
    the same 234.5 °C as in [faa-ac43-13-1b], 11-66d(4)

    theta_C  conductor temperature, -40 to 500 [°C]

    Raises:
        OutOfRange: theta outside the range.
    """
    within(theta_C, _COLDEST_C, _HOTTEST_C, "conductor temperature", "°C")
    return 1 + (theta_C - 20) / (_ZERO + 20)


def resistance_at(r20_ohm_per_m: float, theta_C: float) -> float:
    """Resistance per metre at a conductor temperature. [ohm/m]

    R'_theta = R'_20 (R_theta / R_20)        [iec60364-5-54], see resistance_factor

    r20_ohm_per_m  resistance of the conductor at 20 °C, above 0 [ohm/m]
    theta_C        conductor temperature, -40 to 500 [°C]

    Raises:
        OutOfRange: an argument outside its range.
    """
    above(r20_ohm_per_m, 0, "resistance at 20 °C", "ohm/m")
    return r20_ohm_per_m * resistance_factor(theta_C)


def awg_area_mm2(gauge: int) -> float:
    """Area of a solid round conductor of this American wire gauge. [mm2]

    d = 0.127 mm · 92^((36 - n) / 39),  S = pi d^2 / 4        [astm-b258]

    gauge  n, -3 to 36; 1/0 is 0, 2/0 is -1, 3/0 is -2, 4/0 is -3

    Leaves out: stranding. The resistance of a stranded conductor comes from its sheet.

    Raises:
        OutOfRange: a gauge outside 4/0 … 36.
    """
    within(gauge, _FOUR_AUGHT, _THINNEST, "AWG")
    return units.awg_area_mm2(gauge)
