"""The lines of a chart in points: bands, grid, what stands across the frame, curves, dots."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from typing import Any

from baybook.drawing.primitives import Cell
from baybook.drawing.rows import DrawingError
from baybook.drawing.scale import Scale, Tick
from baybook.drawing.strip import Stroke

# What the template knows how to draw.
_CURVES = frozenset({"main", "second", "limit", "bound"})
_PLACES = frozenset({"chosen", "bound", "joint", "zone", "beyond"})
_BANDS = frozenset({"tolerance", "zone", "outside"})
_NO_LINE = frozenset({"zone", "beyond"})
_HATCH = 7.0  # between two strokes, along the x axis


@dataclass(frozen=True, slots=True)
class Path:
    d: str
    style: str


@dataclass(frozen=True, slots=True)
class Area:
    box: Cell
    style: str


@dataclass(frozen=True, slots=True)
class Upright:
    """A line across the frame."""

    x: float
    top: float
    bottom: float
    style: str


def require_styles(view: Mapping[str, Any]) -> None:
    """Raise DrawingError for a style that the charts do not have."""
    for part, known in (("curves", _CURVES), ("places", _PLACES), ("bands", _BANDS)):
        for item in view[part]:
            if item["style"] not in known:
                raise DrawingError(f"a chart has no {item['style']!r} among its {part}")


def _boxes(view: Mapping[str, Any], x: Scale, frame: Cell) -> Iterator[Area]:
    for band in view["bands"]:
        box = Cell(x.at(band["low"]), frame.top, x.at(band["high"]), frame.bottom)
        yield Area(box, band["style"])


def areas(view: Mapping[str, Any], x: Scale, frame: Cell) -> Iterator[Area]:
    """Yield the bands that are tinted."""
    return (area for area in _boxes(view, x, frame) if area.style != "outside")


def hatch(view: Mapping[str, Any], x: Scale, frame: Cell) -> Iterator[Stroke]:
    """Yield the strokes over the bands that are hatched."""
    for area in _boxes(view, x, frame):
        if area.style == "outside":
            yield from _strokes(area.box)


def _strokes(box: Cell) -> Iterator[Stroke]:
    """Fill a box with strokes that rise to the right at 45 degrees."""
    tall = box.bottom - box.top
    foot = box.left - tall + _HATCH / 2  # where a stroke meets the box's lower edge
    while foot < box.right:
        left, right = max(foot, box.left), min(foot + tall, box.right)
        if right > left:
            yield Stroke(left, box.bottom - (left - foot), right, box.bottom - (right - foot))
        foot += _HATCH


def grid(frame: Cell, along: Iterable[Tick], up: Iterable[Tick], tick: float) -> Iterator[Stroke]:
    """Yield a line across the frame for each figure; it sticks out towards its figure."""
    for each in along:
        yield Stroke(each.at, frame.top, each.at, frame.bottom + tick)
    for each in up:
        yield Stroke(frame.left - tick, each.at, frame.right, each.at)


def uprights(view: Mapping[str, Any], x: Scale, frame: Cell) -> Iterator[Upright]:
    """Yield the line of each place that has one."""
    for place in view["places"]:
        if place["style"] not in _NO_LINE:
            yield Upright(x.at(place["at"]), frame.top, frame.bottom, place["style"])


def curves(view: Mapping[str, Any], x: Scale, y: Scale) -> Iterator[Path]:
    """Yield the curves, the heavy one last, so that it lies on what it is limited by."""
    for curve in sorted(view["curves"], key=lambda curve: curve["style"] == "main"):
        points = (f"{x.at(along):.2f} {y.at(up):.2f}" for along, up in curve["points"])
        yield Path("M" + "L".join(points), curve["style"])


def dots(view: Mapping[str, Any], x: Scale, y: Scale) -> Iterator[tuple[float, float]]:
    """Yield where the line of a place meets a curve."""
    for place in view["places"]:
        for height in place["dots"]:
            yield x.at(place["at"]), y.at(height)
