"""Told charts for the tests: those of the example, and random ones."""

from __future__ import annotations

from datetime import date
from functools import cache

from hypothesis import strategies as st

from baybook.decide import decide
from baybook.design import CheckedDesign
from baybook.shipped import shipped
from baybook.wording.catalogue import load_catalogue
from baybook.wording.tell import tell
from drawing.told import message
from drawing.views import TEXT
from workbooks import example


@cache
def example_charts():
    """Return every chart of every fit of the example, told, by `fit/chart`."""
    words = load_catalogue(shipped("templates"), "en")
    found = {}
    for fit in example().fits:
        result = decide(fit, date(2024, 12, 2)).result
        owner = result.design if isinstance(result, CheckedDesign) else result
        for chart in owner.charts:
            found[f"{fit.id}/{chart.id}"] = tell(chart, words)
    return found


def axis(low, high, ticks=(), log=False, title="Axis in V", *, other=""):
    told = [
        {
            "figure": f"{value:g}",
            "value": value,
            "converted": other and f"{value * 3.3:.1f} {other}",
        }
        for value in ticks
    ]
    return {"title": message(title), "low": low, "high": high, "log": log, "ticks": told}


def curve(*points, style="main", label="a curve"):
    return {"label": message(label), "style": style, "points": [list(point) for point in points]}


def place(at, style="bound", label="a place", dots=()):
    return {"label": message(label), "at": at, "style": style, "dots": list(dots)}


def chart(x, y, *curves, places=(), bands=()):
    return {
        "id": "sample", "title": message("A chart"), "x": x, "y": y, "curves": list(curves),
        "places": list(places), "bands": list(bands), "lines": [message("The same in words.")],
    }  # fmt: skip


@st.composite
def _axes(draw):
    log = draw(st.booleans())
    low = draw(st.sampled_from([0.001, 0.3, 10.0, 1234.5]))
    high = low * draw(st.sampled_from([1.01, 3.0, 10000.0]))
    shares = draw(st.lists(st.floats(0.0, 1.0), max_size=30))
    ticks = sorted({round(low + share * (high - low), 3) for share in shares})
    other = draw(st.sampled_from(["", "ft"]))
    return axis(low, high, [t for t in ticks if low <= t <= high], log, draw(TEXT), other=other)


@st.composite
def chart_views(draw):
    """Draw a chart with up to nine places and eight curves, anywhere, with words of any length."""
    x, y = draw(_axes()), draw(_axes())

    def on(axis):
        share = st.floats(0.0, 1.0)
        return share.map(lambda part: axis["low"] + part * (axis["high"] - axis["low"]))

    def item(make, kinds, value):
        return st.builds(
            lambda at, style, label: make(at, style=style, label=label),
            value, st.sampled_from(kinds), TEXT,
        )  # fmt: skip

    places = draw(
        st.lists(item(place, ["chosen", "bound", "joint", "zone", "beyond"], on(x)), max_size=9)
    )
    point = st.tuples(on(x), on(y))
    curves = draw(
        st.lists(item(curve, ["main", "second", "limit", "bound"], point), min_size=1, max_size=8)
    )
    bands = [
        {"low": x["low"], "high": draw(on(x)), "style": draw(st.sampled_from(["zone", "outside"]))}
    ]
    return chart(x, y, *curves, places=places, bands=bands)
