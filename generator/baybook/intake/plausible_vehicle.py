"""Figures of a vehicle file that cannot be: behind a route's end, off the grid, without a trail."""

from __future__ import annotations

from collections.abc import Iterator

from baybook.finding import Finding, Name
from baybook.intake.document import Document
from baybook.intake.faults import empty, judge_at
from baybook.intake.problems import problem
from baybook.point import GRID, HEIGHTS, GridPoint
from baybook.quantity import Basis, Quantity, State
from baybook.route import Route
from baybook.vehicle import Vehicle

# A hazard is listed because it is near: 60 m is 60 mm with a letter lost, and hides it.
_NEAR_M = 2.0


def vehicle_faults(document: Document[Vehicle]) -> Iterator[Finding]:
    """Yield what cannot be in a vehicle file."""
    vehicle = document.model
    for name, basis in vehicle.bases.items():
        yield from _trail(document, name, basis)
    for name, route in vehicle.routes.items():
        yield from _route(document, name, route)
    yield from _fuse_places(document)
    yield from _jobs(document)
    yield from _mounts(document)
    yield from _sketches(document)
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
            yield empty(document, path)
    for index, side in enumerate(vehicle.drive_sides):
        if side in vehicle.drive_sides[:index]:
            path = f"drive_sides.{index}"
            mark = document.mark(path)
            yield problem("DA-05", "row-twice", mark, at=f"vehicle.{path}", found=Name(side))


def _measured_ways(document: Document[Vehicle]) -> Iterator[Finding]:
    """A resistance needs a drop and a current; a shared line needs somebody who shares it."""
    vehicle = document.model
    for index, loop in enumerate(vehicle.body_loops):
        yield from judge_at(document, f"body_loops.{index}.drop", loop.drop)
        yield from judge_at(document, f"body_loops.{index}.current", loop.current)
    lines = ((name, p.line) for name, p in vehicle.points.items() if p.line is not None)
    for name, line in lines:
        at = f"points.{name}.line"
        yield from judge_at(document, f"{at}.drop", line.drop)
        yield from judge_at(document, f"{at}.current", line.current)
        if not line.loads:
            yield empty(document, f"{at}.loads")
        for index, load in enumerate(line.loads):
            if load.current is None and load.power is None:
                path = f"{at}.loads.{index}"
                mark, key = document.mark(path), Name("current")
                yield problem("DA-06", "key-missing", mark, at=f"vehicle.{path}", key=key)


def _jobs(document: Document[Vehicle]) -> Iterator[Finding]:
    for index, job in enumerate(document.model.fits):
        yield from judge_at(document, f"fits.{index}.output_length", job.output_length)
        point = document.model.points.get(job.source.positive)
        if not job.protection and (point is None or point.factory_fuse is None):
            yield empty(document, f"fits.{index}.protection")
        if job.refused and not job.refused.codes:
            yield empty(document, f"fits.{index}.refused.codes")


def _mounts(document: Document[Vehicle]) -> Iterator[Finding]:
    for name, mount in document.model.mounts.items():
        for key in ("panel", "screw_length", "drill"):
            yield from judge_at(document, f"mounts.{name}.{key}", getattr(mount, key))


def _sketches(document: Document[Vehicle]) -> Iterator[Finding]:
    """A sketch stays on the survey sheet's grid."""
    for path, place in _places(document.model):
        for axis, most in (*GRID.items(), ("up", HEIGHTS[document.model.outline])):
            squares = getattr(place, axis)
            if squares > most:
                at, mark = f"vehicle.{path}.{axis}", document.mark(f"{path}.{axis}")
                found, limit = Name(str(squares)), Name(f"{most} squares")
                yield problem("DA-15", "beyond", mark, at=at, found=found, most=limit)


def _places(vehicle: Vehicle) -> Iterator[tuple[str, GridPoint]]:
    places: list[tuple[str, GridPoint | None]] = [
        *((f"points.{name}.sketch", point.sketch) for name, point in vehicle.points.items()),
        *((f"mounts.{name}.sketch", mount.sketch) for name, mount in vehicle.mounts.items()),
        *(
            (f"routes.{name}.segments.{index}.sketch.{number}", corner)
            for name, route in vehicle.routes.items()
            for index, segment in enumerate(route.segments)
            for number, corner in enumerate(segment.sketch)
        ),
    ]
    return ((path, place) for path, place in places if place is not None)


def _route(document: Document[Vehicle], name: str, route: Route) -> Iterator[Finding]:
    """Nothing on a route stands behind its end, and no slack is longer than its segment."""
    if not route.segments:
        yield empty(document, f"routes.{name}.segments")
    end = sum(segment.length.high for segment in route.segments)
    for index, segment in enumerate(route.segments):
        at = f"routes.{name}.segments.{index}"
        yield from judge_at(document, f"{at}.length", segment.length)
        if segment.loop and segment.loop.value > segment.length.value:
            yield _beyond(document, f"{at}.loop", segment.loop, segment.length.written)
        for number, hazard in enumerate(segment.hazards):
            if hazard.at.low > end:
                yield _beyond(document, f"{at}.hazards.{number}.at", hazard.at, f"{end:.2f} m")
            if hazard.distance.high > _NEAR_M:
                path = f"{at}.hazards.{number}.distance"
                yield _beyond(document, path, hazard.distance, f"{_NEAR_M:g} m")


def _fuse_places(document: Document[Vehicle]) -> Iterator[Finding]:
    vehicle = document.model
    for index, job in enumerate(vehicle.fits):
        route = vehicle.routes.get(job.route)
        if route is None or not route.segments:
            continue  # which was told already
        end = sum(segment.length.high for segment in route.segments)
        if job.source.fuse_at.high > end:
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
