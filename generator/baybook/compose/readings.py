"""The readings: what the same model predicts, how far it may lie off, what a miss means."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from baybook.compose import holds, limits
from baybook.compose.limits import least, most
from baybook.compose.practice import (
    IDLE_TIME,
    RESTARTS,
    RUN_SPEED,
    RUN_TIME,
    SLEEP_WAIT,
    WARM_TIME,
)
from baybook.compose.reading_ids import loaded_ids, reading_ids
from baybook.compose.reading_line import letters, line
from baybook.compose.readings_loaded import loaded
from baybook.compose.work import Work, by_start, count, device, reading, start_word, wire
from baybook.finding import Amount, Message, say
from baybook.guide import ReadingLine


def readings(work: Work) -> tuple[ReadingLine, ...]:
    """Return every reading in the order in which it is taken."""
    ids = reading_ids(work)
    rows = {row.name: row for row in _rows(work)}
    return tuple(replace(rows[name], id=one) for name, one in ids.items())


def reading_notes(work: Work) -> tuple[Message, ...]:
    """Return what holds for the whole table."""
    meter, at_load = work.fit.shop.meter, loaded_ids(work)
    return (
        say("readings.outside"),
        say(
            f"readings.loaded.{start_word(work)}",
            first=reading(at_load[0]),
            last=reading(at_load[-1]),
            speed=RUN_SPEED.amount,
            time=RUN_TIME.amount,
        ),
        say("readings.tree"),
        say("readings.meter", voltage=Amount.of(meter.voltage), current=Amount.of(meter.current)),
    )


def _rows(work: Work) -> Iterator[ReadingLine]:
    yield _running(work)
    yield _sleep_before(work)
    if work.has("least_rest"):
        yield _rest(work)
    yield _open(work)
    yield from loaded(work)
    yield _joints(work)
    if work.has("most_case"):
        yield _case(work)
    if work.has("least_idle"):
        yield _idle(work)
    yield _restarts(work)
    yield _noise(work)
    yield _stopped(work)
    yield _codes(work)
    yield _asleep(work)


# --------------------------------------------------------------------------- before the station


def _posts(work: Work) -> tuple[str, str]:
    return work.joint("source+").letter, work.negative.letter


def _running(work: Work) -> ReadingLine:
    return line(
        "running",
        say("reading.running"),
        say(f"state.running.{start_word(work)}"),
        _posts(work),
        work.amount("supply_typ", digits=1),
        least(work, "running", 2),
        most(work, "running", 2),
        say(f"if.running-low.{start_word(work)}"),
        say("if.running-high"),
    )


def _sleep_before(work: Work) -> ReadingLine:
    return line(
        "sleep",
        say("reading.sleep-before"),
        say("state.asleep", time=SLEEP_WAIT.amount),
        (work.negative.letter,),
        Amount(work.fit.vehicle.supply.sleep.value, "A", 0, show="mA"),
        None,
        most(work, "sleep", 0, "mA"),
        None,
        say("if.sleep-before"),
    )


def _rest(work: Work) -> ReadingLine:
    return line(
        "rest",
        say("reading.rest", share=work.amount("rest_charge", digits=0)),
        say("state.asleep", time=SLEEP_WAIT.amount),
        _posts(work),
        work.amount("supply_rest", digits=2),
        *limits.rest(work),
        say("if.rest-low"),
        say("if.rest-high", time=SLEEP_WAIT.amount),
    )


def _open(work: Work) -> ReadingLine:
    row = line(
        "open",
        say("reading.output-open"),
        say(by_start(work, "state.unplugged")),
        letters(work, "plug+", "plug-"),
        work.setting,
        *limits.output_open(work),
        say("if.output-low", voltage=work.setting),
        say("if.output-high", voltage=work.setting),
    )
    return replace(row, hold=holds.set_voltage(work))


# --------------------------------------------------------------------------- warm, idle, stopped


def _joints(work: Work) -> ReadingLine:
    return line(
        "joints",
        say("reading.joints"),
        say("state.warm", time=WARM_TIME.amount),
        tuple(j.letter for j in work.circuit.joints if not j.existing),
        None,
        None,
        limits.at_most(work, "joints", 0).at_most(),
        None,
        say("if.joints"),
    )


def _case(work: Work) -> ReadingLine:
    return line(
        "case",
        say("reading.case"),
        say("state.warm", time=WARM_TIME.amount),
        (),
        work.amount("case_rise", digits=0).plain(),
        None,
        most(work, "case", 0).at_most(),
        None,
        say("if.case"),
    )


def _idle(work: Work) -> ReadingLine:
    """Positive into the battery. Every load is on, so the winter night is predicted.

    The prediction counts the alternator whole; the low limit is the budget with its headroom.
    """
    night = work.design.figure("idle_night").value
    share = work.fit.shop.limits.alternator_headroom.value.value
    hot_idle = work.fit.vehicle.supply.hot_idle
    spare = (1 - share) * hot_idle.value if hot_idle is not None else 0.0
    return line(
        "idle",
        say("reading.idle"),
        say("state.idle", time=IDLE_TIME.amount),
        (work.negative.letter,),
        Amount(night + spare, "A", 1),
        least(work, "idle", 1),
        None,
        say("if.idle"),
        None,
    )


def _restarts(work: Work) -> ReadingLine:
    """Each stop of the vehicle must stop the charger, each start must start it."""
    return line(
        "restarts",
        say("reading.restarts"),
        say("state.restarts", times=RESTARTS.amount),
        (),
        RESTARTS.amount,
        RESTARTS.amount,
        None,
        say("if.restarts.voltage" if work.voltage_cue else "if.restarts"),
    )


def _noise(work: Work) -> ReadingLine:
    return line(
        "noise",
        say("reading.noise"),
        say(f"state.noise.{start_word(work)}"),
        (),
        count(0),
        None,
        count(0),
        None,
        say("if.noise"),
    )


def _codes(work: Work) -> ReadingLine:
    stop_start = work.fit.vehicle.supply.stop_start
    return line(
        "codes",
        say("reading.codes"),
        say("state.codes.stop-start" if stop_start else "state.codes"),
        (),
        count(0),
        None,
        count(0),
        None,
        say("if.codes"),
    )


def _stopped(work: Work) -> ReadingLine:
    return line(
        "stopped",
        say("reading.stopped", wire=wire(work.run[0].tag)),
        _stopped_state(work),
        letters(work, "source+"),
        Amount(work.fit.charger.standby.value, "A", 0, show="mA"),
        None,
        most(work, "stopped", 0, "mA"),
        None,
        _still_on(work),
    )


def _stopped_state(work: Work) -> Message:
    """D14: how long it may take is the charger's own figure, where its sheet gives one."""
    within = work.fit.charger.stops_within
    words = "state.stopped.station" if work.stays_on else by_start(work, "state.stopped")
    if within is None or work.stays_on:
        return say(words)
    return say(f"{words}.within", time=Amount.of(within))


def _still_on(work: Work) -> Message:
    if work.stays_on:
        return say("if.stopped.station", fuse=device(work.fuse.tag))
    return say("if.stopped.voltage" if work.voltage_cue else "if.stopped.line")


def _asleep(work: Work) -> ReadingLine:
    standby = Amount(work.fit.charger.standby.value, "A", 0, show="mA")
    before = reading(reading_ids(work)["sleep"])
    return line(
        "asleep",
        say("reading.sleep-after"),
        say("state.asleep.station" if work.stays_on else "state.asleep", time=SLEEP_WAIT.amount),
        (work.negative.letter,),
        work.amount("sleep_after", digits=0, show="mA"),
        least(work, "asleep", 0, "mA"),
        most(work, "asleep", 0, "mA"),
        say("if.sleep-after-low", before=before),
        say("if.sleep-after", fuse=device(work.fuse.tag), standby=standby),
    )
