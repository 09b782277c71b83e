"""The last of the dead circuit, and the first of the live one: ohms, negative on, polarity."""

from __future__ import annotations

from collections.abc import Iterator

from baybook.circuit import Joint
from baybook.compose import holds
from baybook.compose.action import act
from baybook.compose.ends import all_ends
from baybook.compose.practice import CONTINUOUS_BELOW, MINUTES, NO_MOVEMENT, NO_SHORT_ABOVE
from baybook.compose.work import Work, at, device, hold, step
from baybook.finding import Amount, Message, Name, say
from baybook.fit import has_high_voltage
from baybook.quantity import Quantity
from baybook.route import Segment
from baybook.step import Phase, Step
from baybook.terms import JointKind

PHASE = Phase.CONNECT


def ohms(work: Work) -> Iterator[Step]:
    """What only a dead circuit can show."""
    fuse = work.fuse
    body = work.ground.letter
    plus, minus = (work.joint(role).letter for role in ("in+", "in-"))
    yield act(
        "ohms.short",
        PHASE,
        say("do.ohms.short", start=at(fuse.end), end=at(body), hold=hold("polarity")),
        value=NO_SHORT_ABOVE.amount,
        value_note=say("note.above"),
        tool=say("tool.meter"),
        minutes=MINUTES["measure"],
        needs=("marks", "negative-off"),
        makes=("no-short",),
    )
    yield act(
        "ohms.through",
        PHASE,
        say("do.ohms.through", a=at(fuse.end), b=at(plus), c=at(minus), d=at(body)),
        value=CONTINUOUS_BELOW.amount,
        value_note=say("note.below"),
        tool=say("tool.meter"),
        minutes=MINUTES["measure"],
        needs=("no-short", "negative-off"),
        makes=("right-through",),
    )


def switch_on(work: Work) -> Iterator[Step]:
    """Yield the steps from the negative's clamp to the signed polarity."""
    yield from _shut(work)
    yield from _high_voltage_back(work)
    yield _negative_on(work)
    yield from _isolator_closed(work)
    yield _polarity(work)


def _shut(work: Work) -> Iterator[Step]:
    """What may not stand open while the engine runs is shut while all is dead."""
    for number, segment in _shut_to_run(work):
        yield act(
            f"close.{number}",
            PHASE,
            say("do.close", name=Name(segment.name), step=step(f"open.{number}")),
            minutes=MINUTES["open"],
            needs=("right-through", f"clipped:{number}"),
            makes=(f"closed:{number}",),
            breaks=(f"open:{number}",),
        )


def _high_voltage_back(work: Work) -> Iterator[Step]:
    """The service disconnect goes back while the 12 V side is dead, by the same person."""
    if not has_high_voltage(work.fit):
        return
    traction = work.fit.vehicle.high_voltage
    yield act(
        "hv.close",
        PHASE,
        say("do.hv.close")
        if traction is None
        else say("do.hv.close.at", place=Name(traction.disconnect)),
        value_note=say("note.hv.open"),
        needs=("right-through", "hv-open", *(f"closed:{n}" for n, _ in _shut_to_run(work))),
        makes=("hv-closed",),
        breaks=("hv-open",),
        hazards=("high-voltage-out",),
    )


def _shut_to_run(work: Work) -> tuple[tuple[int, Segment], ...]:
    return tuple((n, segment) for n, segment in enumerate(work.segments, 1) if segment.shut_to_run)


def _negative_on(work: Work) -> Step:
    post, torque = work.negative, work.post_torque
    everything = tuple(f"{end.joint.letter}.made" for end in all_ends(work))
    sealed = ("return-sealed",) if work.joint("return").kind is JointKind.BODY else ()
    cue = () if work.voltage_cue else ("cue-joined",)
    return act(
        "battery.on",
        PHASE,
        _reconnect(post, torque),
        value=Amount.of(torque) if torque else NO_MOVEMENT.amount,
        value_note=None if torque else say("note.movement"),
        tool=work.torque_tool(torque, work.post_socket, insulated=True)
        if torque
        else work.post_tool,
        torque_mark=torque is not None,
        minutes=MINUTES["join"],
        needs=(
            "right-through",
            f"{work.fuse.tag}.out",
            "plug-pulled",
            *everything,
            *sealed,
            *cue,
            *(f"closed:{number}" for number, _ in _shut_to_run(work)),
            *(("hv-closed",) if has_high_voltage(work.fit) else ()),
        ),
        makes=("negative-on",),
        breaks=("negative-off",),
        hazards=("arc",),
        torques=(post.letter,) if torque and post.existing else (),
        energises=True,
    )


def _isolator_closed(work: Work) -> Iterator[Step]:
    isolator = work.fit.vehicle.isolator
    if isolator is not None:
        yield act(
            "isolator.close",
            PHASE,
            say("do.isolator.close", place=Name(isolator.place)),
            needs=("negative-on",),
            makes=("isolator-closed",),
            breaks=("isolator-open",),
            energises=True,
        )


def _polarity(work: Work) -> Step:
    fuse = work.fuse
    closed = ("isolator-closed",) if work.fit.vehicle.isolator is not None else ()
    return act(
        "polarity",
        PHASE,
        say("do.polarity", hold=hold("polarity"), fuse=device(fuse.tag)),
        tool=say("tool.meter"),
        people=2,
        minutes=MINUTES["measure"] * 2,
        needs=("negative-on", f"{fuse.tag}.out", *closed),
        makes=("hold:polarity",),
        hold=holds.polarity(work),
    )


def _reconnect(post: Joint, torque: Quantity | None) -> Message:
    if torque is None:
        return say("do.battery.on.by-hand", minus=at(post.letter))
    return say("do.battery.on", minus=at(post.letter), torque=Amount.of(torque))
