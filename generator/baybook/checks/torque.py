"""TQ: torques that nobody states, or that a lug does not stand."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from functools import partial

from baybook.checks.found import SHEET, SHOP_RULE, Found
from baybook.circuit import Joint
from baybook.design import Design
from baybook.finding import Amount, Listing, Name, Ref, Value, Verdict, say, term
from baybook.point import Point
from baybook.quantity import Quantity, Unknown
from baybook.shop import Tool
from baybook.terms import JointKind

_LUGGED = (JointKind.STUD, JointKind.BODY, JointKind.POST, JointKind.ISOLATOR)


def unknown(design: Design) -> Iterator[Found]:
    """Hold at every joint whose maker states no torque; never invent one. [shop-rule]"""
    for joint in design.circuit.joints:
        if isinstance(joint.torque, Unknown) and not joint.existing:
            yield _found(joint.torque, f"circuit.{joint.letter}", joint.letter, _joint(joint))
    mount = design.fit.vehicle.mounts[design.fit.job.mount]
    if isinstance(mount.torque, Unknown):
        named = _named("rule.TQ-01.mount", mount.place, mount.thread)
        yield _found(mount.torque, "circuit.mount", "mount", named)


def two_makers(design: Design) -> Iterator[Found]:
    """Hold where two papers give one joint different torques; take neither. [shop-rule]"""
    for joint, point in points(design):
        one, other = point.torque, point.torque_other
        if not isinstance(one, Quantity) or other is None:
            continue
        if one.low <= other.high and other.low <= one.high:
            continue
        yield Found(
            verdict=Verdict.HOLD,
            place=f"circuit.{joint.letter}.torque",
            where=other.where,
            found=Listing((Amount.of(one, 1), Amount.of(other, 1))),
            allowed=say("rule.TQ-11.one"),
            sources=(SHOP_RULE,),
            values={
                **_joint(joint),
                "one": Amount.of(one, 1),
                "other": Amount.of(other, 1),
            },
            hold=joint.letter.lower(),
        )


def table_of_another_kind(design: Design) -> Iterator[Found]:
    """Never take a torque from a table that is made for another kind of joint.

    A lead post has no table, a clamp's table serves no bolt, and the profile must allow the
    table.        [shop-rule]
    """
    for joint, point in points(design):
        if point.table is None or isinstance(point.torque, Quantity):
            continue
        allowed = point.table.kind in design.fit.shop.torque_tables
        if allowed and not isinstance(joint.torque, Unknown):
            continue
        yield Found(
            verdict=Verdict.REFUSED,
            place=f"circuit.{joint.letter}.table",
            where=point.torque.where,
            found=term(point.table.kind),
            allowed=say("rule.TQ-12.own" if allowed else "rule.TQ-12.profile"),
            sources=(SHOP_RULE,),
            values={
                **_joint(joint),
                "table": term(point.table.kind),
                "kind": term(joint.kind),
            },
        )


def points(design: Design) -> Iterator[tuple[Joint, Point]]:
    """Yield the vehicle's own points that the feed is joined to. [vehicle-survey]"""
    source, points = design.fit.job.source, design.fit.vehicle.points
    yield design.circuit.joint("source+"), points[source.positive]
    yield design.circuit.joint("return"), points[source.negative]


def over_palm_limit(design: Design) -> Iterator[Found]:
    """Hold where a joint's torque is above what the lug's palm stands.

    M ≤ M_palm by thread: the lug's figure is an upper limit, not a second maker. [fit-sheet]
    """
    limits: dict[str, Quantity] = {p.thread: p.torque for p in design.fit.lugs.palms}
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


def _named(joint: str, what: str, thread: str) -> dict[str, Value]:
    return {"joint": say(joint), "what": Name(what), "thread": Name(thread)}


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


def tool_covers(design: Design) -> Iterator[Found]:
    """Hold at every torque that no tool of the shop reaches: a plain socket has no figure.

    M_low ≤ M ≤ M_high of one tool        [shop-rule], the profile's tools
    """
    for torque, at, named in _brought_to_torque(design):
        if not any(_reaches(tool, torque) for tool in design.fit.shop.tools):
            yield Found(
                verdict=Verdict.HOLD,
                place=f"circuit.{at}.torque",
                where=torque.where,
                found=Amount.of(torque, 1),
                allowed=say("rule.TQ-13.tool"),
                sources=(SHOP_RULE,),
                values={**named(), "torque": Amount.of(torque, 1)},
                hold=at.lower(),
            )


def _brought_to_torque(
    design: Design,
) -> Iterator[tuple[Quantity, str, Callable[[], dict[str, Value]]]]:
    """Yield what this work tightens: joints, the charger's fixings, the clamp of the negative."""
    for joint in design.circuit.joints:
        if isinstance(joint.torque, Quantity) and not joint.existing and joint.conductors:
            yield joint.torque, joint.letter, partial(_joint, joint)
    vehicle = design.fit.vehicle
    mount = vehicle.mounts[design.fit.job.mount]
    if isinstance(mount.torque, Quantity):
        yield mount.torque, "mount", partial(_named, "rule.TQ-01.mount", mount.place, mount.thread)
    used = {design.fit.job.source.positive, design.fit.job.source.negative}
    for name, point in vehicle.points.items():
        if point.role == "negative" and point.at_post and name not in used:
            if isinstance(point.torque, Quantity):
                named = partial(_named, "rule.TQ-13.post", point.what, point.thread)
                yield point.torque, "post", named
            return


def _reaches(tool: Tool, torque: Quantity) -> bool:
    low, high = tool.torque_low, tool.torque_high
    return low is not None and high is not None and low.value <= torque.value <= high.value
