"""Figures of the output side."""

from __future__ import annotations

import math
from collections.abc import Iterator

from baybook.design import Design
from baybook.figure import Figure, Input
from baybook.sizing.budget import charge_hours
from baybook.sizing.output import lead_size, lead_temperature
from baybook.sizing.trace import (
    AMPACITY,
    COPPER,
    LAWS,
    SHEET,
    SHOP_RULE,
    figure,
    from_figure,
    given,
)
from baybook.sizing.traces_input import step_power

_CLEAN = 6  # decimals of a set voltage


def output_figures(design: Design) -> Iterator[Figure]:
    """Set voltage, its band, and what reaches the station.

    [shop-rule]
    """
    fit, output = design.fit, design.solved.output
    charger = fit.charger
    set_voltage = _setting(design)
    U = from_figure("U_set", set_voltage)
    tol = given("tol", charger.output_tolerance, charger.output_tolerance.high)
    over = given("U_over", charger.overshoot, charger.overshoot.high)
    yield set_voltage
    yield figure(
        "output_low", output.low_V, "V", 2, "U = U_set·(1 - tol)", U, tol, sources=(SHEET,)
    )
    yield figure(
        "output_high",
        output.high_V,
        "V",
        2,
        "U = U_set·(1 + tol) + U_over",
        U,
        tol,
        over,
        sources=(SHEET,),
    )
    yield from _at_station(design, U)
    yield figure(
        "heat",
        design.solved.place.heat_W,
        "W",
        0,
        "P_V = P·(1 / eff - 1)",
        Input(symbol="P", value=output.power_W, unit="W", figure="output_power"),
        given("eff", charger.efficiency, charger.efficiency.low),
    )


def _at_station(design: Design, U: Input) -> Iterator[Figure]:
    fit, output = design.fit, design.solved.output
    power = figure(
        "output_power",
        output.power_W,
        "W",
        0,
        "P = min(P_step, P_st, I_chg·U_set, I_st·U_set)",
        step_power(design),
        given("P_st", fit.station.input_power),
        given("I_chg", fit.charger.output_current),
        given("I_st", fit.station.input_current),
        U,
        sources=(SHEET, SHOP_RULE),
    )
    P = from_figure("P", power)
    current = figure("station_current", output.current_A, "A", 1, "I = P / U_set", P, U)
    lead = _lead(design)
    I, R = from_figure("I", current), from_figure("R", lead)  # noqa: E741 - IEC letters
    voltage = figure("station_voltage", output.station_V, "V", 1, "U = U_set - I·R", U, I, R)
    yield from (power, current, lead, voltage)
    at_station = output.station_V * output.current_A
    yield figure("station_power", at_station, "W", 0, "P = U·I", from_figure("U", voltage), I)
    yield figure("output_drop", output.drop, "1", 2, "dU = I·R / U_set", I, R, U)
    if at_station <= 0:
        return
    hours = fit.station.energy.value / (at_station * fit.station.efficiency.value)
    yield figure(
        "charge_time",
        hours,
        "h",
        1,
        "t = E / (U·I·eff)",
        given("E", fit.station.energy),
        from_figure("U", voltage),
        I,
        given("eff", fit.station.efficiency),
        end="end.no_taper",
    )
    yield from _when_hot(design, voltage, current)


def _lead(design: Design) -> Figure:
    size, length = lead_size(design.fit), design.fit.job.output_length
    output = design.solved.output
    theta = lead_temperature(design.fit, output.current_A, output.lead_carries_A)
    if design.fit.second is not None:
        return figure(
            "lead_resistance",
            output.lead_ohm,
            "ohm",
            2,
            "R = 2·(l + a)·r20·(1 + (T - 20) / 254.5) + R_F",
            given("l", length, length.high),
            given("a", design.fit.shop.lengths.end_allowance),
            given("r20", size.resistance, size.resistance.high),
            Input(symbol="T", value=theta, unit="degC", source=AMPACITY),
            given("R_F", design.fit.shop.joints.protection, design.fit.shop.joints.protection.high),
            sources=(COPPER, LAWS, SHEET),
            end="end.loaded_copper",
        )
    return figure(
        "lead_resistance",
        output.lead_ohm,
        "ohm",
        2,
        "R = 2·l·r20·(1 + (T - 20) / 254.5)",
        given("l", length, length.high),
        given("r20", size.resistance, size.resistance.high),
        Input(symbol="T", value=theta, unit="degC", source=AMPACITY),
        sources=(COPPER, LAWS, SHEET),
        end="end.loaded_copper",
    )


def _setting(design: Design) -> Figure:
    """The set voltage: the default where it serves, else the lowest step with full power."""
    charger, output, set_V = design.fit.charger, design.solved.output, design.choice.set_V
    digits = 0 if set_V.is_integer() else 1
    if set_V == charger.output_default.value:
        default = given("U_def", charger.output_default)
        return figure(
            "set_voltage", set_V, "V", digits, "U_set = U_def", default, sources=(SHOP_RULE, SHEET)
        )
    inputs = (
        Input(symbol="P", value=output.full_W, unit="W", source=SHEET),
        Input(symbol="I", value=output.most_A, unit="A", source=SHEET),
        given("tol", charger.output_tolerance, charger.output_tolerance.high),
        given("U_min", charger.output_min),
        given("U_step", charger.output_step),
    )
    P, I, tol, U_min, U_step = (entry.value for entry in inputs)  # noqa: E741
    steps = max(0, math.ceil(round((P / (I * (1 - tol)) - U_min) / U_step, _CLEAN)))
    if not math.isclose(U_min + U_step * steps, set_V):
        best = Input(symbol="U_best", value=set_V, unit="V", source=SHOP_RULE)
        return figure(
            "set_voltage", set_V, "V", digits, "U_set = U_best", best, sources=(SHOP_RULE,)
        )
    formula = "U_set = U_min + U_step·max(0, ceil((P / (I·(1 - tol)) - U_min) / U_step))"
    return figure("set_voltage", set_V, "V", digits, formula, *inputs, sources=(SHOP_RULE, SHEET))


def _when_hot(design: Design, voltage: Figure, current: Figure) -> Iterator[Figure]:
    """The charge promise at the mount's own temperature; absent where it costs no power."""
    fit, share = design.fit, design.solved.place.derated
    warm = share * fit.charger.output_power.value
    if not 0 < warm < voltage.value * current.value:
        return
    zone = fit.shop.zones[fit.vehicle.mounts[fit.job.mount].zone].temperature
    derating = fit.charger.derating
    derated = figure(
        "derated_share",
        share,
        "1",
        0,
        "d = 1 - s·(T - T_full)",
        given("s", derating.per_kelvin),
        given("T", zone, zone.high),
        given("T_full", derating.full_to),
        sources=(SHEET,),
    )
    yield derated
    yield figure(
        "charge_time_hot",
        charge_hours(fit.station.energy.value, warm, fit.station.efficiency.value),
        "h",
        1,
        "t = E / (d·P_max·eff)",
        given("E", fit.station.energy),
        from_figure("d", derated),
        given("P_max", fit.charger.output_power),
        given("eff", fit.station.efficiency),
        sources=(SHEET,),
        end="end.no_taper",
    )
