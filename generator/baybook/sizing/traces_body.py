"""Figures of a return through the body: its measured resistance, and what it drops."""

from __future__ import annotations

from collections.abc import Iterator

from baybook.figure import Figure, Input
from baybook.fit import Fit
from baybook.quantity import Quantity
from baybook.sizing.body import Off, body_ends, measured
from baybook.sizing.interval import Corners
from baybook.sizing.trace import figure, from_figure, given
from baybook.solved import Operating

NAME = "body_resistance"


def body_figures(fit: Fit) -> Iterator[Figure]:
    """The body's resistance from its measured drop, the high end; none by a conductor.

    [circuit-laws] [vehicle-survey]
    """
    loop = fit.body_loop
    if loop is None:
        return
    drop, current = measured(fit, loop)
    over, dropped = one_end("U_body", loop.drop, drop, fit.shop.meter.voltage, high=True)
    under, through = one_end("I_body", loop.current, current, fit.shop.meter.current, high=False)
    low, high = body_ends(fit)
    yield figure(
        NAME,
        high,
        "ohm",
        2,
        f"R_body = {over} / {under}",
        *dropped,
        *through,
        end="end.measured_body",
        ends=(low, high),
    )


def one_end(
    symbol: str, written: Quantity, ends: Off, meter: Quantity, *, high: bool
) -> tuple[str, tuple[Input, ...]]:
    """Return one end of a measured figure as it stands in a formula, with its inputs.

    [vehicle-survey] [shop-rule]
    """
    if not ends.meter:
        return symbol, (given(symbol, written, ends.high if high else ends.low),)
    share = f"a_{symbol[0]}"
    by = "·" if high else " / "
    return f"({symbol}{by}(1 + {share}))", (given(symbol, written), given(share, meter))


def body_drop(named: dict[str, Figure], point: Operating, between: Corners) -> Iterator[Figure]:
    """What the body drops at the typical supply voltage; none by a conductor.

    [circuit-laws]
    """
    if NAME not in named:
        return
    ohms = named[NAME]
    current = Input(symbol="I", value=point.current_A, unit="A", figure="current_typ")
    least, most = between.of("current_A")
    yield figure(
        "body_drop_typ",
        point.current_A * ohms.value,
        "V",
        3,
        "dU = I·R_body",
        current,
        from_figure("R_body", ohms),
        ends=(least * ohms.low, most * ohms.high),
    )
