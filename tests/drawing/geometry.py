"""What must not happen in a drawing, worked out from its primitives."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import combinations

from baybook.drawing.primitives import Cell

CASING = 3.2  # half of a conductor's
HALF_MARK = 11.0  # half the width of the widest mark
NEAR = 0.01


def overlap(one: Cell, other: Cell) -> bool:
    across = min(one.right, other.right) - max(one.left, other.left)
    down = min(one.bottom, other.bottom) - max(one.top, other.top)
    return across > NEAR and down > NEAR


def inside(one: Cell, other: Cell) -> bool:
    return (
        one.left >= other.left - NEAR
        and one.right <= other.right + NEAR
        and one.top >= other.top - NEAR
        and one.bottom <= other.bottom + NEAR
    )


def text_faults(scene) -> Iterator[str]:
    """Words outside their cell or the sheet, and words upon words."""
    sheet = Cell(0.0, 0.0, scene.width, scene.height)
    for text in scene.texts:
        if not inside(text.box, text.cell):
            yield f"{text.line.text!r} leaves its cell"
        if not inside(text.cell, sheet):
            yield f"the cell of {text.line.text!r} leaves the sheet"
    for one, other in combinations(scene.texts, 2):
        if overlap(one.box, other.box):
            yield f"{one.line.text!r} lies on {other.line.text!r}"


def wiring_faults(scene) -> Iterator[str]:
    """Words upon rails, rings, marks, device edges, ruler or zone lines."""
    things = [*_rails(scene), *_rings(scene), *_marks(scene), *_lines(scene)]
    for text in scene.texts:
        for what, box in things:
            if overlap(text.box, box):
                yield f"{text.line.text!r} lies on {what}"
        for device in scene.devices:
            if overlap(text.box, device.box) and not inside(text.box, device.box):
                yield f"{text.line.text!r} crosses a device's edge"
    for one, other in combinations([*_rings(scene)], 2):
        if overlap(one[1], other[1]):
            yield f"{one[0]} lies on {other[0]}"


def _rails(scene):
    for conductor in scene.conductors:
        for piece in conductor.pieces:
            right = piece.x + CASING
            for loop in piece.loops:
                yield "a loop", Cell(piece.x, loop - 20, piece.x + conductor.swing, loop + 20)
            yield f"rail {conductor.tag}", Cell(piece.x - CASING, piece.top, right, piece.bottom)


def _rings(scene):
    r = scene.form.ring
    for ring in scene.letters:
        yield f"ring {ring.letter}", Cell(ring.x - r, ring.y - r, ring.x + r, ring.y + r)


def _marks(scene):
    for mark in scene.marks:
        box = (mark.x - HALF_MARK, mark.y - mark.half, mark.x + HALF_MARK, mark.y + mark.half)
        yield mark.kind, Cell(*box)


def _lines(scene):
    for line in scene.zone_lines:
        yield "a zone line", Cell(line.x1, line.y - 0.6, line.x2, line.y + 0.6)
    if scene.ruler.ticks:
        x = scene.ruler.x
        yield "the ruler", Cell(x - 0.5, scene.ruler.ticks[0], x + 0.5, scene.ruler.ticks[-1])


def route_faults(scene) -> Iterator[str]:
    """Words upon leaders, the strip, or the device at its end; leaders upon words."""
    for text in scene.texts:
        for leader in scene.leaders:
            left, right = sorted((leader.x1, leader.x2))
            top, bottom = sorted((leader.y1, leader.y2))
            straight = left == right or top == bottom
            if straight and overlap(text.box, Cell(left - 0.5, top, right + 0.5, bottom)):
                yield f"a leader crosses {text.line.text!r}"
        if overlap(text.box, scene.device) and not inside(text.box, scene.device):
            yield f"{text.line.text!r} crosses the device's edge"
        for block in scene.strip.blocks:
            if overlap(text.box, block.box):
                yield f"{text.line.text!r} lies on the strip"
