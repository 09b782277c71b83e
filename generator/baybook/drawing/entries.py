"""All drawings of a book: the views of every guide, in every form that a page or a print shows."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from baybook.book import ToldBook, ToldEntry
from baybook.drawing.chart import draw_chart
from baybook.drawing.layout import Layout
from baybook.drawing.plan import draw_plan
from baybook.drawing.route import draw_route
from baybook.drawing.wiring import draw_forms

# fit → view → SVG text; for paper a tuple of SVG texts, one a sheet
Drawings = dict[str, dict[str, Any]]


def draw_entries(book: ToldBook, *, layout: Layout | None = None) -> Drawings:
    """Return the drawings of every guide in the book, and the charts of every refusal.

    Views: "wiring-wide", "wiring-slim", "route-wide", "route-slim" for the page, each one SVG;
    "wiring" and "route" for paper, each a tuple with one SVG a sheet. Where the route was
    sketched, "plan-wide", "plan-slim" and "plan" likewise. "charts-wide" and "charts-slim" for
    the page of workings, "charts" for paper: a tuple with one SVG a chart.

    Raises MissingGlyph, UnknownMark, DrawingError, LayoutError.
    """
    return {
        entry.fit: draw_entry(entry, book.words, layout or Layout())
        for entry in book.entries
        if entry.kind in {"guide", "refusal"}
    }


def draw_entry(entry: ToldEntry, words: Mapping[str, str], layout: Layout) -> dict[str, Any]:
    """Return the drawings of one guide or refusal; see `draw_entries`."""
    told: Any = entry.content[entry.kind]
    drawn = {
        name: tuple(draw_chart(chart, form, prefix=entry.fit).svg for chart in told["charts"])
        for name, form in (("charts-wide", "wide"), ("charts-slim", "slim"), ("charts", "print"))
    }
    return drawn if entry.kind == "refusal" else drawn | _draw_guide(entry, words, layout)


def _draw_guide(entry: ToldEntry, words: Mapping[str, str], layout: Layout) -> dict[str, Any]:
    guide: Any = entry.content["guide"]
    forms = ("wide", "slim", "print")
    wiring = draw_forms(guide["wiring"], forms, layout, prefix=entry.fit, words=words)
    route = {form: draw_route(guide["route"], form, prefix=entry.fit) for form in forms}
    return _plans(guide["plan"], entry.fit, forms) | {
        "wiring-wide": wiring["wide"][0].svg,
        "wiring-slim": wiring["slim"][0].svg,
        "route-wide": route["wide"].svg,
        "route-slim": route["slim"].svg,
        "wiring": tuple(drawing.svg for drawing in wiring["print"]),
        "route": (route["print"].svg,),
    }


def _plans(view: Any, prefix: str, forms: Sequence[str]) -> dict[str, Any]:  # noqa: ANN401
    if view is None:
        return {}
    plans = {form: draw_plan(view, form, prefix=prefix).svg for form in forms}
    return {"plan-wide": plans["wide"], "plan-slim": plans["slim"], "plan": (plans["print"],)}
