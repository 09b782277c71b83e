"""Findings and verdicts as lines for a terminal."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Sequence
from difflib import get_close_matches
from itertools import groupby
from typing import Any

import click

from baybook.book import Report
from baybook.desk.raised import Raised, gather
from baybook.finding import Finding, Message
from baybook.shipped import shipped
from baybook.wording.by_need import catalogue_by_need
from baybook.wording.catalogue import Catalogue
from baybook.wording.tell import tell


def catalogue(language: str = "en") -> Catalogue:
    """Return the sentences of the terminal, or of a print in another language."""
    return catalogue_by_need(shipped("templates"), language)


def finding_lines(finding: Finding, words: Catalogue) -> str:
    """Return one finding in the form of every message of the tool.

    place: verdict CODE: what
      at … · found … · allowed … · why … · way out … · source …
    """
    told: Any = tell(finding, words)
    where = finding.where
    place = f"{where.file}:{where.line}:{where.column}"
    details = [
        ("at", finding.place),
        ("found", text_of(told["found"])),
        ("allowed", text_of(told["allowed"])),
        ("why", told["why"]["text"]),
        ("way out", told["way_out"]["text"]),
        ("source", ", ".join(finding.sources)),
    ]
    line = " · ".join(f"{label} {flat(text)}" for label, text in details if text)
    return f"{place}: {finding.verdict} {finding.code}: {flat(told['title']['text'])}\n  {line}"


def flat_text(message: Message, words: Catalogue) -> str:
    """Return a message as text for one line of a terminal, its full stop left out."""
    return flat(text_of(tell(message, words)))


def text_of(told: Any) -> str:  # noqa: ANN401
    """Return the text of a told value."""
    return told["text"] if isinstance(told, dict) else str(told)


def flat(text: str) -> str:
    """Return a person's text as it may stand in one line of a terminal, without its full stop."""
    # A person's text may carry anything; a terminal line carries no control character.
    spaced = text.replace("\N{NO-BREAK SPACE}", " ")
    return "".join(c if c.isprintable() else f"\\x{ord(c):02x}" for c in spaced).rstrip(".")


def print_findings(findings: Iterable[Finding], words: Catalogue) -> None:
    """Print findings to stderr, ordered by place."""
    print_grouped(gather(tuple(dict.fromkeys(findings)), ()), words)


def print_grouped(raised: Sequence[Raised], words: Catalogue) -> None:
    """Print findings to stderr, file by file, with the fits that each belongs to."""
    for file, of_file in groupby(raised, key=lambda one: one.finding.where.file):
        group = list(of_file)
        click.secho(f"{file}: {_counted(group)}", bold=True, err=True)
        for one in group:
            click.echo(finding_lines(one.finding, words), err=True)
            if one.fits:
                click.echo(f"  in {', '.join(one.fits)}", err=True)


def _counted(raised: Sequence[Raised]) -> str:
    said = ["refused, kept" if one.kept else str(one.finding.verdict) for one in raised]
    return ", ".join(f"{count} {verdict}" for verdict, count in Counter(said).items())


def print_drafts(reports: Iterable[Report], words: Catalogue, what: str) -> None:
    """Say to stderr which guides are drafts and why, with the fingerprint an approval names.

    what  what becomes of a draft here
    """
    for report in reports:
        if report.draft:
            why = " ".join(text_of(tell(message, words)) for message in report.draft)
            click.echo(f"{report.fit}: {what}: {flat(why)} · figures {report.figures}", err=True)


def select(names: Sequence[str], wanted: Sequence[str]) -> list[str]:
    """Return the wanted names; a usage error with the nearest names for one that does not exist."""
    for name in wanted:
        if name not in names:
            near = get_close_matches(name, names, n=3) or list(names)[:5]
            raise click.UsageError(f"no fit `{name}` in this workbook; near it: {', '.join(near)}")
    return [name for name in names if not wanted or name in wanted]
