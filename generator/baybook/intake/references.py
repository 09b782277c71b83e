"""Ids of a workbook: does each lead somewhere, and to a thing of the right kind."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field
from typing import Any

from baybook.finding import Finding, Listing, Name, Value
from baybook.intake.document import Document
from baybook.intake.loose import SHEET_KEYS
from baybook.intake.problems import nearest, problem
from baybook.job import Job
from baybook.quantity import Quantity
from baybook.route import Hazard
from baybook.shop import Shop, Zone
from baybook.vehicle import Vehicle

UNKNOWN = "unknown"  # a station's connector may be


@dataclass(frozen=True, slots=True)
class Shelf:
    """All data sheets by kind and id; a sheet that is there and cannot be read is None."""

    sheets: dict[str, dict[str, Document[Any] | None]] = field(default_factory=dict)

    def ids(self, kind: str) -> tuple[str, ...]:
        return tuple(self.sheets.get(kind, {}))

    def get(self, kind: str, sheet_id: str) -> Document[Any] | None:
        return self.sheets.get(kind, {}).get(sheet_id)

    def models(self, kind: str) -> dict[str, Any]:
        """Return every sheet of a kind that could be read, by id."""
        sheets = self.sheets.get(kind, {})
        return {name: sheet.model for name, sheet in sorted(sheets.items()) if sheet}

    def sundries(self, use: str) -> tuple[str, ...]:
        """Return the ids of the sundries for one use, and of those that cannot be read."""
        sheets = self.sheets.get("sundry", {})
        return tuple(name for name, sheet in sheets.items() if not sheet or sheet.model.use == use)


@dataclass(frozen=True, slots=True)
class Bench:
    """Everything that one vehicle's jobs are joined from."""

    slug: str
    vehicle: Document[Vehicle]
    shop: Document[Shop]
    shelf: Shelf

    @property
    def zones(self) -> Mapping[str, Zone]:
        """The shop's zones, and in their place those that were measured on this vehicle."""
        return {**self.shop.model.zones, **self.vehicle.model.zones}


@dataclass(frozen=True, slots=True)
class _Id:
    """One id in a file: where it stands, and what it may be."""

    path: str
    wanted: str
    valid: Iterable[str]


def sheet_faults(shelf: Shelf) -> Iterator[Finding]:
    """Yield the ids in data sheets that lead nowhere."""
    connectors = shelf.ids("connector")
    for sheet in shelf.sheets.get("station", {}).values():
        if sheet:
            wanted = _Id("connector", sheet.model.connector, (*connectors, UNKNOWN))
            yield from _lost(sheet, (wanted,))
    for sheet in shelf.sheets.get("connector", {}).values():
        if sheet:
            mates = enumerate(sheet.model.mates_with)
            yield from _lost(sheet, (_Id(f"mates_with.{n}", mate, connectors) for n, mate in mates))


def stock_faults(shop: Document[Shop], shelf: Shelf) -> Iterator[Finding]:
    """Yield the drums of a cable, or of a size of one, that no sheet lists."""
    for number, drum in enumerate(shop.model.stock):
        at = f"stock.{number}"
        yield from _lost(shop, (_Id(f"{at}.cable", drum.cable, shelf.ids("cable")),))
        yield from _not_made(shop, shelf, f"{at}.area", drum.cable, drum.area)


def vehicle_faults(bench: Bench) -> Iterator[Finding]:
    """Yield the ids in a vehicle file that lead nowhere, or to a thing of the wrong kind."""
    yield from _lost(bench.vehicle, _places(bench))
    yield from _lost(bench.vehicle, _passages(bench))
    for index, job in enumerate(bench.vehicle.model.fits):
        at = f"fits.{index}"
        yield from _lost(bench.vehicle, _job_sheets(bench.shelf, job, at))
        yield from _lost(bench.vehicle, _job_choices(bench.vehicle.model, job, at))
        yield from _roles(bench.vehicle, job, at)
        yield from _load(bench, job, at)
        yield from _people(bench, job, at)
        yield from _sizes(bench, job, at)
    yield from _sundries(bench)
    yield from _twice(bench.vehicle)


def _places(bench: Bench) -> Iterator[_Id]:
    vehicle, zones = bench.vehicle.model, bench.zones
    yield _Id("battery.zone", vehicle.battery.zone, zones)
    for name, point in vehicle.points.items():
        yield _Id(f"points.{name}.zone", point.zone, zones)
    for index, loop in enumerate(vehicle.body_loops):
        yield _Id(f"body_loops.{index}.start", loop.start, vehicle.points)
        yield _Id(f"body_loops.{index}.end", loop.end, vehicle.points)
    for name, mount in vehicle.mounts.items():
        yield _Id(f"mounts.{name}.zone", mount.zone, zones)
    for name, route in vehicle.routes.items():
        for index, segment in enumerate(route.segments):
            yield _Id(f"routes.{name}.segments.{index}.zone", segment.zone, zones)


def _passages(bench: Bench) -> Iterator[_Id]:
    families = bench.shelf.ids("passage")
    for name, route in bench.vehicle.model.routes.items():
        for index, segment in enumerate(route.segments):
            if segment.passage:
                at = f"routes.{name}.segments.{index}.passage.family"
                yield _Id(at, segment.passage.family, families)


def _job_sheets(shelf: Shelf, job: Job, at: str) -> Iterator[_Id]:
    for key, kind in SHEET_KEYS.items():
        if key in {"protection", "other_cables"} or kind == "sundry":
            continue  # lists; and sundries are told by their use
        wanted = getattr(job, key)
        if wanted is None:
            continue  # no connector at a battery
        valid = shelf.ids(kind) if key != "station" else _loads(shelf)
        yield _Id(f"{at}.{key}", wanted, valid)
    second = job.second.protection if job.second else ()
    for number, wanted in enumerate(second):
        yield _Id(f"{at}.second.protection.{number}", wanted, shelf.ids("protection"))
    for number, wanted in enumerate(job.other_cables):
        yield _Id(f"{at}.other_cables.{number}", wanted, shelf.ids("cable"))
    for number, wanted in enumerate(job.protection):
        yield _Id(f"{at}.protection.{number}", wanted, shelf.ids("protection"))


def _loads(shelf: Shelf) -> tuple[str, ...]:
    return (*shelf.ids("station"), *shelf.ids("battery"))


def load_kind(shelf: Shelf, job: Job) -> str:
    """Return the kind of the load's sheet: a battery goes by the same key as a station."""
    return "battery" if job.station in shelf.ids("battery") else "station"


def _load(bench: Bench, job: Job, at: str) -> Iterator[Finding]:
    """A station has a connector, a battery a fuse of its own; never both, never neither."""
    if job.station not in _loads(bench.shelf):
        return  # that is told already, and nobody knows which of the two it is
    wanted = "second" if load_kind(bench.shelf, job) == "battery" else "connector"
    other = "connector" if wanted == "second" else "second"
    mark = bench.vehicle.mark(f"{at}.station")
    if getattr(job, wanted) is None:
        yield problem("DA-06", "key-missing", mark, at=f"vehicle.{at}", key=Name(wanted))
    if getattr(job, other) is not None:
        mark = bench.vehicle.mark(f"{at}.{other}")
        key, at = Name(other), f"vehicle.{at}.{other}"
        yield problem("DA-07", "load", mark, at=at, found=key, other=key, near=Name(wanted))


def _job_choices(vehicle: Vehicle, job: Job, at: str) -> Iterator[_Id]:
    yield _Id(f"{at}.source.positive", job.source.positive, vehicle.points)
    yield _Id(f"{at}.source.negative", job.source.negative, vehicle.points)
    yield _Id(f"{at}.cue", job.cue, vehicle.cues)
    yield _Id(f"{at}.route", job.route, vehicle.routes)
    yield _Id(f"{at}.mount", job.mount, vehicle.mounts)
    if job.refused is not None and job.refused.instead is not None:
        fits = [other.id for other in vehicle.fits if other.refused is None]
        yield _Id(f"{at}.refused.instead", job.refused.instead, fits)


def _roles(document: Document[Vehicle], job: Job, at: str) -> Iterator[Finding]:
    points = document.model.points
    for role, wanted in (("positive", job.source.positive), ("negative", job.source.negative)):
        if wanted in points and points[wanted].role != role:
            valid = [name for name, point in points.items() if point.role == role]
            wrong = _Id(f"{at}.source.{role}", wanted, valid)
            yield _fault(document, "role", wrong, role=Name(role))


def _people(bench: Bench, job: Job, at: str) -> Iterator[Finding]:
    """Yield signatures of people whom the shop does not have."""
    known = [person.role for person in bench.shop.model.people]
    signed = [(f"{at}.checked.by", job.checked.by)]
    signed += [(f"{at}.approvals.{n}.by", given.by) for n, given in enumerate(job.approvals)]
    if job.source.signed:
        signed.append((f"{at}.source.signed", job.source.signed))
    for path, role in signed:
        if role not in known:
            yield _fault(bench.vehicle, "person", _Id(path, role, known))


def _sundries(bench: Bench) -> Iterator[Finding]:
    """Yield the clips that are no clips, and the like."""
    vehicle = bench.vehicle.model
    used = [(f"fits.{n}.clips", job.clips, "clip") for n, job in enumerate(vehicle.fits)]
    used += [
        (f"fits.{n}.conduit", job.conduit, "conduit")
        for n, job in enumerate(vehicle.fits)
        if job.conduit
    ]
    used += [
        (f"fits.{n}.shrink", job.shrink, "heat shrink")
        for n, job in enumerate(vehicle.fits)
        if job.shrink
    ]
    used += [
        (at, hazard.shield, "heat sleeve") for at, hazard in _hazards(vehicle) if hazard.shield
    ]
    known = bench.shelf.ids("sundry")
    for path, wanted, use in used:
        valid = bench.shelf.sundries(use)
        if wanted not in valid:
            reason = "use" if wanted in known else "id"
            yield _fault(bench.vehicle, reason, _Id(path, wanted, valid), use=Name(use))


def _hazards(vehicle: Vehicle) -> Iterator[tuple[str, Hazard]]:
    for name, route in vehicle.routes.items():
        for index, segment in enumerate(route.segments):
            for number, hazard in enumerate(segment.hazards):
                yield f"routes.{name}.segments.{index}.hazards.{number}.shield", hazard


def _sizes(bench: Bench, job: Job, at: str) -> Iterator[Finding]:
    """Yield the sizes that are asked for and that the cable is not made in."""
    asked = [(f"{at}.output_area", job.output_cable, job.output_area)]
    if job.asked.area:
        asked.append((f"{at}.asked.area", job.cable, job.asked.area))
    for path, cable, area in asked:
        yield from _not_made(bench.vehicle, bench.shelf, path, cable, area)


def _not_made(
    document: Document[Any], shelf: Shelf, path: str, cable: str, area: Quantity
) -> Iterator[Finding]:
    sheet = shelf.get("cable", cable)
    if sheet and area.value not in [size.area.value for size in sheet.model.sizes]:
        made = Listing(tuple(Name(size.area.written) for size in sheet.model.sizes))
        yield _fault(document, "size", _Id(path, area.written, ()), sizes=made)


def _twice(document: Document[Vehicle]) -> Iterator[Finding]:
    seen: set[str] = set()
    for index, job in enumerate(document.model.fits):
        if job.id in seen:
            path = f"fits.{index}.id"
            at, mark = f"vehicle.{path}", document.mark(path)
            yield problem("DA-16", "fit-twice", mark, at=at, found=Name(job.id))
        seen.add(job.id)


def _lost(document: Document[Any], ids: Iterable[_Id]) -> Iterator[Finding]:
    return (_fault(document, "id", one) for one in ids if one.wanted not in one.valid)


def _fault(document: Document[Any], reason: str, one: _Id, **values: Value) -> Finding:
    at = f"{document.prefix}.{one.path}"
    found, near = Name(one.wanted), nearest(one.wanted, one.valid)
    mark = document.mark(one.path)
    return problem("DA-14", reason, mark, at=at, found=found, near=near, **values)
