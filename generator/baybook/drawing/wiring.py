"""The wiring drawing: a told view in, one SVG a sheet out."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from math import ceil
from typing import Any

from baybook.drawing.forms import FORMS, HALVES, Form
from baybook.drawing.layout import RANK_GAP, Layout, Placed
from baybook.drawing.phrase import plain
from baybook.drawing.rails import CONTINUED
from baybook.drawing.render import Drawing, render
from baybook.drawing.rows import ZONES_BEFORE, DrawingError, Table, measure
from baybook.drawing.scene import Scene, arrange

Rank = Mapping[str, Any]
_MOST_SHEETS = 6
_STRETCHES = (0.0, 0.5, 1.0)  # of the length that a long run wants


def draw_wiring(
    view: Mapping[str, Any], form: str, layout: Layout, *, prefix: str, words: Mapping[str, str]
) -> tuple[Drawing, ...]:
    """Return the drawing in one form: one sheet, or more if a print has no room.

    view    told WiringView
    form    "wide" (530 pt), "slim" (a phone, 246 pt = 328 px) or "print" (185 mm column)
    layout  the engine that places the boxes
    prefix  begins every id in the SVG; must differ between drawings of one page
    words   the sentences `drawing.*` of the catalogue

    Raises MissingGlyph, UnknownMark, DrawingError, LayoutError.
    """
    return draw_forms(view, (form,), layout, prefix=prefix, words=words)[form]


def draw_forms(
    view: Mapping[str, Any], forms: Sequence[str], layout: Layout, *, prefix: str,
    words: Mapping[str, str],
) -> dict[str, tuple[Drawing, ...]]:  # fmt: skip
    """Return the drawing in several forms, with one call of the layout engine for all.

    Arguments and errors as `draw_wiring`.
    """
    tables = {form: sheets(view["ranks"], form, words) for form in forms}
    flat = [table for form in forms for table in tables[form]]
    placed = iter(layout.place([table.grid for table in flat]))
    told = _Told(view["title"]["text"], tuple(line["text"] for line in view["connections"]))
    return {
        form: tuple(
            _drawing(table, next(placed), told, f"{prefix}-{form}-{number}")
            for number, table in enumerate(tables[form], start=1)
        )
        for form in forms
    }


def scenes(
    view: Mapping[str, Any], form: str, layout: Layout, words: Mapping[str, str]
) -> tuple[Scene, ...]:
    """Return what `draw_wiring` would print, as primitives."""
    tables = sheets(view["ranks"], form, words)
    placed = layout.place([table.grid for table in tables])
    return tuple(arrange(table, here) for table, here in zip(tables, placed, strict=True))


@dataclass(frozen=True, slots=True)
class _Told:
    title: str
    lines: tuple[str, ...]


def _drawing(table: Table, placed: Placed, told: _Told, prefix: str) -> Drawing:
    scene = arrange(table, placed)
    return render(
        "wiring.svg.j2", scene, title=told.title, lines=told.lines, prefix=prefix,
        colours=table.form.colours,
    )  # fmt: skip


# --------------------------------------------------------------------------- sheets


def sheets(ranks: Sequence[Rank], form: str, words: Mapping[str, str]) -> tuple[Table, ...]:
    """Return the measured sheets of a form: the fewest, then the largest words that fit."""
    if not ranks:
        raise DrawingError("a wiring drawing without a rank")
    for count in range(1, _MOST_SHEETS + 1):
        for choice in FORMS[form]:
            if tables := _fitting(ranks, count, choice, words):
                return tables
        if count == 1 and form == "print":
            for choice in HALVES:
                if tables := _fitting(ranks, 2, choice, _beside(words)):
                    return tables
    raise DrawingError(f"the wiring drawing does not fit {_MOST_SHEETS} sheets of its form {form}")


def _beside(words: Mapping[str, str]) -> dict[str, str]:
    """Return the words of a drawing that goes on beside itself, not on another sheet."""
    return {name: words[f"{name}.beside"] for name in ("drawing.continues", "drawing.continued")}


def _fitting(
    ranks: Sequence[Rank], count: int, form: Form, words: Mapping[str, str]
) -> tuple[Table, ...]:
    """Return the sheets with as much of the runs' length as they have room for; () if none."""
    fitting: tuple[Table, ...] = ()
    for stretch in _STRETCHES if form.tallest is not None else _STRETCHES[-1:]:
        tables = _parted(ranks, count, replace(form, stretch=stretch), words)
        if not tables or not all(_fits(table) for table in tables):
            break
        fitting = tables
    return fitting


def _fits(table: Table) -> bool:
    return table.form.tallest is None or table.height <= table.form.tallest


def _parted(
    ranks: Sequence[Rank], count: int, form: Form, words: Mapping[str, str]
) -> tuple[Table, ...]:
    """Part the ranks into sheets of about the same height; () if that cannot be done."""
    if count == 1:
        return (measure(ranks, form),)
    if len(ranks) < 2 * count:
        return ()
    ends = _ends(ranks, count, form)
    starts = [0, *ends[:-1]]
    return tuple(
        measure(_sheet(ranks, start, end, words), form)
        for start, end in zip(starts, ends, strict=True)
    )


def _ends(ranks: Sequence[Rank], count: int, form: Form) -> list[int]:
    heights: list[float] = []
    for row in measure(ranks, form).rows:
        if row.rank is not None:
            heights.append(0.0)
        heights[-1] += row.height + RANK_GAP
    share = ceil(sum(heights) / count)
    ends: list[int] = []
    done = 0.0
    for number, height in enumerate(heights):
        if done + height / 2 > share * (len(ends) + 1) and len(ends) < count - 1:
            ends.append(number)
        done += height
    return [*ends, len(ranks)]


def _sheet(ranks: Sequence[Rank], start: int, end: int, words: Mapping[str, str]) -> list[Rank]:
    """Return one sheet's ranks, with a word where a run comes from or goes on to another."""
    sheet = list(ranks[start:end])
    if start:
        sheet.insert(0, _cut(ranks, start, words["drawing.continued"]) | {CONTINUED: True})
    if end < len(ranks):
        sheet.append(_cut(ranks, end, words["drawing.continues"]) | {"zone_starts": None})
    return sheet


def _cut(ranks: Sequence[Rank], at: int, sentence: str) -> dict[str, Any]:
    above = ranks[at - 1]
    begun = [rank["zone_starts"] for rank in ranks[:at] if rank["zone_starts"]]
    word = {"mark": "none", "letters": [], "head": None, "lines": [plain(sentence)]}
    return {
        "kind": "pair", "at": None, "zone": above["zone"], "zone_line": False,
        "zone_starts": begun[-1] if begun else None,
        "positive": word, "negative": word, "positive_run": above["positive_run"],
        "negative_run": above["negative_run"], "length_m": 0.0,
        ZONES_BEFORE: max(0, len(begun) - 1),
    }  # fmt: skip
