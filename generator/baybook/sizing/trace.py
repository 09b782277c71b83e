"""How a figure is put together with its trace.

Formulas are written so that a person can follow them with the inputs beside them, and a
test can work them out again: letters of the inputs, + - · / ² √ ln min max ceil, up() for
rounding up to the cutting step. The font has no Greek: T is a temperature, eff an efficiency.
"""

from __future__ import annotations

from math import isclose

from baybook.figure import Figure, Input
from baybook.quantity import Quantity

SHEET = "fit-sheet"
SHOP_RULE = "shop-rule"
LAWS = "circuit-laws"
COPPER = "iec60364-5-54"
AMPACITY = "heat-balance"
OVERCURRENT = "iec60364-4-43"


def given(symbol: str, quantity: Quantity, value: float | None = None) -> Input:
    """Return an input that somebody wrote; `value` where an end of its tolerance is used.

    [fit-sheet]

    value  end of the tolerance that is used, any [unit of the quantity]
    """
    return Input(
        symbol=symbol,
        value=quantity.value if value is None else value,
        unit=quantity.unit,
        written=quantity.written,
        end=_end(quantity, value),
        basis=quantity.basis,
        where=quantity.where,
    )


def _end(quantity: Quantity, value: float | None) -> str:
    if value is None or value == quantity.value:
        return ""
    return "high" if value > quantity.value else "low"


def from_figure(symbol: str, figure: Figure) -> Input:
    """Return an input that is a figure itself.

    [shop-rule]
    """
    return Input(
        symbol=symbol,
        value=figure.value,
        unit=figure.unit,
        figure=figure.name,
        zone=figure.zone,
    )


def constant(symbol: str, value: float, unit: str, source: str) -> Input:
    """Return an input that a register entry gives.

    [shop-rule]

    value  any [unit]
    """
    return Input(symbol=symbol, value=value, unit=unit, source=source)


def figure(  # noqa: PLR0913 - a figure is all of this
    name: str,
    value: float,
    unit: str,
    digits: int,
    formula: str,
    *inputs: Input,
    sources: tuple[str, ...] = (LAWS,),
    end: str = "",
    ends: tuple[float, float] | None = None,
    show: str = "",
    zone: str = "",
) -> Figure:
    """Return a figure; its symbol is the left side of its formula.

    [shop-rule]

    value   any [unit]
    digits  decimals that are shown, any
    ends    low and high, any [unit]
    """
    low, high = ends or (value, value)
    return Figure(
        name=name,
        symbol=formula.partition(" ")[0],
        value=value,
        unit=unit,
        low=low,
        high=high,
        digits=digits,
        formula=formula,
        inputs=inputs,
        sources=sources,
        end=end,
        show=show,
        zone=zone,
    )


def as_written(  # noqa: PLR0913, PLR0917 - a figure is all of this
    name: str,
    symbol: str,
    quantity: Quantity,
    digits: int,
    end: str = "",
    value: float | None = None,
) -> Figure:
    """Return a figure that is a written value itself, with no decimals but those it has.

    [fit-sheet]

    digits  the most decimals that are shown, any
    value   the end of it that is used, any; else the value itself [unit of the quantity]
    """
    used = quantity.value if value is None else value
    fewest = (d for d in range(1, digits) if isclose(used, round(used, d)))
    return figure(
        name,
        used,
        quantity.unit,
        next(fewest, digits),
        f"{symbol} = U_s" if quantity.unit == "V" else f"{symbol} = x",
        given("U_s" if quantity.unit == "V" else "x", quantity, value),
        sources=(SHEET,),
        end=end,
        ends=(quantity.low, quantity.high),
    )
