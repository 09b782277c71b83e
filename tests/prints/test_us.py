"""What a US reader is told besides, on paper: his units and gauges."""

import re
from functools import cache

import pytest

from baybook.book import ToldBook, ToldEntry
from baybook.drawing.chart import chart_scene
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
PARTS = (
    *("kit", "cuts", "torques", "cascade", "wiring", "route", "plan", "readings", "sizes"),
    *("findings", "reasons", "facts", "envelope", "assumptions"),
)


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


AREA = re.compile(r"[\d.]+\N{NO-BREAK SPACE}mm²(?! \(AWG )(?:.{20})?")


@pytest.mark.parametrize("name", GUIDES)
def test_a_us_reader_finds_a_gauge_beside_each_size_that_he_looks_for(name):
    """On a line with a gauge of its own, and in the end of such a cable, it is not said again."""
    told = american(name)[0].entries[0].content["guide"]
    said = [
        *(line["part"]["text"] for line in told["kit"]),
        *(line["result"]["text"] for line in (*told["sizes"], *told["substitutes"])),
        *(step["action"]["text"] for chapter in told["chapters"] for step in chapter["steps"]),
        *(
            step["value_note"]["text"]
            for chapter in told["chapters"]
            for step in chapter["steps"]
            if step["value_note"]
        ),
        *(
            line["text"]
            for finding in told["findings"]
            for line in (finding["title"], finding["why"])
        ),
    ]
    assert [text for text in said if AREA.search(text)] == []
    sizes = [line["result"]["text"] for line in told["sizes"]]
    assert any("takes" in text and "(AWG " in text for text in sizes)


@pytest.mark.parametrize("name", GUIDES)
def test_a_us_reader_s_charts_measure_along_the_run_in_feet_too(name):
    words, texts = words_of("en")
    charts = {chart["id"]: chart for chart in tell(guide(name).charts, words, texts=texts, us=True)}
    ticks = charts["voltage"]["x"]["ticks"]
    assert all(
        re.fullmatch(r"[\d.]+\N{NO-BREAK SPACE}(ft|in)", one["converted"]) for one in ticks[1:]
    )
    labels = [curve["label"]["text"] for curve in charts["opening-F1"]["curves"]]
    assert any(re.search(r"mm² \(AWG \d+\) cable", label) for label in labels)
    assert [text for text in told_texts(charts) if AREA.search(text)] == []
    texts_drawn = [text.line.text for text in chart_scene(charts["voltage"], "print").texts]
    assert sum(text in texts_drawn for text in (one["converted"] for one in ticks[1:])) >= 2


@pytest.mark.parametrize("name", GUIDES)
def test_a_us_reader_s_limits_on_paper_are_in_his_units_too(name):
    """In a hold, in the readings and in the cut list, not only in the told guide."""
    told = american(name)[0].entries[0].content["guide"]
    flat = squeezed(" ".join(flows(american(name)[1][name]["letter"])))
    holds = [
        step["hold"] for chapter in told["chapters"] for step in chapter["steps"] if step["hold"]
    ]
    limits = [
        *(field[end] for hold in holds for field in hold["fields"] for end in ("low", "high")),
        *(cut["strip"] for cut in told["cuts"]),
    ]
    looked = [one for one in limits if one and one["converted"]]
    assert len(looked) >= 2
    for one in looked:
        assert squeezed(f"{one['text']} ({one['converted']})") in flat
    rises = [row["high"] for row in told["readings"] if row["high"] and row["high"]["converted"]]
    assert rises
    for one in rises:
        assert squeezed(one["text"] + one["converted"]) in flat


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
