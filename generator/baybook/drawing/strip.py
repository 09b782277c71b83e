"""The route strip's own picture: zones, rails, clips and fittings, one metre the same everywhere.

A strip lies along the page or stands on it: `Axis` turns distances along and across the
run into points, and nothing else needs to know which.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Any

from baybook.drawing.forms import Form
from baybook.drawing.measure import REGULAR
from baybook.drawing.phrase import wrap
from baybook.drawing.primitives import Cell, Label, Text

ACROSS = 70.0  # pt, width of the strip
POSITIVE_AT, NEGATIVE_AT = 21.0, 49.0  # the rails, across it
_CLIP = 10.0  # a clip's stroke reaches this far over the rails
_SLEEVE = 12.0  # so does a sleeve
_LOOP = 9.0  # half the length that a loop takes of its rail
_ON_BOTH = ("grommet", "gland")


@dataclass(frozen=True, slots=True)
class Axis:
    """From metres along the run, and points across it, to points on the page."""

    scale: float  # points a metre
    along: float  # where the run begins
    across: float  # where the strip's edge is
    standing: bool

    def point(self, metres: float, across: float, shift: float = 0.0) -> tuple[float, float]:
        """Return x and y; `shift` moves along the run by points."""
        a, c = self.along + self.scale * metres + shift, self.across + across
        return (c, a) if self.standing else (a, c)

    def cell(self, start: float, end: float, top: float, bottom: float) -> Cell:
        (x1, y1), (x2, y2) = self.point(start, top), self.point(end, bottom)
        return Cell(x1, y1, x2, y2)


@dataclass(frozen=True, slots=True)
class Rail:
    colour: str
    d: str


@dataclass(frozen=True, slots=True)
class Block:
    """A box of the strip: a zone, a sleeve, the device at the end."""

    box: Cell
    kind: str  # "tint" | "plain" | "sleeve" | "device"


@dataclass(frozen=True, slots=True)
class Fitting:
    kind: str
    x: float
    y: float
    turn: int  # degrees


@dataclass(frozen=True, slots=True)
class Stroke:
    x1: float
    y1: float
    x2: float
    y2: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Strip:
    blocks: tuple[Block, ...]
    clips: tuple[Stroke, ...]
    rails: tuple[Rail, ...]
    sleeves: tuple[Block, ...]
    fittings: tuple[Fitting, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class RouteScene:
    """Everything of a route strip in its place."""

    form: Form
    width: float
    height: float
    strip: Strip
    device: Cell
    leaders: tuple[Stroke, ...]
    texts: tuple[Text, ...]


def label_of(message: Mapping[str, Any], room: float, form: Form, weight: int = REGULAR) -> Label:
    return Label(wrap(message, room, form.note, weight))


def strip(view: Mapping[str, Any], axis: Axis) -> Strip:
    """Return the picture of a told RouteView without its words."""
    return Strip(
        blocks=tuple(_zones(view, axis)),
        clips=tuple(_clips(view, axis)),
        rails=tuple(_rails(view, axis)),
        sleeves=tuple(_sleeves(view, axis)),
        fittings=tuple(_fittings(view, axis)),
    )


def _zones(view: Mapping[str, Any], axis: Axis) -> Iterator[Block]:
    for number, zone in enumerate(view["zones"]):
        box = axis.cell(zone["start_m"], zone["end_m"], 0.0, ACROSS)
        yield Block(box, "plain" if number % 2 else "tint")


def _clips(view: Mapping[str, Any], axis: Axis) -> Iterator[Stroke]:
    pitch, length = view["clip_pitch_m"], view["length_m"]
    count = int(length / pitch) if pitch > 0 else 0
    for number in range(1, count + 1):
        if number * pitch < length:
            at = number * pitch
            start = axis.point(at, POSITIVE_AT - _CLIP)
            end = axis.point(at, _last_rail(view, at) + _CLIP)
            yield Stroke(*start, *end)


def _rails(view: Mapping[str, Any], axis: Axis) -> Iterator[Rail]:
    loops = sorted(mark["at_m"] for mark in view["marks"] if mark["kind"] == "loop")
    for colour, start, across in (
        ("red", 0.0, POSITIVE_AT),
        ("black", view["return_from_m"], NEGATIVE_AT),
    ):
        if start >= view["length_m"]:  # the body carries it back
            continue
        steps = ["M", _at(axis.point(start, across))]
        for loop in loops:
            steps += _swing(axis, loop, across)
        yield Rail(colour, "".join([*steps, "L", _at(axis.point(view["length_m"], across))]))


def _last_rail(view: Mapping[str, Any], metres: float) -> float:
    """Where the last conductor lies at a distance: the return, or the feed where there is none."""
    return NEGATIVE_AT if metres >= view["return_from_m"] else POSITIVE_AT


def _swing(axis: Axis, metres: float, across: float) -> list[str]:
    def at(shift: float, aside: float) -> str:
        return _at(axis.point(metres, across - aside, shift))

    half, top = _LOOP, 1.1 * _LOOP
    return [
        "L", at(-half, 0), "C", at(-half / 4, 0), " ", at(-half, top), " ", at(0, top),
        "C", at(half, top), " ", at(half / 4, 0), " ", at(half, 0),
    ]  # fmt: skip


def _at(point: tuple[float, float]) -> str:
    return f"{point[0]:.2f} {point[1]:.2f}"


def _sleeves(view: Mapping[str, Any], axis: Axis) -> Iterator[Block]:
    for mark in view["marks"]:
        at, length = mark["at_m"], mark["length_m"]
        if mark["kind"] == "sleeve":
            start, end, last = at - length / 2, at + length / 2, _last_rail(view, at)
        elif mark["kind"] == "conduit":  # round the lead before the protection only
            start, end, last = at, at + length, POSITIVE_AT
        else:
            continue
        start, end = max(0.0, start), min(view["length_m"], end)
        yield Block(axis.cell(start, end, POSITIVE_AT - _SLEEVE, last + _SLEEVE), "sleeve")


def _fittings(view: Mapping[str, Any], axis: Axis) -> Iterator[Fitting]:
    turn = 0 if axis.standing else -90  # the marks are drawn for a rail that runs down
    for mark in view["marks"]:
        if mark["kind"] in {"fuse", "breaker"}:
            yield Fitting("strip-fuse", *axis.point(mark["at_m"], POSITIVE_AT), turn)
        elif mark["kind"] in _ON_BOTH:
            for across in dict.fromkeys((POSITIVE_AT, _last_rail(view, mark["at_m"]))):
                yield Fitting(mark["kind"], *axis.point(mark["at_m"], across), turn)
