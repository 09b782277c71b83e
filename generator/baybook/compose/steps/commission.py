"""The whole fit at work: read, warmed, stopped, closed, driven, and asleep again."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from baybook.compose.action import act
from baybook.compose.practice import (
    IDLE_TIME,
    MINUTES,
    RESTARTS,
    ROAD_TIME,
    RUN_SPEED,
    RUN_TIME,
    SLEEP_WAIT,
    WARM_TIME,
)
from baybook.compose.reading_ids import loaded_ids, reading_ids
from baybook.compose.work import Work, at, count, device, reading, start_word, step
from baybook.finding import Message, Name, say
from baybook.step import Phase, Step

PHASE = Phase.COMMISSION


def commission(work: Work) -> tuple[Step, ...]:
    """Return the steps from the first load to the sleeping vehicle."""
    return (
        _load(work),
        *_read(work),
        *_stop(work),
        *_close(work),
        *_road(work),
        *_sleep(work),
    )


def _powered(work: Work) -> str:
    tag = work.fuse.tag
    return f"{tag}.in.again" if work.stays_on else f"{tag}.in"


def _load(work: Work) -> Step:
    word = start_word(work)
    return act(
        "start.load",
        PHASE,
        say(f"do.load.{word}"),
        value=RUN_SPEED.amount if word == "engine" else RUN_TIME.amount,
        value_note=say("note.for", time=RUN_TIME.amount) if word == "engine" else None,
        minutes=RUN_TIME.value,
        needs=("station-plugged", _powered(work)),
        makes=("running.load",),
        hazards=("fumes",),
        energises=True,
    )


def _read(work: Work) -> Iterator[Step]:
    ids, loaded = reading_ids(work), loaded_ids(work)
    yield act(
        "read.loaded",
        PHASE,
        say("do.read", first=reading(loaded[0]), last=reading(loaded[-1])),
        value=count(len(loaded)),
        value_note=say("note.readings"),
        tool=say("tool.meters"),
        minutes=MINUTES["measure"] * len(loaded),
        needs=("running.load",),
        makes=tuple(f"reading:{one}" for one in loaded),
    )
    yield act(
        "read.joints",
        PHASE,
        say("do.read.joints", readings=reading(ids["joints"])),
        value=WARM_TIME.amount,
        value_note=say("note.at-load"),
        tool=say("tool.thermometer"),
        minutes=WARM_TIME.value,
        needs=("running.load", *(f"reading:{one}" for one in loaded)),
        makes=(f"reading:{ids['joints']}",),
    )
    if "case" in ids:
        yield act(
            "read.case",
            PHASE,
            say("do.read.case", reading=reading(ids["case"])),
            value=work.amount("case_rise", digits=0).plain(),
            value_note=say("note.predicted"),
            tool=say("tool.thermometer"),
            minutes=MINUTES["measure"],
            needs=("running.load", f"reading:{ids['joints']}"),
            makes=(f"reading:{ids['case']}",),
        )
    if "idle" in ids:
        yield act(
            "read.idle",
            PHASE,
            say("do.read.idle", reading=reading(ids["idle"])),
            value=IDLE_TIME.amount,
            tool=say("tool.clamp"),
            minutes=IDLE_TIME.value,
            needs=("running.load", *_warm(ids)),
            makes=(f"reading:{ids['idle']}",),
        )


def _warm(ids: Mapping[str, str]) -> tuple[str, ...]:
    return tuple(f"reading:{ids[name]}" for name in ("joints", "case") if name in ids)


def _stop(work: Work) -> Iterator[Step]:
    ids = reading_ids(work)
    idle = (f"reading:{ids['idle']}",) if "idle" in ids else ()
    yield act(
        "restarts",
        PHASE,
        say(f"do.restarts.{start_word(work)}", reading=reading(ids["restarts"])),
        value=RESTARTS.amount,
        value_note=say("note.clean-starts"),
        minutes=MINUTES["fit"],
        needs=("running.load", *_warm(ids), *idle),
        makes=("cue-tested", f"reading:{ids['restarts']}"),
    )
    yield act(
        "radio",
        PHASE,
        say("do.radio", reading=reading(ids["noise"])),
        value=count(0),
        value_note=say("note.no-noise"),
        minutes=MINUTES["measure"],
        needs=("running.load", "cue-tested"),
        makes=("quiet", f"reading:{ids['noise']}"),
    )
    yield act(
        "stop.load",
        PHASE,
        say(_stopping(work), reading=reading(ids["stopped"])),
        tool=work.sleep_meter,
        minutes=MINUTES["measure"],
        needs=("quiet",),
        makes=("stopped.load", f"reading:{ids['stopped']}"),
        breaks=("running.load",),
    )


def _stopping(work: Work) -> str:
    """A charger that goes on at rest stops once its station takes nothing."""
    return f"do.stop.read.{start_word(work)}" + (".station" if work.stays_on else "")


def _closing_battery(work: Work) -> Message:
    place = Name(work.fit.vehicle.battery.place)
    return say("do.close", name=place, step=step("battery.reach"))


def _close(work: Work) -> Iterator[Step]:
    """From the source to the charger: the other way round than it was opened."""
    before: tuple[str, ...] = ()
    for number, segment in enumerate(work.segments, 1):
        if segment.shut_to_run:
            continue
        yield act(
            f"close.{number}",
            PHASE,
            say(
                "do.close", name=Name(work.stretches[number - 1].name), step=step(f"open.{number}")
            ),
            minutes=MINUTES["open"],
            needs=("stopped.load", f"clipped:{number}", *before),
            makes=(f"closed:{number}",),
            breaks=(f"open:{number}",),
        )
        before = (f"closed:{number}",)
    if work.fit.vehicle.battery.access is not None:
        yield act(
            "battery.close",
            PHASE,
            _closing_battery(work),
            needs=("stopped.load", *before),
            makes=("battery-closed",),
            breaks=("battery-reached",),
        )
        before = (*before, "battery-closed")
    yield act(
        "labels",
        PHASE,
        say("do.labels"),
        needs=before or ("stopped.load",),
        makes=("labelled",),
        minutes=MINUTES["fit"],
    )


def _road(work: Work) -> Iterator[Step]:
    yield act(
        "road",
        PHASE,
        say("do.road"),
        value=ROAD_TIME.amount,
        minutes=ROAD_TIME.value + 5,
        needs=("labelled", "station-fixed", "charger-fixed"),
        makes=("road-done",),
    )
    if work.fit.vehicle.supply.stop_start:
        yield act(
            "stop-start",
            PHASE,
            say("do.stop-start"),
            value_note=say("note.no-lamp"),
            minutes=MINUTES["fit"],
            needs=("road-done",),
            makes=("stop-start-seen",),
        )
    yield act(
        "road.look",
        PHASE,
        say("do.road.look", plus=at(work.joint("in+").letter), fuse=device(work.fuse.tag)),
        value_note=say("note.no-change"),
        minutes=MINUTES["look"] * 2,
        needs=("road-done", *(("stop-start-seen",) if work.fit.vehicle.supply.stop_start else ())),
        makes=("road-looked",),
    )
    codes = reading_ids(work)["codes"]
    yield act(
        "scan.after",
        PHASE,
        say("do.scan.after", step=step("scan.before"), reading=reading(codes)),
        value=count(0),
        value_note=say("note.new-codes"),
        tool=say("tool.scanner"),
        minutes=MINUTES["scan"],
        needs=("road-done", "scan-before"),
        makes=("scan-after", f"reading:{codes}"),
    )


def _sleep(work: Work) -> Iterator[Step]:
    ids = reading_ids(work)
    last = ids["asleep"]
    yield act(
        "sleep.again",
        PHASE,
        say(
            "do.sleep.again.station" if work.stays_on else "do.sleep.again",
            minus=at(work.negative.letter),
        ),
        value=SLEEP_WAIT.amount,
        people=0,
        minutes=SLEEP_WAIT.value,
        needs=("scan-after", "road-looked"),
        makes=("asleep-again",),
    )
    yield act(
        "sleep.after",
        PHASE,
        say("do.sleep.after", minus=at(work.negative.letter), reading=reading(last)),
        value=work.amount("sleep_after", digits=0, show="mA"),
        value_note=say("note.predicted"),
        tool=work.sleep_meter,
        minutes=MINUTES["measure"],
        needs=("asleep-again", f"reading:{ids['sleep']}"),
        makes=(f"reading:{last}",),
    )
    if work.fit.vehicle.battery.access is not None:
        yield act(
            "battery.shut",
            PHASE,
            say("do.shut", minus=at(work.negative.letter)),
            needs=(f"reading:{last}",),
            makes=("battery-shut",),
        )
