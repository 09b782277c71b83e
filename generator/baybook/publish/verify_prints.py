"""The same check on the finished PDFs, read back by another program than made them."""

from __future__ import annotations

import re
from bisect import bisect_right
from collections.abc import Callable, Iterable, Iterator, Mapping
from itertools import accumulate
from typing import Any

from baybook.book import ToldBook, ToldEntry
from baybook.publish.typeset import texts
from baybook.publish.verify import verify_lines, verify_refusal_text, verify_text

_LONG = re.compile(r"[^\s-]{15,}")  # as `wide-word` in templates/print/told.typ
_RUN = re.compile(r"[^\s-]+")  # what no gap parts
_NO_GAP = re.compile(r"[\s-]-")  # a gap is a hyphen or none, and then space
_LETTER = re.compile(r"[^\W\d_]")  # none follows: `schalter sitzt` is not `schalters itzt`
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
    words = sorted({word for line in lines for word in _LONG.findall(line)}, key=len, reverse=True)
    return lambda text: _mended(text, words) if words else text


def _mended(text: str, words: Iterable[str]) -> str:
    """Put words together; of two that overlap the earlier counts, then the longer."""
    runs = [(run.start(), run[0]) for run in _RUN.finditer(text)]
    close = "".join(run for _, run in runs)
    firsts = list(accumulate((len(run) for _, run in runs), initial=0))

    def place(number: int) -> int:
        run = bisect_right(firsts, number) - 1
        return runs[run][0] + number - firsts[run]

    found: dict[int, tuple[int, str]] = {}
    for word in words:
        for number in _occurrences(word, close):
            start, end = place(number), place(number + len(word) - 1) + 1
            if not _NO_GAP.search(text, start, end) and not _LETTER.match(text, end):
                found.setdefault(start, (end, word))
    pieces: list[str] = []
    done = 0
    for start, (end, word) in sorted(found.items()):
        if start >= done:
            pieces += text[done:start], word
            done = end
    return "".join(pieces) + text[done:]


def _occurrences(word: str, text: str) -> Iterator[int]:
    """Yield where a word begins in a text, wherever that is."""
    at = text.find(word)
    while at >= 0:
        yield at
        at = text.find(word, at + 1)


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
