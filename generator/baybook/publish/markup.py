"""Told values as HTML. Everything that comes from a person is escaped here, once."""

from __future__ import annotations

import re
import string
from collections.abc import Mapping
from functools import lru_cache
from typing import Any, TypeAlias

from markupsafe import Markup, escape

Node: TypeAlias = "dict[str, Any]"  # a told value, see book.py

_TAGS = {
    "text": "%s",
    "figure": "%s",
    "unit": "%s",
    "strong": "<strong>%s</strong>",
    "letter": '<span class="ring">%s</span>',
    "converted": "%s",
}
_INLINE = '<span class="q">%s&nbsp;%s</span>'
_LARGE = '<span class="value"><b>%s</b>&nbsp;<span class="unit">%s</span></span>'
_LARGE_BARE = '<span class="value"><b>%s</b></span>'
# A code such as TW-3 or OC-02 is not parted at its hyphen.
_CODE = re.compile(r"\b[A-Z]{1,4}-[0-9]+\b")
_UNBROKEN = r'<span class="q">\g<0></span>'
# An index belongs to the letters before it: I_B, U_low, R_i.
_INDEX = re.compile(r"\b([A-Za-z]+)_([A-Za-z0-9]+)\b")
# What a drawing must not bring along: the pages forbid every inline script and style.
_TAG = re.compile(r"<[^>]*>")
# Each begins with a sign that is seldom: one by one they are found in a fifth of the time.
_FOREIGN = (
    re.compile(r"<\s*(?:script|style|foreignObject|image|a)\b", re.IGNORECASE),
    re.compile(r"\s(?:style|on\w+)\s*=", re.IGNORECASE),
    re.compile(r":(?:(?<=http:)|(?<=https:)|(?<=javascript:)|(?<=data:))", re.IGNORECASE),
)
_NAMESPACE = re.compile(r"""\sxmlns(?::\w+)?\s*=\s*["']https?://www\.w3\.org/[^"'<>]*["']""")


class PageError(Exception):
    """A page that cannot be made: it says what was asked for and what there is."""


def said(told: Node) -> Markup:
    """Return a told value inside a sentence: letters in rings, a unit kept to its figure."""
    return _runs(told["runs"], _INLINE, None)


def large(told: Node) -> Markup:
    """Return a told value for a cell of its own, figures large."""
    return _runs(told["runs"], _LARGE, _LARGE_BARE)


def names_letters(told: Node) -> bool:
    """Tell whether a told value names joints itself."""
    return any(run["kind"] == "letter" for run in told["runs"])


def _runs(runs: list[dict[str, str]], pair: str, bare: str | None) -> Markup:
    out: list[str] = []
    figure: str | None = None  # the run before, if it is one: its unit is kept to it
    for run in runs:
        kind, text = run["kind"], run["text"]
        if kind == "unit" and figure is not None:
            out[-1] = _pair(pair, figure, text)
        elif kind == "figure" and bare is not None:
            out.append(bare % escape(text))
        else:
            out.append(_run(kind, text))
        figure = text if kind == "figure" else None
    return Markup("".join(out))  # noqa: S704 - every text is escaped below


# Kept, as the words of one guide are most of those of the next; by type, as one of them tells
# what is escaped already.
@lru_cache(maxsize=8192, typed=True)
def _run(kind: str, text: str) -> str:
    return _TAGS[kind] % _CODE.sub(_UNBROKEN, str(escape(text)))


@lru_cache(maxsize=8192, typed=True)
def _pair(pattern: str, figure: str, unit: str) -> str:
    return pattern % (escape(figure), escape(unit))


class Words:
    """The fixed words of the templates: `w("page.kit.title")`. An unknown id raises."""

    def __init__(self, words: Mapping[str, str]) -> None:
        self._words = words
        self._parsed: dict[str, tuple[tuple[str, str | None], ...]] = {}
        self._whole: dict[str, Markup] = {}  # those that ask for no value

    def __call__(self, word_id: str, /, **values: object) -> Markup:
        return self._whole.get(word_id) or self._said(word_id, values)

    def _said(self, word_id: str, values: Mapping[str, object]) -> Markup:
        out: list[str] = []
        for literal, name in self._parts(word_id):
            out.append(literal)
            if name is not None:
                out.append(_value(word_id, name, values))
        sentence = Markup("".join(out))  # noqa: S704 - every part was escaped
        if len(out) == 1:
            self._whole[word_id] = sentence
        return sentence

    def _parts(self, word_id: str) -> tuple[tuple[str, str | None], ...]:
        if word_id not in self._parsed:
            pieces = string.Formatter().parse(self._sentence(word_id))
            self._parsed[word_id] = tuple((str(_marked(text)), name) for text, name, _, _ in pieces)
        return self._parsed[word_id]

    def _sentence(self, word_id: str) -> str:
        try:
            return self._words[word_id]
        except KeyError:
            raise PageError(
                f"a template asks for the word `{word_id}`, which the catalogue has not"
            ) from None


def _marked(literal: str) -> Markup:
    pieces = literal.split("**")
    return Markup("").join(
        Markup("<strong>{}</strong>").format(piece) if place % 2 else escape(piece)
        for place, piece in enumerate(pieces)
    )


def _value(word_id: str, name: str, values: Mapping[str, object]) -> Markup:
    if name not in values:
        raise PageError(f"`{word_id}` asks for {{{name}}}, which its template does not give")
    value = values[name]
    return said(value) if isinstance(value, dict) else escape(value)


@lru_cache(maxsize=4096, typed=True)
def formula(text: str) -> Markup:
    """Return a formula or symbol with its indices set low: `U_low`."""
    return Markup(_INDEX.sub(r"\1<sub>\2</sub>", str(escape(text))))  # noqa: S704 - escaped


def drawing(svg: str) -> Markup:
    """Return a drawing to stand in a page. Raises PageError for one that brings script or style."""
    bare = re.sub(r"^\s*<\?xml[^>]*\?>\s*", "", str(svg))  # a missing drawing raises here
    if _is_foreign(bare):  # perhaps in its words alone
        for tag in _TAG.findall(bare):
            if _is_foreign(tag):
                raise PageError(f"a drawing holds `{tag}`; pages allow no inline script or style")
    return Markup(bare)  # noqa: S704 - drawn by us, checked above


def _is_foreign(svg: str) -> bool:
    own = _NAMESPACE.sub("", svg)
    return any(pattern.search(own) for pattern in _FOREIGN)
