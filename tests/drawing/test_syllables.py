"""Long words in a drawing: parted between their syllables, in the reader's language."""

import re

import pytest

from baybook.book import ToldEntry
from baybook.drawing.entries import PAPER, draw_entry
from baybook.drawing.layout import Layout
from baybook.drawing.phrase import plain, wrap
from baybook.drawing.syllables import SOFT_HYPHEN, with_syllables
from baybook.wording.tell import tell
from compose.jobs import guide
from prints.whole import words_of

# What may stand before the hyphen of each word by German spelling (from memory).
PARTED = {
    "Haupttrennschalter": ("Haupt", "Haupttrenn", "Haupttrennschal"),
    "Steckklemme": ("Steck", "Steckklem"),
    "Sicherungskasten": ("Si", "Siche", "Sicherungs", "Sicherungskas"),
}


@pytest.mark.parametrize("word", PARTED)
@pytest.mark.parametrize("room", range(30, 120, 7))
def test_a_german_word_is_parted_between_its_syllables(word, room):
    lines = [line.text for line in wrap(with_syllables(plain(word), "de"), room, 9.0)]
    assert "".join(line.removesuffix("-") for line in lines) == word
    before = ""
    for line in lines[:-1]:
        assert line.endswith("-")
        before += line.removesuffix("-")
        assert before in PARTED[word]


def test_a_word_that_fits_and_a_language_without_syllables_stay_as_they_are():
    (line,) = wrap(with_syllables(plain("Haupttrennschalter"), "de"), 500.0, 9.0)
    assert line.text == "Haupttrennschalter"
    assert line.width == wrap(plain("Haupttrennschalter"), 500.0, 9.0)[0].width
    assert with_syllables(plain("Haupttrennschalter"), "xx") == plain("Haupttrennschalter")


def test_only_what_is_set_is_marked():
    """A title for who cannot see is told as it is."""
    view = {"title": plain("Steckklemme"), "rows": [plain("Steckklemme"), None, 3]}
    marked = with_syllables(view, "de")
    assert marked["title"]["text"] == "Steckklemme"
    assert SOFT_HYPHEN in marked["rows"][0]["runs"][0]["text"]
    assert marked["rows"][1:] == [None, 3]


@pytest.mark.parametrize("name", ["ostrigg-drey/j3", "tessick-orlet/j7"])
def test_no_hyphen_of_a_german_drawing_stands_inside_a_syllable(name):
    words, texts = words_of("de")
    told = tell(guide(name), words, texts=texts) | {"charts": []}
    entry = ToldEntry(fit=name, kind="guide", language="de", content={"guide": told})
    sheets = draw_entry(entry, words.words(), Layout(), PAPER)["wiring"]
    assert SOFT_HYPHEN not in "".join(sheets)
    ends = set(re.findall(r">(\w+)-</", "".join(sheets)))
    assert {"Steck", "Steckklem"} & ends
    assert not {"Steckkle", "Haupttren", "Unbekan"} & ends
