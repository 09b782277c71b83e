"""Figures of budget, lengths and envelope."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping

from baybook.circuit import Conductor
from baybook.design import Bound, Design
from baybook.figure import Figure, Input
from baybook.fit import Fit
from baybook.quantity import Quantity
from baybook.sizing.lengths import long_end
from baybook.sizing.trace import LAWS, SHOP_RULE, figure, from_figure, given


def budget_figures(design: Design, named: Mapping[str, Figure]) -> Iterator[Figure]:
    """Spare current by state, sleep current and days of standing.

    [shop-rule]
    """
    supply, budget = design.fit.vehicle.supply, design.solved.budget
    states = (
        ("idle_day", budget.idle_day_A, supply.hot_idle, supply.base_day),
        ("idle_night", budget.idle_night_A, supply.hot_idle, supply.base_night),
        ("cruise_day", budget.cruise_day_A, supply.hot_cruise, supply.base_day),
        ("cruise_night", budget.cruise_night_A, supply.hot_cruise, supply.base_night),
    )
    for name, value, hot, base in states:
        if value is not None and hot is not None and "current_low" in named:
            yield _spare(design, name, value, (hot, base), named["current_low"])
    yield from _standing(design)


def _spare(
    design: Design, name: str, value: float, supply: tuple[Quantity, Quantity], current: Figure
) -> Figure:
    hot, base = supply
    headroom = design.fit.shop.limits.alternator_headroom.value
    return figure(
        name,
        value,
        "A",
        1,
        "I_spare = a·I_hot - I_base - I",
        given("a", headroom),
        given("I_hot", hot, hot.low),
        given("I_base", base, base.high),
        from_figure("I", current),
        sources=(SHOP_RULE, LAWS),
        end="end.lowest_running",
        ends=(
            headroom.value * hot.low - base.high - current.high,
            headroom.value * hot.high - base.low - current.low,
        ),
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
    """Cut length of every piece.

    [shop-rule]
    """
    for conductor in design.circuit.conductors:
        if conductor.tag:
            yield _cut(design, conductor)


def _cut(design: Design, conductor: Conductor) -> Figure:
    fit, lengths = design.fit, design.fit.shop.lengths
    if conductor.use.startswith("output") and fit.second is not None:
        terms, inputs = _to_second(design, conductor)
    elif conductor.use.startswith("output"):
        terms, inputs = "l_out", [given("l_out", fit.job.output_length, fit.job.output_length.high)]
    elif conductor.use == "source":
        terms = "d_F + a / 2"
        inputs = [given("d_F", fit.job.source.fuse_at), given("a", lengths.end_allowance)]
    elif conductor.use == "return" and fit.body_loop and (short := fit.job.source.return_length):
        tolerance, allowance = lengths.segment_tolerance.value, lengths.end_allowance
        terms = "l_back + a"
        inputs = [given("l_back", short, long_end(short, tolerance)), given("a", allowance)]
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


def _to_second(design: Design, conductor: Conductor) -> tuple[str, list[Input]]:
    """The output to a second battery, cut at its protection; both ends get their allowance."""
    fit = design.fit
    length, choice = fit.job.output_length, fit.job.second
    l_out = given("l_out", length, length.high)
    a = given("a", fit.shop.lengths.end_allowance)
    pieces = {c.use for c in design.circuit.conductors}
    if choice is None or conductor.use == "output-" or "output+far" not in pieces:
        return "l_out + a", [l_out, a]
    d_S = given("d_S", choice.fuse_at, choice.fuse_at.high)
    if conductor.use == "output+far":
        return "d_S + a / 2", [d_S, a]
    return "l_out - d_S + a / 2", [l_out, d_S, a]


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


def envelope_figures(fit: Fit, bounds: Iterable[Bound]) -> Iterator[Figure]:
    """How far the design holds.

    [shop-rule]
    """
    for bound in bounds:
        name = f"envelope_{bound.name}" + (f"_{bound.zone}" if bound.zone else "")
        symbol, end, digits, show = _ENDS[bound.name]
        last = f"{symbol}_last"
        given_last = Input(symbol=last, value=bound.value, unit=bound.unit, source=SHOP_RULE)
        formula = f"{symbol}_{end} = {last}"
        yield figure(
            name,
            bound.value,
            bound.unit,
            digits,
            formula,
            given_last,
            end="end.last_step",
            show=show,
            zone=fit.shop.zones[bound.zone].name if bound.zone else "",
        )


# Symbol, which end, decimals and unit of each figure that is moved.
_ENDS = {
    "length": ("l", "max", 1, ""),
    "supply": ("U", "min", 2, ""),
    "supply_high": ("U", "max", 2, ""),
    "ambient": ("T", "max", 0, ""),
    "internal": ("R", "max", 1, ""),
    "base": ("I", "max", 1, ""),
}
