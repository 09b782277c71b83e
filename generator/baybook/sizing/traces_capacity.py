"""Figures of what the input cable carries in each zone; the trace names the profile's source."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from baybook.circuit import Leg
from baybook.design import Design
from baybook.figure import Figure, Input
from baybook.fit import Fit
from baybook.part import CableSheet, CableSize
from baybook.shop import Zone
from baybook.sizing.ampacity import bundle_factor
from baybook.sizing.capacity import (
    TABLE_AMBIENT_C,
    Around,
    around,
    by_table,
    capacity,
    carries,
)
from baybook.sizing.output import around_lead, lead_size
from baybook.sizing.trace import AMPACITY, SHEET, constant, figure, given
from baybook.sizing.validity import OutOfRange
from baybook.sizing.work_out import size_of
from baybook.terms import AmpacitySource

_CFR = "cfr183-425"
_USES = ("source", "feed", "return")


def capacity_figures(design: Design) -> Iterator[Figure]:
    """I_T by zone, and in the worst zone.

    [shop-rule]
    """
    conductors = [c for c in design.circuit.conductors if c.use in _USES]
    zones = {leg.zone: leg for conductor in conductors for leg in conductor.legs}
    for zone, leg in zones.items():
        yield _in_zone(design, f"ampacity_{zone}", leg)
    yield _in_zone(design, "ampacity", zones[design.solved.feed.zone])
    yield _lead(design)


def _in_zone(design: Design, name: str, leg: Leg) -> Figure:
    fit = design.fit
    cable = (fit.cable, size_of(fit, design.choice.area_mm2))
    return _carries(fit, name, cable, leg.zone, around(fit, leg.zone, leg.ambient_C))


def _lead(design: Design) -> Figure:
    """I_T of the output lead, in the charger's zone."""
    fit = design.fit
    zone = fit.vehicle.mounts[fit.job.mount].zone
    cable = (fit.output_cable, lead_size(fit))
    return _carries(fit, "lead_ampacity", cable, zone, around_lead(fit))


def _carries(
    fit: Fit, name: str, cable: tuple[CableSheet, CableSize], zone: str, here: Around
) -> Figure:
    by = _by_table if fit.shop.ampacity is AmpacitySource.CFR_183_425 else _by_sheet
    made = by(fit, name, cable, fit.shop.zones[zone], here)
    return replace(made, zone=fit.shop.zones[zone].name)


def _by_sheet(
    _fit: Fit, name: str, part: tuple[CableSheet, CableSize], zone: Zone, here: Around
) -> Figure:
    cable, size = part
    alone, share = carries(cable, size, here.ambient_C), bundle_factor(here.bundled)
    coolest = zone.temperature.low
    best = carries(cable, size, coolest, best=True) * share
    row = next((row for row in size.ampacity if row.current.low == alone), None)
    if row is not None or alone == 0:
        inputs = [given("I_row", row.current, alone)] if row else []
        formula = "I_T = I_row" if row else "I_T = 0"
    else:
        ambient = cable.reference_ambient
        reference = next(r for r in size.ampacity if r.ambient.value == ambient.value)
        formula = "I_T = I_ref·√((T_max - T_a) / (T_max - T_ref))"
        inputs = [
            given("I_ref", reference.current, reference.current.low),
            given("T_max", cable.conductor_max),
            given("T_a", zone.temperature, here.ambient_C),
            given("T_ref", ambient),
        ]
    sources = (SHEET,) if row is not None or alone == 0 else (AMPACITY, SHEET)
    if share < 1:
        formula, sources = f"{formula}·c_b", (*sources, _CFR)
        inputs.append(constant("c_b", share, "1", _CFR))
    ends = (alone * share, best)
    return figure(name, alone * share, "A", 1, formula, *inputs, sources=sources, ends=ends)


def _by_table(
    fit: Fit, name: str, part: tuple[CableSheet, CableSize], zone: Zone, here: Around
) -> Figure:
    cable, size = part
    try:
        read = by_table(cable, size, here)
    except OutOfRange:
        return figure(name, 0.0, "A", 1, "I_T = 0", sources=(_CFR,))
    cool = Around(
        ambient_C=zone.temperature.low, engine_space=here.engine_space, bundled=here.bundled
    )
    inputs = (
        constant("I_5", read.table_A, "A", _CFR),
        constant("c_e", read.engine, "1", _CFR),
        constant("T_i", read.insulation_C, "degC", _CFR),
        given("T_a", zone.temperature, here.ambient_C),
        constant("T_5", TABLE_AMBIENT_C, "degC", _CFR),
        Input(symbol="c_b", value=read.bundle, unit="1", source=_CFR),
    )
    return figure(
        name,
        read.carries(),
        "A",
        1,
        "I_T = I_5·min(1, c_e, √((T_i - T_a) / (T_i - T_5)))·c_b",
        *inputs,
        sources=(_CFR, AMPACITY),
        ends=(read.carries(), capacity(fit, cable, size, cool)),
    )
