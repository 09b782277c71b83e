"""The flow on one screen. Only it and its parts know every room.

    workbook ─open─▶ shop, data sheets ─glance at every vehicle─▶ faults, texts
             ─make every vehicle (`making`, by a `crew`)─▶ files ─list, write─▶ the site

A shop with several languages gets every page in each: the first at the site's root, the others
in folders of their own. They share everything up to the words: one design, one revision.

Everything is read, sized, checked, laid out and verified before anything is written.
"""

from __future__ import annotations

import os
from collections import ChainMap
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date
from functools import partial
from pathlib import Path
from typing import TypeVar

from baybook.book import Report, ToldBook
from baybook.crew import Crew, crew
from baybook.drawing.layout import LayoutError
from baybook.drawing.marks import UnknownMark
from baybook.drawing.measure import MissingGlyph
from baybook.drawing.rows import DrawingError
from baybook.finding import Finding
from baybook.intake.read import faults_of, workbook_of
from baybook.intake.texts import Said, Texts, translations
from baybook.making import Glance, Hand, Made, Order, Shared
from baybook.matrix import readable
from baybook.notes import Asked, Notes, joined, plain_report
from baybook.overlay import NO_OVERLAY, Overlay
from baybook.publish.history import HistoryError, Issued, add_issued, issued
from baybook.publish.links import Ways, require_links, require_ways, site_of
from baybook.publish.listing import Alike
from baybook.publish.markup import PageError
from baybook.publish.offline import at_root
from baybook.publish.pages import in_folder, index_pages
from baybook.publish.pictures import PictureError
from baybook.publish.site import SiteError, kept_site, merge
from baybook.publish.sitemap import for_robots
from baybook.publish.standing import Standing
from baybook.publish.store import KeptFiles, PassingStore, Store, StoreError
from baybook.publish.typeset import PrintError
from baybook.publish.writer import WriterError, publish_tree, require_output
from baybook.shop import Shop
from baybook.telling import Speaker, tell_rules
from baybook.unchanged import Last
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
    PictureError,
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
    until: date | None = None  # the last day on which the same would come again; None: not even now


def render(  # noqa: PLR0913 - as many ways to ask for a site
    workbook: Path,
    *,
    drafts: bool = False,
    today: date,
    progress: Progress = _silent,
    workers: int | None = None,
    cache: Path | None = None,
    overlay: Overlay = NO_OVERLAY,
) -> Rendered:
    """Return the files of the whole site. Writes nothing but into the cache.

    overlay  templates of the shop's own
    workers  processes at most; without one, as many as there are cores. The bytes are the same.
    cache    where finished files are kept from one publish to the next; without one, nowhere.
             The bytes are the same.
    """
    store = PassingStore() if cache is None else Store(cache)
    hand = Hand(workbook, store)
    shop = hand.opened.shop.model if hand.opened.shop else None
    book = workbook_of(hand.opened, ()) if shop else None
    slugs = hand.opened.slugs
    matrix = book is not None and readable(len(slugs), book)
    with crew(workbook, hand, store, workers=workers or os.cpu_count() or 1) as hands:
        notes = None
        if cache and shop and not hand.opened.findings:
            asked = Asked.on(today, shop, drafts=drafts, matrix=matrix, overlay=overlay)
            notes = Notes(store, workbook, asked, slugs)
        glances = _glances(slugs, hands, notes, progress)
        problems = faults_of(hand.opened, [glance.vehicle for glance in glances])
        texts: Mapping[str, Texts] = {}
        if shop and not problems:
            texts, problems = translations(workbook, shop.languages, wanted_of(glances))
        if shop is None or problems:
            return Rendered(files={}, issued={}, reports=(), problems=problems)
        shared = Shared(texts=texts, drafts=drafts, today=today, matrix=matrix, overlay=overlay)
        orders = orders_of(slugs, issued(workbook))
        made = _made(orders, shared, hands, notes, progress)
    whole = _whole(made, hand.speakers, store, site=site_of(shop))
    return replace(whole, until=_until(shop, today) if all(m.settled for m in made) else None)


def _glances(
    slugs: Sequence[str], hands: Crew, notes: Notes | None, progress: Progress
) -> list[Glance]:
    """Return a glance at every vehicle; one with a note is not read again."""
    read = {slug: note.glance for slug, note in notes.known.items()} if notes else {}
    new = [slug for slug in slugs if slug not in read]
    for glance in _counted(hands.glance(new), "read", len(new), progress):
        read[glance.vehicle.slug] = glance
    return [read[slug] for slug in slugs]


def _made(
    orders: Sequence[Order], shared: Shared, hands: Crew, notes: Notes | None, progress: Progress
) -> list[Made]:
    """Return every vehicle, made; one whose note still stands is not made again."""
    made, left = notes.recall(orders, shared.texts) if notes else ({}, orders)
    alike = Alike()
    for one in _counted(hands.make(left, shared), "make", len(left), progress):
        new = replace(one, listed=alike(one.listed))
        made[one.slug] = joined(made.get(one.slug), new)
    if notes:
        notes.keep([made[order.slug] for order in left], shared.texts)
    return [made[order.slug] for order in orders]


def _until(shop: Shop, today: date) -> date:
    """Return the last day before a licence lapses that holds today."""
    return min(
        (who.until for who in shop.people if who.until and who.until >= today), default=date.max
    )


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


def orders_of(slugs: Iterable[str], published: Issued) -> tuple[Order, ...]:
    """Return an order for each vehicle, and for each that is gone and was published once."""
    of_slug: dict[str, dict[str, tuple[Path, ...]]] = {slug: {} for slug in slugs}
    there = set(of_slug)
    for fit, files in published.items():
        of_slug.setdefault(fit.partition("/")[0], {})[fit] = files
    return tuple(
        Order(slug=slug, issued=files, there=slug in there)
        for slug, files in sorted(of_slug.items())
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
    # The lists and the hand-written pages, at hand: links lead to places in them.
    beside: dict[str, bytes] = {}
    books = _books(made, languages)
    for book in books:
        own = in_folder(merge(index_pages(book), kept_site(book, store)), book)
        ways.append(require_links(own, site=site))
        beside.update(own)
        parts.append({address: store.keep(page) for address, page in own.items()})
    robots = at_root() | for_robots(books[0], [address for part in parts for address in part])
    parts.append({address: store.keep(content) for address, content in robots.items()})
    files = KeptFiles(store, merge(*parts))
    require_ways(ways, ChainMap(beside, files))  # type: ignore[arg-type]
    revisions = {name: file for part in made for name, file in part.issued.items()}
    return Rendered(
        files=files,
        issued=KeptFiles(store, revisions),
        reports=tuple(
            sorted((r for part in made for r in part.reports), key=lambda report: report.fit)
        ),
        problems=(),
        lost=tuple(what for part in made for what in part.lost),
    )


def publish(  # noqa: PLR0913 - as many ways to ask for a site
    workbook: Path,
    output: Path,
    *,
    drafts: bool = False,
    today: date,
    progress: Progress = _silent,
    cache: Path | None = None,
    overlay: Overlay = NO_OVERLAY,
) -> Rendered:
    """Publish the whole site into `output`, in one step, or leave all as it was.

    cache, overlay  as for `render`
    """
    require_output(output, workbook)
    asked = partial(
        render,
        workbook,
        drafts=drafts,
        today=today,
        progress=progress,
        cache=cache,
        overlay=overlay,
    )
    if cache is None:
        rendered = asked()
        _write(rendered, workbook, output, None)
        return rendered
    store = Store(cache)
    last = Last(store, workbook, output, drafts=drafts, overlay=overlay)
    rendered = asked()
    try:
        _write(rendered, workbook, output, last.standing)
    except StoreError:  # a kept file is not what was kept: such are made again, once
        for files in (rendered.files, rendered.issued):
            if isinstance(files, KeptFiles):
                files.drop_broken()
        rendered = asked()
        _write(rendered, workbook, output, last.standing)
    if rendered.until and not rendered.lost:
        last.note(today, rendered.until, [plain_report(report) for report in rendered.reports])
    store.tidy()
    return rendered


def _write(rendered: Rendered, workbook: Path, output: Path, standing: Standing | None) -> None:
    """Put a rendered site in its place, if it is whole."""
    files = rendered.files
    if rendered.problems or rendered.lost:
        return
    own = partial(add_issued, workbook, rendered.issued)
    if standing is None or not isinstance(files, KeptFiles):
        publish_tree(files, output, workbook=workbook, before_swap=own)
        return
    known = partial(_stands, standing, files.names)
    publish_tree(files, output, workbook=workbook, before_swap=own, known=known)
    standing.note(files.names)


def _stands(standing: Standing, names: Mapping[str, str], address: str, file: Path) -> bool:
    return standing.holds(address, names[address], file)
