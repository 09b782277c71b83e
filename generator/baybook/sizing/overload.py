"""How warm a conductor gets under the overload that its protection may hold the longest.

A fuse carries a third more than its rating for minutes; its sheet says for how long. The
copper starts as warm as the rated current keeps it, and climbs towards the warmth that the
overload would settle at. Only the copper's own heat capacity counts: with its insulation it
would climb more slowly, so this errs to the careful side.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from baybook.part import CableSheet, CableSize, HoldPoint
from baybook.sizing.ampacity import steady_temperature
from baybook.sizing.conductor import resistance_at
from baybook.sizing.validity import above, within
from baybook.solved import Overload
from baybook.standards import load

# Read once on import, so that the functions below open no file.
_CONSTANTS = load().constants
HEAT = 1000 * _CONSTANTS["copper_heat"]  # of 1 m of 1 mm² [J/(K·m·mm²)]
_COLDEST_C = -273.15
CARRIES = _CONSTANTS["blade_fuse_carries"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Lain:
    """Where a part of the conductor lies, and what it carries there."""

    zone: str
    ambient_C: float
    carries_A: float


def time_constant(area_mm2: float, r_ohm_per_m: float, rise_K: float, I_T: float) -> float:
    """Time constant of a conductor's warming. [s]

    t_c = c_v S l dT / (I_T^2 R' l), heat stored over heat given off at I_T   [heat-balance]
    c_v of copper [iec60364-5-54]

    area_mm2     above 0 [mm2]
    r_ohm_per_m  resistance at theta_max, above 0 [ohm/m]
    rise_K       theta_max less the zone's temperature, above 0 [K]
    I_T          current-carrying capacity in that zone, above 0 [A]

    Leaves out: heat stored in the insulation, so the true conductor warms more slowly.

    Raises:
        OutOfRange: an argument outside its range.
    """
    above(area_mm2, 0, "conductor area", "mm²")
    above(r_ohm_per_m, 0, "resistance", "ohm/m")
    above(rise_K, 0, "rise", "K")
    above(I_T, 0, "current-carrying capacity", "A")
    return HEAT * area_mm2 * rise_K / (I_T**2 * r_ohm_per_m)


def warmed(start_C: float, end_C: float, t_s: float, t_c: float) -> float:
    """Temperature on the way from one steady state to another. [°C]

    theta = theta_1 - (theta_1 - theta_0) exp(-t / t_c)        [heat-balance]

    start_C  theta_0, before, -273.15 or more [°C]
    end_C    theta_1, that it would settle at, -273.15 or more [°C]
    t_s      since the change, 0 or more; infinite for the settled state [s]
    t_c      time constant, above 0 [s]

    Raises:
        OutOfRange: an argument outside its range.
    """
    within(start_C, _COLDEST_C, math.inf, "temperature before", "°C")
    within(end_C, _COLDEST_C, math.inf, "settled temperature", "°C")
    within(t_s, 0, math.inf, "time", "s")
    above(t_c, 0, "time constant", "s")
    return end_C - (end_C - start_C) * math.exp(-t_s / t_c)


def held(holds: Sequence[HoldPoint]) -> tuple[tuple[float, float | None], ...]:
    """Return (multiple, time) that a protection may hold. [1, s]

    [fit-sheet]; without a hold above 100 % on paper 1.35 I_n, a blade fuse's, counts without
    end [iso8820-3]
    """
    stated = [(h.multiple.high, h.up_to.high if h.up_to else None) for h in holds]
    if any(multiple > 1 for multiple, _ in stated):
        return tuple(stated)
    return (*stated, (CARRIES, None))


def hottest(
    holds: Sequence[HoldPoint],
    I_n: float,
    lain: Iterable[Lain],
    cable: CableSheet,
    size: CableSize,
) -> Overload | None:
    """Work out the hottest that the conductor gets, of all holds and zones; None unless it carries.

    Before: as warm as the highest current keeps it that is held without end. After: as warm
    as the hold would settle it, reached as far as its time allows.   [heat-balance] [fit-sheet]

    I_n  rated current of the protection, above 0 [A]
    """
    points = held(holds)
    endless = max((m for m, t in points if t is None), default=1.0)
    found = [
        _one(multiple, up_to, min(endless, multiple), I_n, place, cable, size)
        for place in lain
        if place.carries_A > 0 and place.ambient_C < cable.conductor_max.value
        for multiple, up_to in points
    ]
    return max(found, key=lambda one: one.hottest_C, default=None)


def allowed(cable: CableSheet) -> float:
    """Temperature that an overload of minutes may bring the conductor to. [°C]

    The sheet's own limit for it, else its limit in service [fit-sheet].
    """
    limit = cable.overload_max
    return cable.conductor_max.value if limit is None else limit.low


def _one(  # noqa: PLR0913, PLR0917 - one hold in one zone
    multiple: float,
    up_to: float | None,
    endless: float,
    I_n: float,
    place: Lain,
    cable: CableSheet,
    size: CableSize,
) -> Overload:
    theta_max = cable.conductor_max.value
    start, end = (
        steady_temperature(place.ambient_C, theta_max, m * I_n, place.carries_A)
        for m in (endless, multiple)
    )
    t_c = time_constant(
        size.area.value,
        resistance_at(size.resistance.high, theta_max),
        theta_max - place.ambient_C,
        place.carries_A,
    )
    reached = end if up_to is None else warmed(start, end, up_to, t_c)
    return Overload(
        zone=place.zone,
        ambient_C=place.ambient_C,
        carries_A=place.carries_A,
        multiple=multiple,
        before=endless,
        up_to_s=up_to,
        constant_s=t_c,
        hottest_C=reached,
        allowed_C=allowed(cable),
    )
