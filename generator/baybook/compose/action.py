"""A step before it has its number: data, in no order yet."""

from __future__ import annotations

from typing import TypedDict, Unpack

from baybook.finding import Amount, Message, Name
from baybook.step import Hold, Phase, Step


class More(TypedDict, total=False):
    """What a step may bring beside its action; see guide.Step."""

    value: Amount | None
    value_note: Message | None
    tool: Message | None
    torque_mark: bool
    people: int
    minutes: float
    needs: tuple[str, ...]
    makes: tuple[str, ...]
    breaks: tuple[str, ...]
    hazards: tuple[str, ...]
    works_on: tuple[str, ...]
    joins: tuple[str, ...]
    torques: tuple[str, ...]
    energises: bool
    hold: Hold | None
    photo: Name | None


_NOTHING: More = {
    "value": None,
    "value_note": None,
    "tool": None,
    "torque_mark": False,
    "people": 1,
    "minutes": 2.0,
    "needs": (),
    "makes": (),
    "breaks": (),
    "hazards": (),
    "works_on": (),
    "joins": (),
    "torques": (),
    "energises": False,
    "hold": None,
    "photo": None,
}


def act(step_id: str, phase: Phase, action: Message, **more: Unpack[More]) -> Step:
    """Build one step: its action, and what it brings beside it."""
    return Step(id=step_id, number=0, phase=phase, action=action, boxes=(), **(_NOTHING | more))
