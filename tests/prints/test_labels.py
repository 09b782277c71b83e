"""Sheets of labels: every label in its own box, whole, large enough, for every stock."""

import io
import json
import math
import re
from dataclasses import replace
from functools import cache

import pdfplumber
import pikepdf
import pytest
import zxingcpp

from baybook.book import ToldBook, ToldEntry
from baybook.compose import compose
from baybook.plain import plain
from baybook.publish.labels import lines_of, render_labels, verify_labels
from baybook.publish.typeset import PrintError
from baybook.publish.verify_prints import print_text
from baybook.wording.tell import tell
from compose.jobs import GUIDES, check, english, guide
from prints import sample
from prints.paper import raster
from workbooks import example, example_fit

CAMPER = "tavlow-camber/j8"  # a second battery: most cables, most labels
STOCKS = {stock.id: stock for stock in example().shop.label_stock}
MM = 72 / 25.4
EDGE = 2.4  # mm: a printer draws a sheet in by so much askew (common practice)
UNPRINTED = 4.9  # mm: what many printers leave white at the edge of the paper (common practice)


@cache
def composed(name):
    return guide(name) if name in GUIDES else compose(check(example_fit(name)))


def book(content, state="released", stocks=None, name="x/y"):
    told = {"guide": tell(content, english()), "state": state, "earlier": []}
    told["revision"] = plain(sample.REVISION)
    shop = example().shop
    shop = shop.model_copy(update={"label_stock": tuple((stocks or STOCKS).values())})
    entry = ToldEntry(fit=name, kind="guide", language="en", content=told)
    words = sample.book().words
    return ToldBook(language="en", shop=tell(shop, english()), words=words, entries=(entry,))


@cache
def made(name):
    told = book(composed(name))
    return told, render_labels(told)["x/y"]


def squeezed(text):
    return re.sub(r"\s+", "", text)


def boxes(stock):
    """Yield the box of each label on a sheet, in points, row after row."""
    for row in range(stock.rows):
        for column in range(stock.columns):
            left = (stock.left.value + column * stock.pitch_across.value) * 1000 * MM
            top = (stock.top.value + row * stock.pitch_down.value) * 1000 * MM
            yield (
                left,
                top,
                left + stock.width.value * 1000 * MM,
                top + stock.height.value * 1000 * MM,
            )


def in_box(char, box, edge=0.0):
    left, top, right, bottom = box
    gap = edge * MM
    return (
        char["x0"] >= left + gap
        and char["x1"] <= right - gap
        and char["top"] >= top + gap
        and char["bottom"] <= bottom - gap
    )


def set_in(pdf, stock):
    """Return the characters of each label; a character that lies in none is an error."""
    found = []
    with pdfplumber.open(io.BytesIO(pdf)) as read:
        for page in read.pages:
            places = list(boxes(stock))
            sheet = [[] for _ in places]
            for char in page.chars:
                (at,) = [n for n, box in enumerate(places) if in_box(char, box)]
                sheet[at].append(char)
            found += sheet
    return found


@pytest.mark.parametrize("stock", STOCKS)
@pytest.mark.parametrize("name", [*GUIDES, CAMPER])
def test_each_label_lies_whole_in_its_own_box(name, stock):
    told, prints = made(name)
    labels = lines_of(told.entries[0])
    found = set_in(prints[stock], STOCKS[stock])
    for lines, chars in zip(labels, found, strict=False):
        text = squeezed("".join(char["text"] for char in chars))
        assert text.startswith("".join(squeezed(line["text"]) for line in lines))
        assert "Demonstrationdata." in text
    assert not any(chars for chars in found[len(labels) :])


@pytest.mark.parametrize("stock", STOCKS)
@pytest.mark.parametrize("name", [*GUIDES, CAMPER])
def test_no_letter_is_small_coloured_or_near_an_edge(name, stock):
    _, prints = made(name)
    for box, chars in zip(
        list(boxes(STOCKS[stock])) * 9, set_in(prints[stock], STOCKS[stock]), strict=False
    ):
        for char in chars:
            if not char["text"].isspace():
                assert char["size"] >= 9 - 0.01
                assert in_box(char, box, EDGE), char["text"]
                assert len(set(char["non_stroking_color"])) == 1  # grey: no colour says anything


@pytest.mark.parametrize("stock", STOCKS)
def test_no_letter_and_no_code_lies_where_a_printer_leaves_the_paper_white(stock):
    _, prints = made(CAMPER)
    looked = 0
    with pdfplumber.open(io.BytesIO(prints[stock])) as read:
        for page in read.pages:
            inside = (UNPRINTED * MM, page.width - UNPRINTED * MM, page.height - UNPRINTED * MM)
            for thing in (*page.chars, *page.rects, *page.images):
                looked += 1
                assert inside[0] <= min(thing["x0"], thing["top"])
                assert thing["x1"] <= inside[1]
                assert thing["bottom"] <= inside[2]
    assert looked > 400


@pytest.mark.parametrize("name", [*GUIDES, CAMPER])
def test_every_end_of_every_cable_has_its_label(name):
    whole = composed(name)
    ends = {(row.tag, letter) for row in whole.cuts for letter in (row.start, row.end)}
    told, prints = made(name)
    assert set(prints) == set(STOCKS)
    assert verify_labels(told, {"x/y": prints}) == ()
    heads = [lines[0]["text"] for lines in lines_of(told.entries[0])]
    assert [head for head in heads if re.match(r"W\d+ at ", head)] == [
        f"{row.tag} at {letter}" for row in whole.cuts for letter in (row.start, row.end)
    ]
    assert len(ends) == 2 * len(whole.cuts)
    for head in ("F1", "To switch off", "Added feed"):
        assert any(line.startswith(head) for line in heads), head


def test_a_fuse_its_maximum_and_the_way_off_are_labelled():
    heads = [lines[0]["text"] for lines in lines_of(made(GUIDES[2])[0].entries[0])]
    assert {"F1 70 A", "Input 100 V at most", "To switch off"} <= {
        head.replace("\N{NO-BREAK SPACE}", " ") for head in heads
    }


@pytest.mark.parametrize("stock", STOCKS)
def test_the_code_is_read_off_the_label(stock):
    told, prints = made(GUIDES[0])
    each = STOCKS[stock].rows * STOCKS[stock].columns
    last = math.ceil(len(lines_of(told.entries[0])) / each) - 1
    (code,) = zxingcpp.read_barcodes(raster(prints[stock], last, scale=4))
    assert code.text == "https://guides.example.invalid/guides/x/y/?r=3"


@pytest.mark.parametrize("stock", STOCKS)
def test_the_sheet_is_of_its_paper_tagged_titled_and_of_a_language(stock):
    pdf = made(GUIDES[0])[1][stock]
    paper = {"a4": (210, 297), "letter": (215.9, 279.4)}[STOCKS[stock].paper]
    with pikepdf.open(io.BytesIO(pdf)) as read:
        assert bool(read.Root.MarkInfo.Marked)
        assert str(read.Root.Lang) == "en"
        with read.open_metadata() as metadata:
            assert metadata["pdfuaid:part"] == "1"  # ISO 14289-1
            assert STOCKS[stock].name in metadata["dc:title"]
        for page in read.pages:
            size = [float(page.mediabox[at]) / MM for at in (2, 3)]
            assert size == pytest.approx(paper, abs=0.2)


def test_a_draft_has_no_labels():
    told = book(composed(GUIDES[0]), state="draft")
    assert render_labels(told) == {}
    assert verify_labels(told, {}) == ()


def test_a_label_that_is_lost_is_named():
    told, prints = made(GUIDES[0])
    whole = composed(GUIDES[0])
    more = book(replace(whole, labels=(*whole.labels, whole.undo[:1])))
    lost = verify_labels(more, {"x/y": prints})
    assert [line.split(": ")[0] for line in lost] == [f"x/y, labels {stock}" for stock in STOCKS]
    assert verify_labels(told, {}) == tuple(f"x/y, labels {stock}: no print" for stock in STOCKS)


UGLY = "Donaudampfschifffahrtselektrizitätenhauptbetriebswerk"


def first_line(told, words):
    told.entries[0].content["guide"]["labels"][0][0] = {
        "text": words,
        "runs": [{"kind": "text", "text": words}],
    }
    return told


def test_a_long_german_word_is_parted_and_not_lost():
    long = "Aufbauherstellerstecker"
    told = book(composed("brunsall-tansy/j1"))
    (entry,) = told.entries
    content = json.loads(json.dumps(entry.content))
    line = content["guide"]["labels"][0][1]
    line.update(
        text=f"Anderes Ende: {long}", runs=[{"kind": "text", "text": f"Anderes Ende: {long}"}]
    )
    told = replace(told, language="de", entries=(replace(entry, language="de", content=content),))
    labels = render_labels(told)
    assert any(long not in print_text(pdf) for pdf in labels["x/y"].values())
    assert verify_labels(told, labels) == ()


def test_a_long_name_becomes_smaller_and_stays_whole():
    told = first_line(book(composed(GUIDES[0])), f"{UGLY} DC-DC 4x4 {UGLY}")
    prints = render_labels(told)["x/y"]
    for name, stock in STOCKS.items():
        texts = [
            squeezed("".join(c["text"] for c in chars)) for chars in set_in(prints[name], stock)
        ]
        assert sum(f"{UGLY}DC-DC4x4{UGLY}" in text for text in texts) == 1


def test_a_label_without_room_is_refused_and_named():
    told = first_line(book(composed(GUIDES[0])), "Too long a text " * 40)
    with pytest.raises(PrintError, match=r"x/y on a4: .*no room on Osmick A4, 14 labels"):
        render_labels(told)
