"""Messages into words: every run, every value kind, and what is refused."""

from datetime import date

import pytest
import yaml
from hypothesis import given
from hypothesis import strategies as st

from baybook.finding import Amount, Listing, Name, Ref, say
from baybook.guide import CutLine
from baybook.quantity import Basis, State
from baybook.shipped import shipped
from baybook.wording import catalogue
from baybook.wording.catalogue import Catalogue, CatalogueError, inline, load_catalogue, parse
from baybook.wording.tell import tell
from compose.jobs import guide
from prints.whole import words_of

SENTENCES = {
    "word.list.between": ", ",
    "word.list.last": " and ",
    "word.hold": "HOLD",
    "clamp": "Clamp {conductor} in {joint} at {torque}.",
    "seen": "Seen: {what}",
    "braces": "A set {{a}} of {x}",
    "marks": {"one": "{count} mark", "other": "{count} marks"},
}
ENGLISH = Catalogue("en", SENTENCES)


def test_values_become_runs_in_order():
    told = tell(
        say(
            "clamp",
            conductor=Ref("conductor", "W2"),
            joint=Ref("joint", "D"),
            torque=Amount(4.5, "N*m", 1, "4.5 N·m"),
        ),
        ENGLISH,
    )
    assert told["text"] == "Clamp W2 in D at 4.5\N{NO-BREAK SPACE}N·m."
    assert [run["kind"] for run in told["runs"]] == [
        "text", "strong", "text", "letter", "text", "figure", "unit", "text",
    ]  # fmt: skip


def test_a_plural_is_chosen_by_count():
    assert tell(say("marks", count=1), ENGLISH)["text"] == "1 mark"
    assert tell(say("marks", count=Amount(6, "1", 0, "6")), ENGLISH)["text"] == "6 marks"


def test_a_listing_is_told_with_commas_and_and():
    told = tell(say("seen", what=Listing((Name("a"), Name("b"), Name("c")))), ENGLISH)
    assert told["text"] == "Seen: a, b and c"


def test_a_person_s_words_are_data_and_keep_only_strong():
    told = tell(Name("<b>x</b> {y} **z** [l](http://h)"), ENGLISH)
    assert told["text"] == "<b>x</b> {y} z [l](http://h)"
    assert {"kind": "strong", "text": "z"} in told["runs"]


def test_braces_are_doubled_to_print_one():
    assert [p.text for p in parse(SENTENCES["braces"])] == ["A set {", "a}", " of ", "x"]


def test_a_day_is_told_in_iso_form():
    assert tell(date(2024, 11, 29), ENGLISH) == "2024-11-29"


@pytest.mark.parametrize(
    ("message", "fault"),
    [
        (say("nothing"), "no sentence `nothing` in the catalogue `en`"),
        (say("clamp"), "`clamp` asks for {conductor}: not in the message"),
        (say("marks"), "`marks` has plural forms and was given no `count`"),
        (Ref("step", "s1"), "no step `s1` to refer to"),
    ],
)
def test_what_cannot_be_told_is_refused(message, fault):
    with pytest.raises(CatalogueError) as caught:
        tell(message, ENGLISH)
    assert str(caught.value) == fault


def test_one_id_in_two_files_is_refused(tmp_path):
    (tmp_path / "en").mkdir()
    for name in ("a.yaml", "b.yaml"):
        (tmp_path / "en" / name).write_text('"x": "y"\n')
    with pytest.raises(CatalogueError, match=r"`x` stands in a\.yaml and in b\.yaml"):
        load_catalogue(tmp_path, "en")


def test_an_id_that_stands_twice_in_a_file_is_refused(tmp_path):
    (tmp_path / "en").mkdir()
    (tmp_path / "en" / "a.yaml").write_text('"x": "one"\n"y": "two"\n"x": "three"\n', "utf-8")
    with pytest.raises(CatalogueError, match=r"`x` stands twice in a\.yaml"):
        load_catalogue(tmp_path, "en")


def test_every_shipped_sentence_parses():
    whole = load_catalogue(shipped("templates"), "en")
    for found in whole.sentences.values():
        for sentence in [found] if isinstance(found, str) else found.values():
            parse(sentence)


def test_shipped_catalogues_quote_every_sentence():
    # An unquoted `no` or `1:30` would reach the reader as something else.
    for file in sorted((shipped("templates") / "en").glob("*.yaml")):
        node = yaml.compose(file.read_text("utf-8"), Loader=yaml.SafeLoader)
        for key, value in node.value if node else []:
            texts = [v for _, v in value.value] if isinstance(value, yaml.MappingNode) else [value]
            for text in texts:
                assert text.style in {'"', "'", "|", ">"}, f"{file.name}: {key.value}"


def test_inline_reads_no_markup_but_strong():
    assert [(p.kind, p.text) for p in inline("# a **b** `c` ![d](e)")] == [
        ("text", "# a "), ("strong", "b"), ("text", " `c` ![d](e)"),
    ]  # fmt: skip


@given(st.text("ab1 *_\\{}\n°", max_size=12))
def test_a_text_without_marks_is_what_the_reader_of_marks_makes_of_it(text):
    children = catalogue._markdown().parseInline(text.replace("\n", " "))[0].children
    assert inline(text) == tuple(catalogue._walk(children or []))


@pytest.mark.parametrize("text", ["2*3*4 mm", "_a_ and __b__", "a_b_c", "5 * 4", "**"])
def test_no_sign_of_a_person_s_text_is_lost(text):
    assert tell(Name(text), ENGLISH)["text"] == text


def test_a_person_s_text_is_told_in_the_reader_s_language():
    texts = {"bonnet left": "Motorraum **links**"}
    assert tell(say("seen", what=Name("bonnet left")), ENGLISH, texts=texts)["text"] == (
        "Seen: Motorraum links"
    )
    assert tell(Name("Sorrel 240"), ENGLISH, texts=texts)["text"] == "Sorrel 240"
    basis = Basis(state=State.MEASURED, by="bay", document="bay", note="seen cold")
    told = tell(basis, ENGLISH, texts={"bay": "Werkstatt", "seen cold": "kalt gesehen"})
    # The document is a name that happens to read like a text: it stays.
    assert (told["by"], told["document"], told["note"]) == ("Werkstatt", "bay", "kalt gesehen")


def test_a_us_reader_finds_his_unit_in_brackets_in_a_sentence():
    said = say("seen", what=Amount(0.3, "m", 0, show="mm").at_most())
    metric, both = (tell(said, ENGLISH, us=us)["text"] for us in (False, True))
    assert "300\N{NO-BREAK SPACE}mm (11.8\N{NO-BREAK SPACE}in)" in both  # 300 / 25.4 = 11.811
    assert "in)" not in metric


@pytest.mark.parametrize(("us", "converted"), [(True, "165.0\N{NO-BREAK SPACE}in"), (False, "")])
def test_the_length_of_a_cut_is_told_in_inches_for_a_us_reader(us, converted):
    line = CutLine(
        tag="W1", colour=say("braces", x=1), area=Amount(25, "mm2", 0), awg=Name("AWG 4"),
        start="A", end="B", length=Amount(4.19, "m", 2).cut(), strip=None, ends=(),
    )  # fmt: skip
    told = tell(line, ENGLISH, us=us)
    assert (told["length"]["figure"], told["length"]["converted"]) == ("4.19", converted)


@pytest.mark.parametrize(("language", "name"), [("en", "Engine bay"), ("de", "Motorraum")])
def test_a_figure_of_a_zone_is_titled_by_the_zone_s_name(language, name):
    words, texts = words_of(language)
    told = tell(guide("brunsall-tansy/j1"), words, texts=texts)["figures"]
    titles = [figure["title"]["text"] for figure in told]
    inputs = [one["title"]["text"] for f in told for one in f["inputs"] if one["title"]]
    assert not [one for one in titles + inputs if "engine-bay" in one or "load-bay" in one]
    assert sum(one.endswith(f"one {name}") for one in titles) == 4  # ampacity, two °C, envelope
    assert any(one.endswith(f"one {name}") for one in inputs)


@pytest.mark.parametrize("number", [float("nan"), float("inf"), -float("inf")])
def test_a_number_without_end_is_refused(number):
    """JSON has no form for it: it would be published as null."""
    for node in (number, [1.0, number], {"a": number}, Amount(number, "V", 1)):
        with pytest.raises(ValueError, match="cannot be told"):
            tell(node, ENGLISH)
