"""`baybook workings`: the calculation behind a figure, as an engineer writes it."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date
from pathlib import Path
from typing import Any

import click

from baybook.decide import decide
from baybook.design import CheckedDesign
from baybook.desk.report import catalogue, print_findings, select
from baybook.figure import Figure, Input
from baybook.intake.read import read_workbook
from baybook.wording.catalogue import Catalogue
from baybook.wording.tell import tell


def run_workings(workbook: Path, fit_id: str, name: str | None, *, today: date) -> int:
    """Print the workings of one figure, or of all; return the exit status."""
    words = catalogue()
    book, problems = read_workbook(workbook)
    print_findings(problems, words)
    if book is None:
        return 1
    by_id = {fit.id: fit for fit in book.fits}
    select(list(by_id), [fit_id])
    result = decide(by_id[fit_id], today).result
    figures = result.design.figures if isinstance(result, CheckedDesign) else result.figures
    for figure in _wanted(figures, name):
        click.echo(working(figure, words))
    return 0


def _wanted(figures: Sequence[Figure], name: str | None) -> list[Figure]:
    if name is None:
        return list(figures)
    found = [figure for figure in figures if figure.name == name]
    if not found:
        names = ", ".join(figure.name for figure in figures) or "none: the fit is refused early"
        raise click.UsageError(f"no figure `{name}`; there are: {names}")
    return found


def working(figure: Figure, words: Catalogue) -> str:
    """Return one figure with symbol, formula, each number with its unit and basis, and source."""
    told: Any = tell(figure, words)
    lines = [f"{figure.name}: {figure.symbol} = {told['amount']['text']}", f"  {figure.formula}"]
    for given, said in zip(figure.inputs, told["inputs"], strict=True):
        lines.append(f"    {given.symbol} = {said['amount']['text']}{_origin(given)}")
    if figure.low != figure.high:
        lines.append(f"  from {figure.low:.6g} to {figure.high:.6g} {figure.unit}")
    if figure.sources:
        lines.append(f"  source: {', '.join(figure.sources)}")
    return "\n".join(lines).replace("\N{NO-BREAK SPACE}", " ") + "\n"


def _origin(given: Input) -> str:
    if given.figure:
        return f"  (figure {given.figure})"
    parts = [str(given.basis.state)] if given.basis else []
    if given.basis and given.basis.document:
        parts.append(given.basis.document)
    if given.where:
        parts.append(f"{given.where.file}:{given.where.line}")
    if given.source:
        parts.append(given.source)
    return f"  ({', '.join(parts)})" if parts else ""
