"""The marks of the wiring drawing with the words beside them: torque first, then what it is."""

from __future__ import annotations

from collections.abc import Iterator

from baybook.circuit import Conductor, Fitting, Joint, Protection
from baybook.compose.route_cable import cable
from baybook.compose.work import Work, at, device, distance, millimetres, wire
from baybook.finding import Amount, Message, Name, say, term
from baybook.quantity import Quantity
from baybook.terms import JointKind
from baybook.view import Station


def joint_station(joint: Joint, *, put_back: Quantity | None = None) -> Station:
    """Return the mark of a joint: its torque first, then thread and what it is.

    put_back  torque of a clamp of the vehicle that is taken off for the work
    """
    if joint.existing:
        head = say("amount", amount=Amount.of(put_back)) if put_back else say("torque.existing")
    elif isinstance(joint.torque, Quantity):
        head = say("amount", amount=Amount.of(joint.torque))
    elif joint.torque is not None:
        head = say("torque.unknown")
    else:
        head = say(f"torque.{joint.kind.name.lower()}")
    return Station(
        mark="joint", letters=(joint.letter,), head=head, lines=tuple(_joint_lines(joint, put_back))
    )


def _joint_lines(joint: Joint, put_back: Quantity | None) -> Iterator[Message]:
    words = say("plain", text=Name(joint.terminal.replace("-", "\N{MINUS SIGN}")))
    if joint.device != "charger":
        words = say("plain", text=Name(joint.what)) if joint.what else say("joint.post.short")
    yield say("joint.thread", thread=Name(joint.thread), what=words) if joint.thread else words
    if put_back:
        yield say("joint.put-back")
    if joint.photo:
        yield say("joint.photo", photo=Name(joint.photo))
    if joint.role == "return":  # the ruler beside it stands for the other rail
        where = distance(joint.at_m)
        yield say("joint.return-at", at=where)


def label(conductor: Conductor, mark: str) -> Station:
    return Station(
        mark=mark,
        letters=(),
        head=say("wire.cable", wire=wire(conductor.tag), kind=cable(conductor)),
        lines=(
            say(
                "wire.cut",
                length=Amount(conductor.cut_m, "m", 2).cut(),
                awg=say("awg", gauge=Name(conductor.awg)),
            ),
        ),
    )


def body_station(work: Work) -> Station:
    """The vehicle's body as the return: what it was measured to drop."""
    loop = work.fit.body_loop
    lines = [say("body.resistance", ohms=work.amount("body_resistance"))]
    if loop is not None:
        drop, current = Amount.of(loop.drop), Amount.of(loop.current)
        lines.append(say("body.measured", drop=drop, current=current))
    return Station(mark="chassis", letters=(), head=say("body.head"), lines=tuple(lines))


def fuse_station(work: Work, fuse: Protection) -> Station:
    start, end = work.at(fuse.start), work.at(fuse.end)
    rating = Amount(fuse.rating_A, "A", 0, fuse.rating_written)
    rated = say(
        "fuse.family",
        family=Name(fuse.family),
        voltage=Amount.of(fuse.voltage),
        breaking=Amount.of(fuse.breaking),
    )
    lines = [
        rated,
        say(
            "fuse.conduit" if fuse.conduit else "fuse.distance",
            distance=millimetres(fuse.at_m).at_most(),
            source=at(work.joint("source+" if fuse.tag == "F1" else "load+").letter),
            limit=millimetres(fuse.limit_m).at_most(),
        ),
    ]
    if isinstance(start.torque, Quantity):
        lines.append(
            say(
                "fuse.joints",
                start=at(start.letter),
                end=at(end.letter),
                thread=Name(start.thread or ""),
                torque=Amount.of(start.torque),
            )
        )
    head = say("fuse.head", fuse=device(fuse.tag), rating=rating)
    return Station(mark=fuse.form, letters=(fuse.start, fuse.end), head=head, lines=tuple(lines))


def fitting_station(fitting: Fitting) -> Station:
    if fitting.kind in {"grommet", "gland"}:
        hole = (
            say("fitting.hole", hole=millimetres(fitting.hole_m, 1).plain())
            if fitting.hole_m is not None
            else say("fitting.hole.existing")
        )
        part = say(f"fitting.{fitting.kind}", part=Name(fitting.part), hole=hole)
        return Station(mark=fitting.kind, letters=(), head=None, lines=(part,))
    length = Amount(fitting.length_m, "m", 2).at_least()
    head = say(f"fitting.{fitting.kind}", length=length, part=Name(fitting.part))
    why: tuple[Message, ...] = ()
    if fitting.distance_m is not None:
        why = (
            say(
                f"hazard.away.{fitting.why.replace(' ', '-')}",
                distance=millimetres(fitting.distance_m).plain(),
            ),
        )
    mark = "sleeve" if fitting.kind == "conduit" else fitting.kind
    return Station(mark=mark, letters=(), head=head, lines=why)


def plug_station(work: Work, role: str) -> Station:
    joint = work.joint(role)
    sign = "plus" if role == "plug+" else "minus"
    polarity = term(work.fit.station.polarity)
    return Station(
        mark="plug" if joint.kind is JointKind.CONNECTOR else "joint",
        letters=(joint.letter,),
        head=say("plain", text=Name(joint.what)),
        lines=(*_contact(work, sign), say("plug.polarity", polarity=polarity))
        if sign == "plus"
        else tuple(_contact(work, sign)),
    )


def _contact(work: Work, sign: str) -> Iterator[Message]:
    """Yield which contact this is; a round plug has a sleeve and a centre."""
    yield say(f"plug.{sign}")
    contact = work.contact(sign)
    if contact:
        yield say(f"plug.{contact}")


def factory_fuse_station(work: Work, fuse: Protection) -> Station:
    """Return the vehicle maker's own fuse between the battery's post and the stud it feeds."""
    start, end = work.at(fuse.start), work.at(fuse.end)
    rating = Amount(fuse.rating_A, "A", 0, fuse.rating_written)
    stud = joint_station(end)
    return Station(
        mark=fuse.form,
        letters=(fuse.start, fuse.end),
        head=say("fuse.head", fuse=device(fuse.tag), rating=rating),
        lines=(
            say("fuse.factory", place=Name(fuse.place)),
            say(
                "fuse.factory.rated",
                voltage=Amount.of(fuse.voltage),
                breaking=Amount.of(fuse.breaking),
            ),
            say("fuse.factory.post", start=at(start.letter)),
            say(
                "fuse.factory.stud",
                end=at(end.letter),
                what=stud.head or say("torque.existing"),
                thread=Name(end.thread or ""),
            ),
            *stud.lines,
        ),
    )
