"""`baybook survey`: the blank sheet to fill in at the vehicle, from the fields of its file."""

from __future__ import annotations

from pathlib import Path
from typing import Any, Final

import click

from baybook.desk.fields import Field
from baybook.desk.report import catalogue
from baybook.desk.sheet_order import SIDES, Part, nouns_surveyed
from baybook.drawing.survey import draw_grid
from baybook.publish.typeset import PrintJob, as_json, require_glyphs, typeset
from baybook.units import UNITS
from baybook.wording.catalogue import Catalogue

_PHOTOS: Final = 18
_SHORT: Final = 4  # words of a list that are printed as boxes to tick
_WIDE: Final = {"text": 2.0, "figure": 1.4, "word": 1.3, "id": 1.3, "day": 1.2}
_NARROW: Final = 1.05
_LETTER: Final = 0.18  # width of a letter of a column's head, on the same scale


def survey_pdf(outline: str, paper: str, language: str = "en") -> bytes:
    """Return the sheet as a PDF of two pages, the same bytes each time.

    outline   one of the words of `outline:` in a vehicle file
    paper     "a4" or "letter"
    language  of its sentences; a field keeps the name that it has in the file
    """
    words = catalogue(language)
    data = survey_data(outline, words)
    require_glyphs("survey", data)
    drawn = [
        draw_grid(outline, side, title=words.sentence(f"survey.{side}").format(outline=outline))
        for side in ("above", "beside")
    ]
    pictures = [{"svg": one.svg, "alt": one.title} for one in drawn]
    job = PrintJob(
        fit="survey", data=as_json(data | {"pictures": pictures}), papers=(paper,), seconds=0,
        sheet="survey",
    )  # fmt: skip
    return typeset([job])[job.fit][paper]


def survey_data(outline: str, words: Catalogue) -> dict[str, Any]:
    """Return what stands on the sheet: its words, and each part with its fields."""
    fields = nouns_surveyed()
    sides = [[[_part(part, fields, words) for part in band] for band in side] for side in SIDES]
    own = {key: text for key, text in words.words().items() if key.startswith("survey.")}
    kept = {key: text for key, text in own.items() if ".how." not in key and ".part." not in key}
    return {
        "language": words.language,
        "outline": outline,
        "words": kept,
        "sides": sides,
        "photos": [kept["survey.photo"].format(number=n) for n in range(1, _PHOTOS + 1)],
    }


def _part(part: Part, fields: dict[str, tuple[Field, ...]], words: Catalogue) -> dict[str, Any]:
    return {
        "id": part.id,
        "title": words.sentence(f"survey.part.{part.id}"),
        "form": part.form,
        "rows": part.rows,
        "first": words.sentence(f"survey.{part.first}") if part.first else "",
        "width": part.width,
        "fields": [_field(field, words) for noun in part.nouns for field in fields[noun]],
    }


def _field(field: Field, words: Catalogue) -> dict[str, Any]:
    label = field.name.replace("_", " ")
    longest = max(map(len, label.split()))
    return {
        "key": field.key,
        "label": label,
        "unit": _unit(field),
        "needed": field.required,
        "unknown": field.unknown or "unknown" in field.words,
        "ticks": _ticks(field),
        "words": list(field.words),
        "how": words.sentence(f"survey.how.{field.key}"),
        "wide": max(_WIDE.get(field.kind, _NARROW), _LETTER * longest),
        "figure": field.kind == "figure",
    }


def _unit(field: Field) -> str:
    if field.kind != "figure":
        return ""
    return next(row.spellings[0] for row in UNITS if row.inside == field.unit)


def _ticks(field: Field) -> list[str]:
    if field.kind == "yes":
        return ["true", "false"]
    short = len(field.words) <= _SHORT or field.key == "Vehicle.outline"
    return list(field.words) if short else []


def run_survey(outline: str, paper: str, language: str, output: Path) -> int:
    """Write the sheet and say where it is."""
    pdf = survey_pdf(outline, paper, language)
    try:
        output.write_bytes(pdf)
    except OSError as cause:
        raise click.UsageError(f"{output} cannot be written: {cause.strerror}") from None
    click.echo(output)
    return 0
