"""The route to scale: zones, joints, passages, sleeves, at their true distances."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import groupby

from baybook.circuit import Conductor, Fitting
from baybook.compose.work import Work, at, device, distance, millimetres, wire
from baybook.finding import Amount, Listing, Message, Name, say
from baybook.view import RouteView, StripMark, StripZone


def route_view(work: Work) -> RouteView:
    """Return the strip with its text equivalent."""
    end = work.stretches[-1].end_m
    return RouteView(
        title=say("strip.title"),
        zones=tuple(_zones(work)),
        marks=tuple(_marks(work)),
        clip_pitch_m=work.fit.shop.spacing.clip_pitch.value,
        length_m=end,
        return_from_m=work.joint("return").at_m,
        feed_label=say(
            "strip.feed",
            wires=Listing(tuple(_named(c) for c in work.long)),
            pitch=millimetres(work.fit.shop.spacing.clip_pitch.value).at_most(),
        ),
        end_label=say("strip.end", name=Name(work.fit.charger.name)),
        text=say(
            "strip.text",
            length=Amount(end, "m", 2).plain(),
            parts=Listing(tuple(_parts(work))),
        ),
    )


def _named(conductor: Conductor) -> Message:
    colour = say(f"colour.{conductor.colour}")
    return say("strip.wire", wire=wire(conductor.tag), colour=colour)


def _zones(work: Work) -> Iterator[StripZone]:
    for zone, group in groupby(work.stretches, key=lambda s: (s.zone_name, s.ambient_C)):
        same = list(group)
        yield StripZone(
            name=say("zone", name=Name(zone[0]), temperature=Amount(zone[1], "degC", 0).at_most()),
            start_m=same[0].start_m,
            end_m=same[-1].end_m,
        )


def _marks(work: Work) -> Iterator[StripMark]:
    fuse = work.fuse
    for at_m, letters in _letters(work):
        yield StripMark(
            kind="joint",
            at_m=at_m,
            length_m=0.0,
            label=say(
                "strip.joints", joints=Listing(tuple(at(x) for x in letters)), at=distance(at_m)
            ),
            on_ruler=True,
        )
    yield StripMark(
        kind=fuse.form,
        at_m=fuse.at_m,
        length_m=0.0,
        label=say("strip.fuse", fuse=device(fuse.tag)),
        on_ruler=False,
    )
    for fitting in work.circuit.fittings:
        yield StripMark(
            kind=fitting.kind,
            at_m=fitting.at_m,
            length_m=fitting.length_m,
            label=_label(fitting),
            on_ruler=True,
        )


def _letters(work: Work) -> list[tuple[float, tuple[str, ...]]]:
    """The input side's joints by their distance."""
    roles = {"source+", "fuse-in", "fuse-out", "in+", "in-", "return"}
    joints = sorted(
        (joint for joint in work.circuit.joints if joint.role in roles),
        key=lambda joint: (joint.at_m, joint.letter),
    )
    return [
        (at_m, tuple(joint.letter for joint in group))
        for at_m, group in groupby(joints, key=lambda joint: joint.at_m)
    ]


def _label(fitting: Fitting) -> Message:
    if fitting.distance_m is not None:
        return say(
            "strip.sleeve",
            at=distance(fitting.at_m),
            away=say(
                f"hazard.away.{fitting.why.replace(' ', '-')}",
                distance=millimetres(fitting.distance_m).plain(),
            ),
        )
    return say(f"strip.{fitting.kind}", at=distance(fitting.at_m))


def _parts(work: Work) -> Iterator[Message]:
    for stretch in work.stretches:
        yield say(
            "strip.part",
            name=Name(stretch.name),
            start=distance(stretch.start_m),
            end=distance(stretch.end_m),
        )
