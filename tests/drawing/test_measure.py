"""Widths of text, against two readers of the same font that are not ours."""

import json

import pytest
import typst
from PIL import ImageFont

from baybook.drawing.measure import BOLD, EXTRABOLD, REGULAR, SEMIBOLD, MissingGlyph, width
from baybook.shipped import shipped

FONTS = shipped("templates") / "fonts"
FACES = {REGULAR: "Regular", SEMIBOLD: "SemiBold", BOLD: "Bold", EXTRABOLD: "ExtraBold"}
NO_FIGURES = ("Leave as it is", "Überwachungsgehäuse in Ω", "N·m")
LINES = ("150 mm from A, limit 200", "Cut 5.71 m (AWG 4)", "Überwachungsgehäuse −40 °C", "7.0 N·m")


@pytest.mark.parametrize("weight", FACES)
@pytest.mark.parametrize("text", NO_FIGURES)
def test_width_is_that_of_freetype(weight, text):
    """FreeType by way of Pillow, basic layout: the sum of the advances at 1000 units an em."""
    path = FONTS / f"AtkinsonHyperlegibleNext-{FACES[weight]}.ttf"
    font = ImageFont.truetype(path, 1000, layout_engine=ImageFont.Layout.BASIC)
    assert width(text, 10, weight) == pytest.approx(font.getlength(text) / 100 * 1.01, abs=0.02)


@pytest.mark.parametrize("weight", FACES)
def test_figures_are_as_wide_as_the_widest_of_them(weight):
    """Tabular figures have one width, and a column must hold either kind."""
    widths = {width(digit, 10, weight) for digit in "0123456789"}
    assert min(widths) >= 0.9 * max(widths)


@pytest.mark.parametrize("features", ["()", '("tnum",)'], ids=["as the font", "tabular"])
@pytest.mark.parametrize("weight", FACES)
def test_shaped_lines_fit_what_we_keep_free(weight, features, tmp_path):
    """Typst shapes with the font's kerning, with and without tabular figures as pages have them."""
    source = tmp_path / "measure.typ"
    items = ", ".join(json.dumps(line, ensure_ascii=False) for line in LINES)
    source.write_text(
        '#set text(font: "Atkinson Hyperlegible Next", size: 10pt)\n'
        f"#set text(weight: {weight}, features: {features})\n"
        f"#context [#metadata(({items}).map(line => measure(line).width.pt())) <widths>]",
        encoding="utf-8",
    )
    told = typst.query(str(source), "<widths>", font_paths=[str(FONTS)], ignore_system_fonts=True)
    for line, shaped in zip(LINES, json.loads(told)[0]["value"], strict=True):
        ours = width(line, 10, weight)
        assert 0.93 * ours < shaped <= ours, line


def test_missing_glyph_names_character_and_text():
    with pytest.raises(MissingGlyph) as error:
        width("Turn → right", 10)
    assert str(error.value) == ("the drawing's font has no glyph for '→' (U+2192): 'Turn → right'")
    assert error.value.character == "→"
