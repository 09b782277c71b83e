"""Figures of budget, lengths, fixing and envelope."""

from __future__ import annotations

from collections.abc import Iterator

from baybook.circuit import Conductor
from baybook.design import Design
from baybook.figure import Figure, Input
from baybook.quantity import Quantity
from baybook.sizing.envelope import Envelope
from baybook.sizing.lengths import long_end
from baybook.sizing.trace import LAWS, SHEET, SHOP_RULE, constant, figure, from_figure, given

_GRAVITY = 9.80665


def budget_figures(design: Design) -> Iterator[Figure]:
    """Spare current by state, sleep current and days of standing."""
    supply, budget = design.fit.vehicle.supply, design.solved.budget
    states = (
        ("idle_day", budget.idle_day_A, supply.hot_idle, supply.base_day),
        ("idle_night", budget.idle_night_A, supply.hot_idle, supply.base_night),
        ("cruise_day", budget.cruise_day_A, supply.hot_cruise, supply.base_day),
        ("cruise_night", budget.cruise_night_A, supply.hot_cruise, supply.base_night),
    )
    for name, value, hot, base in states:
        if value is not None and hot is not None:
            yield _spare(design, name, value, hot, base)
    yield from _standing(design)


def _spare(design: Design, name: str, value: float, hot: Quantity, base: Quantity) -> Figure:
    low = design.solved.feed.low
    current = low.current_A if low else 0.0
    return figure(
        name,
        value,
        "A",
        1,
        "I_spare = a·I_hot - I_base - I",
        given("a", design.fit.shop.limits.alternator_headroom.value),
        given("I_hot", hot, hot.low),
        given("I_base", base, base.high),
        Input(symbol="I", value=current, unit="A", figure="current_low"),
        sources=(SHOP_RULE, LAWS),
        end="end.lowest_running",
    )


def _standing(design: Design) -> Iterator[Figure]:
    fit, budget = design.fit, design.solved.budget
    before, standby = fit.vehicle.supply.sleep, fit.charger.standby
    sleep = figure(
        "sleep_after",
        budget.sleep_A,
        "A",
        3,
        "I_sleep = I_before + I_standby",
        given("I_before", before, before.high),
        given("I_standby", standby, standby.high),
    )
    share = given("a", fit.shop.limits.standby_share.value)
    charge = given("Q", fit.vehicle.battery.capacity, fit.vehicle.battery.capacity.low)
    yield sleep
    yield figure(
        "standby_days",
        budget.standby_d,
        "d",
        0,
        "t = a·Q / I_sleep / 24",
        share,
        charge,
        from_figure("I_sleep", sleep),
        sources=(SHOP_RULE,),
    )
    if budget.standing_A is not None:
        amps = Input(symbol="I", value=budget.standing_A, unit="A", source=LAWS)
        hours = budget.usable_Ah / budget.standing_A
        yield figure(
            "standing_hours",
            hours,
            "h",
            1,
            "t = a·Q / I",
            share,
            charge,
            amps,
            sources=(SHOP_RULE,),
        )


def length_figures(design: Design) -> Iterator[Figure]:
    """Cut length of every piece."""
    for conductor in design.circuit.conductors:
        if conductor.tag:
            yield _cut(design, conductor)


def _cut(design: Design, conductor: Conductor) -> Figure:
    fit, lengths = design.fit, design.fit.shop.lengths
    if conductor.use.startswith("output"):
        terms, inputs = "l_out", [given("l_out", fit.job.output_length, fit.job.output_length.high)]
    elif conductor.use == "source":
        terms = "d_F + a / 2"
        inputs = [given("d_F", fit.job.source.fuse_at), given("a", lengths.end_allowance)]
    else:
        terms, inputs = _along(design, conductor)
    return figure(
        f"cut_{conductor.tag}",
        conductor.cut_m,
        "m",
        2,
        f"l = up({terms})",
        *inputs,
        given("step", lengths.cutting_step),
        sources=(SHOP_RULE,),
        end="end.long_end",
    )


def _along(design: Design, conductor: Conductor) -> tuple[str, list[Input]]:
    fit, lengths = design.fit, design.fit.shop.lengths
    segments = fit.vehicle.routes[fit.job.route].segments
    tolerance = lengths.segment_tolerance.value
    inputs = [
        given(f"l_{n}", segment.length, long_end(segment.length, tolerance))
        for n, segment in enumerate(segments, 1)
    ]
    terms = " + ".join(entry.symbol for entry in inputs)
    inputs.append(given("a", lengths.end_allowance))
    if conductor.use == "feed" and any(c.use == "source" for c in design.circuit.conductors):
        inputs.append(given("d_F", fit.job.source.fuse_at))
        return f"{terms} - d_F + a / 2", inputs
    return f"{terms} + a", inputs


def fixing_figures(design: Design) -> Iterator[Figure]:
    """Forces at the shop's load in g, and how far a screw stands out."""
    fit, place = design.fit, design.solved.place
    mount, restraint = fit.vehicle.mounts[fit.job.mount], fit.shop.restraint
    load = given("a", restraint.forward)
    gravity = constant("g_n", _GRAVITY, "m/s2", "cgpm-1901")
    for name, force, mass in (
        ("force_charger_forward", place.charger_N, fit.charger.mass),
        ("force_station_forward", place.station_N, fit.station.mass),
    ):
        inputs = (given("m", mass, mass.high), load, gravity)
        yield figure(name, force, "N", 0, "F = m·a·g_n", *inputs, sources=("cgpm-1901", SHOP_RULE))
    if mount.fixings > restraint.fixings_lost:
        yield figure(
            "force_fixing",
            place.fixing_N,
            "N",
            0,
            "F_1 = F / (n - n_lost)",
            Input(symbol="F", value=place.charger_N, unit="N", figure="force_charger_forward"),
            Input(
                symbol="n",
                value=float(mount.fixings),
                unit="1",
                where=fit.mark(f"vehicle.mounts.{fit.job.mount}.fixings"),
            ),
            Input(symbol="n_lost", value=float(restraint.fixings_lost), unit="1", source=SHOP_RULE),
            sources=(SHOP_RULE,),
        )
    yield figure(
        "tip_protrusion",
        place.tip_m,
        "m",
        1,
        "l_tip = l_screw - t",
        given("l_screw", mount.screw_length, mount.screw_length.high),
        given("t", mount.panel, mount.panel.low),
        sources=(SHEET,),
        show="mm",
    )


def envelope_figures(envelope: Envelope) -> Iterator[Figure]:
    """How far the design holds."""
    length, supply = envelope.length_m, envelope.supply_V
    longest = Input(symbol="l_last", value=length, unit="m", source=SHOP_RULE)
    yield figure("envelope_length", length, "m", 1, "l_max = l_last", longest, end="end.last_step")
    lowest = Input(symbol="U_last", value=supply, unit="V", source=SHOP_RULE)
    yield figure("envelope_supply", supply, "V", 2, "U_min = U_last", lowest, end="end.last_step")
