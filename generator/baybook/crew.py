"""Several hands at work: processes that each read and make vehicles of one workbook."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from concurrent.futures import ProcessPoolExecutor
from contextlib import contextmanager
from multiprocessing import get_context
from pathlib import Path

from baybook.making import Glance, Hand, Made, Order, Shared
from baybook.publish.store import Store
from baybook.publish.typeset import one_thread

_WORTH_A_START = 2  # vehicles for each process: it takes as long to start as to make one
_AT_ONCE = 8  # vehicles that a process reads before it answers


class Crew:
    """The hands of one publish: this process alone, or a pool of others."""

    def __init__(self, hand: Hand, pool: ProcessPoolExecutor | None) -> None:
        """Use `pool`, or where there is none `hand` alone."""
        self._hand, self._pool = hand, pool

    def glance(self, slugs: Sequence[str]) -> Iterator[Glance]:
        """Yield a glance at each vehicle, in their order."""
        if self._pool is None:
            return map(self._hand.glance, slugs)
        return self._pool.map(_glance, slugs, chunksize=_AT_ONCE)

    def make(self, orders: Sequence[Order], shared: Shared) -> Iterator[Made]:
        """Yield each vehicle made, in their order."""
        self._hand.share(shared)  # here too: what is wrong for all is told before any work
        if self._pool is None:
            return map(self._hand.make, orders)
        return self._pool.map(_make, orders, [shared] * len(orders))


@contextmanager
def crew(workbook: Path, hand: Hand, store: Store, *, workers: int) -> Iterator[Crew]:
    """Let `workers` processes at most work on a workbook; few vehicles need no process."""
    workers = min(workers, len(hand.opened.slugs) // _WORTH_A_START)
    if workers <= 1:
        yield Crew(hand, None)
        return
    # Spawned, never forked: Typst runs threads of its own.
    arguments = (workbook, store.folder)
    pool = ProcessPoolExecutor(workers, get_context("spawn"), _start, arguments)
    try:
        yield Crew(hand, pool)
    finally:
        pool.shutdown(cancel_futures=True)


_HANDS: list[Hand] = []  # of a worker's process: its own one


def _start(workbook: Path, store: Path) -> None:
    one_thread()
    _HANDS[:] = [Hand(workbook, Store(store))]


def _glance(slug: str) -> Glance:
    return _HANDS[0].glance(slug)


def _make(order: Order, shared: Shared) -> Made:
    (hand,) = _HANDS
    hand.share(shared)
    return hand.make(order)
