"""Figures of a second battery's own end: its two faults, and what F2 and its cable stand."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from baybook.design import Design
from baybook.figure import Figure, Input
from baybook.quantity import Quantity, State
from baybook.second import BatterySheet
from baybook.sizing.lengths import total
from baybook.sizing.output import lead_ambient, lead_size
from baybook.sizing.protection import STRONGER, WEAKER, derating_factor
from baybook.sizing.second import (
    highest,
    second_gates,
    second_legs,
    second_rating,
    second_sheet,
)
from baybook.sizing.trace import (
    COPPER,
    LAWS,
    OVERCURRENT,
    SHEET,
    SHOP_RULE,
    constant,
    figure,
    from_figure,
    given,
)
from baybook.sizing.traces_fault import internal_end
from baybook.solved import Second


def second_figures(design: Design, named: Mapping[str, Figure]) -> Iterator[Figure]:
    """Yield them; nothing for a station, and nothing without a protection.

    [circuit-laws] [fit-sheet]
    """
    second, battery = design.solved.second, design.fit.second
    if second is None or battery is None or not design.choice.second_family:
        return
    yield from _carries(design, second, named)
    loop = _loop(design, second)
    yield loop
    internal = battery.internal
    if not isinstance(internal, Quantity) or second.near_A is None or second.far_A is None:
        return
    estimated = internal.basis.state is State.ESTIMATED
    strong, weak = (
        internal_end(f"second_internal_{name}", internal, factor if estimated else None, low=low)
        for name, factor, low in (("low", STRONGER, True), ("high", WEAKER, False))
    )
    near, far = _faults(design, battery, (strong, weak, loop), (second.near_A, second.far_A))
    yield from (strong, weak, near, far)
    yield from _stands(design, second, (near, far))


def _carries(design: Design, second: Second, named: Mapping[str, Figure]) -> Iterator[Figure]:
    fit, choice = design.fit, design.choice
    I_n = given("I_n", second_rating(fit, choice))
    rows = second_sheet(fit, choice.second_family).derating
    factor = derating_factor(rows, lead_ambient(fit))
    if second.carries_A is not None and factor is not None:
        row = next(point for point in rows if point.factor.low == factor)
        yield figure(
            "second_carries",
            second.carries_A,
            "A",
            1,
            "I = I_n·k·d",
            I_n,
            given("k", fit.shop.limits.continuous_factor.value),
            given("d", row.factor, factor),
            sources=(OVERCURRENT, SHOP_RULE, SHEET),
        )
    if named["lead_ampacity"].value > 0:
        yield figure(
            "second_overload_ratio",
            second.overload,
            "1",
            0,
            "x = c·I_n / (s·I_T)",
            constant("c", 1.35, "1", "iso8820-3"),
            constant("s", 1.45, "1", OVERCURRENT),
            I_n,
            from_figure("I_T", named["lead_ampacity"]),
            sources=(OVERCURRENT, "iso8820-3"),
        )


def _loop(design: Design, second: Second) -> Figure:
    fit, size = design.fit, lead_size(design.fit)
    metres = sum(total(legs) for legs in second_legs(fit))
    return figure(
        "second_loop_hot",
        second.far_ohm,
        "ohm",
        2,
        "R = r20·l·(1 + (T_max - 20) / 254.5) + R_F",
        given("r20", size.resistance, size.resistance.high),
        Input(symbol="l", value=metres, unit="m", source=SHOP_RULE),
        given("T_max", fit.output_cable.conductor_max),
        given("R_F", fit.shop.joints.protection, fit.shop.joints.protection.high),
        sources=(COPPER, LAWS),
        end="end.hot_copper",
    )


def _faults(
    design: Design,
    battery: BatterySheet,
    ohms: tuple[Figure, Figure, Figure],
    amps: tuple[float, float],
) -> tuple[Figure, Figure]:
    strong, weak, loop = ohms
    most, least = highest(design.fit), battery.empty
    near = figure(
        "second_fault_near",
        amps[0],
        "A",
        0,
        "I = U_max / R_i",
        given("U_max", most, most.high),
        from_figure("R_i", strong),
        end="end.strong_battery",
        ends=(least.low / weak.value, amps[0]),
    )
    far = figure(
        "second_fault_far",
        amps[1],
        "A",
        0,
        "I = U_empty / (R_i + R_hot)",
        given("U_empty", least, least.low),
        from_figure("R_i", weak),
        from_figure("R_hot", loop),
        end="end.weak_battery",
    )
    return near, far


def _stands(design: Design, second: Second, faults: tuple[Figure, Figure]) -> Iterator[Figure]:
    fit = design.fit
    k = figure(
        "second_adiabatic_factor",
        second.k,
        "A*s^0.5/mm2",
        1,
        "k = 226·√(ln((T_f + 234.5) / (T_i + 234.5)))",
        given("T_f", fit.output_cable.short_circuit),
        given("T_i", fit.output_cable.conductor_max),
        sources=(COPPER,),
    )
    yield k
    gates = second_gates(fit, design.choice.second_family)
    ratios = iter(second.withstand)
    for name, fault, opens in zip(
        ("near", "far"), faults, (second.opens_near_s, second.opens_far_s), strict=True
    ):
        if opens is None:
            continue
        gate = given("t_gate", next(g.within for g in gates if g.within.value == opens))
        if name == "far":
            yield figure("second_opening_time", opens, "s", 2, "t = t_gate", gate, sources=(SHEET,))
        yield figure(
            f"second_withstand_{name}",
            next(ratios),
            "1",
            1,
            "x = I²·t_gate / (k²·S²)",
            from_figure("I", fault),
            gate,
            from_figure("k", k),
            given("S", lead_size(fit).area),
            sources=(OVERCURRENT, COPPER),
        )
