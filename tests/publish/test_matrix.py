"""The page of all pairings: in the frame, whole without script, linked to the pages that exist."""

import re
from dataclasses import replace

import pytest

from baybook.finding import Amount, Listing, Name, say
from baybook.pairing import PairingLine
from baybook.shipped import shipped
from baybook.wording.catalogue import load_catalogue
from baybook.wording.tell import tell
from publish import told

PASSES = PairingLine(
    slug="ostrigg-drey",
    vehicle=say("page.home.entry", vehicle=Name("Ostrigg Drey"), variant=Name("7.7 D lorry")),
    charger=Name("Brace 24/700"),
    station=Name("Loft 2000 <b>"),
    verdict="hold",
    set_voltage=Amount(55.0, "V", 1),
    power=Amount(700.0, "W", 0),
    limit=say("matrix.limit.charger-power"),
    codes=("NE-02",),
    why=say("matrix.unknown.cue", charger=Name("Brace 24/700")),
    pattern="ostrigg-drey/j3",
    taken=None,
    fits=("ostrigg-drey/j3",),
)
REFUSED = replace(
    PASSES,
    verdict="refused",
    set_voltage=None,
    power=None,
    limit=None,
    fits=("ostrigg-drey/j4", "ostrigg-drey/gone"),
)
TAKEN = replace(PASSES, fits=(), taken=Listing((say("matrix.taken.cue"),)))
UNKNOWN = replace(REFUSED, slug="tavlow-camber", verdict="unknown", codes=(), fits=())


def page(*lines, language="en"):
    words = load_catalogue(shipped("templates"), language)
    book = replace(
        told.book(told.guide(fit="ostrigg-drey/j3"), told.refusal()),
        language=language,
        words=words.words(),
        pairings=tuple(tell(lines, words)),
        matrix=bool(lines),
    )
    return {name: file.decode() for name, file in told.pages_of(book).items()
            if name.endswith(".html")}  # fmt: skip


def test_links_lead_to_the_guide_and_the_refusal_that_exist_and_to_no_other():
    html = page(PASSES, REFUSED)["matrix.html"]
    links = set(re.findall(r'href="(guides/[^"]*)"', html))
    assert links == {f"guides/ostrigg-drey/{fit}/index.html" for fit in ("j3", "j4")}
    assert "Guide j3" in html
    assert "Refusal j4" in html


def test_what_passes_stands_before_what_is_refused():
    html = page(REFUSED, PASSES)["matrix.html"]
    assert html.index("symbol-hold") < html.index("symbol-refused")


def test_a_vehicle_of_which_nothing_can_be_said_is_one_sentence():
    html = page(UNKNOWN, UNKNOWN)["matrix.html"]
    assert "<table" not in html
    assert html.count("unknown") == 1


def test_what_was_taken_from_another_pairing_is_named():
    html = page(TAKEN)["matrix.html"]
    assert "Taken from fit ostrigg-drey/j3. Look again at: start by voltage." in html


def test_every_page_leads_to_it_and_none_where_there_is_none():
    with_matrix, without = page(PASSES), page()
    assert all("/matrix.html" in html for html in with_matrix.values())
    assert "matrix.html" not in without
    assert not any("matrix.html" in html for html in without.values())


def test_it_is_whole_without_script_and_each_cell_is_named_on_a_phone():
    html = page(PASSES)["matrix.html"]
    assert not re.search(r"\shidden[\s>=]", html)
    assert re.findall(r'data-label="([^"]+)"', html) == ["Set to", "Power", "Limit"]
    assert "Loft 2000 &lt;b&gt;" in html
    assert len(re.findall("<h1", html)) == 1


@pytest.mark.parametrize(("language", "said"), [("en", "Set to"), ("de", "Eingestellt auf")])
def test_it_is_in_the_language_of_its_reader(language, said):
    html = page(PASSES, language=language)["matrix.html"]
    assert said in html
    assert f'lang="{language}"' in html
