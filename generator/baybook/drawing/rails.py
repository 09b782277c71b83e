"""The two rails as conductors: where each begins and ends, and where it swings out in a loop."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field
from itertools import pairwise

from baybook.drawing.layout import Placed
from baybook.drawing.marks import Shape
from baybook.drawing.rows import NEGATIVE, POSITIVE, Row, Table

CONTINUED = "continued"  # a rank that takes up a run from the sheet before
_LOOP_AIR = 4.0  # a loop stays this far inside its column


@dataclass(frozen=True, slots=True)
class Piece:
    """A straight length of one rail, with the middles of its loops."""

    x: float
    top: float
    bottom: float
    loops: tuple[float, ...]


@dataclass(frozen=True, slots=True)
class Conductor:
    """What one conductor shows in the drawing."""

    tag: str  # "" for a lead that has none, or that the sheet before has named
    colour: str
    style: str
    pieces: tuple[Piece, ...]
    swing: float  # of a loop, sideways


@dataclass(slots=True)
class _Open:
    key: tuple[str, str, str]
    top: float
    bottom: float
    loops: list[float] = field(default_factory=list)


def conductors(table: Table, placed: Placed) -> tuple[Conductor, ...]:
    """Return every conductor, its pieces gathered under its tag, the positive rail first."""
    swing = table.form.rail / 2 - _LOOP_AIR
    found: dict[tuple[str, ...], list[Piece]] = {}
    for column, rail in ((POSITIVE, "positive"), (NEGATIVE, "negative")):
        x = placed.x[column]
        for number, part in enumerate(_parts(table, placed, rail)):
            own = () if part.key[2] else (rail, str(number))
            piece = Piece(x, part.top, part.bottom, tuple(part.loops))
            found.setdefault((*part.key, *own), []).append(piece)
    return tuple(
        Conductor(key[2], key[0], key[1], tuple(pieces), swing) for key, pieces in found.items()
    )


def _parts(table: Table, placed: Placed, rail: str) -> Iterator[_Open]:
    """Walk down a rail; a part ends at a joint, a device, or where the rail looks different."""
    rows = [(row, y) for row, y in zip(table.rows, placed.y, strict=True) if row.rank]
    part: _Open | None = None
    # What goes on from the sheet before was named there, and is not named again.
    before = {(row.rank or {})[f"{rail}_run"]["conductor"] for row, _ in rows[:1] if _goes_on(row)}
    for (row, y), (below, y_below) in pairwise(rows):
        run = (row.rank or {})[f"{rail}_run"]
        tag = "" if run["conductor"] in before else run["conductor"]
        key = (run["colour"], run["style"], tag)
        if part and (part.key != key or _ends(row, rail)):
            yield part
            part = None
        if run["style"] == "none":
            continue
        part = part or _Open(key, y + _stop(row, rail, below=True), y)
        part.bottom = y_below + _stop(below, rail, below=False)
        if _kind(row, rail) == "loop":
            part.loops.append(y)
    if part:
        yield part


def _goes_on(row: Row) -> bool:
    return bool(row.rank and row.rank.get(CONTINUED))


def _mark(row: Row, rail: str) -> Shape | None:
    return row.marks[0 if rail == "positive" else 1]


def _kind(row: Row, rail: str) -> str:
    shape = _mark(row, rail)
    return shape.kind if shape else ""


def _ends(row: Row, rail: str) -> bool:
    shape = _mark(row, rail)
    return row.device or bool(shape and shape.ends)


def _stop(row: Row, rail: str, *, below: bool) -> float:
    if row.device:
        return row.height / 2 if below else -row.height / 2
    shape = _mark(row, rail)
    if shape is None:
        return 0.0
    return shape.bottom if below else shape.top
