"""`baybook publish` at the terminal: progress, findings, what was published."""

from __future__ import annotations

import sys
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from datetime import date
from pathlib import Path

import click

from baybook.desk.report import catalogue, print_drafts, print_findings
from baybook.pipeline import STOPS, Rendered, publish


def run_publish(workbook: Path, output: Path, *, drafts: bool, today: date) -> int:
    """Publish, say what happened, return the exit status."""
    words = catalogue()
    try:
        with _progress() as tick:
            rendered = publish(workbook, output, drafts=drafts, today=today, progress=tick)
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
    _say(rendered, output)
    what = "a draft, marked as one" if drafts else "a draft, left out; --drafts publishes it"
    print_drafts(rendered.reports, words, what)
    if not rendered.reports:
        click.echo("the workbook has no fit: the site has no guide", err=True)
    return 1 if any(report.failed for report in rendered.reports) else 0


def _say(rendered: Rendered, output: Path) -> None:
    for report in rendered.reports:
        click.echo(f"{report.fit}  {report.verdict}  {' '.join(report.codes)}".rstrip())
    click.echo(f"published {len(rendered.files)} files in {output}; open {output / 'index.html'}")


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
