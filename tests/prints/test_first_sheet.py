"""What the first sheets hold, how their columns end, and how small a letter may be."""

import io
import re

import pdfplumber
import pytest

from prints.paper import PAPERS, edited, printed
from prints.whole import ALL, MM, sheets_of, whole, words_of


@pytest.mark.parametrize("language", ["en", "de"])
@pytest.mark.parametrize("paper", PAPERS)
@pytest.mark.parametrize("name", ALL)
def test_identity_figures_reasons_kit_and_cut_list_begin_on_the_first_sheet(name, paper, language):
    told, sheets, flat = sheets_of(name, paper, language)
    words = words_of(language)[0]
    first = [told["kit"][0]["part"], told["cuts"][0]["area"], told["facts"][0]["label"]]
    for text in (*(one["text"] for one in (*first, *told["reasons"])), told["cuts"][0]["tag"]):
        assert flat(text) in sheets[0]
    for name_ in ("print.kit", "print.cut", "print.this"):
        assert flat(words.sentence(name_)) in sheets[0]
    # What goes over takes its head along.
    rest = flat(words.sentence("print.kit.count") + words.sentence("print.kit.part"))
    last = flat(told["kit"][-1]["part"]["text"])
    assert any(rest in text and last in text for text in sheets[:2])
    head = flat(words.sentence("print.kit.done") + words.sentence("print.step.tool"))
    tool = flat(told["tools"][-1]["text"])
    assert any(text.partition(head)[2].count(tool) for text in sheets[:3])


@pytest.mark.parametrize("language", ["en", "de"])
@pytest.mark.parametrize("paper", PAPERS)
@pytest.mark.parametrize("name", ALL)
def test_both_columns_of_the_bag_s_sheet_end_nearly_level(name, paper, language):
    words = words_of(language)[0]
    with pdfplumber.open(io.BytesIO(whole(name, paper, language)[1])) as read:
        page = next(p for p in read.pages if p.search(words.sentence("print.hurts")))
        heading = words.sentence("print.tools")
        tools = [line["top"] for line in page.extract_text_lines() if line["text"] == heading]
        foot = tools[0] if tools else page.height - 22 * MM
        middle = page.width / 2
        ends = [
            max(c["bottom"] for c in page.chars if c["top"] < foot and half(c["x0"]))
            for half in (lambda x: x < middle, lambda x: x >= middle)
        ]
    assert abs(ends[0] - ends[1]) < 60 * MM, ends


@pytest.mark.parametrize(("parts", "pieces", "left"), [(2, 12, True), (20, 1, False)])
def test_where_you_stop_stands_in_the_column_that_is_the_shorter_one(parts, pieces, left):
    def change(guide):
        guide["kit"] = guide["kit"][:1] * parts
        guide["cuts"] = guide["cuts"][:1] * pieces

    with pdfplumber.open(io.BytesIO(printed(edited(change))["a4"])) as read:
        found = [(page, hit) for page in read.pages for hit in page.search("Where you stop")]
    ((page, hit),) = found
    assert (hit["x0"] < page.width / 2) == left


@pytest.mark.parametrize("language", ["en", "de"])
@pytest.mark.parametrize("name", ALL)
def test_no_letter_that_is_worked_from_is_under_nine_points(name, language):
    workings = words_of(language)[0].sentence("print.workings")
    with pdfplumber.open(io.BytesIO(whole(name, "a4", language)[1])) as read:
        for page in read.pages:
            if re.search(rf"^{workings}\b", page.extract_text(), re.MULTILINE):
                break
            sizes = [char["size"] for char in page.chars if char["text"].strip()]
            assert min(sizes) > 8.99, page.page_number
        assert page.page_number > 10


@pytest.mark.parametrize(
    ("name", "language"), [("tessick-orlet/j7", "en"), ("brunsall-tansy/j2", "de")]
)
def test_a_long_list_of_tools_stays_on_the_bench_sheet(name, language):
    """One row of it on the next sheet pushed the steps behind both drawings."""
    told, sheets, flat = sheets_of(name, "a4", language)
    head = flat(words_of(language)[0].sentence("print.tools"))
    tools = sheets[1].partition(head)[2]
    assert [one["text"] for one in told["tools"] if flat(one["text"]) not in tools] == []
    assert len(told["tools"]) > 30


def test_a_step_s_number_of_three_digits_keeps_clear_of_its_action():
    with pdfplumber.open(io.BytesIO(whole("brunsall-tansy/j1", "a4", "de")[1])) as read:
        gaps = [
            action["x0"] - number["x1"]
            for page in read.pages
            for number in page.extract_words(extra_attrs=["size"])
            if round(number["size"]) == 16 and re.fullmatch(r"1\d\d", number["text"])
            for action in page.extract_words(extra_attrs=["size"])
            if round(action["size"]) == 12
            and action["x0"] > number["x1"]
            and abs(action["bottom"] - number["bottom"]) < 8 * MM
        ]
    assert len(gaps) > 20
    assert min(gaps) > 1.8 * MM
