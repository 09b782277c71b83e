"""The flow on one screen. Only it and its parts know every room.

    workbook ─open─▶ shop, data sheets ─glance at every vehicle─▶ faults, texts
             ─make every vehicle (`making`, by a `crew`)─▶ files ─list, write─▶ the site

A shop with several languages gets every page in each: the first at the site's root, the others
in folders of their own. They share everything up to the words: one design, one revision.

Everything is read, sized, checked, laid out and verified before anything is written.
"""

from __future__ import annotations

import os
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date
from functools import partial
from pathlib import Path
from typing import TypeVar

from baybook.book import Report, ToldBook
from baybook.crew import crew
from baybook.drawing.layout import LayoutError
from baybook.drawing.marks import UnknownMark
from baybook.drawing.measure import MissingGlyph
from baybook.drawing.rows import DrawingError
from baybook.finding import Finding
from baybook.intake.read import faults_of, workbook_of
from baybook.intake.texts import Said, Texts, translations
from baybook.making import Glance, Hand, Made, Order, Shared
from baybook.matrix import readable
from baybook.publish.history import History, HistoryError, Issue, add_issued, load_history
from baybook.publish.links import Ways, require_links, require_ways, site_of
from baybook.publish.markup import PageError
from baybook.publish.pages import in_folder, index_pages
from baybook.publish.site import SiteError, merge, written_site
from baybook.publish.sitemap import for_robots
from baybook.publish.store import KeptFiles, PassingStore, Store, StoreError
from baybook.publish.typeset import PrintError
from baybook.publish.writer import WriterError, publish_tree, require_output
from baybook.telling import Speaker, tell_rules
from baybook.wording.catalogue import CatalogueError

Progress = Callable[[str, int, int], None]  # stage, done, of
_Thing = TypeVar("_Thing")

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
    StoreError,
    UnknownMark,
    WriterError,
)


def _silent(_stage: str, _done: int, _of: int) -> None:
    """Report nothing."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Rendered:
    """A whole site, ready to be written, with what is to be written down about it."""

    files: Mapping[str, bytes]
    issued: Mapping[str, bytes]
    reports: tuple[Report, ...]
    problems: tuple[Finding, ...]  # unreadable input: nothing is written
    lost: tuple[str, ...] = ()  # did not reach the reader: nothing is written


def render(
    workbook: Path,
    *,
    drafts: bool = False,
    today: date,
    progress: Progress = _silent,
    workers: int | None = None,
) -> Rendered:
    """Return the files of the whole site. Writes nothing but passing files of its own.

    workers  processes at most; without one, as many as there are cores. The bytes are the same.
    """
    store = PassingStore()
    hand = Hand(workbook, store)
    slugs, shop = hand.opened.slugs, hand.opened.shop
    with crew(workbook, hand, store, workers=workers or os.cpu_count() or 1) as hands:
        glances = tuple(_counted(hands.glance(slugs), "read", len(slugs), progress))
        problems = faults_of(hand.opened, [glance.vehicle for glance in glances])
        texts: Mapping[str, Texts] = {}
        if shop is not None and not problems:
            texts, problems = translations(workbook, shop.model.languages, wanted_of(glances))
        if shop is None or problems:
            return Rendered(files={}, issued={}, reports=(), problems=problems)
        orders = orders_of(slugs, load_history(workbook))
        matrix = readable(len(slugs), workbook_of(hand.opened, ()))
        shared = Shared(texts=texts, drafts=drafts, today=today, matrix=matrix)
        made = tuple(_counted(hands.make(orders, shared), "make", len(orders), progress))
    return _whole(made, hand.speakers, store, site=site_of(shop.model))


def _counted(work: Iterator[_Thing], stage: str, of: int, progress: Progress) -> Iterator[_Thing]:
    for done, one in enumerate(work, 1):
        yield one
        progress(stage, done, of)


def wanted_of(glances: Iterable[Glance]) -> dict[str, Said]:
    """Return the texts of all vehicles, each with the place of the first that says it."""
    found: dict[str, Said] = {}
    for glance in glances:
        found = {**glance.wanted, **found}
    return found


def orders_of(slugs: Iterable[str], history: History) -> tuple[Order, ...]:
    """Return an order for each vehicle, and for each that is gone and was published once."""
    issues: dict[str, dict[str, tuple[Issue, ...]]] = {slug: {} for slug in slugs}
    there = set(issues)
    for fit, of_fit in history.items():
        issues.setdefault(fit.partition("/")[0], {})[fit] = of_fit
    return tuple(
        Order(slug=slug, issues=of_slug, there=slug in there)
        for slug, of_slug in sorted(issues.items())
    )


def _books(made: Sequence[Made], languages: Sequence[Speaker]) -> tuple[ToldBook, ...]:
    """Return what the lists of all vehicles are made of, in each language."""
    listed = sorted((one for part in made for one in part.listed), key=lambda told: told[0].fit)
    return tuple(
        replace(
            speaker.book,
            entries=tuple(told[at] for told in listed),
            pairings=tuple(line for part in made if part.pairings for line in part.pairings[at]),
            rules=tell_rules(speaker.words),
        )
        for at, speaker in enumerate(languages)
    )


def _whole(
    made: Sequence[Made], languages: Sequence[Speaker], store: Store, *, site: str
) -> Rendered:
    """Put the lists of all vehicles, and the hand-written pages, to what was made.

    Raises SiteError for a link of any page that leads nowhere on the whole site.
    """
    parts = [part.files for part in made]
    ways: list[Ways] = [part.ways for part in made]
    books = _books(made, languages)
    for book in books:
        own = in_folder(merge(index_pages(book), written_site(book)), book)
        ways.append(require_links(own, site=site))
        parts.append({address: store.keep(content) for address, content in own.items()})
    robots = for_robots(books[0], [address for part in parts for address in part])
    parts.append({address: store.keep(content) for address, content in robots.items()})
    files = KeptFiles(store, merge(*parts))
    require_ways(ways, files)
    issued = {name: file for part in made for name, file in part.issued.items()}
    return Rendered(
        files=files,
        issued=KeptFiles(store, issued),
        reports=tuple(
            sorted((r for part in made for r in part.reports), key=lambda report: report.fit)
        ),
        problems=(),
        lost=tuple(what for part in made for what in part.lost),
    )


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
