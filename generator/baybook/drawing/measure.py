"""Widths of text in the shipped font, read from the font's own tables.

Kerning is left out: it moves a line by less than one part in a hundred; `WIDTH_SLACK` covers
that.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache, lru_cache
from types import MappingProxyType

from fontTools.ttLib import TTFont

from baybook.shipped import shipped

FAMILY = "Atkinson Hyperlegible Next"
REGULAR, SEMIBOLD, BOLD, EXTRABOLD = 400, 600, 700, 800
WIDTH_SLACK = 1.01

_FACES = MappingProxyType(
    {REGULAR: "Regular", SEMIBOLD: "SemiBold", BOLD: "Bold", EXTRABOLD: "ExtraBold"}
)


class MissingGlyph(ValueError):  # noqa: N818 - it names what is wrong, not that something is
    """The shipped font cannot show a character of this text."""

    def __init__(self, character: str, text: str) -> None:
        self.character = character
        self.text = text
        super().__init__(
            f"the drawing's font has no glyph for {character!r} (U+{ord(character):04X}): {text!r}"
        )


@dataclass(frozen=True, slots=True)
class _Face:
    advances: MappingProxyType[int, int]  # by code point, in font units
    units_per_em: int


@cache
def _face(weight: int) -> _Face:
    path = shipped("templates") / "fonts" / f"AtkinsonHyperlegibleNext-{_FACES[weight]}.ttf"
    with TTFont(path) as font:
        metrics, tabular = font["hmtx"].metrics, _tabular(font)
        # A page sets tabular figures, a print of an SVG does not: keep room for the wider.
        advances = {
            code: max(metrics[name][0], metrics[tabular.get(name, name)][0])
            for code, name in font.getBestCmap().items()
        }
        return _Face(MappingProxyType(advances), font["head"].unitsPerEm)


def _tabular(font: TTFont) -> dict[str, str]:
    """Return which glyph stands for which where figures are set tabular (feature tnum)."""
    table = font["GSUB"].table
    wanted = {
        index
        for record in table.FeatureList.FeatureRecord
        if record.FeatureTag == "tnum"
        for index in record.Feature.LookupListIndex
    }
    found: dict[str, str] = {}
    for index in sorted(wanted):
        for subtable in table.LookupList.Lookup[index].SubTable:
            found |= getattr(subtable, "ExtSubTable", subtable).mapping
    return found


@lru_cache(maxsize=8192)  # the texts of a vehicle or two: not of ten thousand
def _units(text: str, weight: int) -> float:
    advances = _face(weight).advances
    for character in text:
        if ord(character) not in advances:
            raise MissingGlyph(character, text)
    return sum(advances[ord(c)] for c in text) / _face(weight).units_per_em


def width(text: str, size: float, weight: int = REGULAR) -> float:
    """Return the width of one line of text, in the unit of its size.

    text    one line; every character must be in the shipped font
    size    font size, above 0
    weight  400, 600, 700 or 800

    Raises MissingGlyph naming the character and the text.
    """
    return _units(text, weight) * size * WIDTH_SLACK
