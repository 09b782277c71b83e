"""Every entry of a readings file, asked one by one; the answers are kept as such a file."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date
from pathlib import Path
from typing import Any

import click
import yaml

from baybook.book import Outcome
from baybook.fit import Fit
from baybook.guide import Guide, ReadingLine
from baybook.intake.commission import reading_value, unit_of
from baybook.units import EXAMPLES, FigureError, read
from baybook.wording.catalogue import Catalogue
from baybook.wording.tell import tell


def ask(  # noqa: PLR0913, PLR0917 - a questionnaire, its answers and where they go
    guide: Guide, outcome: Outcome, fit: Fit, output: Path, today: date, words: Catalogue
) -> Path:
    """Ask for all that a readings file holds, write it into `output`, return its path."""
    identity = guide.identity
    answers: dict[str, Any] = {"format": "1", "fit": identity.fit, "figures": outcome.figures}
    answers["vin"] = click.prompt("VIN, last 8")
    answers["on"] = today.isoformat()
    answers["fitted_by"] = click.prompt("fitted by")
    answers["checked_by"] = click.prompt("checked by")
    answers["tools"] = click.prompt("tools, by id, with spaces between", value_proc=str.split)
    answers["serials"] = {
        "charger": click.prompt(f"serial of {identity.charger.text}"),
        "station": click.prompt(f"serial of {identity.station.text}"),
    }
    answers["readings"] = {row.id: _reading(row, words) for row in guide.readings}
    answers |= _supply() | _lengths(fit)
    deviations = click.prompt("not as drawn, with ; between", default="", show_default=False)
    answers["deviations"] = [part.strip() for part in deviations.split(";") if part.strip()]
    output.mkdir(parents=True, exist_ok=True)
    number = 1 + sum(1 for _ in output.glob("readings-*.yaml"))
    path = output / f"readings-{number}.yaml"
    path.write_text(yaml.safe_dump(answers, allow_unicode=True, sort_keys=False), encoding="utf-8")
    return path


def _reading(row: ReadingLine, words: Catalogue) -> str:
    told: Any = tell(row.what, words)
    state: Any = tell(row.state, words)
    points = "".join(row.points)
    where = f" at {points}" if len(row.points) == _TWO else ""
    return str(
        click.prompt(f"{row.id} {told['text']}{where}, {state['text']}", value_proc=_figure(row))
    )


_TWO = 2  # a reading between two points


def _supply() -> dict[str, Any]:
    """Ask for this vehicle's running volts; what is left out stays as surveyed."""
    asked = {
        end: _measured(f"{end} running volts at the posts of this vehicle, Enter as surveyed", "V")
        for end in ("low", "typical", "high")
    }
    given = {end: text for end, text in asked.items() if text}
    return {"supply": given} if given else {}


def _lengths(fit: Fit) -> dict[str, Any]:
    """Ask for each segment's length as laid; where one differs the file holds them all."""
    segments = fit.vehicle.routes[fit.job.route].segments
    laid = [
        _measured(f"length as laid of {one.name}, Enter {one.length.written}", "m")
        for one in segments
    ]
    if not any(laid):
        return {}
    pairs = zip(segments, laid, strict=True)
    return {"lengths": [text or one.length.written for one, text in pairs]}


def _measured(question: str, unit: str) -> str:
    return str(click.prompt(question, default="", show_default=False, value_proc=_in_unit(unit)))


def _in_unit(unit: str) -> Callable[[str], str]:
    """Return what turns an answer down that is neither empty nor a figure in this unit."""

    def taken(text: str) -> str:
        try:
            if text.strip():
                read(text, unit)
        except FigureError as wrong:
            raise click.BadParameter(
                f"`{text}` is no figure in its unit, such as {EXAMPLES[unit]}"
            ) from wrong
        return text.strip()

    return taken


def _figure(row: ReadingLine) -> Callable[[str], str]:
    """Return what turns an answer down that is no figure in the reading's unit."""

    def taken(text: str) -> str:
        try:
            reading_value(row, text)
        except FigureError as wrong:
            such = EXAMPLES[unit_of(row)] if unit_of(row) != "1" else "5"
            raise click.BadParameter(
                f"`{text}` is no figure in its unit, such as {such}"
            ) from wrong
        return text.strip()

    return taken
