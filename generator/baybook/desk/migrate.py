"""`baybook migrate`: files of an older format brought up to the one that is read today.

Each migration knows two neighbours; a file goes from one to the next until it is up to date. Every
file is changed in memory first: either all are written, or none.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Final

import click

from baybook.finding import Finding
from baybook.intake.document import FORMAT
from baybook.intake.source import Source, read_source
from baybook.intake.tree import Scalar, grow

_FORMAT: Final = re.compile(r"(?m)^format: *(?P<quote>[\"']?)(?P<name>[^\s\"'#]+)(?P=quote)")


@dataclass(frozen=True, slots=True, kw_only=True)
class Migration:
    """From one format to the next."""

    to: str
    # kind of file ("shop", "vehicle", "charger" …) and its text → its text, `format:` left as it is
    change: Callable[[str, str], str]


# By the format that they start from. There has been one format, so there is none yet.
MIGRATIONS: Final[dict[str, Migration]] = {}


class MigrationError(Exception):
    """A file that cannot be brought up to date, and why."""


def migrated(
    text: str, kind: str, migrations: Mapping[str, Migration] = MIGRATIONS, today: str = FORMAT
) -> str:
    """Return the text of a file in today's format; one that is up to date as it is.

    Raises MigrationError for a file without a format, of a format that no migration starts from,
    or that a migration leaves unreadable.
    """
    passed = {today}
    while (old := _format_of(text)) != today:
        if old not in migrations or old in passed:
            known = ", ".join([*migrations, today])
            raise MigrationError(f"format {old} is not known; known: {known}")
        passed.add(old)
        step = migrations[old]
        text = _FORMAT.sub(f"format: {step.to}", step.change(kind, text), count=1)
        tree, findings = grow(Source("migrated", text), kind)
        written = tree.get("format") if tree is not None else None
        if findings or not isinstance(written, Scalar) or written != step.to:
            raise MigrationError(f"from format {old} to {step.to} it became unreadable")
    return text


def _format_of(text: str) -> str:
    found = _FORMAT.search(text)
    if found is None:
        raise MigrationError("no line `format:`")
    return found["name"]


def run_migrate(workbook: Path, *, dry_run: bool) -> int:
    """Bring every file of a workbook up to date; return 1, nothing written, if one cannot be."""
    changed: dict[Path, str] = {}
    faults = 0
    for path in _files(workbook):
        source = read_source(path, workbook)
        try:
            if isinstance(source, Finding):
                raise MigrationError("it cannot be read: `baybook check` says why")  # noqa: TRY301 - one way out
            new = migrated(source.text, _kind(path, workbook), MIGRATIONS, FORMAT)
        except MigrationError as error:
            faults += 1
            click.echo(f"{path}: {error}", err=True)
        else:
            if new != source.text:
                changed[path] = new
    if faults:
        click.echo("nothing written", err=True)
        return 1
    for path, text in changed.items():
        if not dry_run:
            _write(path, text)
        click.echo(path)
    told = f"{len(changed)} {'to bring' if dry_run else 'brought'} up to format {FORMAT}"
    click.echo(told if changed else f"every file is of format {FORMAT}")
    return 0


def _files(workbook: Path) -> list[Path]:
    sheets = sorted((workbook / "datasheets").glob("*/*.yaml"))
    return [
        workbook / "shop.yaml",
        *sheets,
        *sorted((workbook / "vehicles").glob("*/vehicle.yaml")),
    ]


def _kind(path: Path, workbook: Path) -> str:
    first, *rest = path.relative_to(workbook).parts
    return {"datasheets": rest[0] if rest else "", "vehicles": "vehicle"}.get(first, "shop")


def _write(path: Path, text: str) -> None:
    beside = path.with_name(f".{path.name}.new")
    beside.write_text(text, encoding="utf-8", newline="\n")
    beside.replace(path)
