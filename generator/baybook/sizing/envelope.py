"""How far the chosen design holds: the longest route, the lowest supply.

The same circuit is put before the judge again with other survey figures, until it fails.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace

from baybook.design import Design
from baybook.finding import Finding, Verdict
from baybook.fit import Fit
from baybook.quantity import Quantity
from baybook.sizing.lengths import route_length
from baybook.sizing.work_out import with_route, with_supply

_LENGTH_STEP_M = 0.1  # what a tape laid along a route is read to
_VOLTAGE_STEP_V = 0.01  # what a meter shows
_LONGEST_STEPS = 1024  # a power of two halves evenly

Judge = Callable[[Design], tuple[Finding, ...]]


@dataclass(frozen=True, slots=True, kw_only=True)
class Envelope:
    """The ends of what the design holds for."""

    length_m: float
    supply_V: float


def envelope(design: Design, judge: Judge) -> Envelope:
    """Return the longest route and the lowest running voltage that still pass.

    Each is moved alone, in steps of 0.1 m and 0.01 V; the last step that passes counts.
    [shop-rule]

    design  bare and passing
    judge   as for choose
    """
    length = route_length(design.fit.vehicle.routes[design.fit.job.route].segments)
    lowest = design.fit.vehicle.supply.low.low

    def reaches(steps: int) -> bool:
        longer = (length + steps * _LENGTH_STEP_M) / length
        return _fine(with_route(design, _stretched(design.fit, longer)), judge)

    def holds(steps: int) -> bool:
        lower = lowest - steps * _VOLTAGE_STEP_V
        return lower > 0 and _fine(with_supply(design, _sagging(design.fit, lower)), judge)

    return Envelope(
        length_m=round(length + _last(reaches) * _LENGTH_STEP_M, 6),
        supply_V=round(lowest - _last(holds) * _VOLTAGE_STEP_V, 6),
    )


def _last(passes: Callable[[int], bool]) -> int:
    """Return the last number of steps that passes; zero passes, and failing stays failing."""
    good, bad = 0, _LONGEST_STEPS
    while bad - good > 1:
        middle = (good + bad) // 2
        good, bad = (middle, bad) if passes(middle) else (good, middle)
    return good


def _fine(design: Design, judge: Judge) -> bool:
    return not any(finding.verdict is Verdict.REFUSED for finding in judge(design))


def _stretched(fit: Fit, by: float) -> Fit:
    route = fit.vehicle.routes[fit.job.route]
    segments = tuple(
        segment.model_copy(update={"length": _times(segment.length, by)})
        for segment in route.segments
    )
    longer = route.model_copy(update={"segments": segments})
    return _with_vehicle(fit, {"routes": {**fit.vehicle.routes, fit.job.route: longer}})


def _sagging(fit: Fit, volts: float) -> Fit:
    supply = fit.vehicle.supply
    low = replace(supply.low, value=volts, low=volts, high=volts)
    return _with_vehicle(fit, {"supply": supply.model_copy(update={"low": low})})


def _with_vehicle(fit: Fit, update: dict[str, object]) -> Fit:
    return replace(fit, vehicle=fit.vehicle.model_copy(update=update))


def _times(length: Quantity, by: float) -> Quantity:
    return replace(length, value=length.value * by, low=length.low * by, high=length.high * by)
