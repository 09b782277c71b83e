"""Every entry of a readings file, asked one by one; the answers are kept as such a file."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date
from pathlib import Path
from typing import Any

import click
import yaml

from baybook.book import Outcome
from baybook.guide import Guide, ReadingLine
from baybook.intake.commission import reading_value, unit_of
from baybook.units import EXAMPLES, FigureError
from baybook.wording.catalogue import Catalogue
from baybook.wording.tell import tell


def ask(guide: Guide, outcome: Outcome, output: Path, today: date, words: Catalogue) -> Path:
    """Ask for all that a readings file holds, write it into `output`, return its path."""
    identity = guide.identity
    answers: dict[str, Any] = {"format": "1", "fit": identity.fit, "figures": outcome.figures}
    answers["vin"] = click.prompt("VIN, last 8")
    answers["on"] = today.isoformat()
    answers["fitted_by"] = click.prompt("fitted by")
    answers["checked_by"] = click.prompt("checked by")
    answers["tools"] = click.prompt("tools, by id, with spaces between", value_proc=str.split)
    answers["serials"] = {
        "charger": click.prompt("serial of the charger"),
        "station": click.prompt("serial of the station or battery"),
    }
    answers["readings"] = {row.id: _reading(row, words) for row in guide.readings}
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


def _figure(row: ReadingLine) -> Callable[[str], str]:
    """Return what turns an answer down that is no figure in the reading's unit."""

    def read(text: str) -> str:
        try:
            reading_value(row, text)
        except FigureError as wrong:
            such = EXAMPLES[unit_of(row)] if unit_of(row) != "1" else "5"
            raise click.BadParameter(
                f"`{text}` is no figure in its unit, such as {such}"
            ) from wrong
        return text.strip()

    return read
