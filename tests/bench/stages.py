"""Where the time goes: `python tests/bench/stages.py WORKBOOK OUTPUT [PAPER]...`.

Runs the stages of `pipeline.render` one by one over a workbook, as one process, writes the
site, and prints as JSON the CPU seconds of each stage. With no paper nothing is printed.
CPU seconds count the processes that a stage starts.
"""

from __future__ import annotations

import json
import resource
import sys
import time
from collections.abc import Callable
from datetime import date
from pathlib import Path
from typing import TypeVar

TODAY = date(2024, 12, 2)
Made = TypeVar("Made")


def cpu() -> float:
    """Return the CPU seconds of this process and of all that it started and ended."""
    children = resource.getrusage(resource.RUSAGE_CHILDREN)
    return time.process_time() + children.ru_utime + children.ru_stime


class Clock:
    """Adds up CPU seconds by stage."""

    def __init__(self):
        self.seconds: dict[str, float] = {}
        self._last = cpu()

    def stage(self, name: str, work: Callable[[], Made]) -> Made:
        before = cpu()
        made = work()
        self.seconds[name] = cpu() - before
        return made


def run(workbook: Path, output: Path, papers: tuple[str, ...]) -> dict[str, float]:
    """Publish a workbook stage by stage; return CPU seconds by stage."""
    clock = Clock()
    clock.stage("start", _load)
    from baybook import checks, pipeline
    from baybook.sizing.choose import choose

    book, problems = clock.stage("read", lambda: pipeline.read_workbook(workbook))
    assert book is not None, problems
    clock.stage("size", lambda: [choose(fit, checks.judge) for fit in book.fits])
    outcomes = clock.stage("compose", lambda: [pipeline.decide(fit, TODAY) for fit in book.fits])
    clock.seconds["compose"] -= clock.seconds["size"]  # decide sizes too
    entries = pipeline.enter(outcomes, {}, drafts=False, today=TODAY)
    told = clock.stage(
        "tell", lambda: pipeline.tell_books(pipeline.Book(shop=book.shop, entries=entries), {})[0]
    )
    drawings = clock.stage("draw", lambda: pipeline.draw_entries(told))
    prints = {}
    if papers:
        prints = clock.stage("print", lambda: pipeline.render_prints(told, drawings, papers=papers))
    pages = clock.stage("pages", lambda: pipeline.render_pages(told, drawings, prints))
    lost = clock.stage("verify pages", lambda: pipeline.verify_entries(told, pages))
    if papers:
        lost += clock.stage("verify prints", lambda: pipeline.verify_prints(told, prints))
    assert not lost, lost
    files = clock.stage("site", lambda: pipeline.build_site(pages, told))
    clock.stage("write", lambda: pipeline.publish_tree(files, output, workbook=workbook))
    return clock.seconds


def _load() -> None:
    import baybook.pipeline  # noqa: F401


if __name__ == "__main__":
    _, name, site, *wanted = sys.argv
    print(json.dumps(run(Path(name), Path(site), tuple(wanted))))
