"""How far the chosen design holds: longest route, supply, ambients, battery, loads.

The same circuit is put before the judge again with one survey figure moved, until it fails.
Only the rules whose subject depends on that figure are asked: a test asks them all.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace

from baybook.design import Bound, Design
from baybook.finding import Verdict
from baybook.fit import Fit
from baybook.quantity import Quantity, State, Unknown
from baybook.sizing.lengths import route_length
from baybook.sizing.protection import WEAKER
from baybook.sizing.weighed import Judge
from baybook.sizing.work_out import (
    with_ambient,
    with_battery,
    with_loads,
    with_route,
    with_supply,
)

_LENGTH_STEP_M = 0.1  # what a tape laid along a route is read to
_VOLTAGE_STEP_V = 0.01  # what a meter shows
_AMBIENT_STEP_K = 1.0
_INTERNAL_STEP_OHM = 0.0001
_LOAD_STEP_A = 0.1
_LONGEST_STEPS = 1024  # a power of two halves evenly
_WARMEST_STEPS = 64  # past any cable's own limit

_FEED = ("CA", "OC", "SU")  # letters of the codes whose rules look at the input side


@dataclass(frozen=True, slots=True, kw_only=True)
class _Axis:
    """One figure that is moved, and what depends on it."""

    name: str
    start: float
    step: float  # with its sign
    unit: str
    about: tuple[str, ...]  # subjects of the rules that are asked
    moved: Callable[[float], Design | None]  # by so much; None: there is no such figure
    zone: str = ""
    most: int = _LONGEST_STEPS


def envelope(design: Design, judge: Judge) -> tuple[Bound, ...]:
    """Return the ends of what the design holds for, each figure moved alone in small steps.

    Longest route, lowest and highest running voltage, each zone's ambient, the battery's
    highest internal resistance, the highest load of a winter night. The last step that
    passes counts. Of route and lowest voltage there is always one; of the others only
    where a rule refuses within the steps that are tried.
    [shop-rule]

    design  bare and passing
    judge   as for choose
    """
    found = (_bound(axis, judge) for axis in _axes(design))
    return tuple(one for one in found if one.rule or one.name in {"length", "supply"})


def _bound(axis: _Axis, judge: Judge) -> Bound:
    """Halve the steps: zero passes, and failing stays failing."""
    good, bad, rule = 0, axis.most, ""
    while bad - good > 1:
        middle = (good + bad) // 2
        moved = axis.moved(middle * axis.step)
        refused = None if moved is None else _refused(moved, axis.about, judge)
        if refused == "":
            good = middle
        else:
            bad, rule = middle, refused or ""
    value = round(axis.start + good * axis.step, 6)
    return Bound(name=axis.name, zone=axis.zone, value=value, unit=axis.unit, rule=rule)


def _refused(design: Design, about: tuple[str, ...], judge: Judge) -> str:
    """Return the code of the first rule that refuses, "" for none."""
    for subject in about:
        for finding in judge(design, subject):
            if finding.verdict is Verdict.REFUSED:
                return finding.code
    return ""


# --------------------------------------------------------------------------- what is moved


def _axes(design: Design) -> Iterator[_Axis]:
    fit = design.fit
    supply = fit.vehicle.supply
    yield _route(design)
    yield _Axis(
        name="supply",
        start=supply.low.low,
        step=-_VOLTAGE_STEP_V,
        unit="V",
        about=(*_FEED, "CU"),
        moved=lambda by: _sagging(design, by),
    )
    yield _Axis(
        name="supply_high",
        start=supply.high.high,
        step=_VOLTAGE_STEP_V,
        unit="V",
        about=("SU", "OC"),
        moved=lambda by: with_battery(design, _supplied(fit, high=_by(supply.high, by))),
    )
    segments = fit.vehicle.routes[fit.job.route].segments
    mount = fit.vehicle.mounts[fit.job.mount].zone
    for zone in dict.fromkeys((*(segment.zone for segment in segments), mount)):
        yield _ambient(design, zone)
    internal = fit.vehicle.battery.internal
    if not isinstance(internal, Unknown):
        yield _battery(design, internal)
    if supply.hot_cruise is not None:
        yield _Axis(
            name="base",
            start=supply.base_night.high,
            step=_LOAD_STEP_A,
            unit="A",
            about=("SU",),
            moved=lambda by: with_loads(
                design, _supplied(fit, base_night=_by(supply.base_night, by))
            ),
        )


def _route(design: Design) -> _Axis:
    length = route_length(design.fit.vehicle.routes[design.fit.job.route].segments)
    return _Axis(
        name="length",
        start=length,
        step=_LENGTH_STEP_M,
        unit="m",
        about=(*_FEED, "PL"),
        moved=lambda by: with_route(design, _stretched(design.fit, (length + by) / length)),
    )


def _ambient(design: Design, zone: str) -> _Axis:
    return _Axis(
        name="ambient",
        zone=zone,
        start=design.fit.shop.zones[zone].temperature.high,
        step=_AMBIENT_STEP_K,
        unit="degC",
        about=(*_FEED, "OV", "HT", "SB"),
        moved=lambda by: with_ambient(design, _warmed(design.fit, zone, by), zone),
        most=_WARMEST_STEPS,
    )


def _battery(design: Design, internal: Quantity) -> _Axis:
    """The weak end of the battery; an estimate is moved so that the end moves by the step."""
    estimated = internal.basis.state is State.ESTIMATED
    factor = WEAKER if estimated else 1.0
    return _Axis(
        name="internal",
        start=WEAKER * internal.value if estimated else internal.high,
        step=_INTERNAL_STEP_OHM,
        unit="ohm",
        about=("OC",),
        moved=lambda by: with_battery(
            design,
            _with_vehicle(
                design.fit,
                battery=design.fit.vehicle.battery.model_copy(
                    update={"internal": _by(internal, by / factor)}
                ),
            ),
        ),
    )


def _stretched(fit: Fit, by: float) -> Fit:
    route = fit.vehicle.routes[fit.job.route]
    segments = tuple(
        segment.model_copy(update={"length": _times(segment.length, by)})
        for segment in route.segments
    )
    longer = route.model_copy(update={"segments": segments})
    return _with_vehicle(fit, routes={**fit.vehicle.routes, fit.job.route: longer})


def _sagging(design: Design, by: float) -> Design | None:
    low = design.fit.vehicle.supply.low
    volts = low.low + by
    if volts <= 0:
        return None
    sagged = replace(low, value=volts, low=volts, high=volts)
    return with_supply(design, _supplied(design.fit, low=sagged))


def _warmed(fit: Fit, zone: str, by: float) -> Fit:
    old = fit.shop.zones[zone]
    warmer = old.model_copy(update={"temperature": _by(old.temperature, by)})
    zones = {**fit.shop.zones, zone: warmer}
    return replace(fit, shop=fit.shop.model_copy(update={"zones": zones}))


def _supplied(fit: Fit, **update: Quantity) -> Fit:
    return _with_vehicle(fit, supply=fit.vehicle.supply.model_copy(update=update))


def _with_vehicle(fit: Fit, **update: object) -> Fit:
    return replace(fit, vehicle=fit.vehicle.model_copy(update=update))


def _by(old: Quantity, by: float) -> Quantity:
    return replace(old, value=old.value + by, low=old.low + by, high=old.high + by)


def _times(length: Quantity, by: float) -> Quantity:
    return replace(length, value=length.value * by, low=length.low * by, high=length.high * by)
