"""What both drawings are made of: boxes, and lines of words that stand in them.

Points, y downwards.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from baybook.drawing.forms import LEADING
from baybook.drawing.phrase import Line

BASELINE = 0.96  # of the size, below the top of a line with LEADING


@dataclass(frozen=True, slots=True)
class Label:
    """Words beside a rail, in a device, or at the end of a leader."""

    lines: tuple[Line, ...]

    @property
    def height(self) -> float:
        return sum(LEADING * line.size for line in self.lines)

    @property
    def width(self) -> float:
        return max((line.width for line in self.lines), default=0.0)


NO_LABEL = Label(())


@dataclass(frozen=True, slots=True)
class Cell:
    """A box that nothing may leave."""

    left: float
    top: float
    right: float
    bottom: float

    def inset(self, left: float, right: float) -> Cell:
        return Cell(self.left + left, self.top, self.right - right, self.bottom)


@dataclass(frozen=True, slots=True)
class Text:
    """One line of words, its anchor on the baseline, and the cell it stands in."""

    line: Line
    x: float
    y: float
    anchor: str  # "start" | "middle" | "end"
    cell: Cell
    upright: bool = True  # False: turned by a quarter, reading upwards

    @property
    def box(self) -> Cell:
        shift = {"start": 0.0, "middle": 0.5, "end": 1.0}[self.anchor] * self.line.width
        above, below = BASELINE * self.line.size, (LEADING - BASELINE) * self.line.size
        if self.upright:
            left = self.x - shift
            return Cell(left, self.y - above, left + self.line.width, self.y + below)
        foot = self.y + shift
        return Cell(self.x - above, foot - self.line.width, self.x + below, foot)


def block(label: Label, cell: Cell, anchor: str) -> Iterator[Text]:
    """Lay a label's lines in a cell, midway down.

    anchor  "start" is the left edge, "end" the right, "middle" between them
    """
    x = {"start": cell.left, "middle": (cell.left + cell.right) / 2, "end": cell.right}[anchor]
    y = (cell.top + cell.bottom) / 2 - label.height / 2
    for line in label.lines:
        yield Text(line, x, y + BASELINE * line.size, anchor, cell)
        y += LEADING * line.size
