"""`baybook workings`: the calculation behind a figure, as an engineer writes it."""

from __future__ import annotations

import json
from collections.abc import Iterable, Iterator, Mapping, Sequence
from datetime import date
from difflib import get_close_matches
from pathlib import Path
from typing import Any

import click
from rich.console import Console
from rich.text import Text

from baybook.compose.sources import registered
from baybook.decide import decide
from baybook.design import CheckedDesign
from baybook.desk.report import catalogue, print_findings, select
from baybook.figure import Figure
from baybook.intake.read import read_workbook
from baybook.standards import Source, register
from baybook.wording.catalogue import Catalogue
from baybook.wording.tell import tell

FORMAT = 1
_TRAIL = ("by", "on", "instrument", "method", "document", "seen", "note")


def run_workings(  # noqa: PLR0913 - what the command line may ask for
    workbook: Path, fit_id: str, name: str | None, *, today: date, deep: bool, as_json: bool
) -> int:
    """Print the workings of one figure, or of all; return the exit status.

    deep  also those of every figure that goes into it
    """
    words = catalogue()
    book, problems = read_workbook(workbook, [fit_id])
    print_findings(problems, words)
    if book is None:
        return 1
    by_id = {fit.id: fit for fit in book.fits}
    select(list(by_id), [fit_id])
    result = decide(by_id[fit_id], today).result
    figures = result.design.figures if isinstance(result, CheckedDesign) else result.figures
    wanted = _wanted(figures, name, deep=deep)
    battery = by_id[fit_id].second is not None
    if as_json:
        told = [tell(figure, words, battery=battery) for figure in wanted]
        data = {"format": FORMAT, "fit": fit_id, "figures": told}
        click.echo(json.dumps(data, ensure_ascii=False, indent=1))
        return 0
    console = Console(highlight=False, soft_wrap=True)
    for figure in wanted:
        console.print(working(figure, words, battery=battery))
    return 0


def _wanted(figures: Sequence[Figure], name: str | None, *, deep: bool) -> list[Figure]:
    if name is None:
        return list(figures)
    by_name = {figure.name: figure for figure in figures}
    if name not in by_name:
        names = ", ".join(by_name) or "none: the fit is refused early"
        near = get_close_matches(name, by_name, n=3)
        hint = f"near it: {', '.join(near)}" if near else f"there are: {names}"
        raise click.UsageError(f"no figure `{name}`; {hint}")
    if not deep:
        return [by_name[name]]
    behind = _behind(by_name[name], by_name, {name: None})
    return [by_name[name], *(by_name[one] for one in behind if one != name)]


def _behind(
    figure: Figure, by_name: Mapping[str, Figure], seen: dict[str, None]
) -> dict[str, None]:
    """Return the names of all figures that one rests on; the loop of warmth ends in itself."""
    for given in figure.inputs:
        if given.figure in by_name and given.figure not in seen:
            seen[given.figure] = None
            _behind(by_name[given.figure], by_name, seen)
    return seen


def working(figure: Figure, words: Catalogue, *, battery: bool = False) -> Text:
    """Return one figure with symbol, formula, numbers, result, basis of each input, and source."""
    told: Any = tell(figure, words, battery=battery)
    text = Text()
    text.append(f"{told['title']['text']}  ", "bold").append(f"{figure.name}\n", "dim")
    text.append(f"  {figure.formula}\n")
    if figure.inputs:
        text.append(f"  {' ' * len(figure.symbol)} = {told['numbers']['text']}\n")
    text.append(f"  {figure.symbol} = ").append(f"{told['amount']['text']}\n", "bold")
    for line in _inputs(told["inputs"]):
        text.append(f"    {line}\n")
    if told["between"]:
        text.append(f"  {told['between']['text']}\n")
    if figure.end:
        text.append(f"  {words.sentence(figure.end)}\n")
    for line in _sources(figure, told["inputs"], words):
        text.append(f"  rule: {line}\n")
    if follow := _follow(figure):
        text.append(f"  follow: {', '.join(follow)}\n")
    return Text("".join(_shown(text.plain)), spans=text.spans)


def _shown(text: str) -> Iterator[str]:
    # A person's text may carry anything; a terminal gets no control character from it.
    for character in text.replace("\N{NO-BREAK SPACE}", " "):
        yield (
            character
            if character.isprintable() or character == "\n"
            else "\N{REPLACEMENT CHARACTER}"
        )


def _inputs(inputs: Iterable[Mapping[str, Any]]) -> Iterator[str]:
    for given in inputs:
        title = f", {given['title']['text']}" if given["title"] else ""
        yield f"{given['symbol']} = {given['amount']['text']}{title}: {origin(given)}"


def origin(given: Mapping[str, Any]) -> str:
    """Return where a told input comes from: by whom, when, with what, which paper, which line."""
    if given["figure"]:
        return f"figure {given['figure']}"
    parts: list[str] = []
    if basis := given["basis"]:
        parts += [str(basis["state"]), *(str(basis[key]) for key in _TRAIL if basis[key])]
    if given["otherwise"]:
        end = f", its {given['end']} end" if given["end"] else ""
        parts.append(f"written {given['otherwise']}{end}")
    if where := given["where"]:
        parts.append(f"{where['file']}:{where['line']}")
    if given["source"]:
        parts.append(f"[{given['source']}]")
    return "; ".join(parts)


def _sources(
    figure: Figure, inputs: Iterable[Mapping[str, Any]], words: Catalogue
) -> Iterator[str]:
    known = register()
    cited = dict.fromkeys([*figure.sources, *(one["source"] for one in inputs if one["source"])])
    for one in cited:
        yield f"[{one}] {_reference(known[one], words)}" if one in known else f"[{one}]"


def _reference(source: Source, words: Catalogue) -> str:
    line: Any = tell(registered(source), words)
    return f"{line['title']['text']}, {line['detail']['text']}"


def _follow(figure: Figure) -> list[str]:
    return list(dict.fromkeys(given.figure for given in figure.inputs if given.figure))
