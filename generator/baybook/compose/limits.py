"""What a meter may show: a prediction widened by the part's tolerance and by the shop's meter."""

from __future__ import annotations

from collections.abc import Callable
from math import ceil, floor

from baybook.compose.work import Work
from baybook.finding import Amount
from baybook.units import convert


def volts(value: float, digits: int = 1) -> Amount:
    return Amount(value, "V", digits)


def least(work: Work, name: str, digits: int, show: str = "") -> Amount:
    """Return the low limit of a reading, never rounded up: a meter in its tolerance passes."""
    return _rounded(work, f"least_{name}", digits, show, floor)


def most(work: Work, name: str, digits: int, show: str = "") -> Amount:
    """Return the high limit of a reading, never rounded down."""
    return _rounded(work, f"most_{name}", digits, show, ceil)


def at_most(work: Work, name: str, digits: int, show: str = "") -> Amount:
    """Return a high limit that protects something: never rounded up."""
    return _rounded(work, f"most_{name}", digits, show, floor)


def _rounded(
    work: Work, figure: str, digits: int, show: str, outwards: Callable[[float], int]
) -> Amount:
    found = work.design.figure(figure)
    steps = 10**digits * (convert(1.0, found.unit, show) if show else 1.0)
    slack = 1e-9 if outwards is floor else -1e-9
    return Amount(outwards(found.value * steps + slack) / steps, found.unit, digits, show=show)


def rest(work: Work) -> tuple[Amount, Amount]:
    """Return the band of the battery at rest: as read, or as surveyed where it has no reading."""
    if work.has("least_rest"):
        return least(work, "rest", 2), most(work, "rest", 2)
    surveyed, meter = work.fit.vehicle.supply.rest, work.fit.shop.meter.voltage.value
    low, high = surveyed.low * (1 - meter), surveyed.high * (1 + meter)
    return volts(floor(low * 100) / 100, 2), volts(ceil(high * 100) / 100, 2)


def output_open(work: Work) -> tuple[Amount, Amount]:
    """Return the band of the set voltage at the open plug; its top is never rounded up."""
    return least(work, "open", 2), at_most(work, "open", 2)


def holds_up_to(work: Work, figure: str) -> Amount:
    """Return an upper end of the envelope, never rounded up."""
    found = work.design.figure(figure)
    return Amount(floor(found.value * 10 + 1e-9) / 10, found.unit, 1)


def holds_from(work: Work, figure: str) -> Amount:
    """Return a lower end of the envelope, never rounded down."""
    found = work.design.figure(figure)
    return Amount(ceil(found.value * 10 - 1e-9) / 10, found.unit, 1)
