"""Noun: what a chart shows, as points of the design's own figures and messages; no place on paper.

Values are in inside units. `sizing` makes the points, `wording` tells the messages, `drawing`
turns both into lines and words.
"""

from __future__ import annotations

from dataclasses import dataclass

from baybook.finding import Amount, Message

Points = tuple[tuple[float, float], ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Axis:
    title: Message  # with its unit
    low: float
    high: float
    ticks: tuple[Amount, ...]  # where a figure stands on it, rising
    log: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Curve:
    """A line over the chart; its label stands at its last point."""

    label: Message
    style: str  # "main" "second" "limit" "bound": the closed list is that of drawing/chart.py
    points: Points


@dataclass(frozen=True, slots=True, kw_only=True)
class Place:
    """A place on the x axis that has a name: a line across the chart, its label over it."""

    label: Message
    at: float
    style: str  # "chosen" "bound" "joint"; "zone" has no line, nor has "beyond": off the scale
    dots: tuple[float, ...] = ()  # heights at which the line meets a curve, to be marked


@dataclass(frozen=True, slots=True, kw_only=True)
class Band:
    """A stretch of the x axis."""

    low: float
    high: float
    style: str  # "tolerance" "zone"; "outside" is hatched


@dataclass(frozen=True, slots=True, kw_only=True)
class Chart:
    id: str  # "power" "voltage" "opening-F1" "opening-F2"
    title: Message
    x: Axis
    y: Axis
    bands: tuple[Band, ...] = ()
    places: tuple[Place, ...] = ()
    curves: tuple[Curve, ...]
    lines: tuple[Message, ...]  # the same in words, with its figures
