"""The flow on one screen. Only it and its parts, `decide` and `telling`, know every room.

    workbook ─read─▶ fits ─decide─▶ outcomes ─enter─▶ entries ─tell─▶ told book
             ─draw, lay out, verify─▶ files ─write─▶ the site

A shop with several languages gets a told book for each: the first at the site's root, the others
in folders of their own. They share everything up to the words: one design, one revision.

Everything is read, sized, checked, laid out and verified before anything is written.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from datetime import date
from functools import partial
from itertools import starmap
from pathlib import Path

from baybook.book import Book, Outcome, ToldBook
from baybook.decide import decide
from baybook.drawing.entries import draw_entries
from baybook.drawing.layout import LayoutError
from baybook.drawing.marks import UnknownMark
from baybook.drawing.measure import MissingGlyph
from baybook.drawing.rows import DrawingError
from baybook.finding import Finding
from baybook.intake.read import read_workbook
from baybook.intake.texts import Texts, read_texts
from baybook.matrix import lines
from baybook.publish.editions import enter
from baybook.publish.history import (
    HistoryError,
    add_issued,
    issue_files,
    issue_of,
    load_history,
)
from baybook.publish.labels import render_labels, verify_labels
from baybook.publish.markup import PageError
from baybook.publish.pages import in_folder, render_pages
from baybook.publish.prints import render_prints
from baybook.publish.site import SiteError, build_site
from baybook.publish.typeset import PrintError
from baybook.publish.verify import verify_entries
from baybook.publish.verify_prints import verify_prints
from baybook.publish.writer import WriterError, publish_tree, require_output
from baybook.shop import Shop
from baybook.telling import tell_books
from baybook.wording.catalogue import CatalogueError

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
    texts: Mapping[str, Texts] = {}
    if read is not None:
        texts, problems = read_texts(workbook, read)
    if read is None or problems:
        return Rendered(files={}, issued={}, outcomes=(), problems=problems)
    outcomes: list[Outcome] = []
    for fit in read.fits:
        outcomes.append(decide(fit, today))
        progress("size", len(outcomes), len(read.fits))
    history = load_history(workbook)
    book = Book(
        shop=read.shop,
        entries=enter(outcomes, history, drafts=drafts, today=today),
        pairings=lines(read),
    )
    books = tell_books(book, history, texts)
    files: dict[str, bytes] = {}
    lost: tuple[str, ...] = ()
    for told in books:
        own, missing = _render_one(told, read.shop, progress)
        files |= in_folder(own, told)
        lost += missing
    return Rendered(
        files=dict(sorted(files.items())),
        issued=issue_files(
            starmap(issue_of, zip(*(told.entries for told in books), strict=True)), history
        ),
        outcomes=tuple(outcomes),
        problems=(),
        lost=lost,
    )


def _render_one(
    told: ToldBook, shop: Shop, progress: Progress
) -> tuple[dict[str, bytes], tuple[str, ...]]:
    """Return the site in one language, and what of it did not reach the reader."""
    drawings = draw_entries(told, progress=progress)
    prints = render_prints(told, drawings, papers=shop.papers, progress=progress)
    labels = render_labels(told)
    pages = render_pages(told, drawings, prints, labels=labels, progress=progress)
    lost = verify_entries(told, pages) + verify_labels(told, labels)
    if shop.papers:
        lost += verify_prints(told, prints)
    return build_site(pages, told), tuple(f"{told.folder}{what}" for what in lost)


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
