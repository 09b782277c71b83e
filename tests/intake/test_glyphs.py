"""What the shipped font cannot show is refused where it stands."""

import pytest
from fontTools.ttLib import TTFont

from baybook.intake.glyphs import covered, unprintable
from baybook.intake.read import read_workbook
from baybook.shipped import shipped
from workbooks import COBBLE, copy_workbook, edit


def glyphs(file):
    with TTFont(file, lazy=True) as font:
        return set(font.getBestCmap())


def test_the_list_is_that_of_the_shipped_fonts():
    fonts = sorted((shipped("templates") / "fonts").glob("*.ttf"))
    assert len(fonts) == 4
    assert covered() == set.intersection(*(glyphs(font) for font in fonts))


@pytest.mark.parametrize("text", ["plain", "Ærøskøbing 4.2 m ± 2 %", "16 mm² 7.0 N·m 6 mΩ", "a\nb"])
def test_the_trade_s_own_signs_are_shown(text):
    assert unprintable(text) == ()


@pytest.mark.parametrize(
    ("text", "strange"),
    [
        ("a \u2192 b", ("\u2192",)),
        ("\U0001f697", ("\U0001f697",)),
        ("\u202eabc", ("\u202e",)),
        ("a\x07", ("\x07",)),
    ],
)
def test_others_are_named(text, strange):
    assert unprintable(text) == strange


def test_the_finding_says_place_and_code_point(tmp_path):
    book = copy_workbook(tmp_path / "fits")
    file = edit(book, COBBLE, "model: Cobble", "model: Cobble \u2192 \u6f22")
    read, findings = read_workbook(book)
    assert read is None
    (finding,) = findings
    lines = file.read_text("utf-8").splitlines()
    assert finding.code == "DA-17"
    assert finding.where.line == 1 + lines.index("model: Cobble \u2192 \u6f22")
    assert finding.found.text == "U+2192, U+6F22"
