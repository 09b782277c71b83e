"""Whole guides and ugly ones on paper: a warning on the sheet of its hazard, nothing parted."""

import io
import re
from functools import cache

import pdfplumber
import pikepdf
import pypdfium2
import pytest

from baybook.book import ToldBook, ToldEntry
from baybook.drawing.entries import draw_entries
from baybook.intake.texts import read_texts
from baybook.plain import plain
from baybook.publish.prints import render_prints
from baybook.publish.verify_prints import verify_prints
from baybook.shipped import shipped
from baybook.wording.catalogue import load_catalogue
from baybook.wording.tell import tell
from compose.jobs import GUIDES, guide
from prints import sample
from prints.paper import PAPERS, edited, printed
from workbooks import EXAMPLE, example

MM = 72 / 25.4
ALL = (
    *(*GUIDES, "brunsall-tansy/j2", "dunstrel-cobble-tow-pack/j9", "pellmare-mirren/j5"),
    *("tavlow-camber/j8", "tessick-orlet/j7"),
)
LONG = "Batterieladezustandsüberwachungssteuergerätehalterung"


@cache
def words_of(language):
    """Return the catalogue of a language, and the example's own texts in it."""
    texts, faults = read_texts(EXAMPLE, example())
    assert not faults
    return load_catalogue(shipped("templates"), language), texts.get(language, {})


@cache
def whole(name, paper, language="en"):
    """Return the told guide and its print, the drawings and the workings left out."""
    words, texts = words_of(language)
    told = tell(guide(name), words, texts=texts) | {"figures": [], "charts": []}
    content = {"guide": told, "state": "released", "revision": plain(sample.REVISION)}
    entry = ToldEntry(fit=name, kind="guide", language=language, content=content | {"earlier": []})
    book = ToldBook(language=language, shop=sample.SHOP, words=words.words(), entries=(entry,))
    pdf = render_prints(book, {}, papers=(paper,))[name][paper]
    return told, pdf


def squeezed(text):
    return re.sub(r"\s+", "", text)


@cache
def flows(pdf):
    """Return the text of each sheet as it was set, without spaces."""
    with pypdfium2.PdfDocument(pdf) as read:
        texts = [page.get_textpage().get_text_bounded() for page in read]
    # A hyphen at the end of a line is read as a sign of its own.
    return [squeezed(text.replace("\x02", "-")) for text in texts]


def unparted(text):
    """Leave out hyphens: German words are parted in the narrow columns."""
    return text.replace("-", "").replace("\N{SOFT HYPHEN}", "")


def sheets_of(name, paper, language):
    """Return the told guide, its sheets as flows, and how a told text is looked for in them."""
    told, pdf = whole(name, paper, language)
    parted = unparted if language == "de" else str
    return told, [parted(text) for text in flows(pdf)], lambda text: parted(squeezed(text))


@pytest.mark.parametrize("language", ["en", "de"])
@pytest.mark.parametrize("paper", PAPERS)
@pytest.mark.parametrize("name", ALL)
def test_a_hazard_is_warned_of_on_the_sheet_of_its_step(name, paper, language):
    told, sheets, flat = sheets_of(name, paper, language)
    looked = 0
    for chapter in told["chapters"]:
        covered = {}
        for step in chapter["steps"]:
            covered |= {hazard: box for box in step["boxes"] for hazard in box["covers"]}
            row = f"{step['number']}{flat(step['action']['text'])}"
            places = [text for text in sheets if row in text]
            for box in (covered[hazard] for hazard in step["hazards"]):
                hazard, avoid = (flat(box[part]["text"]) for part in ("hazard", "avoidance"))
                assert len(places) == 1, row
                above, _, below = places[0].partition(row)
                signal = words_of(language)[0].sentence(f"print.signal.{box['signal']}")
                again = f"{signal}{hazard}.{avoid}"  # in the row itself
                assert (hazard in above and avoid in above) or again in below, row
                looked += 1
    assert looked >= 10


@pytest.mark.parametrize("language", ["en", "de"])
@pytest.mark.parametrize("paper", PAPERS)
@pytest.mark.parametrize("name", ALL)
def test_no_step_of_a_guide_is_parted_and_no_heading_stands_alone(name, paper, language):
    told, sheets, flat = sheets_of(name, paper, language)
    before = flat(words_of(language)[0].sentence("print.true-before"))
    for chapter in told["chapters"]:
        for step in chapter["steps"]:
            row = f"{step['number']}{flat(step['action']['text'])}"
            assert sum(row in text for text in sheets) == 1, row
        first = flat(chapter["steps"][0]["action"]["text"])
        title = flat(chapter["title"]["text"]) + before
        (sheet,) = [text for text in sheets if title in text]
        assert first in sheet[sheet.index(title) :]


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


@pytest.mark.parametrize("lines", range(20, 50, 3))
def test_workings_that_begin_low_on_a_sheet_do_not_run_over_its_foot(lines):
    def low(guide_):
        guide_["assumptions"] = [guide_["cautions"][0]] * lines
        figure = guide_["figures"][0]
        guide_["figures"] = [{**figure, "inputs": figure["inputs"] * 20}] * 9

    with pypdfium2.PdfDocument(printed(edited(low), "letter")["letter"]) as read:
        feet = {page.get_textpage().get_text_bounded(0, 0, 612, 16.5 * MM) for page in read}
    assert len(feet) == 1, feet


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
        tools = page.search(f"^{words.sentence('print.tools')}$")
        foot = tools[0]["top"] if tools else page.height - 22 * MM
        middle = page.width / 2
        ends = [
            max(c["bottom"] for c in page.chars if c["top"] < foot and half(c["x0"]))
            for half in (lambda x: x < middle, lambda x: x >= middle)
        ]
    assert abs(ends[0] - ends[1]) < 60 * MM, ends


# ------------------------------------------------------------------ a US reader


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


# ------------------------------------------------------------------ ugly guides


def hostile(guide_):
    """Eighty steps in twenty joints, every word of them long, every other one warned of."""
    chapters = guide_["chapters"]
    pattern = [step for chapter in chapters for step in chapter["steps"]]
    boxes = [box for step in pattern for box in step["boxes"]]
    made = []
    for number in range(1, 81):
        text = (
            f"Act {number} begins. {LONG} {'into the next joint ' * (number % 9)}Act {number} ends."
        )
        action = {"text": text, "runs": [{"kind": "text", "text": text}]}
        above = [boxes[number % len(boxes)]] * (number % 4 == 0) * (1 + number % 3)
        step = dict(pattern[(number * 5) % len(pattern)], number=number, hold=None)
        made.append({**step, "action": action, "boxes": above})
    chapters[0]["steps"], chapters[1]["steps"] = made[:45], made[45:]
    row = guide_["torques"][0]
    guide_["torques"] = [
        {
            **row,
            "letter": "ABCDEFGHJKLMNPQRSTUV"[at],
            "joint": {
                "text": "",
                "runs": [{"kind": "text", "text": f"Row {at} {LONG} {at} ended"}],
            },
        }
        for at in range(20)
    ]
    reading = guide_["readings"][2]
    guide_["readings"] = [
        {
            **reading,
            "id": f"R{at}",
            "what": {
                "text": "",
                "runs": [{"kind": "text", "text": f"Take {at} {LONG} {at} taken"}],
            },
        }
        for at in range(1, 31)
    ]


@cache
def ugly(paper):
    return printed(edited(hostile), paper)[paper]


@pytest.mark.parametrize("paper", PAPERS)
def test_no_row_of_an_ugly_guide_is_parted(paper):
    sheets = flows(ugly(paper))
    rows = [(f"Act{n}begins.", f"Act{n}ends.") for n in range(1, 81)]
    rows += [(f"Row{n}{LONG}", f"{LONG}{n}ended") for n in range(20)]
    rows += [(f"Take{n}{LONG}", f"{LONG}{n}taken") for n in range(1, 31)]
    for begin, end in rows:
        begun = [at for at, text in enumerate(sheets) if begin in text]
        assert len(begun) == 1, begin
        assert begun == [at for at, text in enumerate(sheets) if end in text]


@pytest.mark.parametrize("paper", PAPERS)
def test_a_table_s_head_stands_on_every_sheet_that_it_goes_over(paper):
    for text in flows(ugly(paper)):
        for mark, head in (
            (r"Act\d+begins", "DoneNo.DoValueToolMarkInitials"),
            (rf"Row\d+{LONG}", "AtJointThreadTorqueConductorSource"),
            (rf"Take\d+{LONG}", "IdReadingPointsPredictedLowReadHigh"),
        ):
            if found := re.search(mark, text):
                assert head in text[: found.start()]


@pytest.mark.parametrize("paper", PAPERS)
def test_nothing_of_an_ugly_guide_leaves_its_column(paper):
    left, right = {"a4": (14, 11), "letter": (16.95, 13.95)}[paper]
    with pdfplumber.open(io.BytesIO(ugly(paper))) as read:
        for page in read.pages:
            assert min(char["x0"] for char in page.chars) >= left * MM - 1
            assert max(char["x1"] for char in page.chars) <= page.width - right * MM + 1


# ------------------------------------------------------------------ checked against PDF/UA-1


def nodes(node):
    yield node
    kids = node.get("/K", pikepdf.Array())
    for kid in kids if isinstance(kids, pikepdf.Array) else [kids]:
        if isinstance(kid, pikepdf.Dictionary) and "/S" in kid:
            yield from nodes(kid)


def kind(node):
    return str(node.get("/S", "")).lstrip("/")


def attribute(node, name):
    """Return an attribute of a structure element; they stand in one dictionary or in several."""
    held = node.get("/A", pikepdf.Array())
    for one in held if isinstance(held, pikepdf.Array) else [held]:
        if isinstance(one, pikepdf.Dictionary) and name in one:
            return str(one[name])
    return ""


@pytest.mark.parametrize("paper", PAPERS)
def test_every_head_cell_says_what_it_heads(paper):
    """ISO 14289-1, 7.5: a table's heads have a scope, or its cells name their heads."""
    with pikepdf.open(io.BytesIO(whole(GUIDES[0], paper)[1])) as pdf:
        tree = list(nodes(pdf.Root.StructTreeRoot))
        heads = [node for node in tree if kind(node) == "TH"]
        assert len(heads) > 40
        assert {attribute(node, "/Scope") for node in heads} == {"/Column"}
        for table in (node for node in tree if kind(node) == "Table"):
            inside = {kind(node) for node in nodes(table)}
            assert {"TR", "TH", "TD"} <= inside


@pytest.mark.parametrize("language", ["en", "de"])
@pytest.mark.parametrize("name", GUIDES)
def test_everything_on_a_sheet_is_tagged_or_an_artifact(name, language):
    """ISO 14289-1, 7.1: text that is neither would be read out of place, or not at all."""
    pdf = whole(name, "a4", language)[1]
    with pikepdf.open(io.BytesIO(pdf)) as read:
        for page in read.pages:
            depth = 0
            for operands, operator in pikepdf.parse_content_stream(page):
                if str(operator) in {"BDC", "BMC"}:
                    depth += 1
                elif str(operator) == "EMC":
                    depth -= 1
                elif str(operator) in {"Tj", "TJ"}:
                    assert depth > 0, operands
            assert str(page.get("/Tabs", "/S")) == "/S"
