"""Figures of a line of the vehicle that the feed shares: its resistance, current and drop."""

from __future__ import annotations

from collections.abc import Iterator

from baybook.figure import Figure, Input
from baybook.fit import Fit
from baybook.sizing.body import off
from baybook.sizing.interval import Corners
from baybook.sizing.shared import line_ends, line_of
from baybook.sizing.trace import figure, from_figure, given
from baybook.sizing.traces_body import one_end
from baybook.solved import Operating

NAME = "line_resistance"


def line_figures(fit: Fit) -> Iterator[Figure]:
    """The line's resistance from its measured drop, the high end; none where nobody shares.

    [circuit-laws] [vehicle-survey]
    """
    line = line_of(fit)
    if line is None:
        return
    meter = fit.shop.meter
    drop, current = off(line.drop, meter.voltage.value), off(line.current, meter.current.value)
    over, dropped = one_end("U_line", line.drop, drop, meter.voltage, high=True)
    under, through = one_end("I_line", line.current, current, meter.current, high=False)
    low, high = line_ends(fit, line)
    yield figure(
        NAME,
        high,
        "ohm",
        2,
        f"R_line = {over} / {under}",
        *dropped,
        *through,
        end="end.measured_line",
        ends=(low, high),
    )


def tap_figures(
    fit: Fit, when: str, point: Operating, between: Corners, ohms: Figure | None
) -> Iterator[Figure]:
    """Current of the shared line and voltage at its end, at one supply voltage.

    [circuit-laws]

    when  "low" or "typ"
    ohms  the line's resistance
    """
    line = line_of(fit)
    if line is None or point.line is None or ohms is None:
        return
    U_tap = Input(symbol="U_tap", value=point.source_volts, unit="V", figure=f"tap_voltage_{when}")
    currents = [load.current for load in line.loads if load.current is not None]
    powers = [load.power for load in line.loads if load.power is not None]
    terms = [given(f"I_{n}", current, current.high) for n, current in enumerate(currents, 1)]
    drawn = [given(f"P_{n}", power, power.high) for n, power in enumerate(powers, 1)]
    parts = [term.symbol for term in terms] + [f"{term.symbol} / U_tap" for term in drawn]
    others = figure(
        f"others_current_{when}",
        point.line.others_A,
        "A",
        1,
        f"I_o = {' + '.join(parts) or '0'}",
        *terms,
        *drawn,
        *((U_tap,) if drawn else ()),
        end="end.others_on",
        ends=(0.0, point.line.others_A),
    )
    shared = figure(
        f"shared_current_{when}",
        point.shared_amps,
        "A",
        1,
        "I_s = I + I_o",
        Input(symbol="I", value=point.current_A, unit="A", figure=f"current_{when}"),
        from_figure("I_o", others),
        ends=between.of("shared_amps"),
    )
    voltage = figure(
        f"tap_voltage_{when}",
        point.source_volts,
        "V",
        2,
        "U_tap = U - I_s·R_line",
        Input(symbol="U", value=point.supply_V, unit="V", figure=f"supply_{when}"),
        from_figure("I_s", shared),
        from_figure("R_line", ohms),
        end="end.others_on",
        ends=between.of("source_volts"),
    )
    drop = figure(
        f"shared_drop_{when}",
        point.supply_V - point.source_volts,
        "V",
        3,
        "dU = I_s·R_line",
        from_figure("I_s", shared),
        from_figure("R_line", ohms),
        ends=between.of("shared_volts"),
    )
    yield from (others, shared, voltage, drop)
