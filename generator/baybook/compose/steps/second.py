"""What a second battery adds to the work: it is a source too, and comes off and on like one.

Its negative comes off right after the starter battery's, its protection stays out until the
output is read and signed, and its negative goes on after the last of its joints.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from baybook.compose.action import act
from baybook.compose.practice import MINUTES
from baybook.compose.steps.connect import join
from baybook.compose.work import Work, at, device, millimetres, step, wire
from baybook.finding import Amount, Name, say
from baybook.quantity import Quantity
from baybook.step import Phase, Step

_OFF = "second-off"


def for_second(work: Work, steps: tuple[Step, ...]) -> tuple[Step, ...]:
    """Return the steps of a job whose load is a second battery; others as they are."""
    if work.fit.second is None:
        return steps
    return (*(_changed(work, one) for one in steps), *_more(work))


def _changed(work: Work, one: Step) -> Step:
    """What stands in the place of a plug: the protection at the battery's own end."""
    if one.id == "plug":
        return _protection_in(work, one)
    more = _waits_for(work).get(one.id, ())
    needs = tuple(state for state in one.needs if state != "plug-pulled")
    return replace(one, needs=(*needs, *more))


def _waits_for(work: Work) -> dict[str, tuple[str, ...]]:
    """By step: what more must be true before it."""
    out = f"{work.second_fuse.tag}.out"
    lead = ("temperature-lead",) if work.fit.charger.temperature_lead else ()
    relay = ("relay-out",) if work.fit.vehicle.split_relay is not None else ()
    closed = ("second-closed",) if work.fit.job.station_place.access is not None else ()
    return {
        "dead": ("second-tied",),
        "fuse.out": relay,
        "battery.on": ("second-on", *lead, out),
        "open-plug": (out,),
        "labels": closed,
    }


def _protection_in(work: Work, one: Step) -> Step:
    fuse = work.second_fuse
    torque, family = work.at(fuse.start).torque, Name(fuse.family)
    stated = isinstance(torque, Quantity)
    note = say("note.family", family=family)
    if isinstance(torque, Quantity):
        note = say("note.family.nuts", family=family, torque=Amount.of(torque))
    return replace(
        one,
        value=Amount(fuse.rating_A, "A", 0, fuse.rating_written),
        value_note=note,
        tool=work.wrench(work.at(fuse.start)),
        torque_mark=stated,
        makes=(*one.makes, f"{fuse.tag}.in"),
        breaks=(*one.breaks, f"{fuse.tag}.out"),
        hazards=("arc", *one.hazards),
        energises=True,
    )


def _more(work: Work) -> Iterator[Step]:
    yield from _off(work)
    yield from _relay(work)
    yield from _holder(work)
    yield from _joined(work)
    yield from _temperature(work)


def _off(work: Work) -> Iterator[Step]:
    access = work.fit.job.station_place.access
    reached = ("second-reached",) if access is not None else ()
    if access is not None:
        yield act(
            "second.reach",
            Phase.PREPARE,
            say("do.open", access=Name(access)),
            value_note=say("note.battery", place=Name(work.fit.job.station_place.place)),
            needs=("scan-before", "damage-recorded"),
            makes=reached,
        )
        yield act(
            "second.close",
            Phase.COMMISSION,
            say("do.close", name=Name(work.fit.job.station_place.place), step=step("second.reach")),
            needs=("stopped.load", *(f"closed:{n}" for n, _ in enumerate(work.stretches, 1))),
            makes=("second-closed",),
            breaks=("second-reached",),
        )
    minus = work.joint("load-")
    yield act(
        "second.off",
        Phase.ISOLATE,
        say("do.second.off", minus=at(minus.letter)),
        # loosened with the plain socket: a torque wrench that undoes nuts loses its calibration
        tool=say("tool.socket", socket=Name(minus.tool)) if minus.tool else say("tool.terminal"),
        needs=("negative-tied", *reached),
        makes=(_OFF,),
        hazards=("arc",),
    )
    yield act(
        "second.cover",
        Phase.ISOLATE,
        say("do.second.cover"),
        tool=say("tool.cap"),
        needs=(_OFF,),
        makes=("second-tied",),
    )


def _relay(work: Work) -> Iterator[Step]:
    relay = work.fit.vehicle.split_relay
    if relay is not None:
        yield act(
            "relay.out",
            Phase.ISOLATE,
            say("do.relay.out", place=Name(relay.place)),
            tool=say("tool.spanners"),
            minutes=MINUTES["fit"],
            needs=("hold:proved-dead", _OFF),
            makes=("relay-unbolted",),
        )
        yield act(
            "relay.leads",
            Phase.ISOLATE,
            say("do.relay.leads", leads=Name(relay.leads)),
            minutes=MINUTES["fit"],
            needs=("relay-unbolted", _OFF),
            makes=("relay-out",),
        )


def _holder(work: Work) -> Iterator[Step]:
    fuse = work.second_fuse
    yield act(
        "second.holder",
        Phase.DRILL,
        say(
            "do.fuse.holder",
            fuse=device(fuse.tag),
            distance=millimetres(fuse.at_m).at_most(),
            source=at(work.joint("load+").letter),
        ),
        value=millimetres(fuse.at_m).at_most(),
        value_note=say("note.limit", limit=millimetres(fuse.limit_m).at_most()),
        tool=say("tool.hand"),
        minutes=MINUTES["fit"],
        needs=("hold:behind-screws",),
        makes=(f"{fuse.tag}.fixed",),
    )
    yield act(
        "second.out",
        Phase.CONNECT,
        say(f"do.{fuse.form}.out", fuse=device(fuse.tag), place=Name(work.joint("load-in").place)),
        needs=("hold:proved-dead", "ends-clipped", _OFF),
        makes=(f"{fuse.tag}.out",),
    )


def _joined(work: Work) -> Iterator[Step]:
    """From the charger to the battery, its plus before its minus, and the minus last of all."""
    fuse, made = work.second_fuse, work.joint("return").letter
    near, far = work.circuit.conductor("output+"), work.circuit.conductor("output+far")
    for conductor, role in ((near, "load-in"), (far, "load-out"), (far, "load+")):
        after = (f"{made}.made", f"{fuse.tag}.fixed", f"{fuse.tag}.out", _OFF, "charger-pulled")
        yield from join(work, conductor, work.joint(role), after=after)
        made = work.joint(role).letter
    last = join(
        work,
        work.circuit.conductor("output-"),
        work.joint("load-"),
        after=(f"{made}.made", f"{work.joint('source+').letter}.made", f"{fuse.tag}.out", _OFF),
    )
    for one in last:
        if one.joins:
            yield replace(
                one,
                action=say(
                    "do.second.on",
                    wire=wire(work.circuit.conductor("output-").tag),
                    joint=at(work.joint("load-").letter),
                    torque=one.value or Amount(0.0, "N*m", 0),
                )
                if one.value
                else one.action,
                makes=(*one.makes, "second-on"),
                breaks=(_OFF,),
                hazards=(*one.hazards, "arc"),
                energises=True,
            )
        else:
            yield one


def _temperature(work: Work) -> Iterator[Step]:
    if work.fit.charger.temperature_lead:
        yield act(
            "temperature",
            Phase.CONNECT,
            say("do.temperature", minus=at(work.joint("load-").letter)),
            tool=say("tool.hand"),
            minutes=MINUTES["fit"],
            needs=("charger-pulled", _OFF),
            makes=("temperature-lead",),
        )
