"""The second half of the flow: one address of the site, from its fit to its finished files.

fit ─decide─▶ outcome ─enter─▶ entry ─tell─▶ told in every language ─draw, lay out, verify─▶ files

Every address is made alone, from what stands in its `Order` and what all share, in whatever
process and order: so the same bytes come out of one worker and of many.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from concurrent.futures import ProcessPoolExecutor
from dataclasses import dataclass, replace
from datetime import date
from multiprocessing import get_context

from baybook.book import Report, ToldBook, ToldEntry
from baybook.decide import decide
from baybook.drawing.entries import draw_entries
from baybook.fit import Fit
from baybook.intake.texts import Texts
from baybook.publish.editions import enter
from baybook.publish.history import Issue, issue_files, issue_of
from baybook.publish.labels import render_labels, verify_labels
from baybook.publish.listing import listed
from baybook.publish.pages import entry_pages, in_folder
from baybook.publish.prints import render_prints
from baybook.publish.typeset import one_thread
from baybook.publish.verify import verify_entries
from baybook.publish.verify_prints import verify_prints
from baybook.shop import Shop
from baybook.telling import Speaker, speakers, tell_entry

_WORTH_A_START = 2  # addresses for each process: it takes as long to start as to make one


@dataclass(frozen=True, slots=True, kw_only=True)
class Order:
    """One address that is to be made."""

    fit_id: str
    fit: Fit | None  # None: gone from the workbook
    issues: tuple[Issue, ...]  # what was published there before


@dataclass(frozen=True, slots=True, kw_only=True)
class Shared:
    """What all addresses of a publish have in common."""

    shop: Shop
    texts: Mapping[str, Texts]
    drafts: bool
    today: date


@dataclass(frozen=True, slots=True, kw_only=True)
class Made:
    """One address, made."""

    fit_id: str
    report: Report | None  # None: the fit is gone
    files: Mapping[str, bytes]  # of all languages, by address on the site
    issued: Mapping[str, bytes]  # the revision that `issued/` does not hold yet
    listed: tuple[ToldEntry, ...]  # for the lists of all, an entry a language; none: nothing there
    lost: tuple[str, ...]  # what did not reach the reader


class Maker:
    """Makes addresses; what they share is worked out once."""

    def __init__(self, shared: Shared) -> None:
        """Raise CatalogueError for a language of the shop that lacks a sentence."""
        self.shared = shared
        self.speakers: tuple[Speaker, ...] = speakers(shared.shop, shared.texts)

    def make(self, order: Order) -> Made:
        """Size, judge, compose, tell, draw, lay out, verify."""
        shared = self.shared
        outcome = decide(order.fit, shared.today) if order.fit else None
        entry = enter(outcome, order.issues, drafts=shared.drafts, today=shared.today)
        files: dict[str, bytes] = {}
        issued: dict[str, bytes] = {}
        told: tuple[ToldEntry, ...] = ()
        lost: tuple[str, ...] = ()
        if entry is not None:
            told = tell_entry(entry, order.issues, shared.shop, self.speakers)
            issued = issue_files([issue_of(*told)], {order.fit_id: order.issues})
            for speaker, one in zip(self.speakers, told, strict=True):
                own, missing = _lay_out(replace(speaker.book, entries=(one,)), shared.shop)
                files |= own
                lost += missing
        return Made(
            fit_id=order.fit_id,
            report=outcome.report if outcome else None,
            files=files,
            issued=issued,
            listed=tuple(map(listed, told)),
            lost=lost,
        )


def _lay_out(book: ToldBook, shop: Shop) -> tuple[dict[str, bytes], tuple[str, ...]]:
    """Return the files of a book of one entry, and what of it did not reach the reader."""
    (entry,) = book.entries
    drawings = draw_entries(book)
    prints = render_prints(book, drawings, papers=shop.papers, workers=1)
    labels = render_labels(book, workers=1)
    pages = entry_pages(book, entry, drawings, prints, labels)
    lost = verify_entries(book, pages) + verify_labels(book, labels)
    if shop.papers:
        lost += verify_prints(book, prints)
    return in_folder(pages, book), tuple(f"{book.folder}{what}" for what in lost)


def make_all(orders: Sequence[Order], shared: Shared, *, workers: int) -> Iterator[Made]:
    """Yield every address made, in the order of the orders.

    workers  processes at most; few addresses are made in this one
    """
    workers = min(workers, len(orders) // _WORTH_A_START)
    maker = Maker(shared)  # here too: what is wrong for all is told once, before any work
    if workers < 2:
        yield from map(maker.make, orders)
        return
    context = get_context("spawn")
    with ProcessPoolExecutor(workers, context, _start, (shared,)) as pool:
        try:
            yield from pool.map(_make, orders)
        finally:
            pool.shutdown(cancel_futures=True)


_MAKER: list[Maker] = []  # of a worker's process


def _start(shared: Shared) -> None:
    one_thread()
    _MAKER[:] = [Maker(shared)]


def _make(order: Order) -> Made:
    return _MAKER[0].make(order)
