"""Holds that a rule raised: each stands where it can be settled, before what depends on it."""

from __future__ import annotations

from collections.abc import Iterator

from baybook.compose import holds
from baybook.compose.action import act
from baybook.compose.practice import MINUTES
from baybook.compose.work import Work, at, hold
from baybook.finding import Finding, Message, say
from baybook.step import Hold, Phase, Step

# What can only be found out with the vehicle open, or with the output at the meter.
# Everything else is settled at the desk, before a tool touches the vehicle.
_WHEN = {
    "RT-02": Phase.DRY_FIT,
    "OV-04": Phase.FIRST_POWER,
    "OV-05": Phase.FIRST_POWER,
    "OV-12": Phase.FIRST_POWER,
}


def settled(work: Work, phase: Phase) -> tuple[str, ...]:
    """Return the states that the holds of this chapter make."""
    return tuple(f"hold:{point.id}" for point, _ in _of(work, phase))


def settle(work: Work, phase: Phase, *, needs: tuple[str, ...]) -> Iterator[Step]:
    """Yield a step for each hold that is settled in this chapter."""
    for point, _ in _of(work, phase):
        yield _step(point, phase, needs, say("do.settle", hold=hold(point.id)))


def settle_joint(work: Work, letter: str) -> Iterator[Step]:
    """Yield a step for each hold about this joint."""
    for point, finding in holds.raised(work):
        if holds.joint_in_question(work, finding) == letter:
            action = say("do.settle.joint", hold=hold(point.id), joint=at(letter))
            yield _step(point, Phase.CONNECT, ("hold:proved-dead",), action)


def _step(point: Hold, phase: Phase, needs: tuple[str, ...], action: Message) -> Step:
    return act(
        f"settle.{point.id}",
        phase,
        action,
        minutes=MINUTES["sign"],
        needs=needs,
        makes=(f"hold:{point.id}",),
        hold=point,
    )


def _of(work: Work, phase: Phase) -> list[tuple[Hold, Finding]]:
    return [
        (point, finding)
        for point, finding in holds.raised(work)
        if not holds.joint_in_question(work, finding)
        and _WHEN.get(finding.code, Phase.PREPARE) is phase
    ]
