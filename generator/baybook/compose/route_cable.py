"""A cable named in words: its colour and its size."""

from __future__ import annotations

from baybook.circuit import Conductor
from baybook.finding import Amount, Message, say


def cable(conductor: Conductor) -> Message:
    """Return colour and size of a conductor."""
    return say(
        "cable",
        colour=say(f"colour.{conductor.colour}"),
        area=area(conductor),
    )


def area(conductor: Conductor) -> Amount:
    return Amount(conductor.area_mm2, "mm2", 0 if float(conductor.area_mm2).is_integer() else 2)
