"""What a conductor may carry, and how warm it gets.

Two sources, never mixed: the cable maker's table, with the root law between its rows, and
the table of 33 CFR 183 for a profile that works by it.
"""

# ruff: noqa: E741 - I is the letter of IEC for a current

from __future__ import annotations

import math
from collections.abc import Sequence
from itertools import pairwise

from baybook.sizing.validity import OutOfRange, above, within
from baybook.standards import load

# Read once on import, so that the functions below open no file.
_CFR = load().cfr183

Point = tuple[float, float]  # ambient in °C, current in A


def carries_at(
    points: Sequence[Point], ambient_C: float, theta_max_C: float, theta_ref_C: float
) -> float:
    """Current I_T that a cable may carry without limit of time in this ambient. [A]

    The table's own row [fit-sheet]; elsewhere
    I_T = I_ref √((theta_max - theta) / (theta_max - theta_ref))        [cec-table5a], all of
    whose cells follow it, as [iec60364-5-52] has it;
    but never more than a row of a cooler ambient allows, nor less than a row of a hotter one
    states [shop-rule]: a hotter zone never carries more, and at a row both ends are that row.

    points       the maker's rows (ambient [°C], current above 0 [A]), falling with ambient
    ambient_C    zone temperature, -40 to below theta_max [°C]
    theta_max_C  highest conductor temperature of the cable, above every ambient [°C]
    theta_ref_C  ambient of the reference row, as listed in the points [°C]

    Raises:
        OutOfRange: an ambient or a row at theta_max or above, no reference row, a table that rises.
    """
    rows = dict(_falling(points))
    for row in (*rows, ambient_C):
        _cooler_than_conductor(row, theta_max_C)
    if theta_ref_C not in rows:
        listed = ", ".join(f"{row:g}" for row in rows)
        raise OutOfRange(f"no row at the reference ambient {theta_ref_C:g} °C: rows at {listed} °C")
    share = (theta_max_C - ambient_C) / (theta_max_C - theta_ref_C)
    by_law = rows[theta_ref_C] * math.sqrt(share)
    at_most = min((I for row, I in rows.items() if row <= ambient_C), default=math.inf)
    at_least = max((I for row, I in rows.items() if row >= ambient_C), default=0.0)
    return max(at_least, min(by_law, at_most))


def steady_temperature(zone_C: float, theta_max_C: float, I: float, I_T: float) -> float:
    """Temperature that a conductor settles at under a steady current. [°C]

    theta = theta_zone + (theta_max - theta_zone) (I / I_T)^2        [heat-balance]
    (An aircraft circular prints the square root of the current ratio: not to be mixed.)

    zone_C       temperature of the zone, -40 to below theta_max [°C]
    theta_max_C  highest conductor temperature of the cable, above zone_C [°C]
    I            steady current, 0 or more; above I_T the result lies above theta_max [A]
    I_T          current-carrying capacity in this zone, above 0 [A]

    Leaves out: warming by neighbours; time to get there.

    Raises:
        OutOfRange: an argument outside its range.
    """
    _cooler_than_conductor(zone_C, theta_max_C)
    within(I, 0, math.inf, "current", "A")
    above(I_T, 0, "current-carrying capacity", "A")
    return zone_C + (theta_max_C - zone_C) * (I / I_T) ** 2


def cfr183_ampacity(
    awg: int,
    insulation_C: float,
    engine_space: bool,
    bundled: int,
) -> float:
    """Allowable current of a boat conductor. [A]

    I = I_table · c_engine · c_bundle        [cfr183-425], Table 5, notes 1 and 2

    awg           18 to 4/0; 1/0 is 0, 2/0 is -1, 3/0 is -2, 4/0 is -3
    insulation_C  rating of the insulation, a column of the table [°C]
    engine_space  true: the 50 °C factor of note 1
    bundled       current-carrying conductors in one bundle, duct or cable, 1 or more

    The regulation asks for the bundle factor from 50 V up; it is taken at every voltage
    here, as marine practice does below 50 V too: heat knows no voltage.

    Raises:
        OutOfRange: a gauge, a rating or a factor that the table does not give.
    """
    engine = engine_factor(insulation_C) if engine_space else 1.0
    return table_current(awg, insulation_C) * engine * bundle_factor(bundled)


def table_current(awg: int, insulation_C: float) -> float:
    """Allowable current of one conductor at 30 °C, the table's own cell. [A]

    [cfr183-425], Table 5

    awg           as for cfr183_ampacity
    insulation_C  a column of the table [°C]

    Raises:
        OutOfRange: a gauge or a rating that the table does not give.
    """
    key = (awg, insulation_C)
    if key not in _CFR.current_A:
        raise OutOfRange(f"gauge {awg} with {insulation_C:g} °C insulation: not in Table 5")
    return _CFR.current_A[key]


def engine_factor(insulation_C: float) -> float:
    """Share of the table's current that is left in an engine space, 50 °C. [1]

    [cfr183-425], Table 5 note 1; for 60, 75 and 90 °C the same ambient's row of [nec310-15]

    insulation_C  as listed: 60, 75, 90, 105 or 200; no factor was read for other columns [°C]

    Raises:
        OutOfRange: a rating without a factor.
    """
    if insulation_C not in _CFR.engine_factor:
        raise OutOfRange(f"no engine-space factor known for {insulation_C:g} °C insulation")
    return _CFR.engine_factor[insulation_C]


def bundle_factor(bundled: int) -> float:
    """Share of the current that is left in a bundle. [1]

    [cfr183-425], Table 5 note 2, at every voltage

    bundled  current-carrying conductors in one bundle, duct or cable, 1 or more

    Raises:
        OutOfRange: no conductor.
    """
    within(bundled, 1, math.inf, "bundled conductors")
    return next(factor for fewest, factor in reversed(_CFR.bundle_factor) if bundled >= fewest)


def _cooler_than_conductor(ambient_C: float, theta_max_C: float) -> None:
    within(ambient_C, -40, math.inf, "ambient", "°C")
    if not ambient_C < theta_max_C:
        raise OutOfRange(f"ambient {ambient_C:g} °C: must be below theta_max {theta_max_C:g} °C")


def _falling(points: Sequence[Point]) -> list[Point]:
    rows = sorted(points)
    for _, current in rows:
        above(current, 0, "current of a row", "A")
    for (cool, more), (hot, less) in pairwise(rows):
        if cool == hot or less > more:
            raise OutOfRange(
                f"table rises or repeats: {more:g} A at {cool:g} °C, {less:g} A at {hot:g} °C"
            )
    return rows
