"""The same check on the finished PDFs, read back by another program than made them."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Mapping
from typing import Any

from baybook.book import ToldBook, ToldEntry
from baybook.publish.typeset import texts
from baybook.publish.verify import verify_lines, verify_refusal_text, verify_text

_LONG = re.compile(r"[^\s-]{15,}")  # as `wide-word` in templates/print/told.typ
_GAP = r"-?\s*"
_PARTS = re.compile(r"[-\s]+")  # what a gap is made of, and no long word
_EDGE = r"(?![^\W\d_])"  # `schalter sitzt` is not `schalters itzt`
_HYPHEN = "\x02"  # how the library reads a hyphen at the end of a line
Prints = Mapping[str, Mapping[str, bytes]]  # fit → paper → PDF


def verify_prints(book: ToldBook, prints: Prints) -> tuple[str, ...]:
    """Return what any print lost, with its fit and paper. A guide without a print is a loss."""
    lost: list[str] = []
    for entry in book.entries:
        papers = prints.get(entry.fit, {})
        if entry.kind == "guide" and not papers:
            lost.append(f"{entry.fit}: no print")
        mended = mending(texts(entry.content)) if papers else str
        for paper, pdf in papers.items():
            missing = _missing(entry, mended(print_text(pdf)), book.words)
            lost += [f"{entry.fit}, print {paper}: {what}" for what in missing]
    return tuple(lost)


def _missing(entry: ToldEntry, text: str, words: Mapping[str, str]) -> tuple[str, ...]:
    told: Any = entry.content[entry.kind]
    if entry.kind == "guide":
        return verify_text(text, told, words)
    if entry.kind == "refusal":
        return verify_refusal_text(text, told)
    return verify_lines(text, (words["print.withdrawn"], told["why"]["text"]))


def mending(lines: Iterable[str]) -> Callable[[str], str]:
    """Return what makes the long words of some lines whole again in a print's text.

    A narrow column parts them, with a hyphen or without; nothing else is put together.
    """
    words = {word for line in set(lines) for word in _LONG.findall(line)}

    def mended(text: str) -> str:
        closed = _PARTS.sub("", text)
        there = [word for word in words if word in closed]
        # A pattern of all words would cost more than all else that is asked of a print, and most
        # prints part none: then a word stands in the text as often as without the gaps.
        if all(closed.count(word) == text.count(word) for word in there):
            return text
        return _pattern(there).sub(lambda at: _PARTS.sub("", at[0]), text)

    return mended


def _pattern(words: Iterable[str]) -> re.Pattern[str]:
    """Return what finds words with gaps in them, of two that begin alike the longer.

    Each form begins with its letter, outside of any group: so the search passes at a glance over
    a place where none begins.
    """
    longest = sorted(words, key=len, reverse=True)
    return re.compile("|".join(_GAP.join(map(re.escape, word)) + _EDGE for word in longest))


def print_text(pdf: bytes) -> str:
    """Return the text of a PDF, page after page, in the order in which it was set."""
    # Imported here: the library brings a renderer along that nothing else needs.
    import pypdfium2  # noqa: PLC0415

    with pypdfium2.PdfDocument(pdf) as document:
        pages = [_page_text(page) for page in document]
    return "\n".join(pages).replace(_HYPHEN, "-").replace("\N{SOFT HYPHEN}", "-")


def _page_text(page: Any) -> str:  # noqa: ANN401 - a page of pypdfium2
    text = page.get_textpage()
    try:
        return str(text.get_text_bounded())
    finally:
        text.close()
        page.close()
