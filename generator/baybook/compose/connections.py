"""The circuit in words: one line for each conductor, in the order of the current."""

from __future__ import annotations

from collections.abc import Iterator

from baybook.compose.route_cable import area
from baybook.compose.tables import joint_words
from baybook.compose.work import Work, at, wire
from baybook.finding import Amount, Message, Name, Ref, Value, say


def connections(work: Work) -> Iterator[Message]:
    """Yield a line for each conductor, for the fuse of the vehicle's maker, for the signal lead."""
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
            area=Amount.of(sized.area).at_least(),
            fuse=Amount.of(sized.fuse),
            within=Amount.of(sized.fuse_within, 0).at_most(),
        )
