"""The vehicle's body as the return: what its measured loop drop says about its resistance."""

from __future__ import annotations

from dataclasses import dataclass

from baybook.fit import Fit
from baybook.quantity import Quantity
from baybook.sizing.validity import above
from baybook.vehicle import BodyLoop


@dataclass(frozen=True, slots=True, kw_only=True)
class Off:
    """A measured figure between its ends, and the meter's share where no tolerance is written."""

    low: float
    high: float
    meter: bool


def loop_resistance(drop: tuple[float, float], current: tuple[float, float]) -> tuple[float, float]:
    """Low and high end of the resistance between the two points. [ohm]

    R = U / I: least drop over most current, and most drop over least current  [circuit-laws]

    drop     low and high end, above 0 [V]
    current  low and high end, above 0 [A]

    Leaves out: the warming of the steel, and joints of the body that get worse with the years;
    the drop is read again at every fit and at every check.

    Raises:
        OutOfRange: an argument outside its range.
    """
    above(drop[0], 0, "drop of the body", "V")
    above(current[0], 0, "current through the body", "A")
    return drop[0] / current[1], drop[1] / current[0]


def off(quantity: Quantity, meter: float) -> Off:
    """Return the ends of a measured figure: its own tolerance, or else the shop's meter's.

    [vehicle-survey], [shop-rule]

    meter  share that the shop's meter may be off by, 0 to 1 [1]
    """
    if quantity.low < quantity.value or quantity.high > quantity.value:
        return Off(low=quantity.low, high=quantity.high, meter=False)
    least, most = quantity.value / (1 + meter), quantity.value * (1 + meter)
    return Off(low=least, high=most, meter=True)


def measured(fit: Fit, loop: BodyLoop) -> tuple[Off, Off]:
    """Drop and current of a loop between their ends. [V] [A]

    [vehicle-survey]
    """
    meter = fit.shop.meter
    return off(loop.drop, meter.voltage.value), off(loop.current, meter.current.value)


def body_ends(fit: Fit) -> tuple[float, float]:
    """Low and high end of what the body adds to the loop; nought where a conductor returns. [ohm]

    R = U / I        [circuit-laws] [vehicle-survey]

    Raises:
        OutOfRange: a drop or a current of nought.
    """
    if fit.body_loop is None:
        return 0.0, 0.0
    drop, current = measured(fit, fit.body_loop)
    return loop_resistance((drop.low, drop.high), (current.low, current.high))
