"""Whole fits by lot: an example fit with every fact that decides a size drawn anew.

`drawn(seed)` gives the same valid `Fit` every time; `fits` is the same as a hypothesis strategy.
Supply kind and volts, battery, zones, route, cable stock, charger, station, protections, joints,
limits and mount are drawn within what a bay meets, wide enough that many are refused.
"""

from __future__ import annotations

import math
import random
from dataclasses import replace

from hypothesis import strategies as st

from baybook.fit import Fit
from baybook.quantity import Basis, Quantity, State, Unknown
from baybook.terms import AmpacitySource, CueKind, Fastener, SupplyKind
from variants import charger, job, quantity, station, vehicle
from workbooks import example_fit

BASES = (
    "brunsall-tansy/j1",
    "brunsall-tansy/j2",
    "dunstrel-cobble/j9b",
    "dunstrel-cobble-tow-pack/j9",
    "ostrigg-drey/j3",
    "pellmare-mirren/j5",
    "tessick-orlet/j7",  # a fuse of the vehicle's maker
    "tavlow-camber/j8",  # a second battery
)
_POOL = ("dunstrel-cobble/j9b", "tavlow-camber/j8", "ostrigg-drey/j3")
_AMBIENTS = (20.0, 30.0, 40.0, 45.0, 50.0, 60.0, 65.0, 70.0)


def drawn(seed: int) -> Fit:
    """Return the fit of this seed."""
    return drawn_by(random.Random(seed))  # noqa: S311 - the same fits every time


def drawn_by(dice: random.Random) -> Fit:
    """Return the fit that these dice throw."""
    fit = example_fit(dice.choice(BASES))
    for part in (
        _supply,
        _battery,
        _zones,
        _route,
        _cable,
        _charger,
        _output,
        _protections,
        _mount,
        _limits,
    ):
        fit = part(fit, dice)
    return vehicle(fit, fits=(fit.job,))  # the other jobs were made for other routes


fits = st.integers(0, 2**32 - 1).map(drawn)


def spread(like: Quantity, value: float, share: float) -> Quantity:
    """Return a figure with a tolerance of ± share, as it would be written."""
    by = abs(value) * share
    written = f"{value:g} {like.unit} ± {100 * share:g} %"
    return replace(like, value=value, low=value - by, high=value + by, written=written)


def _between(dice: random.Random, low: float, high: float, digits: int = 2) -> float:
    return round(dice.uniform(low, high), digits)


def _supply(fit: Fit, dice: random.Random) -> Fit:
    old = fit.vehicle.supply
    k = old.nominal.value / 12
    low = _between(dice, 11.9 * k, 13.4 * k)
    typical = _between(dice, low + 0.2 * k, low + 1.6 * k)
    high = _between(dice, typical, min(typical + 0.9 * k, 15.6 * k))
    kind = dice.choice(tuple(SupplyKind))
    base_day = _between(dice, 8, 60, 0)
    amps = {"base_day": base_day, "base_night": base_day + _between(dice, 0, 40, 0)}
    hot: dict[str, Quantity | None] = {"hot_idle": None, "hot_cruise": None, "rated": None}
    if kind is not SupplyKind.CONVERTER:
        cruise = _between(dice, 100, 240, 0)
        hot["hot_cruise"] = spread(old.base_day, cruise, dice.choice((0.0, 0.05)))
        hot["hot_idle"] = quantity(old.base_day, _between(dice, 40, 0.7 * cruise, 0))
    allowed = _between(dice, 20, 80, 0) if dice.random() < 0.1 else None
    supply = old.model_copy(
        update={
            "kind": kind,
            "low": spread(old.low, low, dice.choice((0.0, 0.0, 0.005))),
            "typical": quantity(old.typical, typical),
            "high": spread(old.high, high, dice.choice((0.0, 0.0, 0.005))),
            "rest": quantity(old.rest, _between(dice, 12.2 * k, 12.9 * k)),
            "allowance": None if allowed is None else quantity(old.base_day, allowed),
            **hot,
            **{name: quantity(old.base_day, value) for name, value in amps.items()},
        }
    )
    lines = tuple(kind for kind in CueKind if kind is not CueKind.VOLTAGE)
    started = CueKind.VOLTAGE if dice.random() < 0.12 else dice.choice(lines)
    cue = fit.vehicle.cues[fit.job.cue].model_copy(update={"kind": started})
    return vehicle(fit, supply=supply, cues={**fit.vehicle.cues, fit.job.cue: cue})


def _battery(fit: Fit, dice: random.Random) -> Fit:
    old = fit.vehicle.battery
    like = fit.shop.joints.positive
    state = dice.choice((State.MEASURED, State.MEASURED, State.PAPER, State.ESTIMATED))
    ohm = spread(like, _between(dice, 2e-3, 14e-3, 5), dice.choice((0.0, 0.1, 0.2)))
    internal: Quantity | Unknown = replace(ohm, basis=Basis(state=state, by="bay", document="P"))
    if dice.random() < 0.05:
        internal = Unknown(basis=Basis(state=state), where=like.where)
    capacity = spread(old.capacity, _between(dice, 45, 220, 0), dice.choice((0.0, 0.05)))
    return vehicle(fit, battery=old.model_copy(update={"internal": internal, "capacity": capacity}))


def _zones(fit: Fit, dice: random.Random) -> Fit:
    engine = dice.random() < 0.3
    zones = {
        name: zone.model_copy(
            update={
                "temperature": spread(
                    zone.temperature,
                    dice.choice((dice.choice(_AMBIENTS), _between(dice, 15, 75, 1))),
                    dice.choice((0.0, 0.0, 0.05)),
                ),
                "engine_space": engine and name == "engine-bay",
            }
        )
        for name, zone in fit.shop.zones.items()
    }
    source = dice.choice((AmpacitySource.SHEET, AmpacitySource.SHEET, AmpacitySource.CFR_183_425))
    return replace(fit, shop=fit.shop.model_copy(update={"zones": zones, "ampacity": source}))


def _route(fit: Fit, dice: random.Random) -> Fit:
    route = fit.vehicle.routes[fit.job.route]
    like = route.segments[0].length
    first = fit.vehicle.points[fit.job.source.positive].zone
    names = [first, *(dice.choice(tuple(fit.shop.zones)) for _ in range(dice.randint(0, 4)))]
    segments = tuple(
        route.segments[0].model_copy(
            update={
                "name": f"Stretch {number}",
                "zone": zone,
                "length": spread(like, _between(dice, 0.2, 2.4), dice.choice((0.0, 0.0, 0.03))),
                "bundled": dice.choice((0, 0, 0, 1, 2, 6)),
                "hazards": (),
                "passage": None,
                "loop": None,
                "bend": None,
            }
        )
        for number, zone in enumerate(names)
    )
    laid = {**fit.vehicle.routes, fit.job.route: route.model_copy(update={"segments": segments})}
    at = min(
        0.95 * segments[0].length.low, dice.choice((0.1, 0.1, 0.15, 0.15, 0.2, 0.2, 0.2, 0.35))
    )
    source = fit.job.source.model_copy(
        update={"fuse_at": quantity(fit.job.source.fuse_at, round(at, 3))}
    )
    return job(vehicle(fit, routes=laid), source=source)


def _cable(fit: Fit, dice: random.Random) -> Fit:
    more = dice.uniform(0.85, 1.1)
    sizes = tuple(
        size.model_copy(
            update={
                "resistance": spread(
                    size.resistance, size.resistance.value * 0.99, dice.choice((0.0, 0.0, 0.01))
                ),
                "ampacity": tuple(
                    row.model_copy(
                        update={
                            "current": quantity(row.current, round(row.current.value * more, 1))
                        }
                    )
                    for row in size.ampacity
                ),
            }
        )
        for size in sorted(
            dice.sample(fit.cable.sizes, dice.choice((2, 4, 5, 5))),
            key=lambda size: size.area.value,
        )
    )
    joints = fit.shop.joints
    contacts = {
        "positive": spread(joints.positive, _between(dice, 1e-3, 3e-3, 5), 0.1),
        "protection": quantity(joints.protection, _between(dice, 4e-4, 9e-4, 5)),
        "negative": spread(joints.negative, _between(dice, 3e-4, 1.5e-3, 5), 0.1),
    }
    lengths = fit.shop.lengths
    shop = fit.shop.model_copy(
        update={
            "joints": joints.model_copy(update=contacts),
            "lengths": lengths.model_copy(
                update={
                    "segment_tolerance": quantity(
                        lengths.segment_tolerance, dice.choice((0.0, 0.02, 0.05))
                    ),
                    "end_allowance": quantity(lengths.end_allowance, dice.choice((0.2, 0.3, 0.5))),
                    "cutting_step": quantity(lengths.cutting_step, dice.choice((0.01, 0.05, 0.1))),
                }
            ),
        }
    )
    return replace(fit, shop=shop, cable=fit.cable.model_copy(update={"sizes": sizes}))


def _charger(fit: Fit, dice: random.Random) -> Fit:
    sheet, lowest = fit.charger, fit.vehicle.supply.low.low
    k = fit.vehicle.supply.nominal.value / 12
    efficiency = spread(sheet.efficiency, _between(dice, 0.85, 0.96), dice.choice((0.0, 0.01)))
    watts = float(dice.choice((100, 150, 200, 240, 300, 360, 400, 520, 720)))
    if fit.second is not None:
        watts = sheet.output_power.value

    def limit(power: float) -> float:
        return math.ceil(power / efficiency.low / lowest * more)

    more = dice.uniform(1.04, 1.3)
    steps = sheet.power or example_fit("brunsall-tansy/j1").charger.power
    shares = sorted(dice.sample((0.25, 0.4, 0.5, 0.6, 0.75, 0.8), dice.randint(1, 4)))
    power = steps.model_copy(
        update={
            "kept": dice.random() < 0.8,
            "steps": tuple(
                steps.steps[0].model_copy(
                    update={
                        "power": quantity(sheet.output_power, round(watts * share)),
                        "input_limit": quantity(sheet.input_current, limit(watts * share)),
                    }
                )
                for share in (*shares, 1.0)
            ),
        }
    )
    run = _between(dice, 10.4 * k, lowest - dice.choice((0.1, 0.7, 1.0, 1.2)) * k)
    out = _between(dice, run, run + 1.2 * k)
    return charger(
        fit,
        input_min=quantity(sheet.input_min, _between(dice, 10.0 * k, run)),
        input_max=quantity(sheet.input_max, 16.5 * k),
        cut_out_run=quantity(sheet.cut_out_run, run),
        cut_out=quantity(sheet.cut_out, out),
        cut_in=quantity(sheet.cut_in, _between(dice, out, out + 1.0 * k)),
        efficiency=efficiency,
        output_power=quantity(sheet.output_power, watts),
        input_current=quantity(sheet.input_current, limit(watts)),
        upstream_max=quantity(sheet.upstream_max, dice.choice((40.0, 60.0, 80.0, 100.0, 100.0))),
        standby=quantity(sheet.standby, _between(dice, 0.001, 0.02, 3)),
        mass=spread(sheet.mass, _between(dice, 0.8, 6.0, 1), 0.02),
        power=dice.choice((None, power)),
        input=sheet.input.model_copy(
            update={
                "area_max": quantity(
                    sheet.input.area_max, dice.choice((10.0, 16.0, 25.0, 25.0, 35.0, 35.0))
                )
            }
        ),
    )


def _output(fit: Fit, dice: random.Random) -> Fit:
    """The charger's output range, the station's window, and the lead between the two."""
    sizes = [size.area for size in fit.output_cable.sizes]
    taken = [area for area in sizes if area.value <= fit.charger.output.area_max.value]
    lead = taken[-1] if dice.random() < 0.9 else dice.choice(sizes)
    fit = job(
        fit,
        output_area=lead,
        output_length=spread(fit.job.output_length, _between(dice, 0.5, 3.0, 1), 0.02),
    )
    if fit.connector is not None:
        rated = quantity(fit.plug.current, dice.choice((10.0, 30.0, 30.0, 30.0)))
        volts = quantity(fit.plug.voltage, dice.choice((30.0, 60.0, 60.0, 60.0)))
        plug = fit.plug.model_copy(update={"current": rated, "voltage": volts})
        fit = replace(fit, connector=plug)
    if fit.second is not None:
        return fit
    sheet, one = fit.charger, fit.station
    bottom = _between(dice, 11, 32, 1)
    top = _between(dice, bottom + 14, bottom + 50, 1)
    least = _between(dice, max(9.0, bottom - 8), bottom + 10, 0)
    step = dice.choice((0.5, 1.0, 2.0))
    most = min(least + step * dice.randint(8, 30), 58.0)
    default = least + step * dice.randint(0, 8)
    absolute = _between(dice, top, top * 1.25, 1)
    amps = _between(dice, 5, 18, 1)
    widened = charger(
        fit,
        output_min=quantity(sheet.output_min, least),
        output_max=quantity(sheet.output_max, most),
        output_step=quantity(sheet.output_step, step),
        output_default=quantity(sheet.output_default, min(default, most)),
        default_after_reset=dice.random() < 0.5,
        output_tolerance=quantity(sheet.output_tolerance, dice.choice((0.005, 0.01, 0.02))),
        overshoot=quantity(sheet.overshoot, _between(dice, 0.0, 0.8, 1)),
        output_current=spread(sheet.output_current, amps, dice.choice((0.0, 0.02))),
    )
    return station(
        widened,
        window_min=quantity(one.window_min, bottom),
        start=quantity(one.start, _between(dice, bottom, bottom + 3, 1)),
        window_max=quantity(one.window_max, top),
        absolute=quantity(one.absolute, absolute),
        input_current=quantity(one.input_current, _between(dice, 5, 25, 1)),
        input_power=spread(one.input_power, _between(dice, 60, 800, 0), dice.choice((0.0, 0.03))),
        energy=quantity(one.energy, _between(dice, 250, 3000, 0)),
        mass=spread(one.mass, _between(dice, 4, 30, 1), 0.02),
    )


def _protections(fit: Fit, dice: random.Random) -> Fit:
    """Families by lot, each with some of its ratings; a vehicle maker's fuse by lot too."""
    point = fit.vehicle.points[fit.job.source.positive]
    if point.factory_fuse is not None:
        own = point.factory_fuse
        rating = float(dice.choice((20, 25, 30, 40, 60)))
        fuse = own.model_copy(
            update={
                "rating": quantity(own.rating, rating),
                "continuous": quantity(own.continuous, round(rating * dice.uniform(0.6, 0.9), 1)),
                "breaking": quantity(own.breaking, dice.choice((3e3, 6e3, 6e3))),
            }
        )
        points = {
            **fit.vehicle.points,
            fit.job.source.positive: point.model_copy(update={"factory_fuse": fuse}),
        }
        return vehicle(fit, points=points)
    pool = {
        name: sheet
        for one in map(example_fit, _POOL)
        for names, sheets in (
            (one.job.protection, one.protections),
            (one.job.second.protection if one.job.second else (), one.second_protections),
        )
        for name, sheet in zip(names, sheets, strict=True)
    }
    names = tuple(dice.sample(sorted(pool), dice.randint(1, min(3, len(pool)))))
    sheets = tuple(_family(pool[name], dice) for name in names)
    return replace(job(fit, protection=names), protections=sheets)


def _family(sheet, dice: random.Random):
    amps = sorted(
        dice.sample((20, 25, 30, 35, 40, 50, 60, 70, 80, 100, 125), dice.choice((3, 6, 8, 10)))
    )
    first = sheet.ratings[0]
    slow = dice.choice((1.0, 1.0, 1.0, 6.0))
    opens = tuple(
        gate.model_copy(update={"within": quantity(gate.within, gate.within.value * slow)})
        for gate in sheet.opens
    )
    return sheet.model_copy(
        update={
            "ratings": tuple(quantity(first, float(one)) for one in amps),
            "voltage": quantity(sheet.voltage, dice.choice((16.0, 32.0, 58.0, 70.0, 70.0, 125.0))),
            "breaking": quantity(sheet.breaking, dice.choice((1e3, 3e3, 6e3, 20e3, 20e3))),
            "thread": dice.choice(("M5", "M6", "M8", "M8")),
            "opens": opens,
        }
    )


def _mount(fit: Fit, dice: random.Random) -> Fit:
    mount = fit.vehicle.mounts[fit.job.mount]
    tapped = dice.random() < 0.3
    cool = min(fit.shop.zones, key=lambda name: fit.shop.zones[name].temperature.high)
    zone = cool if dice.random() < 0.7 else dice.choice(tuple(fit.shop.zones))
    like = fit.charger.mass
    newtons = replace(like, unit="N")
    changed = mount.model_copy(
        update={
            "zone": zone,
            "panel": quantity(mount.panel, dice.choice((0.8, 1.2, 2.0, 3.0)) / 1000),
            "screw_length": quantity(
                mount.screw_length, dice.choice((10, 12, 12, 16, 16, 20, 30)) / 1000
            ),
            "free_depth": quantity(mount.panel, dice.choice((12, 40, 60, 60, 60)) / 1000),
            "fixings": dice.choice((2, 4, 4, 6)),
            "fastener": Fastener.SELF_TAPPING if tapped else Fastener.THROUGH_BOLT,
            "holds": dice.choice((None, quantity(newtons, _between(dice, 400, 4000, 0)))),
            "screw": quantity(mount.panel, dice.choice((3.5, 4.2, 4.8, 5.5)) / 1000),
            "sheet_strength": quantity(replace(like, unit="MPa"), float(dice.choice((270, 350)))),
        }
    )
    return vehicle(fit, mounts={**fit.vehicle.mounts, fit.job.mount: changed})


def _limits(fit: Fit, dice: random.Random) -> Fit:
    limits, restraint = fit.shop.limits, fit.shop.restraint
    chosen = {
        "input_drop": (0.03, 0.05, 0.05, 0.08, 0.10),
        "output_drop": (0.02, 0.03, 0.05),
        "cut_out_margin": (0.0, 0.1, 0.2, 0.2, 0.5),
        "continuous_factor": (0.7, 0.75, 0.8, 0.9),
        "alternator_headroom": (0.7, 0.8, 0.9, 1.0),
        "standby_share": (0.3, 0.5),
        "absolute_margin": (0.0, 0.05),
    }
    update = {}
    for name, values in chosen.items():
        old = getattr(limits, name)
        update[name] = old.model_copy(update={"value": quantity(old.value, dice.choice(values))})
    pull = restraint.model_copy(
        update={
            "forward": quantity(restraint.forward, dice.choice((0.8, 10.0, 20.0))),
            "other": quantity(restraint.other, dice.choice((0.5, 5.0, 10.0))),
            "upward": dice.choice((None, quantity(restraint.other, 12.0))),
            "fixings_lost": dice.choice((0, 1, 1, 1, 2)),
        }
    )
    shop = fit.shop.model_copy(
        update={"limits": limits.model_copy(update=update), "restraint": pull}
    )
    return replace(fit, shop=shop)
