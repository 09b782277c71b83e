"""A told wiring view as measured rows: what stands in each, and how tall it is.

Only measuring happens here; the layout engine says where a row goes.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise
from math import ceil
from typing import Any

from baybook.drawing.forms import LEADING, Form
from baybook.drawing.layout import RANK_GAP, Grid
from baybook.drawing.marks import Shape, shape
from baybook.drawing.measure import BOLD
from baybook.drawing.phrase import Line, plain, wrap
from baybook.drawing.primitives import NO_LABEL, Label

COLUMN_GAP = 1  # pt; dot keeps it between boxes of one row
BAND, RULER, POSITIVE, POSITIVE_LABEL, NEGATIVE, NEGATIVE_LABEL = range(6)
ZONES_BEFORE = "zones before"  # of a sheet that goes on from another: how many zones came first
TEXT_INSET = 2.0  # of a label from its column's edges
TICK = 5.0
RULER_AIR = 4.0  # between a ruler's figure, its tick, and the band
DEVICE_AIR = 5.0
SIGN = 5.0  # half the size of a plus
_PER_METRE = 30.0
_LONGEST = 110.0  # a run's length is drawn up to here
_BAND_AIR = 8.0
_BAND_LONG = 130.0  # a zone's name that is longer goes on two lines


class DrawingError(ValueError):
    """A view that cannot be drawn in this form."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Row:
    """One rank, measured; or the length of a long run, with no rank of its own."""

    rank: Mapping[str, Any] | None
    height: int
    at: Label = NO_LABEL
    marks: tuple[Shape | None, Shape | None] = (None, None)
    labels: tuple[Label, Label] = (NO_LABEL, NO_LABEL)
    met: tuple[bool, bool] = (True, True)  # rails reach a device from above, from below

    @property
    def device(self) -> bool:
        return self.rank is not None and self.rank["kind"] == "device"


@dataclass(frozen=True, slots=True, kw_only=True)
class Zone:
    """A stretch of the band: its words, and the rows it begins and ends before."""

    label: Label
    first: int
    end: int
    shaded: bool
    on_line: bool  # begins in the middle of its first row, where the zone line is


@dataclass(frozen=True, slots=True, kw_only=True)
class Table:
    """The whole drawing, measured."""

    form: Form
    columns: tuple[int, ...]
    rows: tuple[Row, ...]
    zones: tuple[Zone, ...]

    @property
    def grid(self) -> Grid:
        return Grid(self.columns, tuple(row.height for row in self.rows))

    @property
    def height(self) -> float:
        return sum(row.height for row in self.rows) + RANK_GAP * (len(self.rows) - 1)


def measure(ranks: Sequence[Mapping[str, Any]], form: Form) -> Table:
    """Return the rows, columns and zones of a drawing, each as large as its words need.

    Raises MissingGlyph, UnknownMark, and DrawingError if the columns leave no room.
    """
    columns = _columns(ranks, form)
    own = [_row(rank, form, columns, _met(number, len(ranks))) for number, rank in enumerate(ranks)]
    rows = own[:1]
    for above, below in pairwise(own):
        rows.extend([*_length(above, below, form), below])
    zones = _zones(rows, form)
    rows, zones = _roomy(rows, zones)
    return Table(form=form, columns=columns, rows=tuple(rows), zones=tuple(zones))


def _columns(ranks: Sequence[Mapping[str, Any]], form: Form) -> tuple[int, ...]:
    ruler = max((_at(rank, form).width for rank in ranks), default=0.0)
    ruler = _even(ruler + TICK + 2 * RULER_AIR if ruler else TICK)
    names = [rank["zone_starts"] for rank in ranks if rank["zone_starts"]]
    wide = any(_band_lines(name, form) > 1 for name in names)
    band = _even(LEADING * form.note * (2 if wide else 1) + 3)
    rest = form.width - 5 * COLUMN_GAP - band - ruler - 2 * form.rail
    label = rest // 4 * 2
    if label < 3 * form.head:
        raise DrawingError(f"no room for labels in the form {form.name}: {label} pt are left")
    return band, ruler, form.rail, label, form.rail, label


def _at(rank: Mapping[str, Any], form: Form) -> Label:
    if not rank["at"]:
        return NO_LABEL
    second = plain(rank["at"]["converted"])  # no words, no line
    lines = wrap(rank["at"], float("inf"), form.note, BOLD)
    return Label(lines + wrap(second, float("inf"), form.note))


def _met(number: int, count: int) -> tuple[bool, bool]:
    return number > 0, number < count - 1


def _row(
    rank: Mapping[str, Any], form: Form, columns: tuple[int, ...], met: tuple[bool, bool]
) -> Row:
    room = columns[POSITIVE_LABEL] - 2 * TEXT_INSET
    if rank["kind"] == "device":
        return _device(rank, form, columns, met)
    sides = [rank["positive"], rank["negative"]]
    marks = [s and shape(s["mark"], tuple(s["letters"]), form.ring) for s in sides]
    labels = [_words(s["head"], s["lines"], form, room) if s else NO_LABEL for s in sides]
    at = _at(rank, form)
    heights = [part.height for part in (*labels, *marks, at) if part]
    return Row(
        rank=rank, height=_even(max(heights)), at=at,
        marks=(marks[0], marks[1]), labels=(labels[0], labels[1]),
    )  # fmt: skip


def _device(
    rank: Mapping[str, Any], form: Form, columns: tuple[int, ...], met: tuple[bool, bool]
) -> Row:
    room = columns[POSITIVE_LABEL] - 2 * TEXT_INSET
    if form.across:
        room = sum(columns[POSITIVE:]) + 3 * COLUMN_GAP - 2 * DEVICE_AIR
    words = _words(rank["device"], rank["device_lines"], form, room)
    signs = 2 * SIGN * sum(met) if form.across else 0.0
    return Row(
        rank=rank, height=_even(words.height + 2 * DEVICE_AIR + signs), at=_at(rank, form),
        labels=(words, NO_LABEL), met=met,
    )  # fmt: skip


def _even(height: float) -> int:
    return max(2, 2 * ceil(height / 2))


def _words(
    head: Mapping[str, Any] | None, lines: Sequence[Mapping[str, Any]], form: Form, room: float
) -> Label:
    top = _head(head, form, room) if head else ()
    return Label(top + tuple(line for words in lines for line in wrap(words, room, form.note)))


def _head(head: Mapping[str, Any], form: Form, room: float) -> tuple[Line, ...]:
    """Return the large line; what a US reader is told besides stands small under it."""
    own = [run for run in head["runs"] if run["kind"] != "converted"]
    aside = [run for run in head["runs"] if run["kind"] == "converted"]
    under = wrap({"runs": aside}, room, form.note) if aside else ()
    return wrap({"runs": own}, room, form.head, BOLD) + under


def _length(above: Row, below: Row, form: Form) -> list[Row]:
    """Return the row that a long run needs so that its length shows; none if it is short."""
    length = float(above.rank["length_m"]) if above.rank else 0.0
    wanted = min(_PER_METRE * length, _LONGEST) * form.stretch
    missing = wanted - (above.height + below.height) / 2 - RANK_GAP
    return [Row(rank=None, height=_even(missing - RANK_GAP))] if missing > RANK_GAP else []


# --------------------------------------------------------------------------- zones


def _band_lines(name: Mapping[str, Any], form: Form) -> int:
    (line,) = wrap(name, float("inf"), form.note, BOLD)
    return 1 if line.width <= _BAND_LONG else 2


def _band_label(name: Mapping[str, Any], form: Form) -> Label:
    """Return a zone's name on one line, or on two of about the same width."""
    most = _band_lines(name, form)
    room = _BAND_LONG
    while len(lines := wrap(name, room, form.note, BOLD)) > most:
        room += form.note
    return Label(lines)


def _zones(rows: Sequence[Row], form: Form) -> list[Zone]:
    starts = [n for n, row in enumerate(rows) if row.rank and row.rank["zone_starts"]]
    ends = [*starts[1:], len(rows)][: len(starts)]
    zones = []
    before = int((rows[0].rank or {}).get(ZONES_BEFORE, 0))
    for number, (first, end) in enumerate(zip(starts, ends, strict=True), start=before):
        rank = rows[first].rank or {}
        zones.append(
            Zone(
                label=_band_label(rank["zone_starts"], form),
                first=first,
                end=end,
                shaded=number % 2 == 0,
                on_line=bool(rank["zone_line"]) and first > 0,
            )
        )
    return zones


def _roomy(rows: list[Row], zones: list[Zone]) -> tuple[list[Row], list[Zone]]:
    """Lengthen each zone until its name fits beside it."""
    out, done, shift = list(rows), [], 0
    for zone in zones:
        here = replace(zone, first=zone.first + shift, end=zone.end + shift)
        missing = here.label.width + _BAND_AIR - _extent(out, here)
        if missing > 0:
            out.insert(here.end, Row(rank=None, height=_even(missing)))
            here, shift = replace(here, end=here.end + 1), shift + 1
        done.append(here)
    return out, done


def _extent(rows: Sequence[Row], zone: Zone) -> float:
    heights = [row.height for row in rows[zone.first : zone.end]]
    whole = sum(heights) + RANK_GAP * (len(heights) - 1)
    return whole - heights[0] / 2 if zone.on_line else whole
