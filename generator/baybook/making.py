"""One vehicle of a workbook, from its file to its finished pages and prints.

file ─read─▶ fits ─decide─▶ outcome ─enter─▶ entry ─tell─▶ each language ─lay out, verify─▶ files

Every vehicle is made alone, from its own files and from what all share, in whatever process and
order: so one worker and many give the same bytes, and no more than one vehicle is held at a time.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date
from pathlib import Path

from baybook.book import Report, Told, ToldBook, ToldEntry
from baybook.decide import decide
from baybook.drawing.entries import PAGE, PAPER, draw_entries
from baybook.fit import Fit
from baybook.intake.read import ReadVehicle, open_workbook, read_vehicle_of, workbook_of
from baybook.intake.texts import Said, Texts, wanted
from baybook.matrix import lines
from baybook.overlay import NO_OVERLAY, Overlay
from baybook.publish.editions import enter
from baybook.publish.history import Issue, issue_files, issue_of, load_issues
from baybook.publish.labels import render_labels, verify_labels
from baybook.publish.links import Ways, require_links, site_of
from baybook.publish.listing import listed
from baybook.publish.pages import entry_pages, in_folder
from baybook.publish.pictures import Pictures, addressed, photos_of, sized
from baybook.publish.prints import render_prints
from baybook.publish.store import Store
from baybook.publish.verify import verify_entries
from baybook.publish.verify_prints import verify_prints
from baybook.shop import Shop
from baybook.superseded import old_pages
from baybook.telling import Speaker, speakers, tell_entry
from baybook.wording.tell import tell


@dataclass(frozen=True, slots=True, kw_only=True)
class Glance:
    """What is asked of every vehicle before the first is made."""

    vehicle: ReadVehicle  # without its fits
    fits: tuple[str, ...]
    wanted: Mapping[str, Said]


@dataclass(frozen=True, slots=True, kw_only=True)
class Order:
    """One vehicle that is to be made."""

    slug: str
    issued: Mapping[str, tuple[Path, ...]]  # fit → what was published at its address, as files
    there: bool = True  # False: gone from the workbook
    pages: bool = True  # False: only the lines of the matrix are asked for


@dataclass(frozen=True, slots=True, kw_only=True)
class Shared:
    """What all vehicles of a publish have in common, besides shop and data sheets."""

    texts: Mapping[str, Texts]
    drafts: bool
    today: date
    matrix: bool  # whether the site has the page of all pairings
    overlay: Overlay = NO_OVERLAY  # templates of the shop's own


@dataclass(frozen=True, slots=True, kw_only=True)
class FitTold:
    """One fit of a vehicle in the words of every language, before it is laid out."""

    fit_id: str
    report: Report | None  # None: the fit is gone from the workbook
    entries: tuple[ToldEntry, ...]  # an entry a language; none: there is nothing at its address
    issues: tuple[Issue, ...]

    @property
    def settled(self) -> bool:
        """Tell whether the same is said of it on any day, and nothing at the terminal."""
        if self.report is None:
            return not self.entries or self.issues[-1].kind == "withdrawal"
        return not (self.report.failed or self.report.draft)


@dataclass(frozen=True, slots=True, kw_only=True)
class Made:
    """One vehicle, made."""

    slug: str
    glance: Glance | None  # as it was read for this; None: it is gone from the workbook
    settled: bool  # see FitTold
    reports: tuple[Report, ...]
    files: Mapping[str, str]  # of all languages: address on the site → name in the store
    issued: Mapping[str, str]  # revisions that `issued/` does not hold yet → name in the store
    listed: tuple[tuple[ToldEntry, ...], ...]  # for the lists of all; an entry a language
    pairings: tuple[tuple[dict[str, Told], ...], ...]  # told lines of the matrix, by language
    lost: tuple[str, ...]  # what did not reach the reader
    ways: Ways  # where its pages lead out of its own files


class Hand:
    """Reads and makes the vehicles of a workbook, one at a time."""

    def __init__(self, workbook: Path, store: Store) -> None:
        """Read what all vehicles share."""
        self.opened = open_workbook(workbook)
        self.store = store
        self._shared: Shared | None = None
        self._read: ReadVehicle | None = None  # the one that was read last
        self._speakers: tuple[Speaker, ...] = ()

    @property
    def _shop(self) -> Shop:
        if self.opened.shop is None:
            raise ValueError("a workbook without a shop profile is not published")
        return self.opened.shop.model

    def glance(self, slug: str) -> Glance:
        """Read a vehicle; tell its faults and texts, and keep nothing of it."""
        self._read = None
        return self._glance(slug)

    def _glance(self, slug: str) -> Glance:
        read = self._vehicle(slug)
        shop = self.opened.shop.model if self.opened.shop else None
        translated = shop is not None and len(shop.languages) > 1
        return Glance(
            vehicle=replace(read, fits=()),
            fits=tuple(fit.id for fit in read.fits),
            wanted=wanted(read.fits) if translated else {},
        )

    def _vehicle(self, slug: str) -> ReadVehicle:
        if self._read is None or self._read.slug != slug:
            self._read = read_vehicle_of(self.opened, slug)
        return self._read

    def share(self, shared: Shared) -> None:
        """Take what the vehicles share. Raises CatalogueError for a language that lacks a word."""
        if shared != self._shared:
            self._shared = shared
            self._speakers = tuple(
                replace(
                    speaker,
                    book=replace(speaker.book, matrix=shared.matrix, overlay=shared.overlay),
                )
                for speaker in speakers(self._shop, shared.texts)
            )

    @property
    def speakers(self) -> tuple[Speaker, ...]:
        """The languages of the site, after `share`."""
        return self._speakers

    def tell(self, order: Order) -> tuple[FitTold, ...]:
        """Size, judge, compose and tell every fit of a vehicle, and what is gone of it."""
        fits = self._vehicle(order.slug).fits if order.there else ()
        issues = {fit: load_issues(files) for fit, files in order.issued.items()}
        gone = [fit for fit in issues if fit not in {fit.id for fit in fits}]
        return (
            *(self._fit(fit.id, fit, issues.get(fit.id, ())) for fit in fits),
            *(self._fit(fit, None, issues[fit]) for fit in gone),
        )

    def make(self, order: Order) -> Made:
        """Size, judge, compose, tell, draw, lay out and verify every fit of a vehicle.

        Raises SiteError for a link inside the vehicle's own pages that leads nowhere.
        """
        files: dict[str, bytes] = {}
        old: dict[str, bytes] = {}
        issued: dict[str, bytes] = {}
        lost: list[str] = []
        parts = self.tell(order) if order.pages else ()
        pictures = self.pictures(order.slug, parts)
        files |= addressed(pictures)
        listed_parts = tuple(tuple(map(listed, part.entries)) for part in parts if part.entries)
        for part in parts:
            if part.entries:
                issue = issue_of(*part.entries)
                issued |= issue_files([issue], {part.fit_id: part.issues})
                books = [speaker.book for speaker in self._speakers]
                old |= old_pages(books, part.issues, part.entries[0], pictures)
            for at, entry in enumerate(part.entries):
                book = replace(self._speakers[at].book, entries=(entry,))
                siblings = [all_of[at] for all_of in listed_parts]
                own, missing = _lay_out(book, self._shop, siblings, pictures)
                files |= own
                lost += missing
        return Made(
            slug=order.slug,
            glance=self._glance(order.slug) if order.there else None,
            settled=all(part.settled for part in parts),
            reports=tuple(part.report for part in parts if part.report),
            files=self._keep(files | old),
            issued=self._keep(issued),
            listed=listed_parts,
            pairings=self.pairings(order.slug) if order.there and self._paired else (),
            lost=tuple(lost),
            ways=require_links(files, site=site_of(self._shop)),
        )

    def pictures(self, slug: str, parts: Iterable[FitTold]) -> Pictures:
        """Return the pictures that the guides of a vehicle show, by digest.

        Raises PictureError for a file that is no longer what was read.
        """
        asked = {name for part in parts for entry in part.entries for name in photos_of(entry)}
        fits = self._vehicle(slug).fits if asked else ()
        files = {p.digest: p.file for fit in fits for p in fit.photos.values() if p.digest in asked}
        above = self.opened.root.resolve().parent
        return {n: sized(slug, n, above / file, self.store) for n, file in sorted(files.items())}

    def _fit(self, fit_id: str, fit: Fit | None, issues: tuple[Issue, ...]) -> FitTold:
        shared = self._shared
        if shared is None:
            raise ValueError("share first: the languages of the site are not known")
        outcome = decide(fit, shared.today) if fit else None
        entry = enter(outcome, issues, drafts=shared.drafts, today=shared.today)
        return FitTold(
            fit_id=fit_id,
            report=outcome.report if outcome else None,
            entries=tell_entry(entry, issues, self._shop, self._speakers) if entry else (),
            issues=issues,
        )

    @property
    def _paired(self) -> bool:
        return self._shared is not None and self._shared.matrix

    def pairings(self, slug: str) -> tuple[tuple[dict[str, Told], ...], ...]:
        """Return the told lines of the matrix of one vehicle, by language."""
        fits = self._vehicle(slug).fits
        if not fits:
            return ()
        paired = lines(workbook_of(self.opened, fits))
        return tuple(
            tuple(tell(paired, speaker.words, texts=speaker.texts)) for speaker in self._speakers
        )

    def _keep(self, files: Mapping[str, bytes]) -> dict[str, str]:
        return {address: self.store.keep(content) for address, content in files.items()}


def _lay_out(
    book: ToldBook, shop: Shop, siblings: Sequence[ToldEntry], pictures: Pictures
) -> tuple[dict[str, bytes], tuple[str, ...]]:
    """Return the files of a book of one entry, and what of it did not reach the reader.

    siblings  what is published of its vehicle, itself among it
    """
    (entry,) = book.entries
    drawings = draw_entries(book, (*PAGE, *PAPER) if shop.papers else PAGE)
    prints = render_prints(book, drawings, papers=shop.papers)
    labels = render_labels(book)
    pages = entry_pages(
        book, entry, drawings, prints, labels=labels, pictures=pictures, siblings=siblings
    )
    lost = verify_entries(book, pages) + verify_labels(book, labels)
    if shop.papers:
        lost += verify_prints(book, prints)
    return in_folder(pages, book), tuple(f"{book.folder}{what}" for what in lost)
