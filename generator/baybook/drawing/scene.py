"""Everything of one wiring drawing in its place: primitives that a template only has to print.

Points, y downwards, the origin at the top left corner.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from baybook.drawing.forms import LEADING, Form
from baybook.drawing.layout import Placed
from baybook.drawing.primitives import BASELINE, Cell, Label, Text, block
from baybook.drawing.rails import Conductor, conductors
from baybook.drawing.rows import (
    BAND,
    DEVICE_AIR,
    NEGATIVE,
    NEGATIVE_LABEL,
    POSITIVE,
    POSITIVE_LABEL,
    RULER,
    RULER_AIR,
    SIGN,
    TEXT_INSET,
    TICK,
    Row,
    Table,
)

_DOTS_LEAST = 9.0  # a shorter bit of a zone line is only dirt
_DOT_AIR = 4.0  # a zone line keeps this much from words


@dataclass(frozen=True, slots=True)
class Letter:
    letter: str
    x: float
    y: float


@dataclass(frozen=True, slots=True)
class Mark:
    kind: str
    x: float
    y: float
    half: float
    positive: bool
    turn: int = 0  # degrees; the rails of this drawing run down


@dataclass(frozen=True, slots=True)
class Sign:
    """A plus or a minus, where a rail meets a device."""

    x: float
    y: float
    positive: bool


@dataclass(frozen=True, slots=True)
class Device:
    box: Cell
    existing: bool
    signs: tuple[Sign, ...]


@dataclass(frozen=True, slots=True)
class Stretch:
    """A zone in the band at the left edge."""

    box: Cell
    shaded: bool


@dataclass(frozen=True, slots=True)
class Ruler:
    x: float
    ticks: tuple[float, ...]


@dataclass(frozen=True, slots=True)
class Dotted:
    x1: float
    x2: float
    y: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Scene:
    """One sheet of a wiring drawing."""

    form: Form
    width: float
    height: float
    zones: tuple[Stretch, ...]
    zone_lines: tuple[Dotted, ...]
    ruler: Ruler
    conductors: tuple[Conductor, ...]
    devices: tuple[Device, ...]
    marks: tuple[Mark, ...]
    letters: tuple[Letter, ...]
    texts: tuple[Text, ...]


def arrange(table: Table, placed: Placed) -> Scene:
    """Return the drawing with every part where the layout engine put its box."""
    return _Arranger(table, placed).scene()


@dataclass(frozen=True, slots=True)
class _Arranger:
    table: Table
    placed: Placed

    def scene(self) -> Scene:
        return Scene(
            form=self.table.form,
            width=float(self.table.form.width),
            height=self.placed.height,
            zones=tuple(self._zones()),
            zone_lines=tuple(self._zone_lines()),
            ruler=self._ruler(),
            conductors=conductors(self.table, self.placed),
            devices=tuple(self._devices()),
            marks=tuple(self._marks()),
            letters=tuple(self._letters()),
            texts=tuple(self._texts()),
        )

    def _cell(self, row: int, column: int) -> Cell:
        x, y = self.placed.x[column], self.placed.y[row]
        half, tall = self.table.columns[column] / 2, self.table.rows[row].height / 2
        return Cell(x - half, y - tall, x + half, y + tall)

    def _rows(self) -> Iterator[tuple[int, Row]]:
        return ((n, row) for n, row in enumerate(self.table.rows) if row.rank is not None)

    def _edge(self, row: int) -> float:
        """Return where a zone that begins with this row begins."""
        zone = next(z for z in self.table.zones if z.first == row)
        if zone.on_line:
            return self.placed.y[row]
        top = self._cell(row, BAND).top
        return (self._cell(row - 1, BAND).bottom + top) / 2 if row else 0.0

    def _bounds(self) -> Iterator[tuple[float, float]]:
        starts = [self._edge(zone.first) for zone in self.table.zones]
        return zip(starts, [*starts[1:], self.placed.height], strict=False)

    def _zones(self) -> Iterator[Stretch]:
        left, right = self._cell(0, BAND).left, self._cell(0, BAND).right
        for zone, (top, bottom) in zip(self.table.zones, self._bounds(), strict=True):
            yield Stretch(Cell(left, top, right, bottom), shaded=zone.shaded)

    def _zone_lines(self) -> Iterator[Dotted]:
        for zone in self.table.zones:
            if zone.on_line:
                yield from self._dots(zone.first)

    def _dots(self, row: int) -> Iterator[Dotted]:
        """Lay a zone line across the drawing, leaving out the words in its row."""
        y = self.placed.y[row]
        x = self._cell(row, BAND).right + _DOT_AIR
        for box in sorted((t.box for t in self._row_texts(row)), key=lambda box: box.left):
            if box.left - _DOT_AIR > x + _DOTS_LEAST:
                yield Dotted(x, box.left - _DOT_AIR, y)
            x = max(x, box.right + _DOT_AIR)
        if x + _DOTS_LEAST < self.table.form.width:
            yield Dotted(x, float(self.table.form.width), y)

    def _ruler(self) -> Ruler:
        ticks = tuple(self.placed.y[n] for n, row in self._rows() if row.at.lines)
        return Ruler(self._cell(0, RULER).right, ticks)

    def _devices(self) -> Iterator[Device]:
        for n, row in self._rows():
            if row.device and row.rank:
                box = self._device_box(n)
                signs = (
                    Sign(self.placed.x[column], y, column == POSITIVE)
                    for y in self._sign_rows(row, box)
                    for column in (POSITIVE, NEGATIVE)
                )
                yield Device(box, bool(row.rank["device_existing"]), tuple(signs))

    def _device_box(self, row: int) -> Cell:
        first = self._cell(row, POSITIVE)
        last = self._cell(row, NEGATIVE_LABEL if self.table.form.across else NEGATIVE)
        return Cell(first.left, first.top, last.right, first.bottom)

    def _sign_rows(self, row: Row, box: Cell) -> list[float]:
        if not self.table.form.across:
            return [(box.top + box.bottom) / 2]
        places = (box.top + DEVICE_AIR + SIGN, box.bottom - DEVICE_AIR - SIGN)
        return [y for y, met in zip(places, row.met, strict=True) if met]

    def _device_words(self, row: int) -> Cell:
        """Return the part of a device's box that is free of signs."""
        box, (above, below) = self._device_box(row), self.table.rows[row].met
        top = box.top + DEVICE_AIR + (2 * SIGN if above else 0.0)
        bottom = box.bottom - DEVICE_AIR - (2 * SIGN if below else 0.0)
        return Cell(box.left + DEVICE_AIR, top, box.right - DEVICE_AIR, bottom)

    def _marks(self) -> Iterator[Mark]:
        for n, row in self._rows():
            for column, shape in zip((POSITIVE, NEGATIVE), row.marks, strict=True):
                if shape and shape.half:
                    y = self.placed.y[n] + shape.dy
                    yield Mark(shape.kind, self.placed.x[column], y, shape.half, column == POSITIVE)

    def _letters(self) -> Iterator[Letter]:
        for n, row in self._rows():
            for column, shape in zip((POSITIVE, NEGATIVE), row.marks, strict=True):
                for ring in shape.rings if shape else ():
                    yield Letter(ring.letter, self.placed.x[column], self.placed.y[n] + ring.dy)

    def _texts(self) -> Iterator[Text]:
        for zone, (top, bottom) in zip(self.table.zones, self._bounds(), strict=True):
            yield from self._turned(zone.label, top, bottom)
        for n, _ in self._rows():
            yield from self._row_texts(n)

    def _turned(self, label: Label, top: float, bottom: float) -> Iterator[Text]:
        column = self._cell(0, BAND)
        cell = Cell(column.left, top, column.right, bottom)
        x = (cell.left + cell.right) / 2 - label.height / 2
        for line in label.lines:
            yield Text(
                line, x + BASELINE * line.size, (top + bottom) / 2, "middle", cell, upright=False
            )
            x += LEADING * line.size

    def _row_texts(self, row: int) -> Iterator[Text]:
        here = self.table.rows[row]
        ruler = self._cell(row, RULER)
        yield from block(here.at, ruler.inset(0.0, TICK + RULER_AIR), "end")
        if here.device and self.table.form.across:
            yield from block(here.labels[0], self._device_words(row), "start")
            return
        for column, label in zip((POSITIVE_LABEL, NEGATIVE_LABEL), here.labels, strict=True):
            yield from block(label, self._cell(row, column).inset(TEXT_INSET, TEXT_INSET), "start")
