"""A chart: lines over two axes, every line with its words beside it.

Words never stand among the lines: a place on the x axis is named over the frame, a curve at
the right of it. On a phone a line with many words gets a number instead, and the words stand
under the frame, each beside a sample of its line.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Any

from baybook.drawing.chart_lines import (
    Area,
    Path,
    Upright,
    areas,
    curves,
    dots,
    grid,
    hatch,
    require_styles,
    uprights,
)
from baybook.drawing.chart_words import Named, Sample, key, label, over, right, right_room
from baybook.drawing.forms import LEADING, ROUTE, Form
from baybook.drawing.primitives import BASELINE, Cell, Text, block
from baybook.drawing.render import Drawing, render
from baybook.drawing.rows import DrawingError
from baybook.drawing.scale import Scale, Tick, along, scale, upwards, widest
from baybook.drawing.sides import spread
from baybook.drawing.strip import Stroke

TICK = 4.0
_AIR = 4.0
_ELBOW = 14.0  # from the frame to the words at its right
_HEIGHTS = {"wide": 230.0, "slim": 190.0, "print": 160.0}


@dataclass(frozen=True, slots=True, kw_only=True)
class ChartScene:
    """Everything of a chart in its place."""

    form: Form
    width: float
    height: float
    frame: Cell
    areas: tuple[Area, ...]
    hatch: tuple[Stroke, ...]
    grid: tuple[Stroke, ...]
    uprights: tuple[Upright, ...]
    curves: tuple[Path, ...]
    dots: tuple[tuple[float, float], ...]
    ends: tuple[Stroke, ...]  # from where a curve ends to the frame's edge, no part of the curve
    leaders: tuple[Stroke, ...]
    samples: tuple[Sample, ...]
    texts: tuple[Text, ...]


def draw_chart(view: Mapping[str, Any], form: str, *, prefix: str) -> Drawing:
    """Return a chart in one form.

    view    told Chart
    form    "wide" (530 pt), "slim" (a phone, 246 pt) or "print" (185 mm column)
    prefix  begins every id in the SVG; must differ between drawings of one page

    Raises MissingGlyph, and DrawingError for an axis or a style that cannot be drawn.
    """
    scene = chart_scene(view, form)
    return render(
        "chart.svg.j2", scene, title=view["title"]["text"],
        lines=tuple(line["text"] for line in view["lines"]),
        prefix=f"{prefix}-{view['id']}-{form}", colours=scene.form.colours,
    )  # fmt: skip


def chart_scene(view: Mapping[str, Any], form: str) -> ChartScene:
    """Return what `draw_chart` would print, as primitives."""
    for name in ("x", "y"):
        axis = view[name]
        if axis["high"] <= axis["low"] or (axis["log"] and axis["low"] <= 0):
            raise DrawingError(f"the chart {view['id']!r} has no length along {name}")
    require_styles(view)
    return _scene(view, ROUTE[form])


def _scene(view: Mapping[str, Any], form: Form) -> ChartScene:
    width = float(form.width)
    x = scale(
        view["x"], widest(view["y"], form) + TICK + _AIR, width - right_room(view, form) - _ELBOW
    )
    side, places = over(view, form, x)
    ended = right(view, form, len(places.numbered) + 1)
    title, foot = (label(view[name]["title"], width, form) for name in ("y", "x"))
    top = title.height + max(side.height, 2 * _AIR)
    frame = Cell(x.start, top, x.end, top + _tall(ended, form))
    y = scale(view["y"], frame.bottom, frame.top)
    x_figures, y_figures = along(view["x"], x, form), upwards(view["y"], y, form)
    figures = max((tick.words.height for tick in x_figures), default=0.0)
    below = frame.bottom + TICK + figures + 2 * _AIR
    under = Cell(0.0, below, width, below + foot.height)
    named = key((*places.numbered, *ended.numbered), under.bottom + 2 * _AIR, form)
    beside = _beside(ended, x, y, frame, width)
    return ChartScene(
        form=form,
        width=width,
        height=named.bottom if named.texts else under.bottom,
        frame=frame,
        areas=tuple(areas(view, x, frame)),
        hatch=tuple(hatch(view, x, frame)),
        grid=tuple(grid(frame, x_figures, y_figures, TICK)),
        uprights=tuple(uprights(view, x, frame)),
        curves=tuple(curves(view, x, y)),
        dots=tuple(dots(view, x, y)),
        ends=beside.ends,
        leaders=(*side.leaders(frame.top, -1), *beside.leaders),
        samples=named.samples,
        texts=(
            *block(title, Cell(0.0, 0.0, width, title.height), "start"),
            *side.texts(frame.top, -1),
            *beside.texts,
            *_under(frame, x_figures),
            *_left_of(frame, y_figures),
            *block(foot, under, "start"),
            *named.texts,
        ),
    )


def _tall(ended: Named, form: Form) -> float:
    needed = sum(words.height + _AIR for words in ended.labels)
    return max(_HEIGHTS[form.name], needed)


# --------------------------------------------------------------------------- at its right


@dataclass(frozen=True, slots=True)
class _Beside:
    texts: tuple[Text, ...]
    ends: tuple[Stroke, ...]
    leaders: tuple[Stroke, ...]


def _beside(ended: Named, x: Scale, y: Scale, frame: Cell, width: float) -> _Beside:
    """Name each curve level with its end, or as near as the other names let it."""
    last = [curve["points"][-1] for curve in ended.items]
    ends = [(x.at(value), y.at(up)) for value, up in last]
    tops = spread([up for _, up in ends], ended.labels, frame.top, frame.bottom, _AIR)
    texts: list[Text] = []
    leaders: list[Stroke] = []
    for end, top, words in zip(ends, tops, ended.labels, strict=True):
        cell = Cell(frame.right + _ELBOW, top, width, top + words.height)
        texts += block(words, cell, "start")
        leaders += _elbow(end[1], frame.right, (cell.top + cell.bottom) / 2)
    inside = tuple(Stroke(at, up, frame.right, up) for at, up in ends if at < frame.right)
    return _Beside(tuple(texts), inside, tuple(leaders))


def _elbow(end: float, edge: float, level: float) -> Iterator[Stroke]:
    """Lead out of the frame at the height where a curve ends, then to the level of its words."""
    yield Stroke(edge, end, edge + 3.0, end)
    yield Stroke(edge + 3.0, end, edge + _ELBOW - 4.0, level)
    yield Stroke(edge + _ELBOW - 4.0, level, edge + _ELBOW - 2.0, level)


# --------------------------------------------------------------------------- figures


def _under(frame: Cell, figures: list[Tick]) -> Iterator[Text]:
    top = frame.bottom + TICK + _AIR  # clear of a figure left of the frame's foot
    for tick in figures:
        half = tick.words.width / 2
        cell = Cell(tick.middle - half, top, tick.middle + half, top + tick.words.height)
        yield from block(tick.words, cell, "middle")


def _left_of(frame: Cell, figures: list[Tick]) -> Iterator[Text]:
    end = frame.left - TICK - 2.0
    for tick in figures:
        line = tick.figure
        top = tick.at - LEADING * line.size / 2
        cell = Cell(end - line.width, top, end, top + LEADING * line.size)
        yield Text(line, end, top + BASELINE * line.size, "end", cell)
