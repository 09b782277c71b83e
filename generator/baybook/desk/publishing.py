"""`baybook publish` at the terminal: progress, findings, what was published."""

from __future__ import annotations

import sys
from collections.abc import Callable, Iterable, Iterator, Mapping
from contextlib import contextmanager
from datetime import date
from pathlib import Path
from typing import Any

import click

from baybook.overlay import Overlay
from baybook.publish.overlaid import OverlayError, read_overlay
from baybook.publish.store import Store
from baybook.publish.writer import WriterError, require_output
from baybook.unchanged import Last


def run_publish(  # noqa: PLR0913 - as many ways to ask for a site
    workbook: Path,
    output: Path,
    *,
    drafts: bool,
    today: date,
    cache: Path | None,
    templates: Path | None = None,
) -> int:
    """Publish, say what happened, return the exit status.

    cache      without one, everything is made anew
    templates  folder of the shop's own, laid over the shipped ones
    """
    try:
        overlay = read_overlay(templates)
        require_output(output, workbook)
        if cache is not None:
            last = Last(Store(cache), workbook, output, drafts=drafts, overlay=overlay)
            if last.holds(today):
                _say(last.reports, "nothing changed:", len(last.standing.names), output)
                return 0
    except (WriterError, OverlayError, OSError) as cause:
        click.echo(f"nothing was published: {cause}", err=True)
        return 1
    return _publish(workbook, output, drafts=drafts, today=today, cache=cache, overlay=overlay)


def _publish(  # noqa: PLR0913 - as many ways to ask for a site
    workbook: Path, output: Path, *, drafts: bool, today: date, cache: Path | None, overlay: Overlay
) -> int:
    from baybook.desk.report import catalogue, print_drafts, print_findings
    from baybook.notes import plain_report
    from baybook.pipeline import STOPS, publish

    words = catalogue()
    try:
        with _progress() as tick:
            rendered = publish(
                workbook,
                output,
                drafts=drafts,
                today=today,
                progress=tick,
                cache=cache,
                overlay=overlay,
            )
    except STOPS as cause:
        click.echo(f"nothing was published: {cause}", err=True)
        return 1
    print_findings(rendered.problems, words)
    for report in rendered.reports:
        print_findings(report.findings, words)
    for lost in rendered.lost:
        click.echo(f"lost on the way to the reader: {lost}", err=True)
    if rendered.problems or rendered.lost:
        click.echo("nothing was published; the site is as it was", err=True)
        return 1
    _say(map(plain_report, rendered.reports), "published", len(rendered.files), output)
    what = "a draft, marked as one" if drafts else "a draft, left out; --drafts publishes it"
    print_drafts(rendered.reports, words, what)
    if not rendered.reports:
        click.echo("the workbook has no fit: the site has no guide", err=True)
    return 1 if any(report.failed for report in rendered.reports) else 0


def _say(reports: Iterable[Mapping[str, Any]], done: str, files: int, output: Path) -> None:
    for report in reports:
        codes = " ".join(report["codes"])
        click.echo(f"{report['fit']}  {report['verdict']}  {codes}".rstrip())
    click.echo(f"{done} {files} files in {output}; open {output / 'index.html'}")


@contextmanager
def _progress() -> Iterator[Callable[[str, int, int], None]]:
    """A bar on a terminal, a line per stage elsewhere."""
    if not sys.stderr.isatty():
        yield _plain_line
        return
    from rich.console import Console
    from rich.progress import Progress

    with Progress(console=Console(stderr=True), transient=True) as bar:
        tasks: dict[str, int] = {}

        def tick(stage: str, done: int, of: int) -> None:
            if stage not in tasks:
                tasks[stage] = bar.add_task(stage, total=of)
            bar.update(tasks[stage], completed=done)  # type: ignore[arg-type]

        yield tick


def _plain_line(stage: str, done: int, of: int) -> None:
    if done == of:
        click.echo(f"{stage}: {of}", err=True)
