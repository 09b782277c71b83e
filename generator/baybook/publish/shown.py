"""The text that a reader sees of a finished page, and what is looked up in it: plain words.

In a plain text one space stands between any two words, and at both ends.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import lru_cache
from html import unescape

from baybook.publish.marked import MARKUP

_DRAWING = re.compile(r"<svg\b.*?</svg>", re.DOTALL)  # left out before parsing: half of a page
_WORD = re.compile(r"\d+(?:[.,]\d+)*|\w+|[^\w\s]")
_PARTS = re.compile(r"<(?P<close>/?)(?P<name>[a-zA-Z][\w-]*+)(?P<attributes>.*)>", re.DOTALL)
_ATTRIBUTE = re.compile(r"""\s([\w:-]+)(?:\s*=\s*(?:"([^"]*)"|'([^']*)'|[^\s"'>]+))?""")
_HIDDEN = frozenset({"script", "style", "template", "svg", "head", "title", "noscript"})
_VOID = frozenset({"br", "input", "hr", "img", "link", "meta", "wbr", "col", "source"})
_INLINE = frozenset({"a", "b", "strong", "em", "i", "code", "small", "sub", "sup"})


@dataclass(frozen=True, slots=True)
class _Tag:
    name: str
    opens: bool
    closes: bool  # neither: a comment, and an element that holds no text
    sign: str  # what stands for it in the text
    hides: bool  # opens what no reader sees


@lru_cache(maxsize=2)  # a page of workings is looked through for its figures, then for its charts
def page_text(html: bytes) -> str:
    """Return the text that a page shows, in reading order, with plain single spaces.

    No script, no drawing and nothing that is marked hidden is shown.
    """
    first, *rest = MARKUP.split(_DRAWING.sub(" ", html.decode("utf-8")))
    out = [unescape(first)]
    hidden: list[str] = []  # an element that nobody sees, and what is open in it
    for markup, text in zip(rest[::2], rest[1::2], strict=True):
        tag = _tag(markup)
        out.append(tag.sign)
        if hidden or tag.hides:
            _follow(hidden, tag)
        if not hidden:
            out.append(unescape(text))
    return plain_text("".join(out))


@lru_cache(maxsize=4096)  # nearly all tags stand more than once, or on the next page too
def _tag(markup: str) -> _Tag:
    parts = _PARTS.fullmatch(markup)
    if parts is None or markup.endswith("/>"):
        return _Tag("", opens=False, closes=False, sign="", hides=False)
    name, attributes = parts["name"].lower(), parts["attributes"]
    closes = bool(parts["close"])
    opens = not closes and name not in _VOID
    sign = "" if name in _INLINE else " "
    if name == "sub" and not closes:
        sign = "_"  # an index of a symbol: U_low
    hides = opens and (name in _HIDDEN or _is_hidden(attributes))
    return _Tag(name, opens, closes, sign, hides)


def _follow(hidden: list[str], tag: _Tag) -> None:
    """Open an element among what is hidden, or close one and what was left open in it."""
    if tag.opens:
        hidden.append(tag.name)
    while tag.closes and hidden:
        if hidden.pop() == tag.name:
            return


def _is_hidden(attributes: str) -> bool:
    if "hidden" not in attributes:
        return False
    values = {name: double or single for name, double, single in _ATTRIBUTE.findall(attributes)}
    return "hidden" in values or values.get("aria-hidden") == "true"


def plain_text(text: str) -> str:
    """Return the words and figures of a text, one space between any two and at both ends.

    A figure with its decimals is one word, so that 7.0 is not found in 17.0; how a line was
    broken, and which space stands before a unit, no longer matters.
    """
    bare = text.replace("\N{SOFT HYPHEN}", "").replace("\N{ZERO WIDTH SPACE}", "")
    return f" {' '.join(map(_parted, bare.split()))} "


@lru_cache(maxsize=8192)  # a few words are most of any text
def _parted(word: str) -> str:
    """Return what stands between two spaces, its words and signs apart."""
    return " ".join(_WORD.findall(word))


@lru_cache(maxsize=8192)
def words_of(*parts: str) -> str:
    return plain_text(" ".join(parts))
