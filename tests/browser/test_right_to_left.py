"""A language that is written from the right: the sheet stands mirrored, figures read as before."""

import re

import pytest

from baybook.shipped import shipped

KINDS = (
    "index.html",
    "guides/dunstrel-cobble/j9b/index.html",
    "guides/dunstrel-cobble/j9/index.html",
    "guides/dunstrel-cobble/j9b/workings/index.html",
    "matrix.html",
    "manual/rules-oc.html",
)
WIDTHS = (320, 768, 1280)
TURN = "document.documentElement.dir = 'rtl'"
# What must change sides: marks before words, boxes before actions, bars before reasons.
MIRRORED = (
    ".step .tick",
    ".step .no",
    ".facts div:first-child",
    ".reasons",
    ".panel .body .symbol",
    ".check label",
    ".kit .tick",
)


def box(page, css):
    return page.evaluate(
        "css => (r => [r.left, r.width])(document.querySelector(css).getBoundingClientRect())", css
    )


@pytest.mark.parametrize("path", KINDS)
def test_no_page_grows_wider(visit, path):
    page = visit(path)
    page.evaluate(TURN)
    for width in WIDTHS:
        page.set_viewport_size({"width": width, "height": 900})
        assert page.evaluate("document.documentElement.scrollWidth") <= width, width


@pytest.mark.parametrize("width", WIDTHS)
def test_a_guide_stands_mirrored(visit, width):
    page = visit(KINDS[1], width=width)
    page.locator("#tools").scroll_into_view_if_needed()
    before = {css: box(page, css) for css in MIRRORED}
    page.evaluate(TURN)
    whole = page.evaluate("document.documentElement.clientWidth")
    for css, (left, wide) in before.items():
        assert box(page, css) == pytest.approx([whole - left - wide, wide], abs=2), css


def test_a_figure_still_stands_before_its_unit_and_the_drawing_is_no_mirror(visit):
    page = visit(KINDS[1])
    page.evaluate(TURN)
    left = "css => document.querySelector(css).getBoundingClientRect().left"
    assert page.evaluate(left, ".torques .value b") < page.evaluate(left, ".torques .value .unit")
    svg = "getComputedStyle(document.querySelector('.drawing svg')).direction"
    assert page.evaluate(svg) == "ltr"


def test_each_language_says_which_way_it_is_written(visit):
    assert visit("index.html").evaluate("document.documentElement.dir") == "ltr"


def test_the_style_knows_start_and_end_and_not_left_and_right():
    style = (shipped("templates") / "assets/site.css").read_text("utf-8")
    style = re.sub(r"@(font-face|page) \{[^}]*\}", "", style)
    sided = r"\b(?:margin|padding|border)-(?:left|right)\b|[\s;{](?:left|right):|: (?:left|right);"
    assert re.findall(sided, style) == []
    for kind, values in re.findall(r"\b(margin|padding):\s*([^;}]+)[;}]", style):
        sides = re.sub(r"\w+\(.*\)", "one", values).split()
        assert len(sides) < 4 or sides[1] == sides[3], (kind, values)
