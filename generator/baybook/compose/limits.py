"""What a meter may show: a prediction widened by the part's tolerance and by the shop's meter."""

from __future__ import annotations

from math import ceil, floor

from baybook.compose.practice import REST_OVER, REST_UNDER
from baybook.compose.work import Work
from baybook.finding import Amount


def volts(value: float, digits: int = 1) -> Amount:
    return Amount(value, "V", digits)


def rest(work: Work) -> tuple[Amount, Amount]:
    """Return the band of a healthy battery at rest, around the surveyed rest voltage."""
    surveyed = work.fit.vehicle.supply.rest
    meter = work.fit.shop.meter.voltage.value
    low = surveyed.low * (1 - REST_UNDER.value - meter)
    high = surveyed.high * (1 + REST_OVER.value + meter)
    return volts(low), volts(high)


def output_open(work: Work) -> tuple[Amount, Amount]:
    """Return the band of the set voltage at the open plug.

    The meter's tolerance never widens it past what the station takes: the top is the lower
    of window and absolute maximum less the shop's margin.
    """
    charger, station, shop = work.fit.charger, work.fit.station, work.fit.shop
    meter = shop.meter.voltage.value
    spread = charger.output_tolerance.value + meter
    setting = work.design.choice.set_V
    margin = shop.limits.absolute_margin.value.value
    top = min(station.window_max.value, station.absolute.value * (1 - margin))
    high = setting * (1 + spread)
    bound = floor(top * 10 + 1e-9) / 10  # a limit of the station is never rounded up
    return volts(setting * (1 - spread)), volts(min(high, bound))


def holds_up_to(work: Work, figure: str) -> Amount:
    """Return an upper end of the envelope, never rounded up."""
    found = work.design.figure(figure)
    return Amount(floor(found.value * 10 + 1e-9) / 10, found.unit, 1)


def holds_from(work: Work, figure: str) -> Amount:
    """Return a lower end of the envelope, never rounded down."""
    found = work.design.figure(figure)
    return Amount(ceil(found.value * 10 - 1e-9) / 10, found.unit, 1)
