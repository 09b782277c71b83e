"""A line of the vehicle that the feed shares with other loads: solved as a network.

Battery's plus, the vehicle's own line, the tapped point with what else hangs on it, our feed,
the charger. What the others draw drops in the line before it reaches the feed, and the feed's
own current drops in it again.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from baybook.fit import Fit
from baybook.point import SharedLine
from baybook.quantity import Quantity
from baybook.sizing.body import loop_resistance, off
from baybook.sizing.network import solve
from baybook.solved import Line, Load, Network, Shared

TAP, END = "tap", "charger"


@dataclass(frozen=True, slots=True, kw_only=True)
class Tapped:
    """The vehicle's own line, and what else hangs on its end."""

    ohm: float
    current_A: float
    power_W: float


def shared_line(U: float, P: float, feed: Line, tapped: Tapped) -> Shared:
    """Solve the vehicle's line and our feed behind it as one network.

    I_s = I + I_o + P_o / U_tap,  U_tap = U - I_s R_line        [circuit-laws]

    U       voltage at the battery's posts under load, above 0 [V]
    P       power at the charger's input, above 0 [W]
    feed    our loop as a line from TAP to END
    tapped  the vehicle's line, its resistance above 0, its loads 0 or more

    Leaves out: the way back of the other loads, which end at the body by leads of their own.

    Raises:
        NoSolution: the loads cannot be fed.
        OutOfRange: an argument outside its range.
    """
    line = Line(node=TAP, parent="", idle_ohm=tapped.ohm, warming=0.0)
    others = Load(node=TAP, power_W=tapped.power_W, current_A=tapped.current_A)
    loads = (others, Load(node=END, power_W=P))
    flow = solve(Network(supply_V=U, lines=(line, feed), loads=loads))
    tap_V = flow.node(TAP).voltage_V
    others_A = tapped.current_A + tapped.power_W / tap_V
    return Shared(ohm=tapped.ohm, tap_V=tap_V, others_A=others_A)


def line_of(fit: Fit) -> SharedLine | None:
    """Return the vehicle's own line to the point that the feed starts at.

    [vehicle-survey]
    """
    return fit.vehicle.points[fit.job.source.positive].line


def line_ends(fit: Fit, line: SharedLine) -> tuple[float, float]:
    """Low and high end of the line's resistance, from its measured drop. [ohm]

    R = U / I        [circuit-laws] [vehicle-survey]

    Raises:
        OutOfRange: a drop or a current of nought.
    """
    meter = fit.shop.meter
    drop, current = off(line.drop, meter.voltage.value), off(line.current, meter.current.value)
    return loop_resistance((drop.low, drop.high), (current.low, current.high))


def tapped_line(fit: Fit, *, light: bool) -> Tapped | None:
    """Return the line with its loads; None where the feed has its own from the battery.

    [circuit-laws] [vehicle-survey]

    light  others off, resistance at the low end; else all on, everything at the high end
    """
    line = line_of(fit)
    if line is None:
        return None
    low, high = line_ends(fit, line)
    if light:
        return Tapped(ohm=low, current_A=0.0, power_W=0.0)
    return Tapped(
        ohm=high,
        current_A=_sum(load.current for load in line.loads),
        power_W=_sum(load.power for load in line.loads),
    )


def _sum(loads: Iterable[Quantity | None]) -> float:
    return sum(load.high for load in loads if load is not None)
