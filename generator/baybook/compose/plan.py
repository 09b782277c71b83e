"""The route on the vehicle's outline: where it begins, what it passes, where it ends."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise
from math import dist

from baybook.compose.work import Work, at, device, millimetres
from baybook.finding import Listing, Message, Name, say
from baybook.point import GridPoint
from baybook.view import PlanMark, PlanView

_Place = tuple[float, float, float]


@dataclass(frozen=True, slots=True)
class _Mark:
    at_m: float
    kind: str
    label: Message
    place: _Place | None = None  # where it is by itself; else by its distance along the run


def plan_view(work: Work) -> PlanView | None:
    """Return the route as it was sketched; None where a part of it was not."""
    legs = _legs(work)
    if legs is None:
        return None
    marks = tuple(_placed(work, legs))
    return PlanView(
        title=say("plan.title"),
        outline=work.fit.vehicle.outline,
        drive_sides=work.fit.vehicle.drive_sides,
        path=tuple(place for number, leg in enumerate(legs) for place in leg[bool(number) :]),
        marks=marks,
        above=say("plan.above"),
        beside=say("plan.beside"),
        nose=say("plan.nose"),
        text=say("plan.text", marks=Listing(tuple(_line(mark) for mark in marks))),
    )


def _legs(work: Work) -> list[list[_Place]] | None:
    """Return the sketched path of each segment, from where the one before ended."""
    vehicle, job = work.fit.vehicle, work.fit.job
    start, end = vehicle.points[job.source.positive].sketch, vehicle.mounts[job.mount].sketch
    if start is None or end is None or not all(segment.sketch for segment in work.segments):
        return None
    here, legs = _place(start), []
    for segment in work.segments:
        leg = [here, *(_place(corner) for corner in segment.sketch)]
        legs.append(leg)
        here = leg[-1]
    legs[-1].append(_place(end))
    return legs


def _place(point: GridPoint) -> _Place:
    return float(point.along), float(point.across), float(point.up)


def _placed(work: Work, legs: list[list[_Place]]) -> Iterator[PlanMark]:
    for number, mark in enumerate(_marks(work), 1):
        along, across, up = mark.place or _at(work, legs, mark.at_m)
        yield PlanMark(
            kind=mark.kind, number=number, label=mark.label, along=along, across=across, up=up
        )


def _marks(work: Work) -> list[_Mark]:
    """Return what a technician looks for on the way, as the run meets it."""
    end = work.stretches[-1].end_m
    charger = say("plan.charger", name=Name(work.fit.charger.name))
    found = [
        *_joints(work),
        _Mark(work.fuse.at_m, "fuse", say("strip.fuse", fuse=device(work.fuse.tag))),
        *_on_the_way(work),
        _Mark(end, "charger", charger),
    ]
    return sorted(found, key=lambda mark: mark.at_m)


def _joints(work: Work) -> Iterator[_Mark]:
    """Where the battery's side begins and where the return ends, each at its own place."""
    vehicle, source = work.fit.vehicle, work.fit.job.source
    for role, name in (("source+", source.positive), ("return", source.negative)):
        joint, point = work.joint(role), vehicle.points[name]
        label = say("plan.joint", joint=at(joint.letter), what=Name(point.what))
        place = _place(point.sketch) if point.sketch else None
        yield _Mark(joint.at_m, "joint", label, place)


def _on_the_way(work: Work) -> Iterator[_Mark]:
    for stretch, segment in zip(work.stretches, work.segments, strict=True):
        for hazard in segment.hazards:
            away = millimetres(hazard.distance.value).at_least()
            label = say("plan.hazard", what=Name(hazard.what), distance=away)
            yield _Mark(min(hazard.at.value, stretch.end_m), "hazard", label)
        if segment.passage is not None:
            label = say("plan.passage", wall=Name(segment.passage.wall))
            yield _Mark(stretch.end_m, "passage", label)


def _at(work: Work, legs: list[list[_Place]], at_m: float) -> _Place:
    """Return where a distance along the run is, each segment drawn at its own scale."""
    for stretch, leg in zip(work.stretches, legs, strict=True):
        if at_m <= stretch.end_m:
            length = stretch.end_m - stretch.start_m
            return _along(leg, (at_m - stretch.start_m) / length if length else 1.0)
    return legs[-1][-1]


def _along(leg: Sequence[_Place], share: float) -> _Place:
    left = share * sum(dist(a, b) for a, b in pairwise(leg))
    for a, b in pairwise(leg):
        length = dist(a, b)
        if left <= length and length:
            part = left / length
            return tuple(p + part * (q - p) for p, q in zip(a, b, strict=True))  # type: ignore[return-value]
        left -= length
    return leg[-1]


def _line(mark: PlanMark) -> Message:
    return say("plan.line", number=mark.number, label=mark.label)
