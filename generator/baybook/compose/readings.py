"""The readings: what the same model predicts, how far it may lie off, what a miss means."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from baybook.compose import holds, limits
from baybook.compose.practice import (
    IDLE_TIME,
    RUN_SPEED,
    RUN_TIME,
    SLEEP_SPREAD,
    SLEEP_WAIT,
    WARM_TIME,
)
from baybook.compose.reading_line import amp_share, figure, letters, line, volt_share
from baybook.compose.readings_loaded import loaded
from baybook.compose.work import Work, by_start, device, reading, start_word, wire
from baybook.finding import Amount, Message, Value, say
from baybook.guide import ReadingLine

_FIRST_LOADED = 3  # R0 to R2 are taken before the station is plugged in


def ids_taken(work: Work) -> dict[str, tuple[str, ...]]:
    """Return the reading ids by the state in which they are taken."""
    rest = _FIRST_LOADED + len(loaded(work))
    idle = (f"R{rest + 1}",) if work.has("idle_day") else ()
    stop = rest + 1 + len(idle)
    return {
        "loaded": tuple(f"R{n}" for n in range(_FIRST_LOADED, rest)),
        "warm": (f"R{rest}",),
        "idle": idle,
        "stop": (f"R{stop}",),
        "sleep": (f"R{stop + 1}",),
    }


def readings(work: Work) -> tuple[ReadingLine, ...]:
    """Return every reading in the order in which it is taken."""
    ids = ids_taken(work)
    return (
        *_before(work),
        *(make(work, one) for make, one in zip(loaded(work), ids["loaded"], strict=True)),
        _joints(work, ids["warm"][0]),
        *(_idle(work, one) for one in ids["idle"]),
        _stopped(work, ids["stop"][0]),
        _sleep(work, ids["sleep"][0]),
    )


def reading_notes(work: Work) -> tuple[Message, ...]:
    """Return what holds for the whole table."""
    meter = work.fit.shop.meter
    at_load = ids_taken(work)["loaded"]
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


# --------------------------------------------------------------------------- before the station


def _before(work: Work) -> Iterator[ReadingLine]:
    supply = work.fit.vehicle.supply
    post = (work.negative.letter,)
    spread = SLEEP_SPREAD.value + amp_share(work) * supply.sleep.value
    yield line(
        "R0",
        say("reading.sleep-before"),
        say("state.asleep", time=SLEEP_WAIT.amount),
        post,
        Amount(supply.sleep.value, "A", 0, show="mA"),
        None,
        Amount(supply.sleep.value + spread, "A", 0, show="mA"),
        None,
        say("if.sleep-before"),
    )
    yield line(
        "R1",
        say("reading.running"),
        say(f"state.running.{start_word(work)}"),
        (work.joint("source+").letter, *post),
        work.amount("supply_typ", digits=1),
        limits.volts((supply.low.value - _before_the_fit(work)) * (1 - volt_share(work))),
        limits.volts(supply.high.value * (1 + volt_share(work))),
        say(f"if.running-low.{start_word(work)}"),
        say("if.running-high"),
    )
    low, high = limits.output_open(work)
    row = line(
        "R2",
        say("reading.output-open"),
        say(by_start(work, "state.unplugged")),
        letters(work, "plug+", "plug-"),
        work.setting,
        low,
        high,
        say("if.output-low", voltage=work.setting),
        say("if.output-high", voltage=work.setting),
    )
    yield replace(row, hold=holds.set_voltage(work))


def _before_the_fit(work: Work) -> float:
    """What others on a shared line drop in it while the charger is absent. [V]"""
    if not work.has("others_current_low"):
        return 0.0
    return figure(work, "others_current_low") * figure(work, "line_resistance")


# --------------------------------------------------------------------------- warm, idle, stopped


def _joints(work: Work, one: str) -> ReadingLine:
    rise = work.fit.shop.limits.joint_rise.value
    return line(
        one,
        say("reading.joints"),
        say("state.warm", time=WARM_TIME.amount),
        tuple(j.letter for j in work.circuit.joints if not j.existing),
        None,
        None,
        Amount.of(rise, 0),
        None,
        say("if.joints"),
    )


def _idle(work: Work, one: str) -> ReadingLine:
    """Positive into the battery. Every load is on, so the winter night is predicted.

    The prediction counts the alternator whole; the low limit is the budget with its headroom.
    """
    night, share = figure(work, "idle_night"), work.fit.shop.limits.alternator_headroom.value.value
    hot_idle = work.fit.vehicle.supply.hot_idle
    spare = (1 - share) * hot_idle.value if hot_idle is not None else 0.0
    return line(
        one,
        say("reading.idle"),
        say("state.idle", time=IDLE_TIME.amount),
        (work.negative.letter,),
        Amount(night + spare, "A", 1),
        work.amount("idle_night", digits=1),
        None,
        say("if.idle"),
        None,
    )


def _stopped(work: Work, one: str) -> ReadingLine:
    standby = work.fit.charger.standby
    high = standby.value * (1 + amp_share(work)) + SLEEP_SPREAD.value
    return line(
        one,
        say("reading.stopped", wire=wire(work.run[0].tag)),
        say("state.stopped.station" if work.stays_on else by_start(work, "state.stopped")),
        letters(work, "source+"),
        Amount(standby.value, "A", 0, show="mA"),
        None,
        Amount(high, "A", 0, show="mA"),
        None,
        _still_on(work),
    )


def _still_on(work: Work) -> Message:
    if work.stays_on:
        return say("if.stopped.station", fuse=device(work.fuse.tag))
    return say("if.stopped.voltage" if work.voltage_cue else "if.stopped.line")


def _sleep(work: Work, one: str) -> ReadingLine:
    after = figure(work, "sleep_after")
    spread = SLEEP_SPREAD.value + amp_share(work) * after
    standby: Value = Amount(work.fit.charger.standby.value, "A", 0, show="mA")
    return line(
        one,
        say("reading.sleep-after"),
        say("state.asleep.station" if work.stays_on else "state.asleep", time=SLEEP_WAIT.amount),
        (work.negative.letter,),
        work.amount("sleep_after", digits=0, show="mA"),
        Amount(max(after - spread, 0.0), "A", 0, show="mA"),
        Amount(after + spread, "A", 0, show="mA"),
        say("if.sleep-after-low", before=reading("R0")),
        say("if.sleep-after", fuse=device(work.fuse.tag), standby=standby),
    )
