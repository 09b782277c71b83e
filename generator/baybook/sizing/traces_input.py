"""Figures of the input side: supply, cable, loop, drop."""

from __future__ import annotations

from collections.abc import Iterator

from baybook.circuit import Conductor, Leg
from baybook.design import Design
from baybook.figure import Figure, Input
from baybook.sizing.ampacity import steady_temperature
from baybook.sizing.feed import carries
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
from baybook.sizing.work_out import size_of
from baybook.solved import Operating

_USES_OUT = ("source", "feed")
_PER_COPPER = "(1 + (T_{n} - 20) / 254.5)"

Named = dict[str, Figure]


def supply_figures(design: Design) -> Iterator[Figure]:
    """Supply voltages, power and design current."""
    fit, supply = design.fit, design.fit.vehicle.supply
    yield as_written("supply_low", "U_low", supply.low, 2, "end.lowest_running")
    yield as_written("supply_typ", "U_typ", supply.typical, 2)
    yield as_written("supply_high", "U_high", supply.high, 2)
    yield as_written("supply_rest", "U_rest", supply.rest, 2)
    yield figure(
        "input_power",
        design.solved.feed.power_W,
        "W",
        1,
        "P = min(P_step, P_st) / eff",
        step_power(design),
        given("P_st", fit.station.input_power),
        given("eff", fit.charger.efficiency, fit.charger.efficiency.low),
        sources=(SHOP_RULE, SHEET),
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


def cable_figures(design: Design) -> Iterator[Figure]:
    """What the cable carries in each zone; the worst zone governs."""
    zones = {leg.zone: leg for c in _input(design) for leg in c.legs}
    for zone, leg in zones.items():
        yield _ampacity(design, f"ampacity_{zone}", leg)
    yield _ampacity(design, "ampacity", zones[design.solved.feed.zone])


def loop_figures(design: Design, named: Named) -> Iterator[Figure]:
    """The loop at the lowest and at the typical supply voltage."""
    feed = design.solved.feed
    if feed.low is not None:
        yield from _operating(design, "low", feed.low, named)
        yield _margin(design, feed.low)
        yield _hottest(design, feed.low, named)
    if feed.typical is not None:
        yield from _operating(design, "typ", feed.typical, named)
        yield from _drops(design, feed.typical)


def _operating(design: Design, when: str, point: Operating, named: Named) -> Iterator[Figure]:
    U, P = from_figure("U", named[f"supply_{when}"]), from_figure("P", named["input_power"])
    warm = list(_warmth(design, when, point, named))
    zones = {one.name.removeprefix(f"temperature_{when}_"): one for one in warm}
    out = _resistance(design, f"positive_resistance_{when}", point, zones, back=False)
    back = _resistance(design, f"return_resistance_{when}", point, zones, back=True)
    loop = figure(
        "loop_resistance" if when == "low" else "loop_resistance_typ",
        point.loop_ohm,
        "ohm",
        2,
        "R = R_out + R_back",
        from_figure("R_out", out),
        from_figure("R_back", back),
        end="end.loaded_copper",
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
    )
    U_t = from_figure("U_t", voltage)
    yield from (*warm, out, back, loop, voltage)
    yield figure(f"current_{when}", point.current_A, "A", 1, "I = (U - U_t) / R", U, U_t, R)
    yield figure(f"drop_{when}", point.drop, "1", 2, "dU = (U - U_t) / U", U, U_t)


def _warmth(design: Design, when: str, point: Operating, named: Named) -> Iterator[Figure]:
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
        )


def _resistance(
    design: Design, name: str, point: Operating, warmth: Named, *, back: bool
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
    return figure(
        name,
        point.return_ohm if back else point.positive_ohm,
        "ohm",
        2,
        f"R = r20·({' + '.join(terms)}) + R_j",
        *inputs,
        given("R_j", joints, joints.high),
        sources=(COPPER, AMPACITY, SHEET),
        end="end.loaded_copper",
    )


def _hottest(design: Design, point: Operating, named: Named) -> Figure:
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
    )


def _margin(design: Design, point: Operating) -> Figure:
    charger, cut_out = design.fit.charger, design.solved.feed.cut_out_V
    by_voltage = cut_out == charger.cut_out.high
    return figure(
        "margin_low",
        point.charger_V - cut_out,
        "V",
        2,
        "dU = U_t - U_co",
        Input(symbol="U_t", value=point.charger_V, unit="V", figure="charger_voltage_low"),
        given("U_co", charger.cut_out if by_voltage else charger.cut_out_run, cut_out),
        end="end.cut_out",
    )


def _drops(design: Design, point: Operating) -> Iterator[Figure]:
    current = Input(symbol="I", value=point.current_A, unit="A", figure="current_typ")
    for name, R, of in (
        ("positive_drop_typ", point.positive_ohm, "positive_resistance_typ"),
        ("return_drop_typ", point.return_ohm, "return_resistance_typ"),
    ):
        ohms = Input(symbol="R", value=R, unit="ohm", figure=of)
        yield figure(name, point.current_A * R, "V", 3, "dU = I·R", current, ohms)
    fuse = design.fit.shop.joints.protection
    dU = point.current_A * fuse.value
    yield figure("fuse_drop_typ", dU, "V", 3, "dU = I·R_F", current, given("R_F", fuse))


def _ampacity(design: Design, name: str, leg: Leg) -> Figure:
    cable, size = design.fit.cable, size_of(design.fit, design.choice.area_mm2)
    value = carries(cable, size, leg.ambient_C)
    row = next((row for row in size.ampacity if row.current.low == value), None)
    if row is not None or value == 0:
        inputs = (given("I_row", row.current, value),) if row else ()
        formula = "I_T = I_row" if row else "I_T = 0"
        return figure(name, value, "A", 1, formula, *inputs, sources=(SHEET,))
    ambient = cable.reference_ambient
    reference = next(r for r in size.ampacity if r.ambient.value == ambient.value)
    return figure(
        name,
        value,
        "A",
        1,
        "I_T = I_ref·√((T_max - T_a) / (T_max - T_ref))",
        given("I_ref", reference.current, reference.current.low),
        given("T_max", cable.conductor_max),
        given("T_a", design.fit.shop.zones[leg.zone].temperature, leg.ambient_C),
        given("T_ref", ambient),
        sources=(AMPACITY, SHEET),
    )


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
    """Return the power step as an input: the sheet's own row, or its full power."""
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
