"""Between which ends a figure of the input side lies, from two corner cases.

Light: every tolerance at the end that draws least: high supply, little power, short cold runs,
thick copper, good contacts. Heavy: every tolerance at the other end; it is what the design is
judged by. Between them each figure moves one way with each input (the current of a constant
power falls with U and rises with R and P; R rises with length, temperature, R' and contacts;
warmth rises with the ambient as long as I ≤ I_T), so the two corners are its extremes.
"""

from __future__ import annotations

from dataclasses import dataclass

from baybook.design import Design
from baybook.quantity import Quantity
from baybook.sizing.capacity import current_limits
from baybook.sizing.feed import Loop, make_loop, working_point
from baybook.sizing.lengths import lay
from baybook.sizing.shared import tapped_line
from baybook.sizing.source import NoSolution, prospective_current
from baybook.sizing.work_out import input_power_ends, size_of
from baybook.solved import Operating


@dataclass(frozen=True, slots=True, kw_only=True)
class Corners:
    """The input loop at both ends of all tolerances."""

    light: Operating
    heavy: Operating
    light_loop: Loop
    heavy_loop: Loop

    def of(self, name: str) -> tuple[float, float]:
        """Low and high of a figure of an Operating, in its unit."""
        ends = getattr(self.light, name), getattr(self.heavy, name)
        return min(ends), max(ends)

    def warmth(self, zone: str) -> tuple[float, float]:
        """Low and high of the copper's temperature in a zone. [°C]"""
        light = self.light_loop.warmth(zone, self.light.current_A)
        return light, self.heavy_loop.warmth(zone, self.heavy.current_A)

    def drop_over(self, ohms: str) -> tuple[float, float]:
        """Low and high of the voltage over a part of the loop. [V]"""
        light, heavy = (p.current_A * getattr(p, ohms) for p in (self.light, self.heavy))
        return light, heavy


def corners(design: Design, supply: Quantity) -> Corners | None:
    """Both corners of the input loop at a supply voltage; None where the heavy one has none.

    [circuit-laws] [heat-balance]

    supply  running voltage with its tolerance; it counts as never below the lowest [V]
    """
    fit = design.fit
    least, most = input_power_ends(fit, design.choice.power_W)
    lowest = min(supply.value, max(supply.low, fit.vehicle.supply.low.low))
    thick, thin = loop(design, light=True), loop(design, light=False)
    try:
        return Corners(
            light=working_point(supply.high, least, thick),
            heavy=working_point(lowest, most, thin),
            light_loop=thick,
            heavy_loop=thin,
        )
    except NoSolution:
        return None


def loop(design: Design, *, light: bool) -> Loop:
    """Return the input loop with all its tolerances at the light or the heavy end.

    [fit-sheet], [shop-rule]
    """
    fit = design.fit
    size = size_of(fit, design.choice.area_mm2)
    run = lay(fit, protected=not design.choice.family, short=light)
    limits = current_limits(fit, size, (*run.source, *run.feed, *run.back), best=light)
    return make_loop(fit, run, size, limits, light=light)


def near_fault(design: Design, internal: tuple[float, float]) -> tuple[float, float]:
    """Least and most current of a short right behind the protection. [A]

    U_low / R_i,max to U_high / R_i,min        [circuit-laws]

    internal  low and high end of the battery's internal resistance, above 0 [ohm]

    Raises:
        OutOfRange: an argument outside its range.
    """
    supply, (strong, weak) = design.fit.vehicle.supply, internal
    line = tapped_line(design.fit, light=False)
    least = weak + (line.ohm if line else 0.0)
    return prospective_current(supply.low.low, least), prospective_current(supply.high.high, strong)


def far_fault(design: Design, internal: tuple[float, float]) -> tuple[float, float]:
    """Least and most current of a short at the charger. [A]

    U_low / (R_i,max + R) with copper at theta_max, long runs and contacts, to
    U_high / (R_i,min + R) with copper at -40 °C, short runs and no contacts    [circuit-laws]

    internal  low and high end of the battery's internal resistance, above 0 [ohm]

    Raises:
        OutOfRange: an argument outside its range.
    """
    supply, (strong, weak) = design.fit.vehicle.supply, internal
    most, least = loop(design, light=False).at_most(), loop(design, light=True).at_least()
    return (
        prospective_current(supply.low.low, weak + most),
        prospective_current(supply.high.high, strong + least),
    )
