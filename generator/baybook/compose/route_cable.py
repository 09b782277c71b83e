"""A cable named in words: its colour and its size."""

from __future__ import annotations

from dataclasses import replace

from baybook.circuit import Conductor
from baybook.finding import Amount, Message, say


def cable(conductor: Conductor) -> Message:
    """Return colour and size of a conductor, for where its gauge stands beside it."""
    return _named(conductor, area(conductor))


def cable_bought(conductor: Conductor) -> Message:
    """Return the same with the gauge in it."""
    return _named(conductor, gauged(conductor))


def _named(conductor: Conductor, size: Amount) -> Message:
    return say("cable", colour=say(f"colour.{conductor.colour}"), area=size)


def area(conductor: Conductor) -> Amount:
    return Amount.area(conductor.area_mm2)


def gauged(conductor: Conductor) -> Amount:
    """Return the size of a conductor where no other column or line gives its gauge."""
    return replace(area(conductor), gauge=conductor.awg)
