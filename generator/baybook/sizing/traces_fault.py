"""Figures of the protection: what it carries, the two faults, what the cable stands."""

from __future__ import annotations

from collections.abc import Iterator

from baybook.design import Design
from baybook.figure import Figure, Input
from baybook.quantity import Quantity, State
from baybook.sizing.interval import far_fault, loop, near_fault
from baybook.sizing.protection import (
    STRONGER,
    WEAKER,
    derating_factor,
    fuse_ambient,
    gates_of,
    sheet_of,
    source_point,
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
from baybook.sizing.work_out import size_of

Named = dict[str, Figure]


def _vehicle_fuse(continuous: Quantity, carries_A: float, named: Named) -> Figure:
    """What a fuse of the vehicle's maker leaves to the feed: what others draw goes off."""
    inputs = [given("I_cont", continuous, continuous.low)]
    if "others_current_low" in named:
        inputs.append(from_figure("I_o", named["others_current_low"]))
    formula = f"I = {' - '.join(entry.symbol for entry in inputs)}"
    return figure("fuse_carries", carries_A, "A", 1, formula, *inputs, sources=(SHEET,))


def protection_figures(design: Design, named: Named) -> Iterator[Figure]:
    """What the protection carries without limit of time.

    [shop-rule]
    """
    fault, fit = design.solved.fault, design.fit
    if fault.carries_A is None:
        return
    fused = source_point(fit).factory_fuse
    if fused is not None:
        yield _vehicle_fuse(fused.continuous, fault.carries_A, named)
        return
    sheet = sheet_of(fit, design.choice.family)
    derating = derating_factor(sheet.derating, fuse_ambient(fit)) or 0.0
    row = next(point for point in sheet.derating if point.factor.low == derating)
    yield figure(
        "fuse_carries",
        fault.carries_A,
        "A",
        1,
        "I = I_n·k·d",
        rating(design),
        given("k", fit.shop.limits.continuous_factor.value),
        given("d", row.factor, derating),
        sources=(OVERCURRENT, SHOP_RULE, SHEET),
    )


def fault_figures(design: Design, named: Named) -> Iterator[Figure]:
    """Both faults; absent where the battery's resistance is unknown.

    [shop-rule]
    """
    yield _overload(design, named)
    yield _hot_loop(design, named)
    fault, internal = design.solved.fault, design.fit.vehicle.battery.internal
    if not isinstance(internal, Quantity) or fault.near_A is None or fault.far_A is None:
        return
    estimated = internal.basis.state is State.ESTIMATED
    strong = internal_end(
        "internal_resistance_low", internal, STRONGER if estimated else None, low=True
    )
    weak = internal_end(
        "internal_resistance_high", internal, WEAKER if estimated else None, low=False
    )
    near = figure(
        "fault_near",
        fault.near_A,
        "A",
        0,
        "I = U_high / R_i",
        from_figure("U_high", named["supply_high"]),
        from_figure("R_i", strong),
        end="end.strong_battery",
        ends=near_fault(design, (strong.value, weak.value)),
    )
    far = figure(
        "fault_far",
        fault.far_A,
        "A",
        0,
        "I = U_low / (R_i + R_hot)",
        from_figure("U_low", named["supply_low"]),
        from_figure("R_i", weak),
        Input(symbol="R_hot", value=fault.far_ohm, unit="ohm", figure="loop_resistance_hot"),
        end="end.weak_battery",
        ends=far_fault(design, (strong.value, weak.value)),
    )
    yield from (strong, weak, near, far, _least_internal(design, named))
    yield from _withstands(design, near, far)


def _least_internal(design: Design, named: Named) -> Figure:
    """The internal resistance below which a new battery's short is more than the part breaks."""
    breaking = design.circuit.protections[0].breaking
    return figure(
        "battery_least",
        named["supply_high"].value / breaking.low,
        "ohm",
        1,
        "R_i = U_high / I_cn",
        from_figure("U_high", named["supply_high"]),
        given("I_cn", breaking, breaking.low),
        end="end.new_battery",
    )


def _withstands(design: Design, near: Figure, far: Figure) -> Iterator[Figure]:
    fault, fit = design.solved.fault, design.fit
    k = figure(
        "adiabatic_factor",
        fault.k,
        "A*s^0.5/mm2",
        1,
        "k = 226·√(ln((T_f + 234.5) / (T_i + 234.5)))",
        given("T_f", fit.cable.short_circuit),
        given("T_i", fit.cable.conductor_max),
        sources=(COPPER,),
    )
    yield k
    for name, at, opens, ratio in (
        ("near", near, fault.opens_near_s, fault.withstand_near),
        ("far", far, fault.opens_far_s, fault.withstand_far),
    ):
        if opens is None or ratio is None:
            continue
        gate = _gate(design, opens)
        if name == "far":
            yield figure("opening_time", opens, "s", 2, "t = t_gate", gate, sources=(SHEET,))
        yield figure(
            f"withstand_{name}",
            ratio,
            "1",
            1,
            "x = I²·t_gate / (k²·S²)",
            from_figure("I", at),
            gate,
            from_figure("k", k),
            given("S", size_of(fit, design.choice.area_mm2).area),
            sources=(OVERCURRENT, COPPER),
        )


def _overload(design: Design, named: Named) -> Figure:
    carried = design.solved.feed.carries_A
    ratio = design.solved.fault.overload if carried else 0.0
    return figure(
        "overload_ratio",
        ratio,
        "1",
        0,
        "x = c·I_n / (s·I_T)" if carried else "x = 0",
        constant("c", 1.35, "1", "iso8820-3"),
        constant("s", 1.45, "1", OVERCURRENT),
        rating(design),
        from_figure("I_T", named["ampacity"]),
        sources=(OVERCURRENT, "iso8820-3"),
    )


def _hot_loop(design: Design, named: Named) -> Figure:
    measured = {"R_body": "body_resistance", "R_line": "line_resistance"}
    body = [from_figure(sign, named[name]) for sign, name in measured.items() if name in named]
    fit, joints = design.fit, design.fit.shop.joints
    more = "".join(f" + {entry.symbol}" for entry in body)
    size = size_of(fit, design.choice.area_mm2)
    uses = ("source", "feed", "return")
    metres = sum(c.cut_m for c in design.circuit.conductors if c.use in uses)
    return figure(
        "loop_resistance_hot",
        design.solved.fault.far_ohm,
        "ohm",
        2,
        f"R = r20·l·(1 + (T_max - 20) / 254.5) + R_jp + R_jn{more}",
        given("r20", size.resistance, size.resistance.high),
        Input(symbol="l", value=metres, unit="m", source=SHOP_RULE),
        given("T_max", fit.cable.conductor_max),
        given("R_jp", joints.positive, joints.positive.high),
        given("R_jn", joints.negative, joints.negative.high),
        *body,
        sources=(COPPER, LAWS),
        end="end.hot_copper",
        ends=(loop(design, light=True).at_most(), design.solved.fault.far_ohm),
    )


def internal_end(name: str, internal: Quantity, factor: float | None, *, low: bool) -> Figure:
    """Return one end of a battery's internal resistance.

    [vehicle-survey], [shop-rule]

    factor  by which an estimate is widened, above 0; None for what was measured [1]
    """
    if factor is None:
        value = internal.low if low else internal.high
        inputs = (given("R_b", internal, value),)
        return figure(name, value, "ohm", 2, "R_i = R_b", *inputs, sources=(SHEET,))
    return figure(
        name,
        factor * internal.value,
        "ohm",
        2,
        "R_i = f·R_b",
        constant("f", factor, "1", SHOP_RULE),
        given("R_b", internal),
        sources=(SHOP_RULE,),
        end="end.estimated",
    )


def rating(design: Design) -> Input:
    """Return the rating of the protection as an input.

    [fit-sheet]
    """
    fused = source_point(design.fit).factory_fuse
    if fused is not None:
        return given("I_n", fused.rating)
    ratings = sheet_of(design.fit, design.choice.family).ratings
    return given("I_n", next(r for r in ratings if r.value == design.choice.rating_A))


def _gate(design: Design, opens_s: float) -> Input:
    gates = gates_of(design.fit, design.choice.family)
    return given("t_gate", next(g.within for g in gates if g.within.value == opens_s))
