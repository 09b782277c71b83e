"""What was published before stays readable: each earlier revision on a page of its own.

It is laid out from what `issued/` keeps of it, under a banner, in the language that it was told in.
Of one that this version cannot show whole nothing but its data is shown: an old sheet that lacks a
warning is worse than none.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import replace
from typing import Any

from jinja2 import UndefinedError

from baybook.book import ToldBook, ToldEntry
from baybook.drawing.entries import PAGE, draw_entries
from baybook.drawing.layout import LayoutError
from baybook.drawing.marks import UnknownMark
from baybook.drawing.measure import MissingGlyph
from baybook.drawing.rows import DrawingError
from baybook.publish.history import Issue
from baybook.publish.home import folder, old_folder
from baybook.publish.markup import PageError
from baybook.publish.pages import entry_pages, in_folder, old_notice
from baybook.publish.pictures import Pictures
from baybook.publish.verify import verify_entries

# What may happen when a template of today meets the content of another day.
_CANNOT = (
    AttributeError,
    DrawingError,
    LayoutError,
    LookupError,
    MissingGlyph,
    PageError,
    TypeError,
    UndefinedError,
    UnknownMark,
    ValueError,
)


def old_pages(
    books: Sequence[ToldBook], issues: Iterable[Issue], standing: ToldEntry, pictures: Pictures
) -> dict[str, bytes]:
    """Return the pages of every revision before the one that stands, by address on the site.

    books     the languages of the site, the first at its root; their entries are not asked for
    standing  what stands at the address now, in any language
    pictures  those of its vehicle as they are now: one that was another then is not shown
    """
    now: Any = standing.content["revision"]
    files: dict[str, bytes] = {}
    for issue in issues:
        if issue.revision.number >= now["number"]:
            continue
        book = next((book for book in books if book.language == issue.language), books[0])
        files |= in_folder(_pages(book, issue, now, pictures), book)
    return files


def _pages(
    book: ToldBook, issue: Issue, now: dict[str, Any], pictures: Pictures
) -> dict[str, bytes]:
    content: dict[str, Any] = {**issue.content, "earlier": []}
    entry = ToldEntry(fit=issue.fit, kind=issue.kind, language=issue.language, content=content)
    if book.language == issue.language:
        one = replace(book, entries=(entry,))
        try:
            drawn = draw_entries(one, PAGE)
            pages = entry_pages(one, entry, drawn, {}, now=now, pictures=pictures)
            if not verify_entries(one, _as_standing(pages, issue)):
                return pages
        except _CANNOT:
            pass
    return old_notice(book, entry, now)


def _as_standing(pages: dict[str, bytes], issue: Issue) -> dict[str, bytes]:
    """Return the pages under the addresses that they had when they stood."""
    place = f"{old_folder(issue.fit, issue.revision.number)}/"
    return {f"{folder(issue.fit)}/{at.removeprefix(place)}": page for at, page in pages.items()}
