"""What a US reader is told besides, on paper: his units and gauges."""

import re
from functools import cache

import pytest

from baybook.book import ToldBook, ToldEntry
from baybook.drawing.entries import draw_entries
from baybook.plain import plain
from baybook.publish.prints import render_prints
from baybook.publish.verify_prints import verify_prints
from baybook.wording.tell import tell
from compose.jobs import GUIDES, guide
from prints import sample
from prints.whole import flows, squeezed, words_of


@cache
def american(name):
    """Return the book of a guide as a US shop prints it, and its print with the drawings."""
    words, texts = words_of("en")
    told = tell(guide(name), words, texts=texts, us=True) | {"figures": [], "charts": []}
    content = {"guide": told, "state": "released", "revision": plain(sample.REVISION)}
    entry = ToldEntry(fit=name, kind="guide", language="en", content=content | {"earlier": []})
    book = ToldBook(language="en", shop=sample.SHOP, words=words.words(), entries=(entry,))
    return book, render_prints(book, draw_entries(book), papers=("letter",))


@pytest.mark.parametrize("name", GUIDES)
def test_a_us_guide_loses_nothing_in_print(name):
    assert verify_prints(*american(name)) == ()


# The place where a route begins is zero in any unit.
METRIC = re.compile(
    r"(?<![\d.])(?!0\N{NO-BREAK SPACE})[\d.]+\N{NO-BREAK SPACE}(?:mm?|K|kg|°C)(?![²\w])(?! \()"
)
PARTS = ("kit", "cuts", "torques", "cascade", "wiring", "route", "plan", "readings")


def unconverted(node):
    """Yield what stands in a metric unit alone: a figure, or a figure in a sentence."""
    if isinstance(node, dict) and "converted" in node:
        yield from METRIC.findall("" if node["converted"] else node["text"])
    elif isinstance(node, dict) and "runs" in node:
        yield from METRIC.findall(node["text"])
    elif isinstance(node, dict):
        yield from (one for value in node.values() for one in unconverted(value))
    elif isinstance(node, list):
        yield from (one for value in node for one in unconverted(value))


@pytest.mark.parametrize("name", GUIDES)
def test_what_a_us_reader_measures_and_buys_is_told_in_his_units_too(name):
    told = american(name)[0].entries[0].content["guide"]
    assert [one for part in PARTS for one in unconverted(told[part])] == []
    assert [one for line in told["substitutes"] for one in unconverted(line["changes"])] == []


def told_texts(node):
    if isinstance(node, dict) and "runs" in node:
        yield node["text"]
    elif isinstance(node, dict | list):
        for one in node.values() if isinstance(node, dict) else node:
            yield from told_texts(one)


@pytest.mark.parametrize("name", GUIDES)
def test_a_us_reader_s_drawing_gives_each_torque_in_his_unit_too(name):
    told = american(name)[0].entries[0].content["guide"]
    texts = [text for text in told_texts(told["wiring"]) if "N·m" in text]
    assert len(texts) >= 6
    converted = re.compile(r"N·m \([\d.]+\N{NO-BREAK SPACE}lbf·(?:ft|in)\)")
    assert [text for text in texts if not converted.search(text)] == []
    for torque in (row["torque"] for row in told["torques"] if row["torque"]):
        assert f"{torque['text']} ({torque['converted']})" in " ".join(texts)


@pytest.mark.parametrize("name", GUIDES)
def test_a_us_reader_finds_his_gauge_at_each_size_that_was_weighed(name):
    told = american(name)[0].entries[0].content["guide"]
    gauges = {row["area"]["text"]: row["area"]["converted"] for row in told["sizes"]}
    assert len(gauges) >= 4
    assert all(re.fullmatch(r"AWG \d+(/0)?", gauge) for gauge in gauges.values())
    for line in told["substitutes"]:
        size = re.search(r"\d+\N{NO-BREAK SPACE}mm²", line["what"]["text"])
        assert size is None or re.search(r"mm² \(AWG ", line["what"]["text"])
    flat = squeezed(" ".join(flows(american(name)[1][name]["letter"])))
    for area, gauge in gauges.items():
        assert squeezed(area + gauge) in flat
