"""The circuit as rows of a drawing, from source to load, and the same in words.

Left rail positive, right rail the return. A row has at most one mark on each rail; rows stand
in the order of their true distance from the source.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from itertools import pairwise, zip_longest

from baybook.circuit import Conductor
from baybook.compose.route_cable import area
from baybook.compose.tables import joint_words
from baybook.compose.wiring_marks import (
    body_station,
    factory_fuse_station,
    fitting_station,
    fuse_station,
    joint_station,
    label,
    plug_station,
)
from baybook.compose.work import Work, at, count, distance, wire
from baybook.finding import Amount, Listing, Message, Name, Ref, Value, say
from baybook.view import Rank, Run, Station, WiringView

_NONE = Run(colour="", style="none")
_EXISTING = Run(colour="", style="existing")
_CHASSIS = Run(colour="", style="chassis")
_CLOSE = 1e-6  # m


@dataclass(frozen=True, slots=True, kw_only=True)
class _Row:
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
) -> _Row:
    return _Row(
        at_m=at_m,
        on_ruler=ruler,
        positive=marks[0],
        negative=marks[1],
        positive_run=runs[0],
        negative_run=runs[1],
        zone=zone,
    )


def wiring(work: Work) -> WiringView:
    """Return the wiring view of the finished circuit."""
    rows = [*_source_rows(work), *_route_rows(work), *_charger_row(work)]
    first = work.stretches[0]
    ranks = [
        _battery(work),
        *_ranked(work, rows),
        _charger(work),
        *_output(work),
        _station(work),
    ]
    ranks[0] = replace(ranks[0], zone_starts=_zone_words(work, first.zone), zone=first.zone)
    return WiringView(
        title=say(
            "wiring.title", start=Name(work.fit.vehicle.model), end=Name(work.fit.station.name)
        ),
        ranks=tuple(ranks),
        connections=tuple(_connections(work)),
    )


def _run(conductor: Conductor | None) -> Run:
    if conductor is None:
        return _NONE
    if conductor.existing:
        return _EXISTING
    return Run(colour=conductor.colour, style="new", conductor=conductor.tag)


def _first_run(work: Work) -> Run:
    """From the battery down: our own lead, or the vehicle's up to its own fuse or point."""
    point = work.fit.vehicle.points[work.fit.job.source.positive]
    return _EXISTING if work.fuse.factory or point.line else _run(work.run[0])


def _back(work: Work) -> Run:
    """The return along the route: a conductor, or the body."""
    return _run(_of(work, "return")) if work.body is None else _CHASSIS


def _of(work: Work, use: str) -> Conductor | None:
    return next((c for c in work.circuit.conductors if c.use == use), None)


def _zone_words(work: Work, zone: str) -> Message:
    stretch = next(s for s in work.stretches if s.zone == zone)
    return say(
        "zone",
        name=Name(stretch.zone_name),
        temperature=Amount(stretch.ambient_C, "degC", 0).at_most(),
    )


# --------------------------------------------------------------------------- rows by distance


def _source_rows(work: Work) -> list[_Row]:
    """From the battery's posts to the protection; the return comes up on the other rail."""
    positive = [*_positive(work)]
    negative = [*_negative(work)]
    rows: list[_Row] = []
    at_m, plus, minus = 0.0, _first_run(work), _EXISTING
    for left, right in zip_longest(positive, negative):
        place, station, ruler, zone = left or (at_m, None, False, "")
        at_m = place
        if station is not None and station.letters == (work.joint("source+").letter,):
            plus = _run(work.run[0])
        if station is not None and station.mark in {"fuse", "breaker"}:
            plus = _run(_of(work, "feed"))
        if right is not None and right.letters == (work.ground.letter,):
            minus = _back(work)
        rows.append(_row(place, (station, right), (plus, minus), ruler=ruler, zone=zone))
    return rows


def _positive(work: Work) -> Iterator[tuple[float, Station | None, bool, str]]:
    source, fuse = work.joint("source+"), work.fuse
    if fuse.factory:
        yield 0.0, _shared(work, factory_fuse_station(work, fuse)), True, ""
        return
    yield 0.0, _shared(work, joint_station(source)), True, ""
    lead = _of(work, "source")
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


def _route_rows(work: Work) -> list[_Row]:
    """What stands on both conductors between the protection and the charger."""
    feed, back = _of(work, "feed"), _of(work, "return")
    runs = _run(feed), _back(work)
    rows: list[_Row] = []
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


def _from_body(work: Work) -> Iterator[_Row]:
    """The lead from the body to the charger, at the end of the route."""
    back = _of(work, "return")
    if work.body is not None and back is not None:
        joint, runs = work.joint("return"), (_run(_of(work, "feed")), _run(back))
        yield _row(joint.at_m, (None, joint_station(joint)), runs, ruler=False)
        yield _row(joint.at_m, (None, label(back, "arrow")), runs, ruler=False)


def _widest(work: Work, rows: list[_Row]) -> float:
    """The middle of the longest free run inside the longest stretch: the label stands there."""
    start = max(work.stretches, key=lambda s: s.end_m - max(s.start_m, work.fuse.at_m))
    marks = sorted(
        {max(start.start_m, work.fuse.at_m), start.end_m}
        | {row.at_m for row in rows if start.start_m < row.at_m < start.end_m}
    )
    gaps = list(pairwise(marks))
    low, high = max(gaps, key=lambda gap: gap[1] - gap[0])
    return (low + high) / 2


def _charger_row(work: Work) -> list[_Row]:
    plus, minus = work.joint("in+"), work.joint("in-")
    runs = _run(_of(work, "feed")), _run(_of(work, "return"))
    return [_row(plus.at_m, (joint_station(plus), joint_station(minus)), runs)]


def _ranked(work: Work, rows: list[_Row]) -> Iterator[Rank]:
    ends = [row.at_m for row in rows[1:]] + [rows[-1].at_m]
    for row, end in zip(rows, ends, strict=True):
        yield Rank(
            kind="pair",
            at=distance(row.at_m) if row.on_ruler else None,
            zone=row.zone,
            zone_starts=_zone_words(work, row.zone) if row.zone else None,
            zone_line=bool(row.zone),
            positive=row.positive,
            negative=row.negative,
            positive_run=row.positive_run,
            negative_run=row.negative_run,
            length_m=max(end - row.at_m, 0.0),
        )


# --------------------------------------------------------------------------- devices, output


def _device(
    words: Message, lines: tuple[Message, ...], runs: tuple[Run, Run], *, existing: bool = False
) -> Rank:
    return Rank(
        kind="device",
        at=None,
        zone="",
        zone_starts=None,
        zone_line=False,
        positive=None,
        negative=None,
        positive_run=runs[0],
        negative_run=runs[1],
        device=words,
        device_lines=lines,
        device_existing=existing,
    )


def _battery(work: Work) -> Rank:
    battery = work.fit.vehicle.battery
    capacity = Amount.of(battery.capacity)
    words = (
        say("device.batteries", count=count(battery.units), capacity=capacity)
        if battery.units > 1
        else say("device.battery", capacity=capacity)
    )
    if work.fit.second is not None:
        words = say("device.first", number=count(1), capacity=capacity)
    existing = _EXISTING if work.has_joint("source-") else _run(_of(work, "return"))
    line = say("device.battery.line", place=Name(battery.place))
    return _device(words, (line,), (_first_run(work), existing), existing=True)


def _charger(work: Work) -> Rank:
    lines = [
        say(
            "device.charger.line",
            setting=work.setting,
            current=work.amount("current_low", digits=1),
            supply=work.amount("supply_low", digits=1),
        )
    ]
    if not work.fit.charger.isolated:
        lines.append(say("device.charger.joined"))
    runs = _run(_of(work, "output+")), _run(_of(work, "output-"))
    return _device(say("device.charger", name=Name(work.fit.charger.name)), tuple(lines), runs)


def _output(work: Work) -> Iterator[Rank]:
    pairs: list[tuple[Station, Station]] = [
        (joint_station(work.joint("out+")), joint_station(work.joint("out-")))
    ]
    plus, minus = _of(work, "output+"), _of(work, "output-")
    if plus is not None and minus is not None:
        pairs.append((label(plus, "arrow"), label(minus, "arrow")))
    if work.fit.second is not None:
        yield from _to_second(work, pairs)
        return
    pairs.append((plug_station(work, "plug+"), plug_station(work, "plug-")))
    for left, right in pairs:
        yield Rank(
            kind="pair",
            at=None,
            zone="",
            zone_starts=None,
            zone_line=False,
            positive=left,
            negative=right,
            positive_run=_run(plus),
            negative_run=_run(minus),
        )


def _to_second(work: Work, pairs: list[tuple[Station, Station]]) -> Iterator[Rank]:
    """The fuse stands at the battery's own end; the distances go on from the charger."""
    near, far, minus = (_of(work, use) for use in ("output+", "output+far", "output-"))
    fuse, plus = work.second_fuse, work.joint("load+")
    short = label(far, "none") if far else None
    rows = (
        *((left, right, near, None) for left, right in pairs),
        (fuse_station(work, fuse), None, far, work.joint("load-in").at_m),
        (short, None, far, None),
        (joint_station(plus), joint_station(work.joint("load-")), far, plus.at_m),
    )
    for left, right, run, at_m in rows:
        yield Rank(
            kind="pair",
            at=None if at_m is None else distance(at_m),
            zone="",
            zone_starts=None,
            zone_line=False,
            positive=left,
            negative=right,
            positive_run=_run(run),
            negative_run=_run(minus),
        )


def _second(work: Work) -> Rank:
    """Source 2: what it can feed back, and which run its fuse protects."""
    name, fuse = Name(work.fit.station.name), Ref("device", work.second_fuse.tag)
    far, near = work.circuit.conductor("output+far"), work.circuit.conductor("output+")
    lines = [say("device.second.line", far=wire(far.tag), near=wire(near.tag), fuse=fuse)]
    if work.fit.charger.temperature_lead:
        lines.append(say("device.second.temperature"))
    return _device(say("device.second", number=count(2), name=name), tuple(lines), (_NONE, _NONE))


def _station(work: Work) -> Rank:
    if work.fit.second is not None:
        return _second(work)
    station = work.fit.station
    line = say(
        "device.station.line",
        low=Amount.of(station.window_min),
        high=Amount.of(station.window_max),
        current=Amount.of(station.input_current),
        absolute=Amount.of(station.absolute),
    )
    return _device(say("device.station", name=Name(station.name)), (line,), (_NONE, _NONE))


# --------------------------------------------------------------------------- in words


def _connections(work: Work) -> Iterator[Message]:
    """One line for each conductor, in the order of the current."""
    for conductor in work.circuit.conductors:
        start, end = work.at(conductor.start), work.at(conductor.end)
        ends: dict[str, Value] = {
            "start": at(start.letter),
            "end": at(end.letter),
            "what_start": joint_words(start),
            "what_end": joint_words(end),
        }
        if conductor.existing:
            through = "body" if conductor.use == "body" else "existing"
            yield say(f"connection.{through}", **ends)
            continue
        yield say(
            "connection",
            wire=wire(conductor.tag),
            colour=say(f"colour.{conductor.colour}"),
            area=area(conductor),
            awg=say("awg", gauge=Name(conductor.awg)),
            length=Amount(conductor.cut_m, "m", 2).cut(),
            **ends,
        )
    if work.fuse.factory:
        yield say(
            "connection.factory",
            fuse=Ref("device", work.fuse.tag),
            place=Name(work.fuse.place),
            start=at(work.fuse.start),
            end=at(work.fuse.end),
        )
    yield from _cue_lead(work)


def _cue_lead(work: Work) -> Iterator[Message]:
    """The signal lead is no part of the circuit, and not in the drawing; here it is said."""
    sized = work.fit.charger.cue
    if not work.voltage_cue and sized is not None:
        yield say(
            "connection.cue",
            terminal=Name(sized.terminal),
            charger=Name(work.fit.charger.name),
            where=Name(work.fit.vehicle.cues[work.fit.job.cue].where),
            area=Amount.of(sized.area),
            fuse=Amount.of(sized.fuse),
            within=Amount.of(sized.fuse_within, 0).at_most(),
        )
