"""The output side: power steps, set voltages, and what reaches the station."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from baybook.fit import Fit
from baybook.part import CableSize
from baybook.sheet import ChargerSheet, StationSheet
from baybook.sizing.ampacity import steady_temperature
from baybook.sizing.capacity import PAIR, Around, capacity
from baybook.sizing.conductor import resistance_at
from baybook.sizing.validity import OutOfRange, above, within
from baybook.solved import Output

_CLEAN = 6  # decimals of a set voltage


@dataclass(frozen=True, slots=True, kw_only=True)
class Step:
    """A power the charger can be held to, with the input limit that its sheet states for it."""

    power_W: float
    input_limit_A: float
    kept: bool


def power_steps(charger: ChargerSheet, station_W: float) -> tuple[Step, ...]:
    """Return the power steps to try, the wanted one first.

    The lowest that gives the station's full power, then the lower ones downwards; a step
    counts only if it is kept without power and through a reset, else the highest is all
    there is [shop-rule].

    station_W  what the station takes at most, above 0 [W]

    Raises:
        OutOfRange: an argument outside its range.
    """
    above(station_W, 0, "power of the station", "W")
    highest = Step(
        power_W=charger.output_power.value,
        input_limit_A=charger.input_current.high,
        kept=charger.power.kept if charger.power else True,
    )
    if charger.power is None or not charger.power.kept:
        return (highest,)
    steps = sorted(
        (
            Step(power_W=step.power.value, input_limit_A=step.input_limit.high, kept=True)
            for step in charger.power.steps
        ),
        key=lambda step: step.power_W,
    )
    full = [step for step in steps if step.power_W >= station_W]
    return (*full[:1], *(step for step in reversed(steps) if step.power_W < station_W))


def set_voltages(charger: ChargerSheet) -> tuple[float, ...]:
    """Return every voltage that can be set, rising; the default is one of them. [V]

    [fit-sheet]
    """
    low, high, step = (
        charger.output_min.value,
        charger.output_max.value,
        charger.output_step.value,
    )
    count = math.floor(round((high - low) / step, _CLEAN))
    grid = {round(low + n * step, _CLEAN) for n in range(count + 1)}
    return tuple(sorted(grid | {charger.output_default.value}))


@dataclass(frozen=True, slots=True, kw_only=True)
class Offer:
    """What charger and station make of one set voltage, whatever lead lies between them."""

    full_W: float
    power_W: float
    sure_W: float


def offer(charger: ChargerSheet, station: StationSheet, step_W: float, set_V: float) -> Offer:
    """Power at one set voltage: at most, as set, and at the low end of the tolerance. [W]

    [fit-sheet]

    step_W  power step, 0 or more [W]
    set_V   set voltage, above 0 [V]

    Raises:
        OutOfRange: an argument outside its range.
    """
    return Offer(
        full_W=full_power(charger, station, step_W),
        power_W=power_at(charger, station, step_W, set_V),
        sure_W=power_at(charger, station, step_W, bounds(charger, set_V)[0]),
    )


def in_order_of_choice(
    outputs: Sequence[tuple[float, Output | Offer]], default: float
) -> list[float]:
    """Set voltages in the order they are to be tried. [V]

    The default if it gives full power; else the lowest that does at its low tolerance;
    then the others by the power they are sure to give [shop-rule].

    outputs  (set voltage, what it gives), any [V]
    default  factory setting, any [V]
    """

    def rank(option: tuple[float, Output | Offer]) -> tuple[bool, bool, float, float]:
        set_V, output = option
        full = output.sure_W >= output.full_W
        return (not full, not (full and set_V == default), -output.sure_W, set_V)

    return [set_V for set_V, _ in sorted(outputs, key=rank)]


def miss(station: StationSheet, output: Output) -> float:
    """How far an output band lies outside the station's window, to rank what fails. [V]

    [fit-sheet], [shop-rule]
    """
    over = max(0.0, output.high_V - station.window_max.low)
    return over + max(0.0, station.start.high - output.low_V)


def bounds(charger: ChargerSheet, set_V: float) -> tuple[float, float]:
    """Lowest and highest voltage that a setting may give: tolerance and overshoot counted. [V]

    low = U_set (1 - tol),  high = U_set (1 + tol) + overshoot        [fit-sheet]

    set_V  set voltage, above 0 [V]

    Raises:
        OutOfRange: an argument outside its range.
    """
    above(set_V, 0, "set voltage", "V")
    tolerance = charger.output_tolerance.high
    return set_V * (1 - tolerance), set_V * (1 + tolerance) + charger.overshoot.high


def power_at(charger: ChargerSheet, station: StationSheet, step_W: float, U: float) -> float:
    """Power that leaves the charger at an output voltage. [W]

    min(step, charger's watts, station's watts, U · smaller current limit) [fit-sheet]

    step_W  power step, 0 or more [W]
    U       output voltage, above 0 [V]

    Raises:
        OutOfRange: an argument outside its range.
    """
    above(U, 0, "output voltage", "V")
    return min(full_power(charger, station, step_W), U * most_current(charger, station))


def full_power(charger: ChargerSheet, station: StationSheet, step_W: float) -> float:
    """Power that step and station allow. [W]

    [fit-sheet]

    step_W  power step, 0 or more [W]

    Raises:
        OutOfRange: an argument outside its range.
    """
    within(step_W, 0, float("inf"), "power step", "W")
    return min(step_W, charger.output_power.value, station.input_power.value)


def most_current(charger: ChargerSheet, station: StationSheet) -> float:
    """The smaller of both current limits. [A]

    [fit-sheet]
    """
    return min(charger.output_current.value, station.input_current.value)


def binding(charger: ChargerSheet, station: StationSheet, step_W: float, U: float) -> str:
    """Say which limit binds at an output voltage; the station is named first on a tie.

    [fit-sheet]

    step_W  power step, 0 or more [W]
    U       output voltage, above 0 [V]

    Raises:
        OutOfRange: an argument outside its range.
    """
    within(step_W, 0, float("inf"), "power step", "W")
    above(U, 0, "output voltage", "V")
    limits = {
        "station power": station.input_power.value,
        "station current": station.input_current.value * U,
        "charger power": min(step_W, charger.output_power.value),
        "charger current": charger.output_current.value * U,
    }
    return min(limits, key=limits.__getitem__)


def lead_size(fit: Fit) -> CableSize:
    """Size of the output lead; intake has seen to it that its sheet lists it.

    [fit-sheet]
    """
    wanted = fit.job.output_area.value
    return next(size for size in fit.output_cable.sizes if size.area.value == wanted)


def solve_output(fit: Fit, step_W: float, set_V: float, lead_A: float | None = None) -> Output:
    """Work out the output side at one set voltage.

    I = P / U_set,  U = U_set - I R_lead        [circuit-laws]

    step_W  power step, 0 or more [W]
    set_V   set voltage, above 0 [V]
    lead_A  I_T of the lead where it is worked out already, any [A]

    Raises:
        OutOfRange: an argument outside its range.
    """
    charger, station = fit.charger, fit.station
    low, high = bounds(charger, set_V)
    default_low, default_high = bounds(charger, charger.output_default.value)
    given = offer(charger, station, step_W, set_V)
    power = given.power_W
    carried = lead_capacity(fit) if lead_A is None else lead_A
    theta = lead_temperature(fit, power / set_V, carried)
    R = lead_resistance(fit, theta)
    return Output(
        full_W=given.full_W,
        power_W=power,
        sure_W=given.sure_W,
        limit=binding(charger, station, step_W, low),
        low_V=low,
        high_V=high,
        default_low_V=default_low,
        default_high_V=default_high,
        current_A=power / set_V,
        most_A=most_current(charger, station),
        lead_ohm=R,
        lead_carries_A=carried,
        station_V=set_V - power / set_V * R,
        drop=power / set_V * R / set_V,
    )


def lead_ambient(fit: Fit) -> float:
    """Temperature around the output lead: the charger's zone, the high end. [°C]

    [shop-rule]
    """
    return fit.shop.zones[fit.vehicle.mounts[fit.job.mount].zone].temperature.high


def lead_capacity(fit: Fit) -> float:
    """I_T of the output lead in the charger's zone, 0 where its source gives none. [A]

    [fit-sheet], [cfr183-425]
    """
    return capacity(fit, fit.output_cable, lead_size(fit), around_lead(fit))


def around_lead(fit: Fit) -> Around:
    """Return what surrounds the output lead: the charger's zone, both conductors. [°C]

    [shop-rule]
    """
    zone = fit.shop.zones[fit.vehicle.mounts[fit.job.mount].zone]
    return Around(ambient_C=zone.temperature.high, engine_space=zone.engine_space, bundled=PAIR)


def lead_temperature(fit: Fit, I: float, I_T: float) -> float:  # noqa: E741 - IEC letter
    """Temperature of the output lead at its current, never above what its cable may reach. [°C]

    [heat-balance]

    I    current in the lead, any [A]
    I_T  what it carries, any; 0 where its sheet gives none: then it counts as hot as may be [A]
    """
    theta_max = fit.output_cable.conductor_max.value
    try:
        return min(steady_temperature(lead_ambient(fit), theta_max, I, I_T), theta_max)
    except OutOfRange:
        return theta_max


def lead_resistance(fit: Fit, theta_C: float) -> float:
    """Resistance of the output lead, both conductors. [ohm]

    R = 2 l R'        [circuit-laws] [iec60364-5-54]

    theta_C  temperature of its copper, -40 to 500 [°C]

    Leaves out: the contacts of the connector, for which no sheet gives a figure.

    Raises:
        OutOfRange: theta outside the range.
    """
    per_metre = resistance_at(lead_size(fit).resistance.high, theta_C)
    if fit.second is None:
        return 2 * fit.job.output_length.high * per_metre
    ends = fit.shop.lengths.end_allowance.value
    joint = fit.shop.joints.protection.high
    return 2 * (fit.job.output_length.high + ends) * per_metre + joint
