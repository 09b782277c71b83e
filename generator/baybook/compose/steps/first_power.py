"""The charger alone: its power, its voltage, its cue. Only then the station."""

from __future__ import annotations

from collections.abc import Iterator

from baybook.compose import holds, limits
from baybook.compose.action import act
from baybook.compose.practice import DEAD_BELOW, MINUTES
from baybook.compose.reading_ids import reading_ids
from baybook.compose.steps.settle import settle, settled
from baybook.compose.work import Work, at, device, hold, reading, start_word
from baybook.finding import Amount, Message, Name, say
from baybook.quantity import Quantity
from baybook.step import Phase, Step

PHASE = Phase.FIRST_POWER


def first_power(work: Work) -> tuple[Step, ...]:
    """Return the steps from the open plug to the station plugged in."""
    return (
        *_before(work),
        *_fuse(work),
        *_set(work),
        *settle(work, PHASE, needs=(f"reading:{reading_ids(work)['open']}",)),
        *_off(work),
        *_station(work),
        *_plug(work),
    )


def _before(work: Work) -> Iterator[Step]:
    plus, minus = work.joint("plug+").letter, work.joint("plug-").letter
    yield act(
        "open-plug",
        PHASE,
        say("do.open-plug", plus=at(plus), minus=at(minus)),
        needs=("hold:polarity",),
        makes=("station-unplugged",),
    )
    power = work.fit.charger.power
    if power is not None:
        yield act(
            "power",
            PHASE,
            say(
                "do.power", power=Amount(work.design.choice.power_W, "W", 0), by=Name(power.set_by)
            ),
            value=Amount(work.design.choice.power_W, "W", 0),
            value_note=say("note.power", limit=Amount(work.design.choice.input_limit_A, "A", 1)),
            needs=("hold:polarity", f"{work.fuse.tag}.out"),
            makes=("power-set",),
        )


def _fuse(work: Work) -> Iterator[Step]:
    fuse = work.fuse
    yield act(
        "fuse.in",
        PHASE,
        say(f"do.{work.fuse_words}.in", fuse=device(fuse.tag), rating=_rating(work)),
        value=_rating(work),
        value_note=_fuse_note(work),
        tool=work.wrench(work.at(fuse.start)),
        torque_mark=_nuts(work),
        needs=(
            "hold:polarity",
            "station-unplugged",
            *(("power-set",) if work.fit.charger.power is not None else ()),
        ),
        makes=(f"{fuse.tag}.in",),
        breaks=(f"{fuse.tag}.out",),
        hazards=("arc",),
        energises=True,
    )
    yield act(
        "start.first",
        PHASE,
        say(f"do.start.{start_word(work)}"),
        tool=say("tool.exhaust") if start_word(work) == "engine" else None,
        needs=(f"{fuse.tag}.in", "station-unplugged"),
        makes=("running.first",),
        breaks=("key-away",),
        hazards=("fumes",),
        energises=True,
    )


def _rating(work: Work) -> Amount:
    return Amount(work.fuse.rating_A, "A", 0, work.fuse.rating_written)


def _nuts(work: Work) -> bool:
    """Whether the fuse is held by nuts that want their torque and their paint line."""
    stated = isinstance(work.at(work.fuse.start).torque, Quantity)
    return work.fuse.form == "fuse" and not work.fuse.factory and stated


def _fuse_note(work: Work) -> Message:
    """A bolt-down fuse sits under the nuts of its own studs."""
    if work.fuse.factory:
        return say("note.factory")
    family, torque = Name(work.fuse.family), work.at(work.fuse.start).torque
    if _nuts(work) and isinstance(torque, Quantity):
        return say("note.family.nuts", family=family, torque=Amount.of(torque))
    return say("note.family", family=family)


def _set(work: Work) -> Iterator[Step]:
    setting = work.design.choice.set_V
    default = work.fit.charger.output_default
    served = setting == default.value
    yield act(
        "set",
        PHASE,
        say("do.set.default" if served else "do.set", voltage=work.setting),
        value=Amount.of(default) if served else work.setting,
        value_note=say("note.default", default=Amount.of(default)),
        minutes=MINUTES["fit"],
        needs=("running.first", "station-unplugged"),
        makes=("voltage-set",),
    )
    plus, minus = work.joint("plug+").letter, work.joint("plug-").letter
    low, high = limits.output_open(work)
    one = reading_ids(work)["open"]
    yield act(
        "meter",
        PHASE,
        say("do.meter", plus=at(plus), minus=at(minus), reading=reading(one)),
        value=work.setting,
        value_note=say("note.between", low=low, high=high),
        tool=say("tool.meter"),
        people=2,
        minutes=MINUTES["measure"],
        needs=("voltage-set", "running.first", "station-unplugged"),
        makes=(f"reading:{one}", "hold:set-voltage"),
        hold=holds.set_voltage(work),
    )


def _off(work: Work) -> Iterator[Step]:
    """The plug is never joined or parted under load."""
    yield act(
        "stop.first",
        PHASE,
        say(f"do.stop.{start_word(work)}"),
        needs=("hold:set-voltage", "running.first"),
        makes=("stopped.first",),
        breaks=("running.first",),
    )
    fuse = work.fuse
    if work.stays_on:
        yield act(
            "fuse.out.again",
            PHASE,
            say(f"do.{work.fuse_words}.out.again", fuse=device(fuse.tag)),
            needs=("stopped.first",),
            makes=(f"{fuse.tag}.out.again",),
            breaks=(f"{fuse.tag}.in",),
            hazards=("arc",),
        )
    plus, minus = work.joint("plug+").letter, work.joint("plug-").letter
    yield act(
        "output.off",
        PHASE,
        say("do.output.off", plus=at(plus), minus=at(minus)),
        value=DEAD_BELOW.amount,
        value_note=say("note.below"),
        tool=say("tool.meter"),
        minutes=MINUTES["measure"],
        needs=("stopped.first", *((f"{fuse.tag}.out.again",) if work.stays_on else ())),
        makes=("output-off",),
    )


def _station(work: Work) -> Iterator[Step]:
    station, pull = work.fit.station, "force_station_forward"
    held = work.has(pull)
    yield act(
        "label.plug",
        PHASE,
        say("do.label.plug", plus=at(work.joint("plug+").letter)),
        value=Amount.of(station.absolute),
        value_note=say("note.absolute"),
        needs=("output-off",),
        makes=("plug-labelled",),
    )
    yield act(
        "station.fix",
        PHASE,
        say("do.station.fix", fixing=Name(work.fit.job.station_place.fixing)),
        value=work.amount(pull, digits=2, show="kN").at_least() if held else None,
        value_note=say("note.force") if held else None,
        minutes=MINUTES["place"],
        needs=("output-off",),
        makes=("station-fixed",),
    )


def _plug(work: Work) -> Iterator[Step]:
    fuse = work.fuse
    again = (f"{fuse.tag}.out.again",) if work.stays_on else ()
    yield act(
        "plug",
        PHASE,
        say("do.plug", plus=at(work.joint("plug+").letter), hold=hold("set-voltage")),
        needs=(
            "hold:set-voltage",
            "output-off",
            "plug-labelled",
            "station-fixed",
            *again,
            *settled(work, PHASE),
        ),
        makes=("station-plugged",),
        breaks=("station-unplugged",),
        hazards=("overvoltage",),
    )
    if work.stays_on:
        yield act(
            "fuse.in.again",
            PHASE,
            say(f"do.{work.fuse_words}.in.again", fuse=device(fuse.tag)),
            value=_rating(work),
            value_note=_fuse_note(work),
            tool=work.wrench(work.at(fuse.start)),
            torque_mark=_nuts(work),
            needs=("station-plugged",),
            makes=(f"{fuse.tag}.in.again",),
            breaks=(f"{fuse.tag}.out.again",),
            hazards=("arc",),
            energises=True,
        )
