"""A vehicle's outline on its grid, to sketch on: from above and from the left."""

from __future__ import annotations

from dataclasses import dataclass

from baybook.drawing.forms import ROUTE
from baybook.drawing.plan import SQUARES_LONG, SQUARES_WIDE
from baybook.drawing.render import Drawing, render
from baybook.point import HEIGHTS

SQUARES_HIGH = 20
_SQUARE = 6.0  # pt
_MARGIN = 14.0  # pt, for the numbers
_EVERY = 4  # squares between two numbers


@dataclass(frozen=True, slots=True, kw_only=True)
class GridScene:
    outline: str
    side: str  # "above" | "beside"
    square: float
    margin: float
    long: int
    tall: int
    every: int
    drop: float  # squares from the top of the grid to the top of the outline
    width: float
    height: float


def draw_grid(outline: str, side: str, *, title: str) -> Drawing:
    """Return an outline on its grid of 48 × 20 squares, numbered as a GridPoint counts them."""
    tall = SQUARES_WIDE if side == "above" else SQUARES_HIGH
    scene = GridScene(
        outline=outline, side=side, square=_SQUARE, margin=_MARGIN, long=SQUARES_LONG, tall=tall,
        every=_EVERY, drop=0 if side == "above" else tall - HEIGHTS[outline],
        width=SQUARES_LONG * _SQUARE + 2 * _MARGIN, height=tall * _SQUARE + _MARGIN + 6,
    )  # fmt: skip
    return render(
        "grid.svg.j2", scene, title=title, lines=(title,), prefix=f"survey-{outline}-{side}",
        colours=ROUTE["print"].colours,
    )  # fmt: skip
