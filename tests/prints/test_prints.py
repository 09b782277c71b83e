"""The bay sheets, read back by other programs: pikepdf, pdfplumber, pdfium, zxing."""

import io
import re
from itertools import pairwise

import pdfplumber
import pikepdf
import pytest
import zxingcpp

from baybook.publish.typeset import PrintError
from baybook.publish.verify import verify_text
from prints import sample
from prints.paper import FIT, PAPERS, SIZES, edited, pages, printed, raster


@pytest.fixture(scope="module")
def guide():
    return printed(sample.entry(sample.GUIDE), *PAPERS)


@pytest.mark.parametrize("paper", PAPERS)
def test_pdf_is_tagged_and_says_so(guide, paper):
    with pikepdf.open(io.BytesIO(guide[paper])) as pdf:
        assert bool(pdf.Root.MarkInfo.Marked)
        assert "/StructTreeRoot" in pdf.Root
        assert str(pdf.Root.Lang) == "en"
        assert bool(pdf.Root.ViewerPreferences.DisplayDocTitle)
        with pdf.open_metadata() as metadata:
            assert metadata["pdfuaid:part"] == "1"  # ISO 14289-1
            assert "Dunstrel Cobble" in metadata["dc:title"]
            assert "V6/J9b" in metadata["dc:title"]


def test_structure_has_headings_table_heads_and_pictures_with_words(guide):
    with pikepdf.open(io.BytesIO(guide["a4"])) as pdf:
        nodes = list(structure(pdf.Root.StructTreeRoot))
    kinds = [str(node.get("/S")) for node in nodes]
    levels = [int(kind[2]) for kind in kinds if re.fullmatch("/H[1-6]", kind)]
    assert levels[0] == 1
    assert all(deeper <= level + 1 for level, deeper in pairwise(levels))
    assert kinds.count("/TH") > 20
    figures = [node for node in nodes if node.get("/S") == pikepdf.Name.Figure]
    assert figures
    assert all(str(node.get("/Alt", "")) for node in figures)
    assert any("W2 from C to D." in str(node.Alt) for node in figures)


def structure(node):
    yield node
    kids = node.get("/K", pikepdf.Array())
    for kid in kids if isinstance(kids, pikepdf.Array) else [kids]:
        if isinstance(kid, pikepdf.Dictionary) and "/S" in kid:
            yield from structure(kid)


@pytest.mark.parametrize("paper", PAPERS)
def test_every_sheet_has_its_number_and_the_paper_its_size(guide, paper):
    texts = pages(guide[paper])
    for number, text in enumerate(texts, 1):
        assert f"Sheet {number} of {len(texts)}" in text
        assert "Demonstration data." in text
        assert "guide V6/J9b · revision 3 of 2024-11-29" in text
        assert "figures 4f1a9c27d0b3" in text
        assert "before use after 2025-11-29" in text
    with pdfplumber.open(io.BytesIO(guide[paper])) as read:
        for page in read.pages:
            assert (page.width, page.height) == pytest.approx(SIZES[paper], abs=0.5)


@pytest.mark.parametrize("paper", PAPERS)
def test_every_hold_torque_and_reading_is_on_paper(guide, paper):
    text = " ".join(pages(guide[paper]))
    for hold in sample.HOLDS:
        # Once in the list of stops, once as a frame.
        assert text.count(f"HOLD {hold.number} {hold.title.id}") >= 2
        assert text.count(f"Body of hold {hold.number}.") == 1
    for letter, value in sample.TORQUES.values():
        figure = f"{value:g}" if value == 20.0 else str(value)
        assert f"Clamp W2 in {letter} at {value} N·m." in text, figure
    for row in sample.GUIDE.readings:
        assert f"Reading number {row.id[1:]}" in text
        assert re.search(rf"{row.high.value:.1f} V", text)


@pytest.mark.parametrize("paper", PAPERS)
def test_nothing_that_is_worked_from_is_lost(guide, paper):
    told = sample.entry(sample.GUIDE).content["guide"]
    text = " ".join(pages(guide[paper]))
    words = sample.book().words
    assert verify_text(text, told, words) == ()
    assert verify_text(text.replace("4.6", "4.5"), told, words)


@pytest.mark.parametrize("paper", PAPERS)
def test_a_panel_stands_on_the_sheet_of_its_step_and_above_it(guide, paper):
    places = words_at(guide[paper])
    for number, boxes in sample.BOXES.items():
        page, top = places(f"number {number} with") or places(
            f"Clamp W2 in {sample.TORQUES[number][0]}"
        )
        for box in boxes:
            warned, above = places(f"How to avoid {box.symbol}")
            assert warned == page
            assert above < top


@pytest.mark.parametrize("paper", PAPERS)
def test_a_hold_stands_on_the_sheet_of_its_step_and_below_it(guide, paper):
    places = words_at(guide[paper])
    for number, hold in sample.AT_STEP.items():
        if hold.number in {2, 3, 4}:
            page, top = places(f"number {number} with")
            held, below = places(f"Body of hold {hold.number}")
            assert held == page
            assert below > top


def words_at(pdf):
    """Return a function from words that stand in one line to (page, distance from the top)."""
    lines = []
    with pdfplumber.open(io.BytesIO(pdf)) as read:
        for at, page in enumerate(read.pages):
            lines += [
                (re.sub(r"\s+", " ", line["text"]), at, line["top"])
                for line in page.extract_text_lines()
            ]

    def find(text):
        for line, page, top in lines:
            if text in line:
                return page, top
        return None

    return find


def many_steps(guide):
    """Make a guide of eighty steps, some with long texts, panels and holds."""
    chapters = guide["chapters"]
    pattern = [step for chapter in chapters for step in chapter["steps"]]
    long = "Push the thermoplasticsleevingreinforcementassembly through " + "the next hole " * 8
    made = []
    for number in range(1, 81):
        step = dict(pattern[(number * 5) % len(pattern)], number=number, hold=None)
        words = f"Act {number} begins. {long if number % 7 == 0 else 'Short.'} Act {number} ends."
        step["action"] = {"text": words, "runs": [{"kind": "text", "text": words}]}
        made.append(step)
    chapters[0]["steps"] = made[:45]
    chapters[1]["steps"] = made[45:]
    for at, number in ((20, 1), (44, 3)):
        made[at]["hold"] = pattern[{1: 2, 3: 4}[number]]["hold"]


@pytest.mark.parametrize("paper", PAPERS)
def test_no_step_is_parted(paper):
    texts = pages(printed(edited(many_steps), paper)[paper])
    for number in range(1, 81):
        begins = [at for at, text in enumerate(texts) if f"Act {number} begins." in text]
        ends = [at for at, text in enumerate(texts) if f"Act {number} ends." in text]
        assert len(begins) == 1
        assert begins == ends
    headed = [text for text in texts if re.search(r"Act \d+ begins", text)]
    for text in headed:
        # Behind the last warning, and behind a chapter's title, a step stands on the same sheet.
        assert text.rfind("How to avoid") < text.rfind(" begins.")
        assert text.rfind("True before you start") < text.rfind(" begins.")
    assert all("Done No. Do Value Tool Mark Initials" in text for text in headed)


@pytest.mark.parametrize("paper", PAPERS)
def test_nothing_runs_out_of_the_column_or_into_the_foot(paper):
    for pdf in (printed(edited(many_steps), paper)[paper], printed(edited(ugly), paper)[paper]):
        left, right = {"a4": (14, 11), "letter": (16.95, 13.95)}[paper]
        with pdfplumber.open(io.BytesIO(pdf)) as read:
            for page in read.pages:
                assert min(char["x0"] for char in page.chars) >= left / 25.4 * 72 - 1
                assert max(char["x1"] for char in page.chars) <= page.width - right / 25.4 * 72 + 1
                foot = page.search("Paper copy")[0]["top"]
                inside = [char for char in page.chars if char["top"] < foot - 2]
                assert max(char["bottom"] for char in inside) < foot


def ugly(guide):
    """Long names, long compounds, codes without a break."""
    name = "Donaudampfschifffahrtselektrizitätenhauptbetriebswerkbauunterbeamten"
    code = "TW1XXQ99812003441LLKQPPZ77120034A"
    for key in ("vehicle", "variant", "pair"):
        told = guide["identity"][key]
        told["text"] += f" {name} 4x4"
        told["runs"].append({"kind": "text", "text": f" {name} 4x4"})
    for row in (*guide["chapters"][0]["steps"], *guide["chapters"][1]["steps"]):
        row["tool"]["runs"].append({"kind": "text", "text": f" {code}"})
        row["action"]["runs"].append({"kind": "text", "text": f" {name}"})
    for row in guide["kit"]:
        row["part"]["runs"].append({"kind": "text", "text": f" {name} {code}"})
    guide["kit"] = guide["kit"] * 45
    guide["torques"][0]["joint"]["runs"].append({"kind": "text", "text": f" {code}{code}"})
    guide["readings"][0]["if_low"]["runs"].append({"kind": "text", "text": f" {name}" * 4})


@pytest.mark.parametrize("paper", PAPERS)
def test_code_is_read_back_from_the_raster(guide, paper):
    found = zxingcpp.read_barcodes(raster(guide[paper], 0))
    assert [code.text for code in found] == [
        "https://guides.example.invalid/guides/dunstrel-cobble/j9b/?r=3"
    ]
    printed_address = "".join(first_column(guide[paper]).split())
    assert "guides.example.invalid/guides/dunstrel-cobble/j9b/?r=3" in printed_address


def first_column(pdf):
    """Return the words under the code, which stand right of the page's text."""
    with pdfplumber.open(io.BytesIO(pdf)) as read:
        page = read.pages[0]
        return page.crop((page.width * 0.72, 0, page.width, page.height * 0.3)).extract_text()


def test_modules_of_the_code_are_large_enough(guide):
    # ISO/IEC 18004 asks for a quiet zone of 4 modules; 0.4 mm a module is common practice.
    image = raster(guide["a4"], 0, scale=4)
    code = zxingcpp.read_barcodes(image)[0]
    corners = code.position
    millimetres = (corners.top_right.x - corners.top_left.x) / (4 * 72) * 25.4
    assert millimetres / 57 >= 0.4 or millimetres / 33 >= 0.4
    assert 20 < millimetres < 40


def test_bytes_repeat(guide):
    assert printed(sample.entry(sample.GUIDE), *PAPERS) == guide


HOSTILE = (
    "#panic()",
    "*not strong* _it_",
    "$ x^2 $",
    "@label <label>",
    r"\ \u{41} // /* no comment",
    "= no heading",
    "`raw` [content] #{1+1}",
    "- + / ~ --- ... \"quoted\" 'it'",
)


def test_markup_in_a_text_is_printed_as_it_stands():
    def change(guide):
        steps = [step for chapter in guide["chapters"] for step in chapter["steps"]]
        for place, text in zip(steps, HOSTILE, strict=False):
            for told in (place["action"], place["tool"]):
                told["runs"] = [{"kind": "text", "text": text}, {"kind": "strong", "text": text}]
                told["text"] = text + text
        guide["identity"]["vehicle"]["text"] = HOSTILE[0]
        guide["figures"][0]["formula"] = HOSTILE[2]

    joined = " ".join(pages(printed(edited(change))["a4"])).replace(" ", "")
    for text in HOSTILE:
        assert joined.count(text.replace(" ", "")) >= 4
    assert joined.count(HOSTILE[0]) >= 6


@pytest.mark.parametrize("sign", ["θ", "→", "漢", "⌀", "\N{MICRO SIGN}", "\t", "\x07"])
def test_a_missing_glyph_is_refused_and_named(sign):
    def change(guide):
        guide["chapters"][0]["steps"][2]["action"]["runs"][0]["text"] = f"Turn {sign} once."

    with pytest.raises(PrintError) as refused:
        printed(edited(change))
    message = str(refused.value)
    assert message.startswith(f"{FIT}: the shipped font has no {sign!r} (U+{ord(sign):04X})")
    assert "content.guide.chapters.0.steps.2.action.runs.0.text" in message


def test_an_unknown_pictogram_is_refused_with_its_fit():
    def change(guide):
        guide["chapters"][0]["steps"][1]["boxes"][0]["symbol"] = "no-such-symbol"

    with pytest.raises(PrintError, match=rf"(?s){FIT} on a4: .*no-such-symbol"):
        printed(edited(change))
