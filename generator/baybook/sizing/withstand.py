"""What a conductor stands while the protection opens, and in an overload that it does not see."""

# ruff: noqa: E741 - I is the letter of IEC for a current

from __future__ import annotations

import math

from baybook.sizing.validity import above, within
from baybook.standards import load

# Read once on import, so that the functions below open no file.
_CONSTANTS = load().constants
_K_COPPER = _CONSTANTS["copper_adiabatic"]
_ZERO = _CONSTANTS["copper_zero"]
_CARRIES = _CONSTANTS["blade_fuse_carries"]  # times I_n, for minutes
_STANDS = _CONSTANTS["overload_stands"]  # times I_Z
_ADIABATIC_S = _CONSTANTS["adiabatic_limit"]


def k_factor(theta_initial_C: float, theta_final_C: float) -> float:
    """Adiabatic factor k of copper. [A s^0.5 / mm2]

    k = 226 √(ln((theta_f + 234.5) / (theta_i + 234.5)))        [iec60364-5-54], annex A;
    the printed factors of [iec60364-4-43], Table 43A, follow from it.

    theta_initial_C  conductor temperature before the fault, -40 to 500 [°C]
    theta_final_C    highest temperature in the fault, above the initial one, to 500 [°C]

    Raises:
        OutOfRange: an argument outside its range.
    """
    within(theta_initial_C, -40, 500, "temperature before the fault", "°C")
    within(theta_final_C, -40, 500, "temperature in the fault", "°C")
    above(theta_final_C, theta_initial_C, "temperature in the fault", "°C")
    return _K_COPPER * math.sqrt(math.log((theta_final_C + _ZERO) / (theta_initial_C + _ZERO)))


def let_through_ratio(I: float, t_s: float, k: float, area_mm2: float) -> float:
    """Let-through energy over what the conductor stands; up to 1 it stands the fault. [1]

    I^2 t / (k^2 S^2)        [iec60364-4-43], 434.5.2

    I         fault current, 0 or more [A]
    t_s       opening time, above 0, and 0 to 5 [s];
              under 0.1 s take the maker's I^2 t with I = √(I^2 t / t)
    k         adiabatic factor, above 0 [A s^0.5 / mm2]
    area_mm2  conductor area, above 0 [mm2]

    Leaves out: heat that leaves the conductor meanwhile, so it errs to the careful side.

    Raises:
        OutOfRange: an argument outside its range.
    """
    within(I, 0, math.inf, "fault current", "A")
    above(t_s, 0, "opening time", "s")
    within(t_s, 0, _ADIABATIC_S, "opening time", "s")
    above(k, 0, "adiabatic factor")
    above(area_mm2, 0, "conductor area", "mm²")
    return I**2 * t_s / (k**2 * area_mm2**2)


def overload_ratio(I_n: float, I_T: float) -> float:
    """Overload that a fuse lets stand over what the cable stands; up to 1 it is enough. [1]

    1.35 I_n / (1.45 I_T)        [iec60364-4-43], 433.1, I_2 ≤ 1.45 I_Z, with I_2 = 1.35 I_n, the
    current a blade fuse may carry for minutes [iso8820-3]

    I_n  rated current of the protection, above 0 [A]
    I_T  current-carrying capacity in the worst zone, above 0 [A]

    Raises:
        OutOfRange: an argument outside its range.
    """
    above(I_n, 0, "rated current", "A")
    above(I_T, 0, "current-carrying capacity", "A")
    return _CARRIES * I_n / (_STANDS * I_T)
