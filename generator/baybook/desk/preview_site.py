"""The site that the preview shows: in memory, the last good state of every page.

A save of a vehicle is worked out for that vehicle and its variants, any other save for all. Pages
are made when a browser asks for one, prints as well: Typst takes longer than all else.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass, field, replace
from datetime import date
from pathlib import Path
from threading import Condition, Lock

from baybook.book import ToldBook, ToldEntry
from baybook.drawing.entries import PAGE, PAPER, draw_entries
from baybook.finding import Finding
from baybook.intake.read import faults_of, workbook_of
from baybook.intake.source import shown_name
from baybook.intake.texts import translations
from baybook.making import FitTold, Glance, Hand, Shared
from baybook.matrix import readable
from baybook.photo import FOLDER
from baybook.pipeline import STOPS, orders_of, wanted_of
from baybook.publish.frame import assets
from baybook.publish.history import Issue, Issued, issued
from baybook.publish.home import folder, old_folder
from baybook.publish.labels import render_labels, stocks_of
from baybook.publish.listing import listed
from baybook.publish.overlaid import OverlayError, read_overlay
from baybook.publish.pages import entry_pages, index_pages
from baybook.publish.pictures import PictureError, Pictures, addressed
from baybook.publish.prints import render_prints
from baybook.publish.site import written_site
from baybook.publish.store import PassingStore
from baybook.publish.verify import verify_entries
from baybook.superseded import old_pages
from baybook.telling import Speaker, tell_rules

_LONGEST_WAIT_S = 20.0
_DEPTH = 3  # guides/VEHICLE/FIT/file


@dataclass(frozen=True, slots=True, kw_only=True)
class _Good:
    """A state of the workbook that can be shown."""

    hand: Hand
    shared: Shared
    papers: tuple[str, ...]
    told: Mapping[str, tuple[FitTold, ...]]  # by vehicle


@dataclass(slots=True, kw_only=True)
class _Page:
    """One entry as it is shown, and what of it was asked for so far."""

    book: ToldBook  # of this entry alone
    siblings: Sequence[ToldEntry]
    pictures: Pictures
    files: dict[str, bytes] = field(default_factory=dict)
    whole: bool = False  # all that stands beside the page is made too
    # The earlier revisions that were asked for so far: they say what stands now.
    old: dict[int, Mapping[str, bytes]] = field(default_factory=dict)

    @property
    def entry(self) -> ToldEntry:
        (entry,) = self.book.entries
        return entry


class PreviewSite:
    """All pages of a workbook as it is saved now. Safe to use from several threads."""

    def __init__(
        self,
        workbook: Path,
        *,
        drafts: bool,
        today: Callable[[], date],
        templates: Path | None = None,
    ) -> None:
        """Show nothing yet: `refresh` looks at the workbook, and at templates of the shop's own."""
        self.folders = (workbook, templates) if templates else (workbook,)  # to be watched
        self._templates = templates
        self._workbook, self._drafts, self._today = workbook, drafts, today
        self._store = PassingStore()
        self._hand: Hand | None = None
        self._glances: dict[str, Glance] = {}
        self._issued: Issued | None = None
        self._good: _Good | None = None
        self._held: dict[str, tuple[ToldBook, ToldEntry]] = {}  # of fits that fail now
        self._pages: dict[str, _Page] = {}
        self._lists: dict[str, dict[str, bytes]] = {}  # of the state that is shown, by language
        self._written: dict[str, dict[str, bytes]] = {}
        self._working = Lock()
        self._changed = Condition()
        self.state = 0  # counts the saves that were worked out
        self.findings: tuple[Finding, ...] = ()
        self.stopped = ""

    def refresh(self, saved: Iterable[str] | None = None) -> None:
        """Work out the workbook again. What is wrong with it is kept beside the last good site.

        saved  paths that were written; None: any
        """
        with self._working:
            try:
                self._work_out(None if saved is None else tuple(map(Path, saved)))
                self.stopped = ""
            except (*STOPS, OverlayError) as cause:
                self.stopped = str(cause)
                self._hand = None  # half read: the next save looks at everything
        with self._changed:
            self.state += 1
            self._changed.notify_all()

    def get(self, address: str) -> bytes | None:
        """Return the file at an address of the site; None: there is none."""
        if address in assets():
            return assets()[address]
        with self._working:
            return self._get(self._good, address) if self._good else None

    def wait(self, state: int) -> bool:
        """Return whether the site is no longer as it was at `state`, after a while at most."""
        with self._changed:
            return self._changed.wait_for(lambda: self.state != state, timeout=_LONGEST_WAIT_S)

    # ------------------------------------------------------------------ a save

    def _work_out(self, saved: tuple[Path, ...] | None) -> None:
        touched = self._touched(saved)
        if touched is None or self._hand is None:
            self._hand, self._glances, self._issued = Hand(self._workbook, self._store), {}, None
        overlay = read_overlay(self._templates)
        hand, slugs = self._hand, self._hand.opened.slugs
        for slug in slugs:
            if touched is None or slug in touched or slug not in self._glances:
                self._glances[slug] = hand.glance(slug)
        glances = [self._glances[slug] for slug in slugs]
        self.findings = faults_of(hand.opened, [glance.vehicle for glance in glances])
        shop = hand.opened.shop
        if shop is None or self.findings:
            return
        texts, self.findings = translations(
            self._workbook, shop.model.languages, wanted_of(glances)
        )
        if self.findings:
            return
        matrix = readable(len(slugs), workbook_of(hand.opened, ()))
        shared = Shared(
            texts=texts,
            drafts=self._drafts,
            today=self._today(),
            matrix=matrix,
            overlay=overlay,
        )
        self._show(hand, shared, tuple(shop.model.papers), touched)

    def _touched(self, saved: tuple[Path, ...] | None) -> set[str] | None:
        """Return the vehicles that a save concerns; None: all, and what they share."""
        if saved is None or self._hand is None:
            return None
        slugs: set[str] = set()
        files: set[str] = set()
        root = self._workbook.resolve()
        for path in saved:
            slug = _vehicle_of(path, root / "vehicles")
            if slug not in self._glances:
                return None
            slugs.add(slug)
            files.add(shown_name(path, root))
        for slug, glance in self._glances.items():
            if glance.vehicle.findings or files & glance.vehicle.files:
                slugs.add(slug)
        return slugs

    def _show(
        self, hand: Hand, shared: Shared, papers: tuple[str, ...], touched: set[str] | None
    ) -> None:
        before = self._good
        if self._issued is None:
            self._issued = issued(self._workbook)
        hand.share(shared)
        kept: Mapping[str, tuple[FitTold, ...]] = {}
        if before and touched is not None and before.hand is hand and before.shared == shared:
            kept = {slug: told for slug, told in before.told.items() if slug not in touched}
        told = {
            order.slug: kept.get(order.slug) or hand.tell(order)
            for order in orders_of(hand.opened.slugs, self._issued)
        }
        reports = [part.report for parts in told.values() for part in parts if part.report]
        self._held = self._still_held({report.fit for report in reports if report.failed})
        self._good = _Good(hand=hand, shared=shared, papers=papers, told=told)
        self._lists = {}
        if before is None or before.hand is not hand:
            self._written = {}
        wrong = (finding for report in reports if report.failed for finding in report.findings)
        self.findings = tuple(dict.fromkeys(wrong))

    def _still_held(self, failed: set[str]) -> dict[str, tuple[ToldBook, ToldEntry]]:
        """Return the last good entries of fits that fail, by language folder and fit."""
        held = {at: pair for at, pair in self._held.items() if pair[1].fit in failed}
        if self._good is None:
            return held
        for parts in self._good.told.values():
            for part in parts:
                if part.fit_id in failed:
                    for speaker, entry in zip(self._good.hand.speakers, part.entries, strict=False):
                        at = f"{speaker.book.folder}{part.fit_id}"
                        held.setdefault(at, (speaker.book, entry))
        return held

    # ------------------------------------------------------------------ a page

    def _get(self, good: _Good, address: str) -> bytes | None:
        at, within = _tongue(good.hand.speakers, address)
        parts = within.split("/")
        if parts[0] == "guides" and len(parts) > _DEPTH:
            return self._of_entry(good, at, "/".join(parts[1:3]), within)
        if parts[0] == FOLDER and len(parts) > 1:
            return addressed(self._pictures(good, parts[1])).get(address)
        if within == "matrix.html":
            return self._list(good, at, pairings=True).get(within)
        found = self._list(good, at, pairings=False).get(within)
        return found if found is not None else self._hand_written(good, at).get(within)

    def _pictures(self, good: _Good, slug: str) -> Pictures:
        try:
            return good.hand.pictures(slug, good.told.get(slug, ()))
        except PictureError as cause:  # another save is on its way
            self.stopped = str(cause)
            return {}

    def _list(self, good: _Good, at: int, *, pairings: bool) -> dict[str, bytes]:
        speaker = good.hand.speakers[at]
        name = f"{speaker.book.language} {pairings}"
        if name not in self._lists:
            told = [
                part.entries[at] for parts in good.told.values() for part in parts if part.entries
            ]
            entries = tuple(map(listed, sorted(told, key=lambda entry: entry.fit)))
            rules = tell_rules(speaker.words)
            book = replace(speaker.book, entries=entries, rules=rules)
            if pairings:
                slugs = good.hand.opened.slugs
                lines = [made[at] for slug in slugs if (made := good.hand.pairings(slug))]
                book = replace(book, pairings=tuple(line for made in lines for line in made))
            self._lists[name] = index_pages(book)
        return self._lists[name]

    def _hand_written(self, good: _Good, at: int) -> dict[str, bytes]:
        book = good.hand.speakers[at].book
        if book.language not in self._written:
            self._written[book.language] = written_site(book)
        return self._written[book.language]

    def _of_entry(self, good: _Good, at: int, fit: str, address: str) -> bytes | None:
        book = good.hand.speakers[at].book
        told = good.told.get(fit.partition("/")[0], ())
        entry = next((p.entries[at] for p in told if p.fit_id == fit and p.entries), None)
        book, shown = self._held.get(f"{book.folder}{fit}", (book, entry))
        if shown is None:
            return None
        name = f"{book.folder}{fit}"
        page = self._pages.get(name)
        if page is None or page.entry is not shown:
            page = self._pages[name] = _Page(
                book=replace(book, entries=(shown,)),
                siblings=[listed(part.entries[at]) for part in told if part.entries],
                pictures=self._pictures(good, fit.partition("/")[0]),
            )
        if not page.files and address == f"{folder(fit)}/index.html":
            page.files = self._made(page, good.papers, alone=True)
        issues = next((part.issues for part in told if part.fit_id == fit), ())
        for issue in issues:
            if address.startswith(f"{old_folder(fit, issue.revision.number)}/"):
                return self._earlier(good, page, issue).get(f"{book.folder}{address}")
        if address.endswith(".pdf"):
            return _print(page.book, good.papers, address)
        if address not in page.files and not page.whole:
            page.files, page.whole = self._made(page, good.papers, alone=False), True
        return page.files.get(address)

    def _earlier(self, good: _Good, page: _Page, issue: Issue) -> Mapping[str, bytes]:
        """Return the files of an earlier revision, made when the first of them is asked for."""
        number = issue.revision.number
        if number not in page.old:
            books = [speaker.book for speaker in good.hand.speakers]
            pictures = self._pictures(good, issue.fit.partition("/")[0])
            page.old[number] = old_pages(books, [issue], page.entry, pictures)
        return page.old[number]

    def _made(self, page: _Page, papers: tuple[str, ...], *, alone: bool) -> dict[str, bytes]:
        """Make the page of an entry as it is published, alone or with all that stands beside it.

        The prints that it leads to come later.
        """
        book, entry = page.book, page.entry
        files = entry_pages(
            book,
            entry,
            draw_entries(book, PAGE, charts=not alone),
            {entry.fit: dict.fromkeys(papers, b"")},
            labels={entry.fit: dict.fromkeys(stocks_of(entry, book), b"")},
            pictures=page.pictures,
            siblings=page.siblings,
            alone=alone,
        )
        lost = verify_entries(book, files, alone=alone)
        if lost:
            self.stopped = f"lost on the way to the reader: {'; '.join(lost)}"
        return {name: file for name, file in files.items() if not name.endswith(".pdf")}


def _vehicle_of(path: Path, vehicles: Path) -> str:
    """Return the vehicle whose file or picture a path is; "" for anything else."""
    parts = path.relative_to(vehicles).parts if path.is_relative_to(vehicles) else ()
    own = parts[1:] == ("vehicle.yaml",) or parts[1:-1] == (FOLDER,)
    return parts[0] if own else ""


def _tongue(speakers: tuple[Speaker, ...], address: str) -> tuple[int, str]:
    """Return which language an address belongs to, and where it is in it."""
    for at, speaker in enumerate(speakers[1:], 1):
        if address.startswith(speaker.book.folder):
            return at, address.removeprefix(speaker.book.folder)
    return 0, address


def _print(book: ToldBook, papers: tuple[str, ...], address: str) -> bytes | None:
    """Return the print or the sheet of labels at an address of one entry; None: there is none."""
    (entry,) = book.entries
    for paper in papers:
        if address == f"{folder(entry.fit)}/job-sheet-{paper}.pdf":
            drawn = draw_entries(book, PAPER)
            return render_prints(book, drawn, papers=(paper,))[entry.fit][paper]
    for stock in stocks_of(entry, book):
        if address == f"{folder(entry.fit)}/labels-{stock}.pdf":
            return render_labels(book)[entry.fit][stock]
    return None
