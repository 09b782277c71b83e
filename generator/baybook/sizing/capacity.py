"""What the cable of a fit carries in a zone, from the source that the shop's profile names.

Sheet: the maker's table. 33 CFR 183.425: Table 5 by gauge and insulation, note 1 in an engine
space, the root law for an ambient above the table's 30 °C. Note 2, bundling, counts for both:
heat of neighbours knows no source.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from baybook.circuit import Leg
from baybook.fit import Fit
from baybook.part import CableSheet, CableSize
from baybook.sizing.ampacity import bundle_factor, carries_at, engine_factor, table_current
from baybook.sizing.conductor import awg_area_mm2
from baybook.sizing.validity import OutOfRange
from baybook.standards import load
from baybook.terms import AmpacitySource

# Read once on import, so that the functions below open no file.
_TABLE_5 = load().cfr183.current_A
_GAUGES = sorted({gauge for gauge, _ in _TABLE_5})  # thickest first: 4/0 is -3
_COLUMNS = sorted({insulation_C for _, insulation_C in _TABLE_5})
TABLE_AMBIENT_C = 30.0  # [cfr183-425] Table 5, outside engine spaces
_PRINTED = 0.003  # 21.1 mm² is AWG 4: an area is printed to three digits
PAIR = 2  # both conductors of a run lie side by side


@dataclass(frozen=True, slots=True, kw_only=True)
class Around:
    """What surrounds a conductor in a zone."""

    ambient_C: float
    engine_space: bool
    bundled: int  # current-carrying conductors side by side, this one among them


@dataclass(frozen=True, slots=True, kw_only=True)
class ByTable:
    """A reading of Table 5 with its factors."""

    gauge: int
    insulation_C: float
    table_A: float
    engine: float  # note 1; 1 outside engine spaces
    ambient: float  # root law; 1 at 30 °C and below
    bundle: float  # note 2

    def carries(self) -> float:
        """I_T; the engine space's factor and the zone's own are not both taken, the lower is."""
        return self.table_A * min(self.engine, self.ambient) * self.bundle


def carries(cable: CableSheet, size: CableSize, ambient_C: float, *, best: bool = False) -> float:
    """I_T of this size by its sheet at an ambient, 0 where the sheet gives none. [A]

    From the rows of the sheet at their low end [fit-sheet]; a rule refuses what is 0.

    ambient_C  zone temperature, any [°C]
    best       the high end of the rows instead, for the other end of an interval
    """
    rows = [(r.ambient.value, r.current.high if best else r.current.low) for r in size.ampacity]
    reference_C = cable.reference_ambient.value
    try:
        return carries_at(rows, ambient_C, cable.conductor_max.value, reference_C)
    except OutOfRange:
        return 0.0


def by_table(cable: CableSheet, size: CableSize, around: Around) -> ByTable:
    """Reading of Table 5 for this size.

    I_T = I_5 · min(c_engine, √((T_i - T_a) / (T_i - 30))) · c_bundle        [cfr183-425]
    [cec-table5a]; the row of the thickest gauge whose area the size has, the column of the
    highest insulation rating that the conductor's limit reaches: never a value in between.

    cable   its conductor limit, 60 °C or more [°C]
    size    its area, 0.82 mm² (AWG 18) or more [mm2]
    around  ambient below the column's rating [°C]

    Raises:
        OutOfRange: a size, a limit, an ambient or a factor that the table does not give.
    """
    gauge, column = gauge_within(size.area.low), _column(cable.conductor_max.low)
    if around.ambient_C >= column:
        raise OutOfRange(f"ambient {around.ambient_C:g} °C: must be below {column:g} °C")
    share = (column - around.ambient_C) / (column - TABLE_AMBIENT_C)
    return ByTable(
        gauge=gauge,
        insulation_C=column,
        table_A=table_current(gauge, column),
        engine=engine_factor(column) if around.engine_space else 1.0,
        ambient=min(1.0, math.sqrt(share)),
        bundle=bundle_factor(around.bundled),
    )


def gauge_within(area_mm2: float) -> int:
    """Thickest gauge of Table 5 whose area a conductor has; 1/0 is 0, 4/0 is -3. [AWG]

    Areas by [astm-b258]; short by up to 0.3 % is the gauge, as areas are printed.

    area_mm2  0.82 or more [mm2]

    Raises:
        OutOfRange: thinner than AWG 18.
    """
    for gauge in _GAUGES:
        if area_mm2 >= awg_area_mm2(gauge) * (1 - _PRINTED):
            return gauge
    raise OutOfRange(f"area {area_mm2:g} mm²: Table 5 begins at AWG {_GAUGES[-1]}")


def capacity(
    fit: Fit, cable: CableSheet, size: CableSize, around: Around, *, best: bool = False
) -> float:
    """I_T of this size by the source that the profile names, 0 where that gives none. [A]

    [fit-sheet] or [cfr183-425]; bundling by note 2 in both cases [shop-rule]

    best  as for carries
    """
    if fit.shop.ampacity is AmpacitySource.SHEET:
        return carries(cable, size, around.ambient_C, best=best) * bundle_factor(around.bundled)
    try:
        return by_table(cable, size, around).carries()
    except OutOfRange:
        return 0.0


def around(fit: Fit, zone: str, ambient_C: float) -> Around:
    """Return what surrounds the input conductors in a zone of the route: the fullest bundle.

    [vehicle-survey]

    ambient_C  zone temperature, any [°C]
    """
    segments = fit.vehicle.routes[fit.job.route].segments
    through = any(s.zone == zone for s in segments)
    own = fit.in_run if through and not _with_return(fit, zone) else PAIR
    neighbours = max((s.bundled for s in segments if s.zone == zone), default=0)
    return Around(
        ambient_C=ambient_C,
        engine_space=fit.shop.zones[zone].engine_space,
        bundled=own + neighbours,
    )


def _with_return(fit: Fit, zone: str) -> bool:
    """Whether a return to the body may lie beside the feed here: at either of its ends."""
    point, mount = fit.vehicle.points[fit.job.source.negative], fit.vehicle.mounts[fit.job.mount]
    return zone in {point.zone, mount.zone}


def current_limits(
    fit: Fit, size: CableSize, legs: tuple[Leg, ...], *, best: bool = False
) -> dict[str, float]:
    """I_T of this size of the input cable by zone id, 0 where its source gives none. [A]

    [fit-sheet], [cfr183-425]

    best  as for carries
    """
    ambients = {leg.zone: leg.ambient_C for leg in legs}
    return {
        zone: capacity(fit, fit.cable, size, around(fit, zone, ambient), best=best)
        for zone, ambient in ambients.items()
    }


def _column(conductor_max_C: float) -> float:
    reached = [column for column in _COLUMNS if column <= conductor_max_C]
    if not reached:
        raise OutOfRange(f"conductor limit {conductor_max_C:g} °C: Table 5 begins at 60 °C")
    return reached[-1]
