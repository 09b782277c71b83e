"""The bag: every part that is used up, counted from the circuit."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from dataclasses import replace

from baybook.circuit import Conductor, Protection
from baybook.compose.blade import body_colour
from baybook.compose.clamps import extra_clips
from baybook.compose.ends import all_ends
from baybook.compose.labels import labels
from baybook.compose.route_cable import cable_bought
from baybook.compose.steps.stretch import in_stretch
from baybook.compose.work import Work, count, millimetres
from baybook.finding import Amount, Message, Name, say
from baybook.guide import KitLine
from baybook.sheet import CueInput


def kit(work: Work) -> tuple[KitLine, ...]:
    """Return the kit in the order in which the bag is packed."""
    return (
        *_devices(work),
        *_protection(work),
        *_cable(work),
        *_lugs(work),
        *_passages(work),
        *_sundries(work),
        *_mount(work),
        *_small(work),
    )


def _line(number: int, message_id: str, **values: object) -> KitLine:
    return KitLine(count=count(number), part=say(message_id, **values))  # type: ignore[arg-type]


def _devices(work: Work) -> Iterator[KitLine]:
    fit = work.fit
    for kind, sheet in (("charger", fit.charger), ("station", fit.station)):
        yield KitLine(
            count=count(1),
            part=say(f"kit.{kind}", name=Name(sheet.name)),
            note=say("kit.revision", revision=Name(sheet.sheet.revision)),
        )
    if fit.second is not None:
        if fit.charger.temperature_lead:
            yield _line(1, "kit.temperature")
        return
    mates = fit.station.connector == fit.job.connector
    yield KitLine(
        count=count(1 if mates else 2),
        part=say("kit.connector", name=Name(fit.plug.name)),
        note=say("kit.connector.half" if mates else "kit.connector.both"),
    )


def _protection(work: Work) -> Iterator[KitLine]:
    for fuse in work.circuit.protections:
        yield from _one_protection(fuse)


def _one_protection(fuse: Protection) -> Iterator[KitLine]:
    if not fuse.factory:
        yield _line(
            1,
            f"kit.{fuse.form}",
            family=Name(fuse.family),
            rating=Amount(fuse.rating_A, "A", 0, fuse.rating_written),
        )
        yield (
            KitLine(
                count=count(1),
                part=say("kit.spare", family=Name(fuse.family)),
                note=say("kit.spare.note"),
            )
            if fuse.form == "fuse"
            else _line(1, "kit.bracket", family=Name(fuse.family))
        )


def _cable(work: Work) -> Iterator[KitLine]:
    """Cable by colour and size: bought by the metre, cut by the cut list."""
    kinds: dict[tuple[float, str, str], list[Conductor]] = {}
    for wire in work.new:
        kinds.setdefault((-wire.area_mm2, wire.family, wire.colour), []).append(wire)
    for (_, family, _), pieces in sorted(kinds.items()):
        yield KitLine(
            count=Amount(sum(wire.cut_m for wire in pieces), "m", 2).at_least(),
            part=say("kit.cable", family=Name(family), kind=cable_bought(pieces[0])),
            note=say("kit.pieces", count=len(pieces)),
        )


def _lugs(work: Work) -> Iterator[KitLine]:
    lugs = Counter(
        (end.lug.area.value, end.joint.thread or "", end.wire.awg)
        for end in all_ends(work)
        if end.lug is not None
    )
    for (area, thread, gauge), number in sorted(lugs.items()):
        size = next(lug for lug in work.fit.lugs.sizes if lug.area.value == area)
        yield KitLine(
            count=count(number),
            part=say(
                "kit.lug",
                name=Name(work.fit.lugs.name),
                area=replace(Amount.of(size.area), gauge=gauge),
                thread=Name(thread),
            ),
            note=say("kit.die", die=Name(size.die)),
        )
    if lugs:
        yield _line(sum(lugs.values()), "kit.shrink")


def _passages(work: Work) -> Iterator[KitLine]:
    for fitting in work.circuit.fittings:
        if fitting.kind in {"grommet", "gland"} and fitting.part:
            yield KitLine(
                count=count(fitting.count),
                part=say(f"kit.{fitting.kind}", part=Name(fitting.part)),
                note=say("kit.hole", hole=millimetres(fitting.hole_m, 1).plain())
                if fitting.hole_m is not None
                else say("kit.hole.existing", wall=Name(fitting.wall)),
            )
        if fitting.kind in {"sleeve", "conduit"}:
            yield KitLine(
                count=count(fitting.count),
                part=say(
                    f"kit.{fitting.kind}",
                    part=Name(fitting.part),
                    length=Amount(fitting.length_m, "m", 2).at_least(),
                ),
            )


def _sundries(work: Work) -> Iterator[KitLine]:
    clips = sum(
        stretch.clips + extra_clips(work, number, len(in_stretch(work, stretch)))
        for number, stretch in enumerate(work.stretches, 1)
    )
    yield KitLine(
        count=count(clips),
        part=say("kit.clip", family=Name(work.fit.clips.name), size=Name(work.circuit.clip)),
        note=say("note.every", pitch=millimetres(work.fit.shop.spacing.clip_pitch.value).at_most()),
    )


def _mount(work: Work) -> Iterator[KitLine]:
    mount = work.fit.vehicle.mounts[work.fit.job.mount]
    yield KitLine(
        count=count(mount.fixings),
        part=say(
            "kit.fixing", thread=Name(mount.thread), length=Amount.of(mount.screw_length, 0).plain()
        ),
        note=say("note.fixing", fixing=Name(mount.fixing)),
    )
    yield _line(1, "kit.station-fixing", fixing=Name(work.fit.job.station_place.fixing))


def _cue(work: Work) -> KitLine:
    sized, cue = work.fit.charger.cue, work.fit.vehicle.cues[work.fit.job.cue]
    if sized is None:
        return _line(1, "kit.cue")
    area = Amount.of(sized.area).at_least()
    return KitLine(
        count=count(1),
        part=say("kit.cue.area", area=area)
        if cue.length is None
        else say("kit.cue.sized", area=area, length=Amount.of(cue.length).at_least()),
        note=_cue_fuse(sized),
    )


def _cue_fuse(sized: CueInput) -> Message:
    colour, fuse = body_colour(sized), Amount.of(sized.fuse)
    if colour is None:
        return say("kit.cue.fuse", fuse=fuse)
    return say("kit.cue.blade", fuse=fuse, colour=colour)


def _small(work: Work) -> Iterator[KitLine]:
    if not work.voltage_cue:
        yield _cue(work)
        join = work.fit.vehicle.cues[work.fit.job.cue].join
        if join is not None:
            yield KitLine(
                count=count(1), part=say("kit.cue.join"), note=say("plain", text=Name(join))
            )
    yield _line(len(labels(work)), "kit.labels")
    yield _line(2 * len(work.new), "kit.end-labels")
