"""What the vehicle has to spare, and how long its battery lasts."""

from __future__ import annotations

from baybook.fit import Fit
from baybook.quantity import Quantity
from baybook.sizing.validity import above, within
from baybook.solved import Budget, Feed
from baybook.terms import CueKind

HOURS_PER_DAY = 24


def spare_current(hot_A: float, headroom: float, base_A: float, charger_A: float) -> float:
    """Current that the supply has to spare, negative for a deficit. [A]

    headroom · I_hot - I_base - I_charger        [circuit-laws], headroom [shop-rule]

    hot_A      hot output at this speed, 0 or more [A]
    headroom   share of it that is counted on, 0 to 1 [1]
    base_A     the vehicle's own loads, 0 or more [A]
    charger_A  charger's input current, 0 or more [A]

    Raises:
        OutOfRange: an argument outside its range.
    """
    within(hot_A, 0, float("inf"), "hot output", "A")
    within(headroom, 0, 1, "headroom")
    within(base_A, 0, float("inf"), "own loads", "A")
    within(charger_A, 0, float("inf"), "charger's current", "A")
    return headroom * hot_A - base_A - charger_A


def days_until_flat(usable_Ah: float, drain_A: float) -> float:
    """Days until the usable charge is gone. [d]

    t = Q / I / 24 [circuit-laws]

    usable_Ah  usable charge, 0 or more [A h]
    drain_A    steady drain, 0 or more; infinite days at 0 [A]

    Raises:
        OutOfRange: an argument outside its range.
    """
    within(usable_Ah, 0, float("inf"), "usable charge", "A h")
    within(drain_A, 0, float("inf"), "drain", "A")
    return usable_Ah / drain_A / HOURS_PER_DAY if drain_A else float("inf")


def charge_hours(energy_Wh: float, power_W: float, efficiency: float) -> float:
    """Hours of a full charge at steady power, from empty. [h]

    t = E / (P · efficiency) [circuit-laws]

    energy_Wh   energy of the station, 0 or more [W h]
    power_W     power at its input, above 0 [W]
    efficiency  of its charging, above 0, and 0 to 1 [1]

    Leaves out: the taper near full, so the real time is longer.

    Raises:
        OutOfRange: an argument outside its range.
    """
    within(energy_Wh, 0, float("inf"), "energy", "W h")
    above(power_W, 0, "power", "W")
    above(efficiency, 0, "efficiency")
    within(efficiency, 0, 1, "efficiency")
    return energy_Wh / (power_W * efficiency)


def standing_current(rest_V: float, feed: Feed) -> float | None:
    """Current that a charger on the voltage cue may go on drawing at rest, None if it stops. [A]

    At full power, if its voltage stays above the cut-out; else, while the station tapers,
    up to I = (U_rest - U_cut-out) / R. It stops for sure only at a rest voltage that is
    not above the cut-out [shop-rule].

    rest_V  engine off for one hour, above 0 [V]
    feed    the solved input side

    Raises:
        OutOfRange: an argument outside its range.
    """
    above(rest_V, 0, "rest voltage", "V")
    if rest_V <= feed.cut_out_V:
        return None
    if feed.rest is not None and feed.rest.charger_V > feed.cut_out_V:
        return feed.rest.current_A
    loaded = feed.rest or feed.low
    return (rest_V - feed.cut_out_V) / loaded.loop_ohm if loaded else None


def solve_budget(fit: Fit, feed: Feed) -> Budget:
    """Work out the spare current of each state and the standby time after the fit.

    [circuit-laws], [shop-rule]
    """
    supply, battery = fit.vehicle.supply, fit.vehicle.battery
    sleep = supply.sleep.high + fit.charger.standby.high
    usable = fit.shop.limits.standby_share.value.value * battery.capacity.low
    return Budget(
        idle_day_A=_spare(fit, feed, supply.hot_idle, supply.base_day),
        idle_night_A=_spare(fit, feed, supply.hot_idle, supply.base_night),
        cruise_day_A=_spare(fit, feed, supply.hot_cruise, supply.base_day),
        cruise_night_A=_spare(fit, feed, supply.hot_cruise, supply.base_night),
        sleep_A=sleep,
        usable_Ah=usable,
        standby_d=days_until_flat(usable, sleep),
        standing_A=_standing(fit, feed),
    )


def _spare(fit: Fit, feed: Feed, hot: Quantity | None, base: Quantity) -> float | None:
    if hot is None or feed.low is None:
        return None
    headroom = fit.shop.limits.alternator_headroom.value.value
    return spare_current(hot.low, headroom, base.high, feed.low.current_A)


def _standing(fit: Fit, feed: Feed) -> float | None:
    if fit.vehicle.cues[fit.job.cue].kind is not CueKind.VOLTAGE:
        return None
    return standing_current(fit.vehicle.supply.rest.high, feed)
