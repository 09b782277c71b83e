"""`baybook check`: read, size, judge; verdicts for a person or the designs for a machine."""

from __future__ import annotations

import json
from collections.abc import Iterable, Mapping, Sequence
from datetime import date
from functools import partial
from pathlib import Path
from typing import Any

import click

from baybook.book import Outcome
from baybook.decide import decide
from baybook.design import CheckedDesign
from baybook.desk.raised import Raised, gather, path_from, top_of
from baybook.desk.report import catalogue, flat_text, print_drafts, print_grouped, select
from baybook.desk.sarif import sarif_log
from baybook.desk.workflow import workflow_commands
from baybook.figure import Figure
from baybook.finding import Finding
from baybook.guide import RefusalSheet
from baybook.intake.read import read_workbook
from baybook.intake.texts import read_texts
from baybook.plain import plain
from baybook.quantity import State
from baybook.rulebook import MANUAL
from baybook.wording.catalogue import Catalogue

_COLOURS = {"ok": "green", "caution": "yellow", "hold": "magenta", "refused": "red"}
_WEAKEST = (State.ESTIMATED, State.RULE, State.PAPER, State.MEASURED)


def run_check(workbook: Path, wanted: Sequence[str], *, today: date, form: str) -> int:
    """Check the fits named, or all; return the exit status.

    form  what is written to stdout: text, json, sarif or github
    """
    words = catalogue()
    book, problems = read_workbook(workbook, wanted)
    if book is not None:
        _, problems = read_texts(workbook, book, whole=not wanted)
        book = None if problems else book
    by_id = {fit.id: fit for fit in book.fits} if book else {}
    outcomes = [decide(by_id[name], today) for name in select(list(by_id), wanted)] if book else []
    raised = gather(problems, outcomes)
    site = book.shop.site.address if book else ""
    if form in ("sarif", "github"):
        for line in _review(form, raised, words, workbook, site):
            click.echo(line)
    else:
        print_grouped(raised, words)
        if raised and site:
            click.echo(f"every code explained: {site.rstrip('/')}/{MANUAL}", err=True)
        if form == "json":
            _print_json(problems, outcomes)
        elif book is None:
            _print_faults(problems)
        else:
            _print_verdicts(outcomes, words)
            print_drafts([outcome.report for outcome in outcomes], words, "a draft")
    return 1 if book is None or any(outcome.failed for outcome in outcomes) else 0


def _review(
    form: str, raised: Sequence[Raised], words: Catalogue, workbook: Path, site: str
) -> Iterable[str]:
    path = partial(path_from, top_of(workbook), workbook.resolve())
    if form == "github":
        return workflow_commands(raised, words, path)
    return (json.dumps(sarif_log(raised, words, path, site), ensure_ascii=False, indent=1),)


def _print_json(problems: Sequence[Finding], outcomes: Sequence[Outcome]) -> None:
    if problems:
        click.echo(json.dumps({"fits": [], "problems": plain(problems)}, ensure_ascii=False))
        return
    told = {"fits": [outcome_json(outcome) for outcome in outcomes]}
    click.echo(json.dumps(told, ensure_ascii=False, indent=1))


def _print_faults(problems: Sequence[Finding]) -> None:
    files = len({problem.where.file for problem in problems})
    click.echo(f"nothing checked: {_count(len(problems), 'fault')} in {_count(files, 'file')}")


def _count(number: int, thing: str) -> str:
    return f"{number} {thing}" if number == 1 else f"{number} {thing}s"


def _print_verdicts(outcomes: Sequence[Outcome], words: Catalogue) -> None:
    rows = [outcome.report for outcome in outcomes]
    wide = max((len(row.fit) for row in rows), default=0)
    for row, outcome in zip(rows, outcomes, strict=True):
        shown = click.style(f"{row.verdict:<13}", fg=_COLOURS[row.verdict.partition(",")[0]])
        click.echo(f"{row.fit:<{wide}}  {shown}  {' '.join(row.codes)}".rstrip())
        if isinstance(outcome.content, RefusalSheet) and outcome.content.change is not None:
            # The size that was asked for is refused, and a thicker one passes.
            click.echo(f"  {flat_text(outcome.content.change, words)}")
    counts = [row.verdict for row in rows]
    summary = ", ".join(f"{counts.count(v)} {v}" for v in dict.fromkeys(counts))
    click.echo(f"{len(rows)} checked: {summary}" if rows else "nothing to check")


def outcome_json(outcome: Outcome) -> dict[str, Any]:
    """Return one fit as the object that `check --json` prints."""
    result = outcome.result
    design = result.design if isinstance(result, CheckedDesign) else None
    figures = design.figures if design else result.figures  # type: ignore[union-attr]
    candidates = design.candidates if design else result.candidates  # type: ignore[union-attr]
    by_name = {figure.name: figure for figure in figures}
    return {
        "fit": outcome.fit.id,
        "verdict": str(outcome.verdict),
        "fingerprint": outcome.figures,
        "findings": plain((*outcome.findings, *outcome.faults)),
        "figures": {name: _figure(figure, by_name) for name, figure in by_name.items()},
        "circuit": plain(design.circuit) if design else None,
        "candidates": plain(candidates),
        "cascades": plain(design.cascades if design else result.cascades),  # type: ignore[union-attr]
        "substitutes": plain(design.substitutes if design else ()),
        "bounds": plain(design.bounds if design else ()),
    }


def _figure(figure: Figure, by_name: Mapping[str, Figure]) -> dict[str, Any]:
    return {
        "symbol": figure.symbol,
        "value": figure.value,
        "unit": figure.unit,
        "low": figure.low,
        "high": figure.high,
        "basis": weakest_basis(figure, by_name),
        "sources": list(figure.sources),
    }


def weakest_basis(figure: Figure, by_name: Mapping[str, Figure]) -> str:
    """Return the weakest state among all that the figure comes from."""
    states = _states(figure, by_name, set())
    return next((str(state) for state in _WEAKEST if state in states), "computed")


def _states(figure: Figure, by_name: Mapping[str, Figure], seen: set[str]) -> set[State]:
    seen.add(figure.name)
    states = {given.basis.state for given in figure.inputs if given.basis}
    for given in figure.inputs:
        if given.figure in by_name and given.figure not in seen:
            states |= _states(by_name[given.figure], by_name, seen)
    return states
