"""Whole guides and ugly ones on paper: a warning on the sheet of its hazard, nothing parted."""

import io
import re
from functools import cache
from itertools import combinations

import pdfplumber
import pikepdf
import pypdfium2
import pytest

from compose.jobs import GUIDES
from prints.paper import PAPERS, edited, printed
from prints.whole import ALL, MM, flows, sheets_of, squeezed, whole, words_of

VALUE_AT = (14 + 185 - 10 - 13.5 - 31 - 27 + 0.9) * MM  # where the value of a step begins on A4
LONG = "Batterieladezustandsüberwachungssteuergerätehalterung"


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
def test_the_settings_weighed_stand_on_one_sheet(name, paper, language):
    told, sheets, _ = sheets_of(name, paper, language)
    words = words_of(language)[0]
    head = "".join(words.sentence(f"print.settings.{id_}") for id_ in ("setting", "power"))
    assert sum(re.sub(r"\s", "", head) in text for text in sheets) == bool(told["settings"])


@pytest.mark.parametrize("language", ["en", "de"])
@pytest.mark.parametrize("paper", PAPERS)
@pytest.mark.parametrize("name", ["dunstrel-cobble/j9b", "dunstrel-cobble-tow-pack/j9"])
def test_who_signs_behind_every_screw_signs_in_one_row(name, paper, language):
    words = words_of(language)[0]
    labels = [words.sentence(id_) for id_ in ("print.initials", "print.second-person")]
    title = words.sentence("hold.behind-screws")
    with pdfplumber.open(io.BytesIO(whole(name, paper, language)[1])) as read:
        (page, hit) = next(
            (p, hit) for p in read.pages for hit in p.search(title) if len(p.search(labels[1]))
        )
        tops = [
            min(one["top"] for one in page.search(label) if one["top"] > hit["top"])
            for label in labels
        ]
    assert tops[0] == pytest.approx(tops[1], abs=0.5)


@pytest.mark.parametrize("language", ["en", "de"])
@pytest.mark.parametrize("name", GUIDES)
def test_the_limits_of_a_hold_s_only_box_stand_in_one_line(name, language):
    told, pdf = whole(name, "a4", language)
    (hold,) = [row["hold"] for row in told["readings"] if row["hold"]]
    (field,) = hold["fields"]
    title = squeezed(hold["title"]["text"])
    at = [n for n, text in enumerate(flows(pdf)) if title in text]
    with pdfplumber.open(io.BytesIO(pdf)) as read:
        lines = [line["text"] for n in at for line in read.pages[n].extract_text_lines()]
    label = f"{field['label']['text']}: "
    (said,) = [line for line in lines if label in line and field["low"]["figure"] in line]
    assert field["high"]["figure"] in said.partition(label)[2]


@pytest.mark.parametrize("language", ["en", "de"])
@pytest.mark.parametrize("name", GUIDES)
def test_an_action_is_not_read_on_into_its_value(name, language):
    """Between the last letter of a line and the figure beside it there are 2 mm."""
    looked = 0
    with pdfplumber.open(io.BytesIO(whole(name, "a4", language)[1])) as read:
        for page in read.pages:
            seen = [char for char in page.chars if not char["text"].isspace()]
            actions = [char for char in seen if round(char["size"]) == 12]
            figures = [char for char in seen if round(char["size"]) == 14]
            for figure in figures:
                if abs(figure["x0"] - VALUE_AT) > 1 * MM:
                    continue
                looked += 1
                beside = [
                    char["x1"]
                    for char in actions
                    if char["x0"] < VALUE_AT and abs(char["bottom"] - figure["bottom"]) < 2 * MM
                ]
                assert figure["x0"] - max(beside, default=0) > 2 * MM
    assert looked > 20


# ------------------------------------------------------------------ ugly guides


@pytest.mark.parametrize("language", ["en", "de"])
@pytest.mark.parametrize("name", ALL)
def test_no_tool_runs_into_the_one_below(name, language):
    """Tools alone stand in 10 pt on the first sheets; a line needs nearly its size."""
    looked = 0
    with pdfplumber.open(io.BytesIO(whole(name, "a4", language)[1])) as read:
        for page in read.pages[:3]:
            words = [w for w in page.extract_words(extra_attrs=["size"]) if round(w["size"]) == 10]
            for one, other in combinations(words, 2):
                apart = abs(one["bottom"] - other["bottom"])
                beside = one["x0"] >= other["x1"] or other["x0"] >= one["x1"]
                assert beside or apart < 1 or apart > 9.5, (one["text"], other["text"])
                looked += not beside
    assert looked > 20


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
