"""The input loop at its working point: current, warmth and resistance hang on each other.

More current warms the copper, warm copper resists more, and more resistance draws more
current at constant power. The loop is followed from cold copper upwards, so that it ends
at the working point or shows that there is none.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache

from baybook.circuit import Leg
from baybook.fit import Fit
from baybook.part import CableSize
from baybook.quantity import Quantity
from baybook.sheet import ChargerSheet
from baybook.sizing.ampacity import steady_temperature
from baybook.sizing.body import body_ends
from baybook.sizing.conductor import resistance_at
from baybook.sizing.lengths import Run
from baybook.sizing.network import one_load
from baybook.sizing.shared import END, TAP, Tapped, shared_line, tapped_line
from baybook.sizing.source import NoSolution
from baybook.sizing.validity import OutOfRange, within
from baybook.solved import Feed, Line, Operating
from baybook.terms import CueKind

COLDEST_C = -40.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Stretch:
    """All of one conductor that lies at one ambient."""

    zone: str
    ambient_C: float
    length_m: float
    carries_A: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Loop:
    """Both conductors and their joints; the resistance follows the current."""

    r20_ohm_per_m: float
    theta_max_C: float
    out: tuple[Stretch, ...]
    back: tuple[Stretch, ...]
    out_joints_ohm: float
    back_joints_ohm: float
    body_ohm: float = 0.0  # of the vehicle's body, where it carries the return
    tapped: Tapped | None = None  # the vehicle's own line, where the feed starts at its end

    def ohms(self, I: float) -> tuple[float, float]:  # noqa: E741 - IEC letter
        """Resistance of the way out and of the way back at this current. [ohm]"""
        return (
            self.out_joints_ohm + self._copper(self.out, I),
            self.back_joints_ohm + self.body_ohm + self._copper(self.back, I),
        )

    def law(self) -> tuple[tuple[float, float], tuple[float, float]]:
        """Return (R_0, c) of the way out and of the way back, so that R = R_0 + c I².

        Heat goes with the square of the current and resistance with heat, so two points of
        the law give the whole of it.
        """
        return _law(self)

    def line(self, node: str, parent: str = "") -> Line:
        """Return this loop as a line of a network."""
        (out_idle, out_law), (back_idle, back_law) = self.law()
        return Line(
            node=node,
            parent=parent,
            idle_ohm=out_idle + back_idle,
            warming=out_law + back_law,
        )

    def hottest(self, I: float) -> float:  # noqa: E741
        """Temperature of the warmest stretch. [°C]"""
        return max(self._theta(stretch, I) for stretch in (*self.out, *self.back))

    def warmth(self, zone: str, I: float) -> float:  # noqa: E741
        """Temperature of the copper in a zone; StopIteration if none of it lies there. [°C]"""
        there = next(stretch for stretch in (*self.out, *self.back) if stretch.zone == zone)
        return self._theta(there, I)

    def at_most(self) -> float:
        """Resistance with all copper at theta_max. [ohm]"""
        hot = resistance_at(self.r20_ohm_per_m, self.theta_max_C)
        fixed = self.out_joints_ohm + self.back_joints_ohm + self.body_ohm + self._line()
        return fixed + self._metres() * hot

    def at_least(self) -> float:
        """Resistance with all copper at -40 °C, the lowest of [iso16750-4], no contacts. [ohm]

        Those inside body and line of the vehicle are part of what was measured, and stay.
        """
        cold = resistance_at(self.r20_ohm_per_m, COLDEST_C)
        return self.body_ohm + self._line() + self._metres() * cold

    def _line(self) -> float:
        return self.tapped.ohm if self.tapped else 0.0

    def _metres(self) -> float:
        return sum(stretch.length_m for stretch in (*self.out, *self.back))

    def _copper(self, stretches: tuple[Stretch, ...], I: float) -> float:  # noqa: E741
        return sum(
            stretch.length_m * resistance_at(self.r20_ohm_per_m, self._theta(stretch, I))
            for stretch in stretches
        )

    def _theta(self, stretch: Stretch, I: float) -> float:  # noqa: E741
        return steady_temperature(stretch.ambient_C, self.theta_max_C, I, stretch.carries_A)


@lru_cache(maxsize=16)  # asked for at every supply voltage
def _law(loop: Loop) -> tuple[tuple[float, float], tuple[float, float]]:
    rated = min(stretch.carries_A for stretch in (*loop.out, *loop.back))
    cold, warm = loop.ohms(0.0), loop.ohms(rated)
    out, back = ((R_0, (R - R_0) / rated**2) for R_0, R in zip(cold, warm, strict=True))
    return out, back


def working_point(U: float, P: float, loop: Loop) -> Operating:
    """Solve the loop at this supply voltage with the charger drawing constant power.

    theta by zone, R' by theta, I by constant power, until the current stands still
    [heat-balance] [iec60364-5-54] [circuit-laws]

    With other loads on a line of the vehicle before it: the two lines as a network.

    U     voltage at the battery's posts under load, above 0 [V]
    P     power at the charger's input, above 0 [W]
    loop  conductors and joints

    Raises:
        NoSolution: no current exists at which the power arrives, or copper would not hold it.
    """
    try:
        (out_cold, out_law), (back_cold, back_law) = loop.law()
        line = None if loop.tapped is None else shared_line(U, P, loop.line(END, TAP), loop.tapped)
        U_feed = U if line is None else line.tap_V
        I = one_load(U_feed, P, out_cold + back_cold, out_law + back_law)  # noqa: E741
        hottest = loop.hottest(I)
        resistance_at(loop.r20_ohm_per_m, hottest)  # refuses copper beyond its law
    except OutOfRange as beyond:
        raise NoSolution(str(beyond)) from beyond
    out, back = out_cold + out_law * I**2, back_cold + back_law * I**2
    return Operating(
        supply_V=U,
        current_A=I,
        charger_V=U_feed - I * (out + back),
        loop_ohm=out + back,
        positive_ohm=out,
        return_ohm=back,
        hottest_C=hottest,
        line=line,
    )


def solve_feed(
    fit: Fit, power_W: float, loop: Loop, limits: dict[str, float], *, lowest_only: bool = False
) -> Feed:
    """Solve the input side at the lowest, the typical and the rest voltage of the supply.

    [circuit-laws]

    power_W      at the charger's input, 0 or more [W]
    limits       I_T by zone id, each 0 or more [A]
    lowest_only  leave out the other two, on which no refusal rests

    Raises:
        OutOfRange: an argument outside its range.
    """
    within(power_W, 0, float("inf"), "input power", "W")
    supply = fit.vehicle.supply
    zone = min(limits, key=limits.__getitem__)
    return Feed(
        power_W=power_W,
        cut_out_V=cut_out(fit.charger, fit.vehicle.cues[fit.job.cue].kind),
        carries_A=limits[zone],
        zone=zone,
        low=_try(supply.low.low, power_W, loop),
        typical=None if lowest_only else _try(supply.typical.value, power_W, loop),
        rest=None if lowest_only else _try(supply.rest.value, power_W, loop),
    )


def cut_out(charger: ChargerSheet, cue: CueKind) -> float:
    """Voltage at which the charger stops, by its start cue, the high end. [V]

    [fit-sheet]
    """
    return (charger.cut_out if cue is CueKind.VOLTAGE else charger.cut_out_run).high


def make_loop(
    fit: Fit, run: Run, size: CableSize, limits: dict[str, float], *, light: bool = False
) -> Loop:
    """Join the cut pieces to a loop of this cable size.

    [fit-sheet], [shop-rule]

    limits  I_T by zone id, each 0 or more [A]
    light   resistances at the low end of their tolerances; else at the high end, which decides

    Raises:
        OutOfRange: an argument outside its range.
    """
    for zone, carries_A in limits.items():
        within(carries_A, 0, float("inf"), f"capacity in {zone}", "A")
    joints = fit.shop.joints

    def end(quantity: Quantity) -> float:
        return quantity.low if light else quantity.high

    return Loop(
        r20_ohm_per_m=end(size.resistance),
        theta_max_C=fit.cable.conductor_max.value,
        out=_stretches((*run.source, *run.feed), limits),
        back=_stretches(run.back, limits),
        out_joints_ohm=end(joints.positive),
        back_joints_ohm=end(joints.negative),
        body_ohm=body_ends(fit)[0 if light else 1],
        tapped=tapped_line(fit, light=light),
    )


def _stretches(legs: tuple[Leg, ...], limits: dict[str, float]) -> tuple[Stretch, ...]:
    metres: dict[str, float] = {}
    ambient: dict[str, float] = {}
    for leg in legs:
        metres[leg.zone] = metres.get(leg.zone, 0.0) + leg.length_m
        ambient[leg.zone] = leg.ambient_C
    return tuple(
        Stretch(zone=zone, ambient_C=ambient[zone], length_m=length, carries_A=limits[zone])
        for zone, length in metres.items()
    )


def _try(U: float, P: float, loop: Loop) -> Operating | None:
    try:
        return working_point(U, P, loop)
    except NoSolution:
        return None
