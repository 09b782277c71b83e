"""The marks of the circuit as rows, from the battery's posts to the charger.

A row has at most one mark on each rail; rows stand in the order of their true distance from the
source.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from itertools import pairwise, zip_longest

from baybook.compose.wiring_marks import (
    body_station,
    factory_fuse_station,
    fitting_station,
    fuse_station,
    joint_station,
    label,
)
from baybook.compose.wiring_runs import (
    EXISTING,
    conductor_of,
    first_run,
    run_of,
    way_back,
)
from baybook.compose.work import Work
from baybook.finding import Listing, Name, say
from baybook.view import Run, Station

_CLOSE = 1e-6  # m


@dataclass(frozen=True, slots=True, kw_only=True)
class Row:
    """A row to be: its distance, its two marks, and what each rail is below it."""

    at_m: float
    on_ruler: bool
    positive: Station | None
    negative: Station | None
    positive_run: Run
    negative_run: Run
    zone: str = ""  # starts here, after the first


def _row(
    at_m: float,
    marks: tuple[Station | None, Station | None],
    runs: tuple[Run, Run],
    *,
    ruler: bool = True,
    zone: str = "",
) -> Row:
    return Row(
        at_m=at_m,
        on_ruler=ruler,
        positive=marks[0],
        negative=marks[1],
        positive_run=runs[0],
        negative_run=runs[1],
        zone=zone,
    )


def rows_of(work: Work) -> list[Row]:
    """Return the rows from the battery's posts to the charger."""
    return [*_source_rows(work), *_route_rows(work), *_charger_row(work)]


# --------------------------------------------------------------------------- rows by distance


def _source_rows(work: Work) -> list[Row]:
    """From the battery's posts to the protection; the return comes up on the other rail."""
    positive = [*_positive(work)]
    negative = [*_negative(work)]
    rows: list[Row] = []
    at_m, plus, minus = 0.0, first_run(work), EXISTING
    for left, right in zip_longest(positive, negative):
        place, station, ruler, zone = left or (at_m, None, False, "")
        at_m = place
        if station is not None and station.letters == (work.joint("source+").letter,):
            plus = run_of(work.run[0])
        if station is not None and station.mark in {"fuse", "breaker"}:
            plus = run_of(conductor_of(work, "feed"))
        if right is not None and right.letters == (work.ground.letter,):
            minus = way_back(work)
        rows.append(_row(place, (station, right), (plus, minus), ruler=ruler, zone=zone))
    return rows


def _positive(work: Work) -> Iterator[tuple[float, Station | None, bool, str]]:
    source, fuse = work.joint("source+"), work.fuse
    if fuse.factory:
        yield 0.0, _shared(work, factory_fuse_station(work, fuse)), True, ""
        return
    yield 0.0, _shared(work, joint_station(source)), True, ""
    lead = conductor_of(work, "source")
    middle = fuse.at_m / 2
    for fitting in work.circuit.fittings:
        if fitting.kind == "conduit":
            yield middle, fitting_station(fitting), False, ""
    if lead is not None:
        yield middle, label(lead, "none"), False, ""
    for before, stretch in zip(work.stretches, work.stretches[1:], strict=False):
        if before.end_m < fuse.at_m - _CLOSE:
            yield before.end_m, _wall_at(work, before.end_m), True, stretch.zone
    yield fuse.at_m, fuse_station(work, fuse), True, ""


def _shared(work: Work, station: Station) -> Station:
    """Say what else hangs on the point that the feed starts at."""
    line = work.fit.vehicle.points[work.fit.job.source.positive].line
    if line is None:
        return station
    words = say("joint.shared", loads=Listing(tuple(Name(load.what) for load in line.loads)))
    return replace(station, lines=(*station.lines, words))


def _wall_at(work: Work, at_m: float) -> Station | None:
    walls = (f for f in work.circuit.fittings if f.kind in {"grommet", "gland"})
    wall = next((f for f in walls if abs(f.at_m - at_m) < _CLOSE), None)
    return fitting_station(wall) if wall else None


def _negative(work: Work) -> Iterator[Station]:
    if work.has_joint("source-"):
        yield joint_station(work.joint("source-"), put_back=work.post_torque)
    for found in work.circuit.devices:
        if found.kind in {"sensor", "isolator"}:
            yield Station(
                mark=found.kind,
                letters=(),
                head=say(f"device.{found.kind}"),
                lines=(say(f"device.{found.kind}.line", place=Name(found.place)),),
            )
    yield joint_station(work.ground)


def _route_rows(work: Work) -> list[Row]:
    """What stands on both conductors between the protection and the charger."""
    feed, back = conductor_of(work, "feed"), conductor_of(work, "return")
    runs = run_of(feed), way_back(work)
    rows: list[Row] = []
    for before, stretch in zip(work.stretches, work.stretches[1:], strict=False):
        if before.end_m >= work.fuse.at_m - _CLOSE:
            wall = _wall_at(work, before.end_m)
            zone = stretch.zone if stretch.zone != before.zone else ""
            if wall or zone:
                rows.append(_row(before.end_m, _across(work, wall), runs, zone=zone))
    for fitting in work.circuit.fittings:
        if fitting.kind in {"sleeve", "loop"}:
            mark = fitting_station(fitting)
            rows.append(_row(fitting.at_m, _across(work, mark), runs))
    if feed is not None and back is not None:
        through = label(back, "arrow") if work.body is None else body_station(work)
        arrows = label(feed, "arrow"), through
        rows.append(_row(_widest(work, rows), arrows, runs, ruler=False))
    return [*sorted(rows, key=lambda row: row.at_m), *_from_body(work)]


def _across(work: Work, mark: Station | None) -> tuple[Station | None, Station | None]:
    """What stands on the conductors of the run: on both, or on the feed alone."""
    return (mark, mark) if work.body is None else (mark, None)


def _from_body(work: Work) -> Iterator[Row]:
    """The lead from the body to the charger, at the end of the route."""
    back = conductor_of(work, "return")
    if work.body is not None and back is not None:
        joint, runs = work.joint("return"), (run_of(conductor_of(work, "feed")), run_of(back))
        yield _row(joint.at_m, (None, joint_station(joint)), runs, ruler=False)
        yield _row(joint.at_m, (None, label(back, "arrow")), runs, ruler=False)


def _widest(work: Work, rows: list[Row]) -> float:
    """The middle of the longest free run inside the longest stretch: the label stands there."""
    start = max(work.stretches, key=lambda s: s.end_m - max(s.start_m, work.fuse.at_m))
    marks = sorted(
        {max(start.start_m, work.fuse.at_m), start.end_m}
        | {row.at_m for row in rows if start.start_m < row.at_m < start.end_m}
    )
    gaps = list(pairwise(marks))
    low, high = max(gaps, key=lambda gap: gap[1] - gap[0])
    return (low + high) / 2


def _charger_row(work: Work) -> list[Row]:
    plus, minus = work.joint("in+"), work.joint("in-")
    runs = run_of(conductor_of(work, "feed")), run_of(conductor_of(work, "return"))
    return [_row(plus.at_m, (joint_station(plus), joint_station(minus)), runs)]
