"""All drawings of a book."""

from baybook.book import ToldBook, ToldEntry
from baybook.drawing import draw_entries
from drawing import told
from drawing.charts import axis, chart, curve


def entry(fit, kind="guide"):
    view = chart(axis(0.0, 1.0), axis(0.0, 1.0), curve((0.0, 0.0), (1.0, 1.0)))
    parts = {"wiring": told.long_run(), "route": told.route(), "plan": None, "charts": [view]}
    content = {kind: parts}
    return ToldEntry(fit=fit, kind=kind, language="en", content=content)


def test_every_guide_gets_every_view_and_nothing_else_does():
    entries = (entry("a/j1"), entry("a/j2", kind="refusal"), entry("b/j1"))
    book = ToldBook(language="en", shop={}, words=told.WORDS, entries=entries)
    drawings = draw_entries(book)
    assert list(drawings) == ["a/j1", "a/j2", "b/j1"]
    charts = {"charts-wide": False, "charts-slim": False, "charts": False}
    refused = drawings.pop("a/j2")
    assert {name: isinstance(svg, str) for name, svg in refused.items()} == charts
    for views in drawings.values():
        assert {name: isinstance(svg, str) for name, svg in views.items()} == {
            "wiring-wide": True,
            "wiring-slim": True,
            "route-wide": True,
            "route-slim": True,
            "wiring": False,
            "route": False,
            **charts,
        }
        assert len(views["wiring"]) == 2
        assert len(views["route"]) == 1
