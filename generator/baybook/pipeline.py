"""The flow on one screen. With `decide`, its first half, the only file that knows every room.

    workbook ─read─▶ fits ─decide─▶ outcomes ─enter─▶ entries ─tell─▶ told book
             ─draw, lay out, verify─▶ files ─write─▶ the site

Everything is read, sized, checked, laid out and verified before anything is written.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from datetime import date
from functools import partial
from pathlib import Path

from baybook.book import Book, Entry, Outcome, ToldBook, ToldEntry
from baybook.decide import decide
from baybook.drawing.entries import draw_entries
from baybook.drawing.layout import LayoutError
from baybook.drawing.marks import UnknownMark
from baybook.drawing.measure import MissingGlyph
from baybook.drawing.rows import DrawingError
from baybook.finding import Finding
from baybook.intake.read import read_workbook
from baybook.plain import text_fingerprint
from baybook.publish.editions import enter
from baybook.publish.history import (
    History,
    HistoryError,
    Issue,
    add_issued,
    issue_files,
    issue_of,
    load_history,
    revise,
    revision_plain,
)
from baybook.publish.labels import render_labels, verify_labels
from baybook.publish.markup import PageError
from baybook.publish.pages import render_pages
from baybook.publish.prints import render_prints
from baybook.publish.site import SiteError, build_site
from baybook.publish.typeset import PrintError
from baybook.publish.verify import verify_entries
from baybook.publish.verify_prints import verify_prints
from baybook.publish.writer import WriterError, publish_tree, require_output
from baybook.shipped import shipped
from baybook.shop import Shop
from baybook.wording.catalogue import Catalogue, CatalogueError, load_catalogue
from baybook.wording.tell import tell

Progress = Callable[[str, int, int], None]  # stage, done, of

# What may stop a publish. Each says what is wrong; the site stays as it was.
STOPS = (
    CatalogueError,
    DrawingError,
    HistoryError,
    LayoutError,
    MissingGlyph,
    OSError,  # a disk that is full, a folder that is closed
    PageError,
    PrintError,
    SiteError,
    UnknownMark,
    WriterError,
)


def _silent(_stage: str, _done: int, _of: int) -> None:
    """Report nothing."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Rendered:
    """A whole site in memory, with what is to be written down about it."""

    files: dict[str, bytes]
    issued: dict[str, bytes]
    outcomes: tuple[Outcome, ...]
    problems: tuple[Finding, ...]  # unreadable input: nothing is written
    lost: tuple[str, ...] = ()  # did not reach the reader: nothing is written


def render(
    workbook: Path, *, drafts: bool = False, today: date, progress: Progress = _silent
) -> Rendered:
    """Return the files of the whole site. Writes nothing."""
    read, problems = read_workbook(workbook)
    if read is None:
        return Rendered(files={}, issued={}, outcomes=(), problems=problems)
    outcomes: list[Outcome] = []
    for fit in read.fits:
        outcomes.append(decide(fit, today))
        progress("size", len(outcomes), len(read.fits))
    history = load_history(workbook)
    book = Book(shop=read.shop, entries=enter(outcomes, history, drafts=drafts, today=today))
    told = tell_book(book, history)
    drawings = draw_entries(told, progress=progress)
    prints = render_prints(told, drawings, papers=read.shop.papers, progress=progress)
    labels = render_labels(told)
    pages = render_pages(told, drawings, prints, labels=labels, progress=progress)
    lost = verify_entries(told, pages) + verify_labels(told, labels)
    if read.shop.papers:
        lost += verify_prints(told, prints)
    return Rendered(
        files=build_site(pages, told),
        issued=issue_files((issue_of(entry) for entry in told.entries), history),
        outcomes=tuple(outcomes),
        problems=(),
        lost=lost,
    )


def tell_book(book: Book, history: History) -> ToldBook:
    """Put everything into words, and number what changed."""
    words = load_catalogue(shipped("templates"), book.shop.languages[0])
    return ToldBook(
        language=words.language,
        shop=tell(book.shop, words),
        words=words.words(),
        entries=tuple(
            _tell_entry(entry, history.get(entry.fit, ()), book.shop, words)
            for entry in book.entries
        ),
    )


def _tell_entry(
    entry: Entry, earlier: tuple[Issue, ...], shop: Shop, words: Catalogue
) -> ToldEntry:
    told = tell(entry.content, words)
    if entry.kind == "withdrawal":
        told["identity"] = earlier[-1].identity
    revision = revise(entry, earlier, text=text_fingerprint(told), months=shop.valid_months)
    content = {
        entry.kind: told,
        "state": entry.state,
        "revision": revision_plain(revision),
        "earlier": [
            revision_plain(issue.revision)
            for issue in earlier
            if issue.revision.number < revision.number
        ],
    }
    return ToldEntry(fit=entry.fit, kind=entry.kind, language=words.language, content=content)


def publish(
    workbook: Path, output: Path, *, drafts: bool = False, today: date, progress: Progress = _silent
) -> Rendered:
    """Publish the whole site into `output`, in one step, or leave all as it was."""
    require_output(output, workbook)
    rendered = render(workbook, drafts=drafts, today=today, progress=progress)
    if rendered.problems or rendered.lost:
        return rendered
    publish_tree(
        rendered.files,
        output,
        workbook=workbook,
        before_swap=partial(add_issued, workbook, rendered.issued),
    )
    return rendered
