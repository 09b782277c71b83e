"""Figures of the readings at load: least and most of each, from the two corners of the circuit.

Light: highest supply, copper at -40 °C without any contact, and no more power than a load
must take. Heavy: lowest supply, hot copper, long runs, contacts at their high end, full power.
"""

from __future__ import annotations

from collections.abc import Iterator
from math import sqrt

from baybook.design import Design
from baybook.figure import Figure, Input
from baybook.sizing.feed import COLDEST_C, Loop
from baybook.sizing.interval import loop
from baybook.sizing.output import lead_size
from baybook.sizing.reading_parts import (
    allowance,
    amp_share,
    draw_share,
    least_current,
    least_full,
    least_volts,
    most_current,
    most_full,
    tolerance,
    volt_share,
)
from baybook.sizing.trace import COPPER, LAWS, SHEET, SHOP_RULE, figure, from_figure, given
from baybook.sizing.work_out import size_of

Named = dict[str, Figure]
_COLD = f"(1 + ({COLDEST_C:g} - 20) / 254.5)"


def loaded_figures(design: Design, named: Named) -> Iterator[Figure]:
    """Least and most of the readings D3 to D10; what does not apply here is absent.

    [circuit-laws] [shop-rule]
    """
    for rows in (_load, _input, _output, _display):
        for row in rows(design, named):
            named = {**named, row.name: row}
            yield row


def _load(design: Design, named: Named) -> Iterator[Figure]:
    """Least power at output and input that is no fault, and the coldest loop."""
    fit = design.fit
    draw, power, efficiency = draw_share(design), least_full(design), fit.charger.efficiency
    limit = least_current(design)
    volts, symbol = least_volts(design)
    terms = f"U_set·(1 - tol)·{limit.symbol}" if symbol is None else f"U_empty·{limit.symbol}"
    at = (
        (from_figure("U_set", named["set_voltage"]), tolerance(design))
        if symbol is None
        else (symbol,)
    )
    least = (1 - draw.value) * min(power.value, volts * limit.value)
    out = figure("output_power_least", least, "W", 1, f"P = (1 - d)·min({power.symbol}, {terms})",
                 draw, power, *at, limit, sources=(SHEET, SHOP_RULE), end="end.light")  # fmt: skip
    yield out
    yield figure("input_power_least", least / efficiency.high, "W", 1, "P = P_out / eff",
                 from_figure("P_out", out), given("eff", efficiency, efficiency.high),
                 sources=(SHEET,), end="end.light")  # fmt: skip
    yield _cold_loop(design)


def _cold_loop(design: Design) -> Figure:
    light, size = loop(design, light=True), size_of(design.fit, design.choice.area_mm2)
    metres = sum(stretch.length_m for stretch in (*light.out, *light.back))
    measured = tuple(_measured(light))
    more = "".join(f" + {one.symbol}" for one in measured)
    return figure(
        "loop_resistance_cold",
        light.at_least(),
        "ohm",
        2,
        f"R = l·r20·{_COLD}{more}",
        Input(symbol="l", value=metres, unit="m", source=SHOP_RULE),
        given("r20", size.resistance, size.resistance.low),
        *measured,
        sources=(COPPER, "iso16750-4"),
        end="end.light",
    )


def _measured(light: Loop) -> Iterator[Input]:
    """What was measured of the vehicle itself stays in the coldest loop, at its low end."""
    if light.body_ohm:
        yield Input(symbol="R_body", value=light.body_ohm, unit="ohm", end="low",
                    figure="body_resistance")  # fmt: skip
    if light.tapped:
        yield Input(symbol="R_line", value=light.tapped.ohm, unit="ohm", end="low",
                    figure="line_resistance")  # fmt: skip


def _input(design: Design, named: Named) -> Iterator[Figure]:
    """D3 to D7. A passing design has a current at the lowest supply: without one, CA-03 refuses."""
    yield from _source_current(design, named)
    I = from_figure("I", named["current_low"])  # noqa: E741 - IEC letter
    m = volt_share(design)
    fuse = design.fit.shop.joints.protection
    R_F = given("R_F", fuse, fuse.high)
    ways = {
        "fuse": R_F,
        "positive": from_figure("R", named["positive_resistance_low"]),
        "return": from_figure("R", named["return_resistance_low"]),
    }
    if "body_resistance" in named:
        ways["body"] = from_figure("R", named["body_resistance"])
    for name, R in ways.items():
        yield figure(f"most_{name}", I.value * R.value * (1 + m.value), "V", 3,
                     f"dU = I·{R.symbol}·(1 + m_U)", I, R, m,
                     sources=(LAWS, SHOP_RULE), end="end.heavy")  # fmt: skip
    yield from _charger_input(design, named)


def _source_current(design: Design, named: Named) -> Iterator[Figure]:
    U, P = from_figure("U", named["supply_high"]), from_figure("P", named["input_power_least"])
    R, m = from_figure("R", named["loop_resistance_cold"]), amp_share(design)
    root = sqrt(U.value**2 - 4 * R.value * P.value)
    yield figure(
        "least_current",
        2 * P.value / (U.value + root) * (1 - m.value),
        "A",
        1,
        "I = 2·P / (U + √(U² - 4·R·P))·(1 - m_I)",
        U,
        R,
        P,
        m,
        sources=(LAWS, SHOP_RULE),
        end="end.light",
    )
    heavy = from_figure("I_heavy", named["current_low"])
    yield figure("most_current", heavy.value * (1 + m.value), "A", 1, "I = I_heavy·(1 + m_I)",
                 heavy, m, sources=(LAWS, SHOP_RULE), end="end.heavy")  # fmt: skip


def _charger_input(design: Design, named: Named) -> Iterator[Figure]:
    charger, limits = design.fit.charger, design.fit.shop.limits
    m, margin = volt_share(design), limits.cut_out_margin.value
    cut_out = design.solved.feed.cut_out_V
    written = charger.cut_out if cut_out == charger.cut_out.high else charger.cut_out_run
    yield figure("least_input", (cut_out + margin.value) * (1 - m.value), "V", 2,
                 "U = (U_co + dU)·(1 - m_U)", given("U_co", written, cut_out),
                 given("dU", margin), m, sources=(SHOP_RULE,), end="end.cut_out")  # fmt: skip
    high = from_figure("U_high", named["supply_high"])
    yield figure("most_input", high.value * (1 + m.value), "V", 2, "U = U_high·(1 + m_U)",
                 high, m, sources=(SHOP_RULE,))  # fmt: skip


# --------------------------------------------------------------------------- output


def _output(design: Design, named: Named) -> Iterator[Figure]:
    """D8 and D9. The meter never widens a limit of the station."""
    U, tol = from_figure("U_set", named["set_voltage"]), tolerance(design)
    m, station = volt_share(design), design.fit.station
    margin = design.fit.shop.limits.absolute_margin.value
    top = given("U_top", station.window_max, station.window_max.low)
    absolute = given("U_abs", station.absolute, station.absolute.low)
    least = U.value * (1 - tol.value)
    yield figure("least_open", least * (1 - m.value), "V", 2, "U = U_set·(1 - tol)·(1 - m_U)",
                 U, tol, m, sources=(SHEET, SHOP_RULE))  # fmt: skip
    most = min(
        U.value * (1 + tol.value) * (1 + m.value),
        top.value,
        absolute.value * (1 - margin.value),
    )
    for name in ("most_open", "most_output"):
        yield figure(name, most, "V", 2,
                     "U = min(U_set·(1 + tol)·(1 + m_U), U_top, U_abs·(1 - b))", U, tol, m, top,
                     absolute, given("b", margin), sources=(SHEET, SHOP_RULE),
                     end="end.station_top")  # fmt: skip
    yield from _output_current(design, named)
    yield _least_output(design, named)


def _output_current(design: Design, named: Named) -> Iterator[Figure]:
    U, tol = from_figure("U_set", named["set_voltage"]), tolerance(design)
    m, draw, power, limit = (
        amp_share(design), draw_share(design), least_full(design), least_current(design)
    )  # fmt: skip
    least = (1 - draw.value) * min(power.value / (U.value * (1 + tol.value)), limit.value)
    yield figure("least_output_current", least * (1 - m.value), "A", 1,
                 f"I = (1 - d)·min({power.symbol} / (U_set·(1 + tol)), {limit.symbol})·(1 - m_I)",
                 draw, power, U, tol, limit, m, sources=(SHEET, SHOP_RULE),
                 end="end.light")  # fmt: skip
    full, top = most_full(design), most_current(design)
    volts, symbol = least_volts(design)
    at = "U_set·(1 - tol)" if symbol is None else "U_empty"
    most = figure("output_current_most", min(full.value / volts, top.value), "A", 1,
                  f"I = min({full.symbol} / ({at}), {top.symbol})", full,
                  *((U, tol) if symbol is None else (symbol,)), top,
                  sources=(SHEET,), end="end.heavy")  # fmt: skip
    yield most
    yield figure("most_output_current", most.value * (1 + m.value), "A", 1, "I = I_most·(1 + m_I)",
                 from_figure("I_most", most), m, sources=(SHOP_RULE,), end="end.heavy")  # fmt: skip


def _least_output(design: Design, named: Named) -> Figure:
    """A second battery holds the output down to its own volts; a station takes what is set."""
    m, (volts, symbol) = volt_share(design), least_volts(design)
    if symbol is not None:
        return figure("least_output", volts * (1 - m.value), "V", 2, "U = U_empty·(1 - m_U)",
                      symbol, m, sources=(SHEET, SHOP_RULE), end="end.light")  # fmt: skip
    fit, size = design.fit, lead_size(design.fit)
    theta, length = fit.output_cable.conductor_max, fit.job.output_length
    amps = Input(symbol="I", value=_amps_at(volts, design), unit="A", figure="output_current_most")
    ohms = 2 * length.high * size.resistance.high * (1 + (theta.value - 20) / 254.5)
    return figure(
        "least_output",
        (volts - amps.value * ohms) * (1 - m.value),
        "V",
        2,
        "U = (U_set·(1 - tol) - I·2·l·r20·(1 + (T_max - 20) / 254.5))·(1 - m_U)",
        from_figure("U_set", named["set_voltage"]),
        tolerance(design),
        amps,
        given("l", length, length.high),
        given("r20", size.resistance, size.resistance.high),
        given("T_max", theta),
        m,
        sources=(LAWS, COPPER, SHEET, SHOP_RULE),
        end="end.heavy",
    )


def _amps_at(volts: float, design: Design) -> float:
    return min(most_full(design).value / volts, most_current(design).value)


def _display(design: Design, named: Named) -> Iterator[Figure]:
    """D10: what the station's display may show; a second battery has none."""
    if design.fit.second is not None:
        return
    shown = allowance(design.fit.shop.meter.display, "m_D", "1")
    full = most_full(design)
    least, amps = named["output_power_least"], named["output_current_most"]
    size, length = lead_size(design.fit), design.fit.job.output_length
    theta = design.fit.output_cable.conductor_max
    ohms = 2 * length.high * size.resistance.high * (1 + (theta.value - 20) / 254.5)
    yield figure(
        "least_display",
        (least.value - amps.value**2 * ohms) * (1 - shown.value),
        "W",
        0,
        "P = (P_least - I²·2·l·r20·(1 + (T_max - 20) / 254.5))·(1 - m_D)",
        from_figure("P_least", least),
        from_figure("I", amps),
        given("l", length, length.high),
        given("r20", size.resistance, size.resistance.high),
        given("T_max", theta),
        shown,
        sources=(LAWS, COPPER, SHEET, SHOP_RULE),
        end="end.light",
    )
    yield figure("most_display", full.value * (1 + shown.value), "W", 0,
                 f"P = {full.symbol}·(1 + m_D)", full, shown, sources=(SHEET, SHOP_RULE),
                 end="end.heavy")  # fmt: skip
