"""Figures of the input side: supply, cable, loop, drop."""

from __future__ import annotations

from collections.abc import Iterator

from baybook.circuit import Conductor, Leg
from baybook.design import Design
from baybook.figure import Figure, Input
from baybook.sizing.ampacity import steady_temperature
from baybook.sizing.interval import Corners, corners
from baybook.sizing.trace import (
    AMPACITY,
    COPPER,
    SHEET,
    SHOP_RULE,
    as_written,
    figure,
    from_figure,
    given,
)
from baybook.sizing.traces_body import NAME as BODY
from baybook.sizing.traces_body import body_drop, body_figures
from baybook.sizing.traces_shared import NAME as LINE
from baybook.sizing.traces_shared import line_figures, tap_figures
from baybook.sizing.work_out import input_power_ends, size_of, step_of
from baybook.solved import Operating

_USES_OUT = ("source", "feed")
_PER_COPPER = "(1 + (T_{n} - 20) / 254.5)"

Named = dict[str, Figure]


def supply_figures(design: Design) -> Iterator[Figure]:
    """Supply voltages, power and design current.

    [shop-rule]
    """
    fit, supply = design.fit, design.fit.vehicle.supply
    yield as_written("supply_low", "U_low", supply.low, 2, "end.lowest_running", supply.low.low)
    yield as_written("supply_typ", "U_typ", supply.typical, 2)
    yield as_written("supply_high", "U_high", supply.high, 2, value=supply.high.high)
    yield as_written("supply_rest", "U_rest", supply.rest, 2)
    yield figure(
        "input_power",
        design.solved.feed.power_W,
        "W",
        1,
        "P = min(P_step, P_st) / eff",
        given("P_step", step := step_of(fit, design.choice.power_W), step.high),
        given("P_st", fit.station.input_power, fit.station.input_power.high),
        given("eff", fit.charger.efficiency, fit.charger.efficiency.low),
        sources=(SHOP_RULE, SHEET),
        ends=input_power_ends(fit, design.choice.power_W),
    )
    yield figure(
        "design_current",
        design.choice.input_limit_A,
        "A",
        1,
        "I_B = I_limit",
        _step_limit(design),
        sources=(SHOP_RULE, SHEET),
        end="end.input_limit",
    )


def loop_figures(design: Design, named: Named) -> Iterator[Figure]:
    """The loop at the lowest and at the typical supply voltage.

    [shop-rule]
    """
    feed, supply = design.solved.feed, design.fit.vehicle.supply
    body = {one.name: one for one in (*body_figures(design.fit), *line_figures(design.fit))}
    yield from body.values()
    named |= body
    between = corners(design, supply.low)
    if feed.low is not None and between is not None:
        yield from _operating(design, "low", feed.low, between, named)
        yield _margin(design, feed.low, between)
        yield _hottest(design, feed.low, between, named)
    between = corners(design, supply.typical)
    if feed.typical is not None and between is not None:
        yield from _operating(design, "typ", feed.typical, between, named)
        yield from _drops(design, feed.typical, between)
        yield from body_drop(body, feed.typical, between)


def _operating(
    design: Design, when: str, point: Operating, between: Corners, named: Named
) -> Iterator[Figure]:
    supply = from_figure("U", named[f"supply_{when}"])
    taps = list(tap_figures(design.fit, when, point, between, named.get(LINE)))
    tapped = (one for one in taps if one.name.startswith("tap_voltage"))
    U = next((from_figure("U", one) for one in tapped), supply)
    P = from_figure("P", named["input_power"])
    yield from taps
    warm = list(_warmth(design, when, point, between, named))
    zones = {one.name.removeprefix(f"temperature_{when}_"): one for one in warm}
    if BODY in named:
        zones[BODY] = named[BODY]
    out = _resistance(design, f"positive_resistance_{when}", point, between, zones, back=False)
    back = _resistance(design, f"return_resistance_{when}", point, between, zones, back=True)
    loop = figure(
        "loop_resistance" if when == "low" else "loop_resistance_typ",
        point.loop_ohm,
        "ohm",
        2,
        "R = R_out + R_back",
        from_figure("R_out", out),
        from_figure("R_back", back),
        end="end.loaded_copper",
        ends=between.of("loop_ohm"),
    )
    R = from_figure("R", loop)
    voltage = figure(
        f"charger_voltage_{when}",
        point.charger_V,
        "V",
        2,
        "U_t = (U + √(U² - 4·R·P)) / 2",
        U,
        R,
        P,
        end=f"end.supply_{when}",
        ends=between.of("charger_V"),
    )
    U_t = from_figure("U_t", voltage)
    yield from (*warm, out, back, loop, voltage)
    ends = between.of("current_A")
    formula = "I = (U - U_t) / R"
    yield figure(f"current_{when}", point.current_A, "A", 1, formula, U, U_t, R, ends=ends)
    ends = between.of("drop")
    yield figure(f"drop_{when}", point.drop, "1", 2, "dU = (U - U_t) / U", supply, U_t, ends=ends)


def _warmth(
    design: Design, when: str, point: Operating, between: Corners, named: Named
) -> Iterator[Figure]:
    """Temperature of the copper in each zone."""
    T_max = design.fit.cable.conductor_max
    for zone, leg in {leg.zone: leg for c in _input(design) for leg in c.legs}.items():
        I_T = named[f"ampacity_{zone}"]
        yield figure(
            f"temperature_{when}_{zone}",
            steady_temperature(leg.ambient_C, T_max.value, point.current_A, I_T.value),
            "degC",
            1,
            "T = T_a + (T_max - T_a)·(I / I_T)²",
            given("T_a", design.fit.shop.zones[zone].temperature, leg.ambient_C),
            given("T_max", T_max),
            Input(symbol="I", value=point.current_A, unit="A", figure=f"current_{when}"),
            from_figure("I_T", I_T),
            sources=(AMPACITY,),
            end="end.settled",
            ends=between.warmth(zone),
            zone=design.fit.shop.zones[zone].name,
        )


def _resistance(  # noqa: PLR0913 - of one way at one supply voltage, between its ends
    design: Design, name: str, point: Operating, between: Corners, warmth: Named, *, back: bool
) -> Figure:
    fit, size = design.fit, size_of(design.fit, design.choice.area_mm2)
    legs = _by_zone(design, back=back)
    terms: list[str] = []
    inputs = [given("r20", size.resistance, size.resistance.high)]
    for n, leg in enumerate(legs, 1):
        terms.append(f"l_{n}·{_PER_COPPER.format(n=n)}")
        inputs.append(Input(symbol=f"l_{n}", value=leg.length_m, unit="m", source=SHOP_RULE))
        inputs.append(from_figure(f"T_{n}", warmth[leg.zone]))
    joints = fit.shop.joints.negative if back else fit.shop.joints.positive
    inputs.append(given("R_j", joints, joints.high))
    if back and BODY in warmth:
        inputs.append(from_figure("R_body", warmth[BODY]))
    fixed = " + ".join(entry.symbol for entry in inputs if entry.unit == "ohm")
    return figure(
        name,
        point.return_ohm if back else point.positive_ohm,
        "ohm",
        2,
        f"R = r20·({' + '.join(terms)}) + {fixed}",
        *inputs,
        sources=(COPPER, AMPACITY, SHEET),
        end="end.loaded_copper",
        ends=between.of("return_ohm" if back else "positive_ohm"),
    )


def _hottest(design: Design, point: Operating, between: Corners, named: Named) -> Figure:
    legs = [leg for conductor in _input(design) for leg in conductor.legs]
    T_max = design.fit.cable.conductor_max

    def theta(leg: Leg) -> float:
        I_T = named[f"ampacity_{leg.zone}"].value
        return steady_temperature(leg.ambient_C, T_max.value, point.current_A, I_T)

    warmest = max(legs, key=theta)
    return figure(
        "conductor_temperature",
        point.hottest_C,
        "degC",
        0,
        "T = T_a + (T_max - T_a)·(I / I_T)²",
        given("T_a", design.fit.shop.zones[warmest.zone].temperature, warmest.ambient_C),
        given("T_max", T_max),
        Input(symbol="I", value=point.current_A, unit="A", figure="current_low"),
        from_figure("I_T", named[f"ampacity_{warmest.zone}"]),
        sources=(AMPACITY,),
        ends=between.of("hottest_C"),
    )


def _margin(design: Design, point: Operating, between: Corners) -> Figure:
    charger, cut_out = design.fit.charger, design.solved.feed.cut_out_V
    by_voltage = cut_out == charger.cut_out.high
    written = charger.cut_out if by_voltage else charger.cut_out_run
    least, most = between.of("charger_V")
    return figure(
        "margin_low",
        point.charger_V - cut_out,
        "V",
        2,
        "dU = U_t - U_co",
        Input(symbol="U_t", value=point.charger_V, unit="V", figure="charger_voltage_low"),
        given("U_co", written, cut_out),
        end="end.cut_out",
        ends=(least - written.high, most - written.low),
    )


def _drops(design: Design, point: Operating, between: Corners) -> Iterator[Figure]:
    current = Input(symbol="I", value=point.current_A, unit="A", figure="current_typ")
    for name, R, way in (
        ("positive_drop_typ", point.positive_ohm, "positive"),
        ("return_drop_typ", point.return_ohm, "return"),
    ):
        ohms = Input(symbol="R", value=R, unit="ohm", figure=f"{way}_resistance_typ")
        ends = between.drop_over(f"{way}_ohm")
        yield figure(name, point.current_A * R, "V", 3, "dU = I·R", current, ohms, ends=ends)
    fuse = design.fit.shop.joints.protection
    dU = point.current_A * fuse.value
    least, most = between.of("current_A")
    ends = least * fuse.low, most * fuse.high
    given_fuse = given("R_F", fuse)
    yield figure("fuse_drop_typ", dU, "V", 3, "dU = I·R_F", current, given_fuse, ends=ends)


def _by_zone(design: Design, *, back: bool) -> list[Leg]:
    uses = ("return",) if back else _USES_OUT
    metres: dict[str, Leg] = {}
    for conductor in design.circuit.conductors:
        for leg in conductor.legs if conductor.use in uses else ():
            before = metres[leg.zone].length_m if leg.zone in metres else 0.0
            metres[leg.zone] = Leg(
                zone=leg.zone, length_m=before + leg.length_m, ambient_C=leg.ambient_C
            )
    return list(metres.values())


def _input(design: Design) -> list[Conductor]:
    return [c for c in design.circuit.conductors if c.use in (*_USES_OUT, "return")]


def step_power(design: Design) -> Input:
    """Return the power step as an input: the sheet's own row, or its full power.

    [fit-sheet]
    """
    charger = design.fit.charger
    for step in charger.power.steps if charger.power else ():
        if step.power.value == design.choice.power_W:
            return given("P_step", step.power)
    return given("P_step", charger.output_power)


def _step_limit(design: Design) -> Input:
    charger = design.fit.charger
    for step in charger.power.steps if charger.power and charger.power.kept else ():
        if step.power.value == design.choice.power_W:
            return given("I_limit", step.input_limit, step.input_limit.high)
    return given("I_limit", charger.input_current, charger.input_current.high)
