"""Join the dead circuit: charger first, then the return, the protection, and the source last."""

from __future__ import annotations

from collections.abc import Iterator

from baybook.circuit import Conductor, Joint
from baybook.compose.action import act
from baybook.compose.blade import body_colour
from baybook.compose.ends import all_ends
from baybook.compose.hanging import Hanging, hanging
from baybook.compose.practice import (
    BRIGHT_RING,
    MINUTES,
    NO_MOVEMENT,
)
from baybook.compose.steps.settle import settle_joint
from baybook.compose.steps.switch_on import ohms, switch_on
from baybook.compose.work import LUGGED, Work, at, count, device, wire
from baybook.finding import Amount, Listing, Message, Name, say
from baybook.quantity import Quantity
from baybook.sheet import CueInput
from baybook.step import Phase, Step
from baybook.terms import JointKind, YesNoUnknown
from baybook.vehicle import Cue

PHASE = Phase.CONNECT


def connect(work: Work) -> tuple[Step, ...]:
    """Return the steps from the empty holder to HOLD 4."""
    return (
        _empty(work),
        *_charger(work),
        *_cue(work),
        *_return(work),
        *_source(work),
        *_marks(work),
        *ohms(work),
        *switch_on(work),
    )


def _empty(work: Work) -> Step:
    fuse = work.fuse
    return act(
        "fuse.out",
        PHASE,
        say(
            f"do.{work.fuse_words}.out",
            fuse=device(fuse.tag),
            place=Name(work.fuse.place or work.joint("source+").place),
        ),
        needs=("hold:proved-dead", "ends-clipped"),
        makes=(f"{fuse.tag}.out",),
    )


def join(
    work: Work, conductor: Conductor, joint: Joint, *, after: tuple[str, ...] = ()
) -> Iterator[Step]:
    """One end into one joint, at its torque; a joint in question waits for its hold."""
    asked = tuple(settle_joint(work, joint.letter))
    yield from asked
    torque = joint.torque if isinstance(joint.torque, Quantity) else None
    yield act(
        f"join.{joint.letter}",
        PHASE,
        _joining(conductor, joint, torque),
        value=Amount.of(torque) if torque else None,
        tool=work.wrench(joint) if joint.torque is not None else say("tool.hand"),
        torque_mark=joint.torque is not None,
        minutes=MINUTES["join"],
        needs=(
            f"{conductor.tag}.laid",
            f"{conductor.tag}@{joint.letter}.ready",
            "negative-off",
            f"{work.fuse.tag}.out",
            *after,
            *(state for step in asked for state in step.makes),
        ),
        makes=(f"{joint.letter}.made",),
        hazards=_hazards(work, joint),
        works_on=(conductor.tag,),
        joins=(f"{conductor.tag}@{joint.letter}",),
        torques=(joint.letter,) if torque else (),
        photo=Name(joint.photo) if joint.photo else None,
    )


def _joining(conductor: Conductor, joint: Joint, torque: Quantity | None) -> Message:
    values = {"wire": wire(conductor.tag), "joint": at(joint.letter)}
    if joint.kind is JointKind.PUSH_IN:
        return say("do.push-in", **values)
    verb = "do.bolt" if joint.kind in LUGGED else "do.clamp"
    if torque is None:
        return say(f"{verb}.asked", **values)
    return say(verb, **values, torque=Amount.of(torque))


def _hazards(work: Work, joint: Joint) -> tuple[str, ...]:
    found = []
    if joint.role in {"source+", "fuse-in", "load+"}:
        found.append("arc")
    if joint.role == "return" and work.fit.vehicle.battery.sensor is not YesNoUnknown.NO:
        found.append("sensor")
    return tuple(found)


def _charger(work: Work) -> Iterator[Step]:
    """Both sides of the charger, before anything nearer to the battery."""
    ends = [
        (end.wire, end.joint)
        for end in all_ends(work)
        if end.joint.device == "charger" or end.joint.role in {"in+", "in-", "out+", "out-"}
    ]
    for conductor, joint in sorted(ends, key=lambda end: end[1].letter):
        yield from join(work, conductor, joint, after=("charger-fixed",))
    sides = {
        side: tuple(sorted(joint.letter for _, joint in ends if joint.role in roles))
        for side, roles in (("input", {"in+", "in-"}), ("output", {"out+", "out-"}))
    }
    yield from _pulled(work, sides)


def _pulled(work: Work, sides: dict[str, tuple[str, ...]]) -> Iterator[Step]:
    """One pull where both sides are pulled alike, else the input's and then the output's."""
    ways = {side: hanging(work, f"clamp_{{}}_{side}") for side in sides}
    if ways["input"] == ways["output"]:
        every = tuple(sorted(letter for letters in sides.values() for letter in letters))
        yield _pull("pull.charger", every, ways["input"], "charger-pulled")
        return
    yield _pull("pull.charger", sides["input"], ways["input"], "charger-input-pulled")
    yield _pull(
        "pull.charger.out",
        sides["output"],
        ways["output"],
        "charger-pulled",
        after=("charger-input-pulled",),
    )


def _pull(
    step_id: str,
    letters: tuple[str, ...],
    scale: Hanging | None,
    done: str,
    *,
    after: tuple[str, ...] = (),
) -> Step:
    joints = Listing(tuple(at(letter) for letter in letters))
    return act(
        step_id,
        PHASE,
        say("do.pull.scale", joints=joints, force=scale.force)
        if scale
        else say("do.pull.charger", joints=joints),
        value=scale.force if scale else NO_MOVEMENT.amount,
        value_note=scale.note if scale else say("note.movement"),
        tool=say("tool.scale" if scale else "tool.hand"),
        needs=(*(f"{letter}.made" for letter in letters), *after),
        makes=(done,),
    )


def _cue(work: Work) -> Iterator[Step]:
    cue, sized = work.fit.vehicle.cues[work.fit.job.cue], work.fit.charger.cue
    if not work.voltage_cue:
        yield act(
            "cue.charger",
            PHASE,
            _cue_input(work),
            value_note=say("note.cue.fuse-out") if work.fit.charger.cue is not None else None,
            tool=say("tool.hand") if work.fit.charger.cue is not None else say("tool.cue"),
            minutes=MINUTES["join"],
            needs=("charger-pulled", "cue-laid", "negative-off"),
            makes=("cue-at-charger",),
        )
        yield act(
            "cue",
            PHASE,
            say("do.cue", where=Name(cue.where)),
            value_note=_cue_joint(cue),
            tool=say("tool.cue"),
            minutes=MINUTES["place"],
            needs=("cue-at-charger", "negative-off"),
            makes=("cue-spliced",) if sized is not None else ("cue-joined",),
        )
    if not work.voltage_cue and sized is not None:
        yield act(
            "cue.fuse",
            PHASE,
            say(
                "do.cue.fuse",
                fuse=Amount.of(sized.fuse),
                within=Amount.of(sized.fuse_within, 0).at_most(),
            ),
            value=Amount.of(sized.fuse),
            value_note=_cue_fuse(sized),
            tool=say("tool.hand"),
            needs=("cue-spliced", "negative-off"),
            makes=("cue-joined",),
        )


def _cue_fuse(sized: CueInput) -> Message:
    colour = body_colour(sized)
    return say("note.cue.blade", colour=colour) if colour else say("note.cue.own")


def _cue_input(work: Work) -> Message:
    charger = work.fit.charger
    if charger.cue is None:
        return say("do.cue.charger", charger=Name(charger.name))
    terminal = Name(charger.cue.terminal)
    return say("do.cue.terminal", charger=Name(charger.name), terminal=terminal)


def _cue_joint(cue: Cue) -> Message:
    line = say(f"note.cue.{cue.kind.name.lower()}")
    return line if cue.join is None else say("note.cue.join", line=line, join=Name(cue.join))


def _return(work: Work) -> Iterator[Step]:
    joint = work.joint("return")
    after = ["charger-pulled"]
    if joint.kind is JointKind.BODY:
        after.append("bright")
        yield act(
            "clean.return",
            PHASE,
            say("do.clean", joint=at(joint.letter), ring=BRIGHT_RING.amount.at_least()),
            value=BRIGHT_RING.amount.at_least(),
            value_note=say("note.bright"),
            tool=say("tool.abrasive"),
            minutes=MINUTES["fit"],
            needs=("negative-off", "charger-pulled"),
            makes=("bright",),
        )
    yield from join(work, work.circuit.conductor("return"), joint, after=tuple(after))
    if joint.kind is JointKind.BODY:
        yield act(
            "seal.return",
            PHASE,
            say("do.seal", joint=at(joint.letter)),
            tool=say("tool.wax"),
            needs=(f"{joint.letter}.made", "marks"),
            makes=("return-sealed",),
        )


def _source(work: Work) -> Iterator[Step]:
    """The run towards the battery, its live end at the very last."""
    made = f"{work.joint('return').letter}.made"
    ours = (("feed", "fuse-out"), ("source", "fuse-in"), ("source", "source+"))
    for use, role in (("feed", "source+"),) if work.fuse.factory else ours:
        if work.has_joint(role):
            joint = work.joint(role)
            after = (made,) if role == "source+" else (made, f"{work.fuse.tag}.fixed")
            yield from join(work, work.circuit.conductor(use), joint, after=after)
            made = f"{joint.letter}.made"


def torqued(work: Work) -> tuple[Joint, ...]:
    """Return the joints that this work brings to a torque, also to one that is still asked for."""
    return tuple(
        joint
        for joint in work.circuit.joints
        if joint.torque is not None and not joint.existing and joint.conductors
    )


def _marks(work: Work) -> Iterator[Step]:
    joints = torqued(work)
    yield act(
        "marks",
        PHASE,
        say("do.marks"),
        value=count(len(joints)),
        value_note=say("note.marks-count"),
        tool=say("tool.paint-pen"),
        minutes=len(joints),
        needs=tuple(f"{joint.letter}.made" for joint in joints),
        makes=("marks",),
    )
