"""The circuit as a drawing from source to load: devices, and rows of marks between them.

Left rail positive, right rail the return. The same in words stands beside it.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from baybook.compose.connections import connections
from baybook.compose.wiring_marks import (
    fuse_station,
    joint_station,
    label,
    plug_station,
)
from baybook.compose.wiring_rows import Row, rows_of
from baybook.compose.wiring_runs import (
    EXISTING,
    NONE,
    conductor_of,
    first_run,
    run_of,
    zone_words,
)
from baybook.compose.work import Work, count, distance, wire
from baybook.finding import Amount, Message, Name, Ref, say
from baybook.view import Rank, Run, Station, WiringView


def wiring(work: Work) -> WiringView:
    """Return the wiring view of the finished circuit."""
    rows = rows_of(work)
    first = work.stretches[0]
    ranks = [
        _battery(work),
        *_ranked(work, rows),
        _charger(work),
        *_output(work),
        _station(work),
    ]
    ranks[0] = replace(ranks[0], zone_starts=zone_words(work, first.zone), zone=first.zone)
    return WiringView(
        title=say(
            "wiring.title", start=Name(work.fit.vehicle.model), end=Name(work.fit.station.name)
        ),
        ranks=tuple(ranks),
        connections=tuple(connections(work)),
    )


def _ranked(work: Work, rows: list[Row]) -> Iterator[Rank]:
    ends = [row.at_m for row in rows[1:]] + [rows[-1].at_m]
    for row, end in zip(rows, ends, strict=True):
        yield Rank(
            kind="pair",
            at=distance(row.at_m) if row.on_ruler else None,
            zone=row.zone,
            zone_starts=zone_words(work, row.zone) if row.zone else None,
            zone_line=bool(row.zone),
            positive=row.positive,
            negative=row.negative,
            positive_run=row.positive_run,
            negative_run=row.negative_run,
            length_m=max(end - row.at_m, 0.0),
        )


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
    existing = EXISTING if work.has_joint("source-") else run_of(conductor_of(work, "return"))
    line = say("device.battery.line", place=Name(battery.place))
    return _device(words, (line,), (first_run(work), existing), existing=True)


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
    runs = run_of(conductor_of(work, "output+")), run_of(conductor_of(work, "output-"))
    return _device(say("device.charger", name=Name(work.fit.charger.name)), tuple(lines), runs)


def _output(work: Work) -> Iterator[Rank]:
    pairs: list[tuple[Station, Station]] = [
        (joint_station(work.joint("out+")), joint_station(work.joint("out-")))
    ]
    plus, minus = conductor_of(work, "output+"), conductor_of(work, "output-")
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
            positive_run=run_of(plus),
            negative_run=run_of(minus),
        )


def _to_second(work: Work, pairs: list[tuple[Station, Station]]) -> Iterator[Rank]:
    """The fuse stands at the battery's own end; the distances go on from the charger."""
    near, far, minus = (conductor_of(work, use) for use in ("output+", "output+far", "output-"))
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
            positive_run=run_of(run),
            negative_run=run_of(minus),
        )


def _second(work: Work) -> Rank:
    """Source 2: what it can feed back, and which run its fuse protects."""
    name, fuse = Name(work.fit.station.name), Ref("device", work.second_fuse.tag)
    far, near = work.circuit.conductor("output+far"), work.circuit.conductor("output+")
    lines = [say("device.second.line", far=wire(far.tag), near=wire(near.tag), fuse=fuse)]
    if work.fit.charger.temperature_lead:
        lines.append(say("device.second.temperature"))
    return _device(say("device.second", number=count(2), name=name), tuple(lines), (NONE, NONE))


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
    return _device(say("device.station", name=Name(station.name)), (line,), (NONE, NONE))
