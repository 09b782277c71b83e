"""TQ: torques that nobody states, or that a lug does not stand."""

from __future__ import annotations

from collections.abc import Iterator

from baybook.checks.found import SHEET, SHOP_RULE, Found
from baybook.circuit import Joint
from baybook.design import Design
from baybook.finding import Amount, Name, Ref, Value, Verdict, say
from baybook.quantity import Quantity, Unknown
from baybook.terms import JointKind

_LUGGED = (JointKind.STUD, JointKind.BODY, JointKind.POST, JointKind.ISOLATOR)


def unknown(design: Design) -> Iterator[Found]:
    """Hold at every joint whose maker states no torque; never invent one. [shop-rule]"""
    for joint in design.circuit.joints:
        if isinstance(joint.torque, Unknown) and not joint.existing:
            yield _found(joint.torque, f"circuit.{joint.letter}", joint.letter, _joint(joint))
    mount = design.fit.vehicle.mounts[design.fit.job.mount]
    if isinstance(mount.torque, Unknown):
        named: dict[str, Value] = {
            "joint": say("rule.TQ-01.mount"),
            "what": Name(mount.place),
            "thread": Name(mount.thread),
        }
        yield _found(mount.torque, "circuit.mount", "mount", named)


def over_palm_limit(design: Design) -> Iterator[Found]:
    """Hold where a joint's torque is above what the lug's palm stands.

    M ≤ M_palm by thread: the lug's figure is an upper limit, not a second maker. [fit-sheet]
    """
    limits = {palm.thread: palm.torque for palm in design.fit.lugs.palms}
    for joint in design.circuit.joints:
        limit = limits.get(joint.thread or "")
        lugged = joint.kind in _LUGGED and not joint.existing
        if not lugged or limit is None or not isinstance(joint.torque, Quantity):
            continue
        if joint.torque.value > limit.value:
            yield Found(
                verdict=Verdict.HOLD,
                place=f"circuit.{joint.letter}.torque",
                where=joint.torque.where,
                found=Amount.of(joint.torque, 1),
                allowed=Amount.of(limit, 1),
                sources=(SHEET,),
                values={
                    **_joint(joint),
                    "torque": Amount.of(joint.torque, 1),
                    "limit": Amount.of(limit, 1),
                    "lugs": Name(design.fit.lugs.name),
                },
                hold=joint.letter.lower(),
            )


def _joint(joint: Joint) -> dict[str, Value]:
    return {
        "joint": Ref("joint", joint.letter),
        "what": Name(joint.what),
        "thread": Name(joint.thread or ""),
    }


def _found(torque: Unknown, place: str, hold: str, values: dict[str, Value]) -> Found:
    return Found(
        verdict=Verdict.HOLD,
        place=f"{place}.torque",
        where=torque.where,
        found=say("rule.TQ-01.unknown"),
        allowed=say("rule.TQ-01.maker"),
        sources=(SHOP_RULE,),
        values=values,
        hold=hold.lower(),
    )
