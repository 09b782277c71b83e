"""`baybook schema`: JSON Schema of each file of a workbook, for completion and hover in an editor.

It is wider than the reader: an editor helps to write, `check` decides. Draft 7, which editors of
YAML understand; YAML is taken as version 1.2, where `yes` is a word and a date is a text.
"""

from __future__ import annotations

import json
from collections.abc import Iterator
from pathlib import Path
from typing import Any, Final

import click
from pydantic import BaseModel

from baybook.desk.fields import Field, fields_of, nouns_below
from baybook.intake.likeness import KEY as LIKE
from baybook.intake.likeness import OWN
from baybook.intake.read import SHEETS
from baybook.job import Job
from baybook.shop import Shop
from baybook.terms import MEANINGS
from baybook.units import EXAMPLES, UNITS
from baybook.vehicle import Vehicle

FOLDER: Final = "schema"  # in the workbook
KINDS: Final[dict[str, type[BaseModel]]] = {
    "shop": Shop,
    "vehicle": Vehicle,
    "variant": Vehicle,  # a vehicle file that says only what differs
    **SHEETS,
}
_DRAFT: Final = "http://json-schema.org/draft-07/schema#"
_ID: Final = "^[a-z0-9][a-z0-9-]{0,63}$"
_FIGURE: Final = "^ *(AWG ?)?[+−-]?[0-9][^,]*$"  # the reader knows the rest
_DAY: Final = "^[0-9]{4}-[0-9]{2}-[0-9]{2}$"
_PART: Final = "-part"  # a noun of a variant: any of its keys may be left to the base


def schema_of(kind: str) -> dict[str, Any]:
    """Return the schema of one kind of file. Raises KeyError for a kind that is none of KINDS."""
    top = KINDS[kind]
    based = top is Vehicle
    whole = {noun.__name__: _noun(noun, based=based) for noun in nouns_below(top)}
    if kind == "variant":
        parts = {
            noun.__name__ + _PART: _noun(noun, based=True, part=True) for noun in nouns_below(top)
        }
        parts[top.__name__ + _PART]["required"] = ["format", "variant_of"]
        whole |= parts
    name = top.__name__ + (_PART if kind == "variant" else "")
    return {
        "$schema": _DRAFT,
        "title": f"{kind} of a baybook workbook",
        **whole.pop(name),
        "definitions": whole,
    }


def _noun(noun: type[BaseModel], *, based: bool, part: bool = False) -> dict[str, Any]:
    fields = fields_of(noun)
    properties = {field.name: _property(field, part=part) for field in fields}
    if based:
        properties["basis"] = {
            "title": "basis",
            "description": "name of one of the `bases:`; it holds for all figures below this line",
            "type": "string",
            "pattern": _ID,
        }
    said: dict[str, Any] = {"type": "object"}
    if noun.__doc__ and noun.__doc__ != BaseModel.__doc__:
        said["description"] = noun.__doc__
    needed = [field.name for field in fields if field.required]
    if noun is Job:
        properties[LIKE] = {
            "title": LIKE,
            "description": "id of a fit of this vehicle, written out whole, that this one is like; "
            "the rest of the entry says what differs",
            "type": "string",
            "pattern": _ID,
        }
    if noun is Job and not part:
        own = [name for name in needed if name in OWN]
        said["anyOf"] = [{"required": needed}, {"required": [LIKE, *own]}]
    elif needed and not part:
        said["required"] = needed
    return {**said, "properties": properties, "additionalProperties": False}


def _property(field: Field, *, part: bool) -> dict[str, Any]:
    title = field.name.replace("_", " ")
    said = {"title": f"{title}, in {_unit(field.unit)}" if field.kind == "figure" else title}
    said["description"] = field.description
    inner = _value(field, part=part and field.many != "list")
    if field.many == "list":
        return {**said, "type": "array", "items": inner}
    if field.many == "map":
        return {
            **said,
            "type": "object",
            "propertyNames": {"pattern": field.names},
            "additionalProperties": inner,
        }
    # Draft 7 overlooks what stands beside a $ref
    return {**said, "allOf": [inner]} if "$ref" in inner else {**said, **inner}


def _value(field: Field, *, part: bool) -> dict[str, Any]:
    if field.group:
        return {"$ref": f"#/definitions/{field.group.__name__}{_PART if part else ''}"}
    if field.kind == "figure":
        return _figure(field)
    if field.words:
        return _words(field)
    plain: dict[str, dict[str, Any]] = {
        "yes": {"type": "boolean"},
        "whole": {"type": "integer", "minimum": 0, "maximum": 999_999},
        "day": {"type": "string", "pattern": _DAY, "examples": ["2024-11-29"]},
        "id": {"type": "string", "pattern": _ID},
        "text": {"type": ["string", "number"]},  # a model may be called 500
    }
    return plain[field.kind]


def _words(field: Field) -> dict[str, Any]:
    if field.name == "format":
        return {"enum": [int(word) for word in field.words], "default": int(field.words[-1])}
    meanings = MEANINGS.get(field.listed, {}) if field.listed else {}
    if not meanings:
        return {"enum": list(field.words)}
    told = ({"const": word, "description": meanings.get(word, word)} for word in field.words)
    return {"oneOf": list(told)}


def _figure(field: Field) -> dict[str, Any]:
    types = ["string", "number"] if field.unit == "1" else ["string"]
    written = {"type": types, "pattern": _FIGURE, "examples": [EXAMPLES[field.unit]]}
    options = [written, {"const": "unknown", "description": "looked for, and not known"}]
    value = {"anyOf": options} if field.unknown else written
    extra = {
        "basis": {"type": "string", "description": "name of one of the `bases:`"},
        "method": {"type": "string", "description": "how this figure was measured or chosen"},
        "note": {"type": "string", "description": "what else there is to say of it"},
    }
    mapping = {
        "type": "object",
        "required": ["value"],
        "properties": {"value": value, **extra},
        "additionalProperties": False,
    }
    return {
        "anyOf": [*(options if field.unknown else [written]), mapping],
        "examples": [EXAMPLES[field.unit]],
    }


def _unit(inside: str) -> str:
    spellings = [row.spellings[0] for row in UNITS if row.inside == inside and row.spellings[0]]
    return ", ".join(spellings)


def schema_text(kind: str) -> str:
    """Return the schema as the text of its file."""
    return json.dumps(schema_of(kind), ensure_ascii=False, indent=1) + "\n"


def modeline(kind: str, depth: int) -> str:
    """Return the comment that leads an editor to the schema.

    depth  how many folders below the workbook the file lies
    """
    return f"# yaml-language-server: $schema={'../' * depth}{FOLDER}/{kind}.json"


def run_schema(kind: str | None, workbook: Path | None) -> int:
    """Print one schema, or the names of all; with a workbook, write all into it."""
    if workbook is not None:
        for path in _write(workbook):
            click.echo(path)
    elif kind is None:
        click.echo("\n".join(KINDS))
    else:
        click.echo(schema_text(kind), nl=False)
    return 0


def _write(workbook: Path) -> Iterator[Path]:
    folder = workbook / FOLDER
    folder.mkdir(exist_ok=True)
    for kind in KINDS:
        path = folder / f"{kind}.json"
        path.write_text(schema_text(kind), encoding="utf-8", newline="\n")
        yield path
