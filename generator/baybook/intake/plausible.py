"""Figures that cannot both be true, and figures that cannot be nought."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from itertools import pairwise
from typing import Any

from baybook.finding import Finding, Name
from baybook.intake.document import Document
from baybook.intake.problems import problem
from baybook.quantity import Basis, Quantity, State
from baybook.sheet import (
    CableSheet,
    ChargerSheet,
    PassageSheet,
    ProtectionSheet,
    StationSheet,
    SundrySheet,
)
from baybook.shop import Shop
from baybook.units import is_awg
from baybook.vehicle import Route, Vehicle

# Read from left to right, the figures of a row may not fall.
_RISING: dict[type, tuple[tuple[str, ...], ...]] = {
    ChargerSheet: (
        ("input_min", "cut_out_run", "cut_out", "cut_in", "input_max"),
        ("output_min", "output_default", "output_max"),
        ("derating.full_to", "derating.stop"),
    ),
    StationSheet: (
        ("window_min", "start", "window_max", "absolute"),
        ("charge_min", "charge_max"),
    ),
    Vehicle: (
        ("supply.low", "supply.typical", "supply.high"),
        ("supply.hot_idle", "supply.hot_cruise", "supply.rated"),
        ("supply.base_day", "supply.base_night"),
    ),
    Shop: (
        ("limits.fuse_distance", "limits.fuse_distance_conduit"),
        ("joints.protection", "joints.positive"),
    ),
    CableSheet: (("reference_ambient", "conductor_max", "short_circuit"),),
}

# Formulas divide by these, or nothing could work with nought.
_ABOVE_NOUGHT: dict[type, tuple[str, ...]] = {
    ChargerSheet: (
        "nominal",
        "input_min",
        "input_current",
        "output_min",
        "output_step",
        "output_current",
        "output_power",
        "efficiency",
        "upstream_max",
        "mass",
    ),
    StationSheet: ("input_current", "input_power", "energy", "efficiency", "mass"),
    ProtectionSheet: ("voltage", "breaking"),
    Vehicle: ("supply.nominal", "supply.low", "battery.capacity", "battery.internal"),
    Shop: (
        "limits.input_drop.value",
        "limits.output_drop.value",
        "limits.continuous_factor.value",
        "limits.alternator_headroom.value",
        "lengths.cutting_step",
        "spacing.clip_pitch",
        "restraint.forward",
    ),
}

_MOST_SETTINGS = 10_000
_NOT_COPPER = re.compile(r"\bCCA\b|\bclad\b|alumini?um", re.IGNORECASE)

# A share of a whole.
_AT_MOST_ONE: dict[type, tuple[str, ...]] = {
    ChargerSheet: ("efficiency", "output_tolerance"),
    StationSheet: ("efficiency",),
    Shop: (
        "limits.input_drop.value",
        "limits.output_drop.value",
        "limits.absolute_margin.value",
        "limits.continuous_factor.value",
        "limits.alternator_headroom.value",
        "limits.standby_share.value",
        "lengths.segment_tolerance",
        "meter.voltage",
        "meter.current",
    ),
}


def implausible(document: Document[Any]) -> Iterator[Finding]:
    """Yield what cannot be, within one file."""
    kind = type(document.model)
    for row in _RISING.get(kind, ()):
        yield from _falls(document, row)
    for path in _ABOVE_NOUGHT.get(kind, ()):
        yield from _judge(document, path, "nought", lambda figure: figure.low > 0)
    for path in _AT_MOST_ONE.get(kind, ()):
        yield from _judge(document, path, "over-one", lambda figure: figure.high <= 1)
    yield from _MORE.get(kind, _nothing)(document)


def _falls(document: Document[Any], row: tuple[str, ...]) -> Iterator[Finding]:
    figures = [(path, _figure(document.model, path)) for path in row]
    known = [(path, figure) for path, figure in figures if figure]
    for (below, low), (above, high) in pairwise(known):
        if low.value > high.value:
            yield problem(
                "DA-15",
                "falls",
                document.mark(above),
                at=f"{document.prefix}.{above}",
                found=Name(high.written),
                above=Name(above),
                below=Name(below),
                least=Name(low.written),
            )


def _judge(
    document: Document[Any], path: str, reason: str, holds: Callable[[Quantity], bool]
) -> Iterator[Finding]:
    figure = _figure(document.model, path)
    if figure and not holds(figure):
        at, found = f"{document.prefix}.{path}", Name(figure.written)
        yield problem("DA-15", reason, document.mark(path), at=at, found=found)


def _figure(model: Any, path: str) -> Quantity | None:  # noqa: ANN401  any model of fit.py
    """Return the figure at a path; None where there is none or nobody knows it."""
    for step in path.split("."):
        model = getattr(model, step)
        if model is None:
            return None
    return model if isinstance(model, Quantity) else None


def _nothing(_: Document[Any]) -> Iterator[Finding]:
    return iter(())


def _cable(document: Document[CableSheet]) -> Iterator[Finding]:
    """Sizes grow, and with them what they carry; each is a real conductor of copper."""
    sizes = document.model.sizes
    yield from _copper(document)
    if not sizes:
        yield _empty(document, "sizes")
    for index in range(len(sizes)):
        at = f"sizes.{index}"
        gauge = sizes[index].nearest_awg
        if not is_awg(gauge):
            path, mark = f"{document.prefix}.{at}.nearest_awg", document.mark(f"{at}.nearest_awg")
            example = Name("AWG 6")
            yield problem(
                "DA-10", "figure.unnamed-gauge", mark, at=path, found=Name(gauge), example=example
            )
        if not sizes[index].ampacity:
            yield _empty(document, f"{at}.ampacity")
        for path in ("area", "resistance", "diameter"):
            yield from _judge_at(document, f"{at}.{path}", getattr(sizes[index], path))
        if index and sizes[index].area.value <= sizes[index - 1].area.value:
            yield _order(document, f"{at}.area", sizes[index].area, sizes[index - 1].area)


def _copper(document: Document[CableSheet]) -> Iterator[Finding]:
    """Refuse aluminium, by whatever line of the sheet it gives itself away."""
    sheet = document.model
    lines = (("material", sheet.material), ("standard", sheet.standard), ("name", sheet.name))
    for path, text in lines:
        if _NOT_COPPER.search(text):
            at = f"{document.prefix}.{path}"
            yield problem("DA-18", "clad", document.mark(path), at=at, found=Name(text))


def _protection(document: Document[ProtectionSheet]) -> Iterator[Finding]:
    sheet = document.model
    if not sheet.ratings:
        yield _empty(document, "ratings")
    for index in range(1, len(sheet.ratings)):
        if sheet.ratings[index].value <= sheet.ratings[index - 1].value:
            at = f"ratings.{index}"
            yield _order(document, at, sheet.ratings[index], sheet.ratings[index - 1])
    for index, point in enumerate(sheet.derating):
        yield from _judge_at(document, f"derating.{index}.factor", point.factor)


def _sundry(document: Document[SundrySheet]) -> Iterator[Finding]:
    for index, size in enumerate(document.model.sizes):
        least = size.diameter_min
        if least is not None and least.value > size.diameter_max.value:
            at = f"sizes.{index}.diameter_max"
            yield _order(document, at, size.diameter_max, least)


def _passage(document: Document[PassageSheet]) -> Iterator[Finding]:
    for index, size in enumerate(document.model.sizes):
        if size.diameter_min.value > size.diameter_max.value:
            at = f"sizes.{index}.diameter_max"
            yield _order(document, at, size.diameter_max, size.diameter_min)


def _vehicle(document: Document[Vehicle]) -> Iterator[Finding]:
    vehicle = document.model
    for name, basis in vehicle.bases.items():
        yield from _trail(document, name, basis)
    for name, route in vehicle.routes.items():
        yield from _route(document, name, route)
    yield from _fuse_places(document)
    yield from _jobs(document)
    yield from _mounts(document)
    yield from _measured_ways(document)
    last = vehicle.years.last
    if last is not None and last < vehicle.years.first:
        mark = document.mark("years.last")
        yield problem("DA-15", "years", mark, at="vehicle.years.last", found=Name(str(last)))
    for path, items in (
        ("applies", vehicle.applies),
        ("drive_sides", vehicle.drive_sides),
        ("restraints.found", vehicle.restraints.found),
    ):
        if not items:
            yield _empty(document, path)
    for index, side in enumerate(vehicle.drive_sides):
        if side in vehicle.drive_sides[:index]:
            path = f"drive_sides.{index}"
            mark = document.mark(path)
            yield problem("DA-05", "row-twice", mark, at=f"vehicle.{path}", found=Name(side))


def _measured_ways(document: Document[Vehicle]) -> Iterator[Finding]:
    """A resistance needs a drop and a current; a shared line needs somebody who shares it."""
    vehicle = document.model
    for index, loop in enumerate(vehicle.body_loops):
        yield from _judge_at(document, f"body_loops.{index}.drop", loop.drop)
        yield from _judge_at(document, f"body_loops.{index}.current", loop.current)
    lines = ((name, p.line) for name, p in vehicle.points.items() if p.line is not None)
    for name, line in lines:
        at = f"points.{name}.line"
        yield from _judge_at(document, f"{at}.drop", line.drop)
        yield from _judge_at(document, f"{at}.current", line.current)
        if not line.loads:
            yield _empty(document, f"{at}.loads")
        for index, load in enumerate(line.loads):
            if load.current is None and load.power is None:
                path = f"{at}.loads.{index}"
                mark, key = document.mark(path), Name("current")
                yield problem("DA-06", "key-missing", mark, at=f"vehicle.{path}", key=key)


def _jobs(document: Document[Vehicle]) -> Iterator[Finding]:
    for index, job in enumerate(document.model.fits):
        yield from _judge_at(document, f"fits.{index}.output_length", job.output_length)
        point = document.model.points.get(job.source.positive)
        if not job.protection and (point is None or point.factory_fuse is None):
            yield _empty(document, f"fits.{index}.protection")
        if job.refused and not job.refused.codes:
            yield _empty(document, f"fits.{index}.refused.codes")


def _mounts(document: Document[Vehicle]) -> Iterator[Finding]:
    for name, mount in document.model.mounts.items():
        for key in ("panel", "screw_length", "drill"):
            yield from _judge_at(document, f"mounts.{name}.{key}", getattr(mount, key))


def _route(document: Document[Vehicle], name: str, route: Route) -> Iterator[Finding]:
    """Nothing on a route stands behind its end, and no slack is longer than its segment."""
    if not route.segments:
        yield _empty(document, f"routes.{name}.segments")
    end = sum(segment.length.high for segment in route.segments)
    for index, segment in enumerate(route.segments):
        at = f"routes.{name}.segments.{index}"
        yield from _judge_at(document, f"{at}.length", segment.length)
        if segment.loop and segment.loop.value > segment.length.value:
            yield _beyond(document, f"{at}.loop", segment.loop, segment.length.written)
        for number, hazard in enumerate(segment.hazards):
            if hazard.at.low > end:
                yield _beyond(document, f"{at}.hazards.{number}.at", hazard.at, f"{end:.2f} m")


def _fuse_places(document: Document[Vehicle]) -> Iterator[Finding]:
    vehicle = document.model
    for index, job in enumerate(vehicle.fits):
        route = vehicle.routes.get(job.route)
        end = sum(segment.length.high for segment in route.segments) if route else 0.0
        if route and job.source.fuse_at.high > end:
            path = f"fits.{index}.source.fuse_at"
            yield _beyond(document, path, job.source.fuse_at, f"{end:.2f} m")


def _beyond(document: Document[Vehicle], path: str, figure: Quantity, most: str) -> Finding:
    at, found = f"vehicle.{path}", Name(figure.written)
    return problem("DA-15", "beyond", document.mark(path), at=at, found=found, most=Name(most))


def _trail(document: Document[Vehicle], name: str, basis: Basis) -> Iterator[Finding]:
    """A measurement says who and when, a maker's figure says which paper."""
    if basis.state is State.MEASURED and not (basis.by and basis.on):
        yield _thin(document, name, "trail-measured")
    if basis.state is State.PAPER and not basis.document:
        yield _thin(document, name, "trail-paper")
    if basis.state is State.ESTIMATED and not basis.by:
        yield _thin(document, name, "trail-estimated")


def _thin(document: Document[Vehicle], name: str, reason: str) -> Finding:
    mark = document.mark(f"bases.{name}")
    return problem("DA-13", reason, mark, at=f"vehicle.bases.{name}", found=Name(name))


def _judge_at(document: Document[Any], path: str, figure: Quantity) -> Iterator[Finding]:
    if figure.low <= 0:
        at, found = f"{document.prefix}.{path}", Name(figure.written)
        yield problem("DA-15", "nought", document.mark(path), at=at, found=found)


def _order(document: Document[Any], path: str, found: Quantity, before: Quantity) -> Finding:
    return problem(
        "DA-15",
        "order",
        document.mark(path),
        at=f"{document.prefix}.{path}",
        found=Name(found.written),
        least=Name(before.written),
    )


def _empty(document: Document[Any], path: str) -> Finding:
    return problem("DA-08", "empty-list", document.mark(path), at=f"{document.prefix}.{path}")


def _charger(document: Document[ChargerSheet]) -> Iterator[Finding]:
    """A setting is looked for step by step; no charger has so many."""
    sheet = document.model
    if sheet.output_step.low <= 0:
        return  # told as nought
    steps = (sheet.output_max.value - sheet.output_min.value) / sheet.output_step.value
    if steps > _MOST_SETTINGS:
        at, found = f"{document.prefix}.output_step", Name(sheet.output_step.written)
        mark = document.mark("output_step")
        yield problem("DA-15", "settings", mark, at=at, found=found, most=_MOST_SETTINGS)


_MORE: dict[type, Callable[[Document[Any]], Iterator[Finding]]] = {
    CableSheet: _cable,
    ChargerSheet: _charger,
    ProtectionSheet: _protection,
    PassageSheet: _passage,
    SundrySheet: _sundry,
    Vehicle: _vehicle,
}
