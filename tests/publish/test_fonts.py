"""The web fonts: together they show what the shipped fonts show, and a page loads what it needs."""

import re

import pytest
from fontTools.ttLib import TTFont

from baybook.shipped import shipped

FONTS = shipped("templates") / "fonts"
STYLE = (shipped("templates") / "assets" / "site.css").read_text("utf-8")
WEIGHTS = sorted(file.stem for file in FONTS.glob("*.ttf"))


def signs(name):
    with TTFont(FONTS / name) as font:
        return set(font.getBestCmap())


def announced(name):
    """Return the signs for which the style sheet loads a file."""
    (ranges,) = re.findall(rf'url\("fonts/{name}"\)[^}}]*unicode-range: ([^;]*);', STYLE)
    found = set()
    for one in ranges.split(", "):
        first, _, last = one.removeprefix("U+").partition("-")
        found |= set(range(int(first, 16), int(last or first, 16) + 1))
    return found


@pytest.mark.parametrize("weight", WEIGHTS)
def test_both_files_of_a_weight_hold_all_that_the_shipped_font_holds(weight):
    near, more = signs(f"{weight}.woff2"), signs(f"{weight}-more.woff2")
    assert near | more == signs(f"{weight}.ttf")
    assert not near & more


@pytest.mark.parametrize("weight", WEIGHTS)
@pytest.mark.parametrize("kind", ["", "-more"])
def test_the_style_sheet_asks_for_a_file_for_just_the_signs_in_it(weight, kind):
    assert announced(f"{weight}{kind}.woff2") == signs(f"{weight}{kind}.woff2")


@pytest.mark.parametrize("weight", WEIGHTS)
def test_figures_stand_under_each_other_in_the_web_font_too(weight):
    with TTFont(FONTS / f"{weight}.woff2") as font, TTFont(FONTS / f"{weight}.ttf") as whole:
        assert "tnum" in {
            record.FeatureTag for record in font["GSUB"].table.FeatureList.FeatureRecord
        }
        widths = {font["hmtx"][font.getBestCmap()[ord(sign)]] for sign in "AVag 0123456789"}
        assert widths == {whole["hmtx"][whole.getBestCmap()[ord(s)]] for s in "AVag 0123456789"}
