"""`baybook draft`: a vehicle file by question and answer, in the order of the survey sheet.

Every answer is read at once by the reader of the files, and written at once: whoever leaves
loses nothing, and the same command goes on.
"""

from __future__ import annotations

import re
import sys
from collections.abc import Iterator
from dataclasses import dataclass, field
from pathlib import Path
from typing import Final, TextIO

import click

from baybook.desk.draft_answer import AnswerError, read_answer
from baybook.desk.draft_text import (
    Place,
    filled,
    left_out,
    open_places,
    opened,
    skeleton,
    taken_over,
)
from baybook.desk.fields import Field
from baybook.desk.report import catalogue, flat, text_of
from baybook.finding import Finding
from baybook.units import EXAMPLES
from baybook.wording.catalogue import Catalogue
from baybook.wording.tell import tell

_ID: Final = re.compile(r"[a-z0-9][a-z0-9-]{0,63}")
_HELP: Final = (
    "Enter: leave it open · - : leave the key out · = : as it was · q : leave; "
    "the same command goes on\n"
    "A figure with its unit, and ` @ basis` where it rests on another basis; entries of a list "
    "with ; between them"
)
_MOST: Final = 40  # entries opened at once


def run_draft(workbook: Path, name: str, source: str | None) -> int:
    """Ask what is open in a vehicle file, from the start or where it was left; return 0."""
    path = workbook / "vehicles" / name / "vehicle.yaml"
    if not _ID.fullmatch(name):
        raise click.UsageError(f"`{name}` is no folder name: small letters, digits and -")
    if path.exists() and source:
        raise click.UsageError(f"{path} is there already; go on with it without --from")
    text = path.read_text("utf-8") if path.exists() else _start(workbook, name, source)
    talk = _Talk(workbook=workbook, path=path, text=text, words=catalogue(), answers=sys.stdin)
    talk.save()
    click.echo(f"{path}\n{_HELP}")
    while talk.ask():
        pass
    left = len(talk.places())
    told = "every place is answered: run `baybook check`"
    click.echo(f"\n{path}: {f'{left} open' if left else told}")
    return 0


def _start(workbook: Path, name: str, source: str | None) -> str:
    if source is None:
        return skeleton(name)
    there = workbook / "vehicles" / source / "vehicle.yaml"
    if not _ID.fullmatch(source) or not there.is_file():
        raise click.UsageError(f"no vehicle `{source}` in {workbook / 'vehicles'}")
    return taken_over(there.read_text("utf-8"), name, source)


@dataclass(slots=True, kw_only=True)
class _Talk:
    workbook: Path
    path: Path
    text: str
    words: Catalogue
    answers: TextIO
    passed: set[str] = field(default_factory=set)  # left open in this sitting

    def places(self) -> tuple[Place, ...]:
        try:
            return open_places(self.text)
        except ValueError as cause:
            raise click.UsageError(f"{self.path}: {cause}") from None

    def save(self) -> None:
        """Write the file whole or not at all."""
        self.path.parent.mkdir(parents=True, exist_ok=True)
        beside = self.path.with_name(f".{self.path.name}.new")
        beside.write_text(self.text, encoding="utf-8", newline="\n")
        beside.replace(self.path)

    def ask(self) -> bool:
        """Ask for the next open place; False when there is none, or nobody answers."""
        place = next((one for one in self.places() if one.path not in self.passed), None)
        if place is None:
            return False
        for line in _question(place, self.words):
            click.echo(line)
        click.echo("> ", nl=False)
        typed = self.answers.readline()
        if not typed or typed.strip() == "q":
            return False
        self._take(place, typed.strip())
        return True

    def _take(self, place: Place, typed: str) -> None:
        if not typed:
            self.passed.add(place.path)
        elif typed == "-" and place.field.required:
            click.echo("  it is needed: answer it, or leave it open with Enter")
        elif typed == "=" and not place.was:
            click.echo("  nothing stood there before")
        else:
            try:
                self.text = self._answered(place, typed)
            except AnswerError as error:
                for finding in error.findings:
                    click.echo(f"  {_told(finding, self.words)}")
            else:
                self.save()

    def _answered(self, place: Place, typed: str) -> str:
        if typed == "-":
            return left_out(self.text, place)
        if typed == "=":
            return filled(self.text, place, place.was)
        if place.field.group:
            return self._opened(place, typed)
        value = read_answer(typed, place.field, self._bases(), self.workbook)
        return filled(self.text, place, value)

    def _opened(self, place: Place, typed: str) -> str:
        many = place.field.many
        if typed in ("no", "n", "0", "none"):
            if not place.field.required:
                return left_out(self.text, place)
            if many == "list":
                return filled(self.text, place, "[]")
        entries = _entries(typed, place.field)
        if entries is None:
            click.echo(f"  asked for: {_form(place)}")
            return self.text
        return opened(self.text, place, entries)

    def _bases(self) -> tuple[str, ...]:
        block = re.search(r"(?m)^bases:\n((?:[ #].*\n|\n)*)", self.text)
        return tuple(re.findall(r"(?m)^  ([a-z0-9-]+):", block[1])) if block else ()


def _entries(typed: str, asked: Field) -> tuple[str, ...] | None:
    """Return the entries of a group that an answer names; None for an answer that is none."""
    if asked.many == "map":
        names = tuple(dict.fromkeys(typed.replace(",", " ").replace(";", " ").split()))
        known = re.compile(asked.names)
        return names if names and all(map(known.fullmatch, names)) else None
    if asked.many == "list":
        wanted = int(typed) if typed.isdecimal() else 0
        return tuple(map(str, range(wanted))) if 0 < wanted <= _MOST else None
    return () if typed in ("yes", "y") else None


def _question(place: Place, words: Catalogue) -> Iterator[str]:
    asked = place.field
    yield f"\n{place.path}: {asked.description}" + ("" if asked.required else " (optional)")
    how = f"survey.how.{asked.key}"
    if words.has(how):
        yield f"  how: {words.sentence(how)}"
    if asked.words:
        yield "  " + " · ".join(f"{n} {word}" for n, word in enumerate(asked.words, start=1))
    if place.was:
        yield f"  was: {place.was}"
    yield f"  {_form(place)}"


def _form(place: Place) -> str:
    asked = place.field
    if asked.group:
        return {
            "map": "ids, a space between them",
            "list": f"how many, up to {_MOST}",
            "": "is there one: yes or no",
        }[asked.many]
    if asked.kind == "figure":
        return f"e.g. {EXAMPLES[asked.unit]}" + (", or unknown" if asked.unknown else "")
    forms = {"yes": "yes or no", "whole": "a whole number", "day": "year-month-day", "id": "an id"}
    return forms.get(asked.kind, "one of these" if asked.words else "in words")


def _told(finding: Finding, words: Catalogue) -> str:
    told = tell(finding, words)
    title = flat(told["title"]["text"])
    return f"{title}: {text_of(told['found'])}; right: {flat(text_of(told['allowed']))}"
