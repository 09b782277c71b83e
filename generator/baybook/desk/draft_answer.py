"""One answer of a person → the text of its value in YAML, read by the reader of the files."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import yaml
from pydantic import ValidationError, create_model

from baybook.desk.fields import Field
from baybook.finding import Finding, Name
from baybook.intake.document import OPEN
from baybook.intake.explain import explain
from baybook.intake.loose import SHEET_KEYS
from baybook.intake.problems import nearest, problem
from baybook.intake.reader import FileReader
from baybook.intake.source import Source
from baybook.intake.tree import grow
from baybook.quantity import Basis, Mark, State

_YES = {"y": "true", "yes": "true", "n": "false", "no": "false"}
_HERE = Mark("answer", 1, 1)
# What ends a line in YAML and not in JSON: it would be read back as a space.
_BREAKS = str.maketrans({"\x85": r"\N", "\u2028": r"\L", "\u2029": r"\P"})


class AnswerError(Exception):
    """An answer that cannot be written down, with what the reader says of it."""

    def __init__(self, *findings: Finding) -> None:
        super().__init__(findings[0].code)
        self.findings = findings


def read_answer(typed: str, field: Field, bases: tuple[str, ...], workbook: Path) -> str:
    """Return an answer as it stands in the file.

    typed     what the person wrote: of a list the entries with `;` between them; of a figure
              perhaps ` @ basis` behind it; of a word perhaps its number in the list
    bases     names of the bases of the file

    Raises AnswerError with the findings of the reader.
    """
    if field.many != "list":
        return _one(typed.strip(), field, bases, workbook)
    entries = [part.strip() for part in typed.strip().removesuffix(";").split(";")]
    return f"[{', '.join(_one(entry, field, bases, workbook, flow=True) for entry in entries)}]"


def _one(
    typed: str, field: Field, bases: tuple[str, ...], workbook: Path, *, flow: bool = False
) -> str:
    if typed == OPEN:
        raise AnswerError(problem("DA-08", "open", _HERE, at=field.key, found=Name(typed)))
    typed, _, basis = (part.strip() for part in typed.partition(" @ "))
    if field.kind == "yes":
        typed = _YES.get(typed.lower(), typed)
    if field.words and typed.isdecimal() and 1 <= int(typed) <= len(field.words):
        typed = field.words[int(typed) - 1]
    if basis and basis not in bases:
        near = nearest(basis, bases)
        raise AnswerError(
            problem("DA-13", "basis", _HERE, at=field.key, found=Name(basis), near=near)
        )
    _read(_quoted(typed, flow=flow), field)
    _known_sheet(typed, field, workbook)
    if basis:
        return f"{{value: {_quoted(typed, flow=True)}, basis: {basis}}}"
    return _quoted(typed, flow=flow)


def _quoted(text: str, *, flow: bool) -> str:
    """Return a text as YAML reads it back unchanged, in quotes only where it has to be."""
    written = f"[{text}]" if flow else text
    try:
        events = [
            e
            for e in yaml.parse(f"k: {written}", yaml.CSafeLoader)
            if isinstance(e, yaml.ScalarEvent)
        ]
    except yaml.YAMLError:
        return _in_quotes(text)
    plain = len(events) == 2 and events[1].value == text and not events[1].style  # noqa: PLR2004 - key and value
    return text if plain and " #" not in text else _in_quotes(text)


def _in_quotes(text: str) -> str:
    return json.dumps(text, ensure_ascii=False).translate(_BREAKS)


def _read(written: str, field: Field) -> None:
    """Let the reader of the files read one value. Raises AnswerError."""
    tree, found = grow(Source("answer", f"{field.name}: {written}\n"), field.owner)
    findings = list(found)
    if tree is not None and not findings:
        options: dict[str, Any] = {field.name: (field.annotation, ...)}
        model = create_model("Answer", **options)
        reader = FileReader({}, Basis(state=State.ESTIMATED))
        try:
            model.model_validate(tree, context={"reader": reader})
        except ValidationError as error:
            findings += explain(error, tree, model, field.owner)
    if findings:
        raise AnswerError(*findings)


def _known_sheet(typed: str, field: Field, workbook: Path) -> None:
    """Refuse the id of a data sheet that the workbook does not have."""
    kind = SHEET_KEYS.get(field.name) if field.owner == "Job" else None
    if kind is None:
        return
    kinds = (kind, "battery") if field.name == "station" else (kind,)
    there = [path.stem for one in kinds for path in (workbook / "datasheets" / one).glob("*.yaml")]
    if typed not in there:
        near = nearest(typed, there)
        raise AnswerError(problem("DA-14", "id", _HERE, at=field.key, found=Name(typed), near=near))
