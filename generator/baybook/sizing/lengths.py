"""How long each conductor is, and how much of it lies in which zone.

The electrical length is the cut length: the segments at the long end of their tolerance
plus the profile's end allowances, rounded up to what the bench cuts.
"""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass

from baybook.circuit import Leg
from baybook.fit import Fit
from baybook.quantity import Quantity
from baybook.route import Segment
from baybook.shop import Shop
from baybook.sizing.validity import above, within

_CLEAN = 9  # decimals; less than a micrometre is an artefact of binary numbers
_HAIR_M = 1e-9


@dataclass(frozen=True, slots=True, kw_only=True)
class Run:
    """The legs of each cut piece of the input side, in the direction of the current."""

    source: tuple[Leg, ...]  # empty where the vehicle maker's own fuse protects
    feed: tuple[Leg, ...]
    back: tuple[Leg, ...]


def round_up(length_m: float, step_m: float) -> float:
    """Length as it is cut: the next multiple of the step. [m]

    [shop-rule]

    length_m  0 or more [m]
    step_m    cutting step, above 0 [m]

    Raises:
        OutOfRange: an argument outside its range.
    """
    within(length_m, 0, float("inf"), "length", "m")
    above(step_m, 0, "cutting step", "m")
    return round(math.ceil(round(length_m / step_m, _CLEAN)) * step_m, _CLEAN)


def long_end(length: Quantity, tolerance: float) -> float:
    """Length at the long end of its tolerance, its own or else the profile's. [m]

    [shop-rule]

    length     as measured [m]
    tolerance  of the profile, for a length written without one, 0 to 1 [1]

    Raises:
        OutOfRange: an argument outside its range.
    """
    within(tolerance, 0, 1, "tolerance of a length")
    return length.high if length.high > length.value else length.value * (1 + tolerance)


def short_end(length: Quantity, tolerance: float) -> float:
    """Length at the short end of its tolerance, its own or else the profile's. [m]

    [shop-rule]

    length     as measured [m]
    tolerance  of the profile, for a length written without one, 0 to 1 [1]

    Raises:
        OutOfRange: an argument outside its range.
    """
    within(tolerance, 0, 1, "tolerance of a length")
    return length.low if length.low < length.value else length.value * (1 - tolerance)


def route_length(segments: Iterable[Segment]) -> float:
    """One-way length of a route as measured. [m]

    [vehicle-survey]
    """
    return round(sum(segment.length.value for segment in segments), _CLEAN)


def zone_at(segments: tuple[Segment, ...], at_m: float) -> str:
    """Id of the zone at a distance from the source.

    The last zone reaches as far as the tolerances of the lengths. [vehicle-survey]

    at_m  from the source, 0 to the long end of the route [m]

    Raises:
        OutOfRange: a distance beyond the long end.
    """
    longest = sum(segment.length.high for segment in segments)
    within(at_m, 0, longest + _HAIR_M, "distance along the route", "m")
    end = 0.0
    for segment in segments:
        end += segment.length.value
        if at_m <= end:
            return segment.zone
    return segments[-1].zone


def lay(fit: Fit, *, protected: bool, short: bool = False) -> Run:
    """Lay the input conductors along the route.

    The fuse distance counts along the conductor. The allowance is shared by the run
    before the fuse and the run behind it; the return has its own. [shop-rule]

    protected  a vehicle maker's fuse protects the point itself: no run before it
    short      the other end of the interval: segments at their short end, zones at their cool
               end; else the end that decides
    """
    shop = fit.shop
    route = _along(fit.vehicle.routes[fit.job.route].segments, shop, short=short)
    half = shop.lengths.end_allowance.value / 2
    fuse_m = 0.0 if protected else fit.job.source.fuse_at.value
    before, behind = _split(route, fuse_m)
    both = _longer(_longer(route, 0, half), -1, half)
    back = _to_body(fit, short=short) or _cut(both, shop)
    if protected:
        return Run(source=(), feed=_cut(both, shop), back=back)
    return Run(
        source=_cut(_longer(before, 0, half), shop),
        feed=_cut(_longer(behind, -1, half), shop),
        back=back,
    )


def _to_body(fit: Fit, *, short: bool) -> tuple[Leg, ...]:
    """From the charger to a body point, none where a conductor goes all the way back.

    It counts as lying in the warmer one of the two places.
    """
    length = fit.job.source.return_length
    if fit.body_loop is None or length is None:
        return ()
    shop = fit.shop
    tolerance, allowance = shop.lengths.segment_tolerance.value, shop.lengths.end_allowance.value
    point, mount = fit.vehicle.points[fit.job.source.negative], fit.vehicle.mounts[fit.job.mount]
    zone = max(point.zone, mount.zone, key=lambda one: shop.zones[one].temperature.high)
    ambient = shop.zones[zone].temperature
    leg = Leg(
        zone=zone,
        length_m=(short_end if short else long_end)(length, tolerance) + allowance,
        ambient_C=ambient.low if short else ambient.high,
    )
    return _cut([leg], shop)


def total(legs: Iterable[Leg]) -> float:
    """Length of one conductor. [m]

    [shop-rule]
    """
    return round(sum(leg.length_m for leg in legs), _CLEAN)


def _along(segments: tuple[Segment, ...], shop: Shop, *, short: bool) -> list[Leg]:
    tolerance = shop.lengths.segment_tolerance.value
    legs: list[Leg] = []
    for segment in segments:
        length = (short_end if short else long_end)(segment.length, tolerance)
        if legs and legs[-1].zone == segment.zone:
            legs[-1] = _by(legs[-1], length)
        else:
            ambient = shop.zones[segment.zone].temperature
            ambient_C = ambient.low if short else ambient.high
            legs.append(Leg(zone=segment.zone, length_m=length, ambient_C=ambient_C))
    return legs


def _split(route: list[Leg], at_m: float) -> tuple[list[Leg], list[Leg]]:
    before: list[Leg] = []
    behind: list[Leg] = []
    left = at_m
    for leg in route:
        near = min(left, leg.length_m)
        if near > 0 or not before:
            before.append(_by(leg, near - leg.length_m))
        if leg.length_m > near or leg is route[-1]:
            behind.append(_by(leg, -near))
        left -= near
    return before, behind


def _longer(legs: list[Leg], which: int, by_m: float) -> list[Leg]:
    changed = list(legs)
    changed[which] = _by(changed[which], by_m)
    return changed


def _by(leg: Leg, by_m: float) -> Leg:
    return Leg(zone=leg.zone, length_m=leg.length_m + by_m, ambient_C=leg.ambient_C)


def _cut(legs: list[Leg], shop: Shop) -> tuple[Leg, ...]:
    """Round the whole up; what that adds lies in the last zone."""
    length = total(legs)
    spare = round_up(length, shop.lengths.cutting_step.value) - length
    return tuple(_longer(legs, -1, spare))
