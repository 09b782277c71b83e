"""All drawings of a book: the views of every guide, in every form that a page or a print shows."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from baybook.book import ToldBook, ToldEntry
from baybook.drawing.chart import draw_chart
from baybook.drawing.layout import Layout
from baybook.drawing.plan import draw_plan
from baybook.drawing.render import Drawing
from baybook.drawing.route import draw_route
from baybook.drawing.syllables import with_syllables
from baybook.drawing.wiring import draw_forms

# fit → view → SVG text; for paper a tuple of SVG texts, one a sheet
Drawings = dict[str, dict[str, Any]]


PAGE, PAPER = ("wide", "slim"), ("print",)  # forms of a drawing


def draw_entries(
    book: ToldBook,
    forms: Sequence[str] = (*PAGE, *PAPER),
    *,
    layout: Layout | None = None,
    charts: bool = True,
) -> Drawings:
    """Return the drawings of every guide in the book, and the charts of every refusal.

    Views: "wiring-wide", "wiring-slim", "route-wide", "route-slim" for the page, each one SVG;
    "wiring" and "route" for paper, each a tuple with one SVG a sheet. Where the route was
    sketched, "plan-wide", "plan-slim" and "plan" likewise. "charts-wide" and "charts-slim" for
    the page of workings, "charts" for paper: a tuple with one SVG a chart.

    forms   PAGE, PAPER or both: what nobody will look at is not drawn
    charts  False: they are left out

    Raises MissingGlyph, UnknownMark, DrawingError, LayoutError.
    """
    return {
        entry.fit: draw_entry(entry, book.words, layout or Layout(), forms, charts=charts)
        for entry in book.entries
        if entry.kind in {"guide", "refusal"}
    }


def draw_entry(
    entry: ToldEntry,
    words: Mapping[str, str],
    layout: Layout,
    forms: Sequence[str],
    *,
    charts: bool = True,
) -> dict[str, Any]:
    """Return the drawings of one guide or refusal; see `draw_entries`."""
    told: Any = entry.content[entry.kind]
    drawn = {
        _view("charts", form): tuple(
            draw_chart(chart, form, prefix=entry.fit).svg for chart in told["charts"]
        )
        for form in (forms if charts else ())
    }
    return drawn if entry.kind == "refusal" else drawn | _draw_guide(entry, words, layout, forms)


def _draw_guide(
    entry: ToldEntry, words: Mapping[str, str], layout: Layout, forms: Sequence[str]
) -> dict[str, Any]:
    guide: Any = entry.content["guide"]
    drawn: dict[str, Any] = {}
    view = with_syllables(guide["wiring"], entry.language)
    wiring = draw_forms(view, forms, layout, prefix=entry.fit, words=words)
    for form in forms:
        sheets = tuple(drawing.svg for drawing in wiring[form])
        drawn[_view("wiring", form)] = sheets if form in PAPER else sheets[0]
        drawn[_view("route", form)] = _one(draw_route(guide["route"], form, prefix=entry.fit), form)
        if guide["plan"] is not None:
            plan = draw_plan(guide["plan"], form, prefix=entry.fit)
            drawn[_view("plan", form)] = _one(plan, form)
    return drawn


def _view(kind: str, form: str) -> str:
    return kind if form in PAPER else f"{kind}-{form}"


def _one(drawing: Drawing, form: str) -> str | tuple[str]:
    return (drawing.svg,) if form in PAPER else drawing.svg
