"""Round figures along an axis, and figures on a chart with no decimals but those they have."""

from __future__ import annotations

import math

from baybook.chart import Axis
from baybook.finding import Amount, Message
from baybook.quantity import Quantity

_STEPS = (1.0, 2.0, 2.5, 5.0, 10.0)
_PARTS = 5  # an axis has about so many steps
_FEW_DECADES = 2.5  # up to here 2 and 5 stand on a logarithmic axis too
_CLEAN = 9  # decimals; what is behind them is an artefact of binary numbers


def linear(title: Message, low: float, high: float, unit: str) -> Axis:
    """Return a linear axis that begins and ends where it is told to.

    low, high  its ends, in `unit`; high above low
    """
    step = _step((high - low) / _PARTS)
    first, last = math.ceil(low / step - 1e-9), math.floor(high / step + 1e-9)
    ticks = (round(number * step, _CLEAN) for number in range(first, last + 1))
    digits = fewest(step)
    return Axis(
        title=title,
        low=low,
        high=high,
        ticks=tuple(Amount(tick, unit, digits).plain() for tick in ticks),
    )


def logarithmic(title: Message, low: float, high: float, unit: str) -> Axis:
    """Return a logarithmic axis: figures at the decades, on a short one at 2 and 5 as well.

    low, high  its ends, in `unit`; both above 0, high above low
    """
    decades = range(math.floor(math.log10(low)), math.ceil(math.log10(high)) + 1)
    parts = (1, 2, 5) if math.log10(high / low) < _FEW_DECADES else (1,)
    values = (float(f"{part}e{decade}") for decade in decades for part in parts)
    ticks = tuple(Amount(v, unit, fewest(v)) for v in values if low <= v <= high)
    return Axis(title=title, low=low, high=high, ticks=ticks, log=True)


def fewest(value: float, most: int = 4) -> int:
    """Return how many decimals a figure has, not more than `most`."""
    exact = (digits for digits in range(most) if math.isclose(value, round(value, digits)))
    return next(exact, most)


def shown(value: float, unit: str, most: int = 2) -> Amount:
    """Return a figure with the decimals that it has, not more than `most`."""
    return Amount(value, unit, fewest(value, most))


def end_of(quantity: Quantity, end: float) -> Amount:
    """Return the end of a written figure that is used; as written where it has no tolerance."""
    return Amount.of(quantity) if end == quantity.value else shown(end, quantity.unit)


def _step(about: float) -> float:
    decade: float = 10.0 ** math.floor(math.log10(about))
    return next(part * decade for part in _STEPS if part * decade >= about * (1 - 1e-9))
