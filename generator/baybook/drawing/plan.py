"""The route on the vehicle's outline, from above and from the left, with numbered places."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from baybook.drawing.forms import ROUTE, Form
from baybook.drawing.measure import BOLD, REGULAR
from baybook.drawing.phrase import plain, wrap
from baybook.drawing.primitives import Cell, Label, Text, block
from baybook.drawing.render import Drawing, render
from baybook.drawing.strip import Stroke
from baybook.point import GRID, HEIGHTS

SQUARES_LONG, SQUARES_WIDE = GRID["along"], GRID["across"]
_GAP = 6.0
_LEADER = 7.0
_LEGEND_AIR = 3.0
_APART = 3.0  # between two numbers


@dataclass(frozen=True, slots=True)
class Spike:
    """A mark of the run in its place, its number at the end of a leader."""

    kind: str
    x: float
    y: float


@dataclass(frozen=True, slots=True)
class Number:
    text: str
    x: float
    y: float


@dataclass(frozen=True, slots=True)
class Seat:
    """Where a number stands: its middle, its row counted from the picture."""

    x: float
    row: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Picture:
    """The vehicle seen from one side; lengths in points, but for the outline's own squares."""

    side: str  # "above" | "beside"
    top: float
    path: str
    spikes: tuple[Spike, ...]
    leaders: tuple[Stroke, ...]
    numbers: tuple[Number, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class PlanScene:
    form: Form
    outline: str
    wheels: tuple[str, ...]  # sides on which this guide's vehicles are steered
    square: float
    width: float
    height: float
    radius: float  # of a number's ring
    pictures: tuple[Picture, ...]
    texts: tuple[Text, ...]


def draw_plan(view: Mapping[str, Any], form: str, *, prefix: str) -> Drawing:
    """Return the plan in one form: "wide", "slim" or "print".

    view    told PlanView
    prefix  begins every id in the SVG; must differ between drawings of one page

    Raises MissingGlyph.
    """
    scene = plan_scene(view, form)
    return render(
        "plan.svg.j2", scene, title=view["title"]["text"], lines=(view["text"]["text"],),
        prefix=f"{prefix}-plan-{form}", colours=scene.form.colours,
    )  # fmt: skip


def plan_scene(view: Mapping[str, Any], form: str) -> PlanScene:
    """Return what `draw_plan` would print, as primitives."""
    return _Plan(view, ROUTE[form]).scene()


def spread(points: Sequence[float], room: float, width: float) -> tuple[Seat, ...]:
    """Return a seat for each point in the order given: as near as can be, none over another.

    room   width of a seat; no more than a row of them fits into width
    width  of the picture
    """
    in_row = max(1, int(width // room))
    rows = -(-len(points) // in_row)
    order = sorted(range(len(points)), key=lambda n: points[n])
    seats: dict[int, Seat] = {}
    for row in range(rows):
        mine = order[row::rows]
        x = -room / 2
        for place, n in enumerate(mine):
            last = width - room / 2 - room * (len(mine) - 1 - place)
            x = min(max(points[n], x + room), last)
            seats[n] = Seat(x, row)
    return tuple(seats[n] for n in range(len(points)))


@dataclass(frozen=True, slots=True)
class _Plan:
    view: Mapping[str, Any]
    form: Form

    @property
    def square(self) -> float:
        return self.form.width / SQUARES_LONG

    def scene(self) -> PlanScene:
        texts: list[Text] = []
        pictures: list[Picture] = []
        y = 0.0
        for side, squares in (("above", SQUARES_WIDE), ("beside", HEIGHTS[self.view["outline"]])):
            caption = self._caption(side, y)
            texts += caption
            y = caption[-1].cell.bottom + _GAP
            picture, y = self._picture(side, squares, y)
            pictures.append(picture)
            y += 2 * _GAP
        legend = list(self._legend(y))
        texts += legend
        return PlanScene(
            form=self.form, outline=self.view["outline"], square=self.square,
            wheels=tuple(self.view["drive_sides"]), width=float(self.form.width),
            height=legend[-1].cell.bottom if legend else y, radius=self._radius,
            pictures=tuple(pictures), texts=tuple(texts),
        )  # fmt: skip

    @property
    def _radius(self) -> float:
        return 0.78 * self.form.note

    def _caption(self, side: str, y: float) -> list[Text]:
        width = float(self.form.width)
        words = Label(wrap(self.view[side], width, self.form.note, BOLD))
        nose = Label(wrap(self.view["nose"], width, self.form.note, REGULAR))
        lines = Label((*words.lines, *nose.lines))
        return list(block(lines, Cell(0.0, y, width, y + lines.height), "start"))

    def _picture(self, side: str, squares: int, y: float) -> tuple[Picture, float]:
        """Return one picture and where it ends; its numbers stand in rows over it."""
        places = [self._place(mark, side, squares) for mark in self.view["marks"]]
        seats = spread([x for x, _ in places], 2 * self._radius + _APART, float(self.form.width))
        row = 2 * self._radius + _APART
        top = y + row * (1 + max((seat.row for seat in seats), default=0)) + _LEADER
        numbers = tuple(
            Number(str(mark["number"]), seat.x, top - _LEADER - row * seat.row - self._radius)
            for mark, seat in zip(self.view["marks"], seats, strict=True)
        )
        return Picture(
            side=side, top=top, numbers=numbers,
            path=self._path([self._at(p, side, squares) for p in self.view["path"]], top),
            spikes=tuple(
                Spike(mark["kind"], x, top + dy)
                for mark, (x, dy) in zip(self.view["marks"], places, strict=True)
            ),
            leaders=tuple(
                Stroke(number.x, number.y + self._radius, x, top + dy)
                for number, (x, dy) in zip(numbers, places, strict=True)
            ),
        ), top + squares * self.square  # fmt: skip

    def _place(self, mark: Mapping[str, Any], side: str, squares: int) -> tuple[float, float]:
        return self._at((mark["along"], mark["across"], mark["up"]), side, squares)

    def _at(self, place: Sequence[float], side: str, squares: int) -> tuple[float, float]:
        """Return x, and y below the picture's top: its left side and the ground lie at the foot."""
        along, across, up = place
        return along * self.square, (squares - (across if side == "above" else up)) * self.square

    def _path(self, points: Sequence[tuple[float, float]], top: float) -> str:
        return "M" + "L".join(f"{x:.2f} {top + y:.2f}" for x, y in points)

    def _legend(self, y: float) -> Iterator[Text]:
        indent = 2.4 * self.form.note
        for mark in self.view["marks"]:
            number = Label(wrap(plain(str(mark["number"])), indent, self.form.note, BOLD))
            room = self.form.width - indent
            words = Label(wrap(mark["label"], room, self.form.note))
            yield from block(number, Cell(0.0, y, indent, y + number.height), "start")
            cell = Cell(indent, y, float(self.form.width), y + words.height)
            yield from block(words, cell, "start")
            y += words.height + _LEGEND_AIR
