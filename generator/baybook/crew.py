"""Several hands at work: processes that each read and make vehicles of one workbook."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from concurrent.futures import ProcessPoolExecutor
from contextlib import contextmanager
from dataclasses import replace
from functools import lru_cache, partial
from multiprocessing import get_context
from pathlib import Path

import msgspec

from baybook.making import Glance, Hand, Made, Order, Shared
from baybook.publish.compact import compact
from baybook.publish.store import Store, StoreError
from baybook.publish.typeset import one_thread
from baybook.sweeping import sweep_rarely

_WORTH_A_START = 2  # vehicles for each process: it takes as long to start as to make one
_AT_ONCE = 8  # vehicles that a process reads before it answers


class Crew:
    """The hands of one publish: this process alone, or with a pool of others once there is need."""

    def __init__(self, workbook: Path, hand: Hand, store: Store, *, workers: int) -> None:
        """Let `workers` processes at most work beside `hand`; few vehicles need no process."""
        self._hand, self._workers = hand, workers
        self._store, self._arguments = store, (workbook, store.folder)
        self._pool: ProcessPoolExecutor | None = None

    def glance(self, slugs: Sequence[str]) -> Iterator[Glance]:
        """Yield a glance at each vehicle, in their order."""
        pool = self._pool_for(len(slugs))
        if pool is None:
            return map(self._hand.glance, slugs)
        return pool.map(_glance, slugs, chunksize=_AT_ONCE)

    def make(self, orders: Sequence[Order], shared: Shared) -> Iterator[Made]:
        """Yield each vehicle made, in their order."""
        self._hand.share(shared)  # here too: what is wrong for all is told before any work
        pool = self._pool_for(len(orders))
        if pool is None:
            return map(self._hand.make, orders)
        # The texts of all vehicles are sent with none of them: each process reads them once.
        texts = self._store.keep(compact(shared.texts))
        return pool.map(partial(_make, replace(shared, texts={}), texts), orders)

    def _pool_for(self, vehicles: int) -> ProcessPoolExecutor | None:
        workers = min(self._workers, vehicles // _WORTH_A_START)
        if self._pool is None and workers > 1:
            # Spawned, never forked: Typst runs threads of its own.
            spawn = get_context("spawn")
            self._pool = ProcessPoolExecutor(workers, spawn, _start, self._arguments)
        return self._pool

    def leave(self) -> None:
        """Let the other processes go, and do nothing that is not begun."""
        if self._pool is not None:
            self._pool.shutdown(cancel_futures=True)


@contextmanager
def crew(workbook: Path, hand: Hand, store: Store, *, workers: int) -> Iterator[Crew]:
    """Let `workers` processes at most work on a workbook."""
    hands = Crew(workbook, hand, store, workers=workers)
    try:
        yield hands
    finally:
        hands.leave()


_HANDS: list[Hand] = []  # of a worker's process: its own one


def _start(workbook: Path, store: Path) -> None:
    one_thread()
    sweep_rarely()
    _HANDS[:] = [Hand(workbook, Store(store))]


def _glance(slug: str) -> Glance:
    return _HANDS[0].glance(slug)


def _make(shared: Shared, texts: str, order: Order) -> Made:
    (hand,) = _HANDS
    hand.share(replace(shared, texts=_texts(hand, texts)))
    return hand.make(order)


@lru_cache(maxsize=1)
def _texts(hand: Hand, name: str) -> Mapping[str, Mapping[str, str]]:
    content = hand.store.read(name)
    if content is None:
        raise StoreError(f"{hand.store.folder} lost the translations; publish again")
    texts: Mapping[str, Mapping[str, str]] = msgspec.json.decode(content)
    return texts
