"""Where the time goes: `python tests/bench/stages.py WORKBOOK OUTPUT [PAPER]...`.

Runs the stages of `making` and `pipeline` one by one over a workbook, as one process, writes the
site, and prints as JSON the CPU seconds of each stage. With no paper nothing is printed.
CPU seconds count the processes that a stage starts.
"""

from __future__ import annotations

import json
import resource
import sys
import time
from collections.abc import Callable
from dataclasses import replace
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
    from baybook import checks, making, pipeline
    from baybook.drawing.entries import PAGE, PAPER, draw_entries
    from baybook.intake.read import read_workbook
    from baybook.publish.editions import enter
    from baybook.publish.history import issue_files, issue_of
    from baybook.publish.labels import render_labels, verify_labels
    from baybook.publish.links import require_links, site_of
    from baybook.publish.pages import entry_pages, index_pages
    from baybook.publish.prints import render_prints
    from baybook.publish.site import merge, written_site
    from baybook.publish.verify import verify_entries
    from baybook.publish.verify_prints import verify_prints
    from baybook.sizing.choose import choose
    from baybook.telling import speakers, tell_entry, tell_rules

    book, problems = clock.stage("read", lambda: read_workbook(workbook))
    assert book is not None, problems
    clock.stage("size", lambda: [choose(fit, checks.judge) for fit in book.fits])
    outcomes = clock.stage("compose", lambda: [making.decide(fit, TODAY) for fit in book.fits])
    clock.seconds["compose"] -= clock.seconds["size"]  # decide sizes too
    entries = [enter(outcome, (), drafts=False, today=TODAY) for outcome in outcomes]
    (speaker,) = speakers(book.shop, {})
    told = clock.stage(
        "tell", lambda: [tell_entry(one, (), book.shop, (speaker,))[0] for one in entries if one]
    )
    whole = replace(speaker.book, entries=tuple(told))
    forms = (*PAGE, *PAPER) if papers else PAGE
    drawings = clock.stage("draw", lambda: draw_entries(whole, forms))
    prints = {}
    if papers:
        prints = clock.stage("print", lambda: render_prints(whole, drawings, papers=papers))
    labels = clock.stage("labels", lambda: render_labels(whole))
    pages = clock.stage(
        "pages",
        lambda: merge(*(entry_pages(whole, one, drawings, prints, labels=labels) for one in told)),
    )
    lost = clock.stage("verify pages", lambda: verify_entries(whole, pages))
    lost += clock.stage("verify labels", lambda: verify_labels(whole, labels))
    if papers:
        lost += clock.stage("verify prints", lambda: verify_prints(whole, prints))
    assert not lost, lost
    clock.stage("links", lambda: require_links(pages, site=site_of(book.shop)))
    clock.stage("keep revision", lambda: issue_files([issue_of(one) for one in told], {}))
    listed = replace(whole, rules=tell_rules(speaker.words))
    files = clock.stage("site", lambda: merge(pages, index_pages(listed), written_site(listed)))
    clock.stage("write", lambda: pipeline.publish_tree(files, output, workbook=workbook))
    return clock.seconds


def _load() -> None:
    import baybook.pipeline  # noqa: F401
    from baybook.sweeping import sweep_rarely

    sweep_rarely()  # as every process of a publish does


if __name__ == "__main__":
    _, name, site, *wanted = sys.argv
    print(json.dumps(run(Path(name), Path(site), tuple(wanted))))
