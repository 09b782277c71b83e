"""Read one file of a workbook: once, whole, and never a file outside it."""

from __future__ import annotations

import codecs
from dataclasses import dataclass
from pathlib import Path

from baybook.finding import Finding, Name
from baybook.intake.problems import problem
from baybook.quantity import Mark

_UTF_16 = (codecs.BOM_UTF16_LE, codecs.BOM_UTF16_BE)
_FIRST = 64  # bytes
LARGEST = 1_000_000  # bytes; the longest honest vehicle file has a twentieth of that


@dataclass(frozen=True, slots=True)
class Source:
    """The text of one file; `name` is its path from the folder that holds the workbook."""

    name: str
    text: str


def read_source(path: Path, root: Path) -> Source | Finding:
    """Return the text of `path`, or what keeps it from being read."""
    name = shown_name(path, root)
    if leads_out(path, root):
        return _unreadable(name, "outside")
    if not path.is_file():
        return _unreadable(name, "no-such-file" if not path.exists() else "no-file")
    try:
        with path.open("rb") as stream:
            raw = stream.read(LARGEST + 1)
    except OSError:
        return _unreadable(name, "closed")
    return _decoded(name, raw)


def shown_name(path: Path, root: Path) -> str:
    """Return the path from the folder that holds the workbook."""
    return (Path(root.resolve().name) / path.relative_to(root)).as_posix()


def leads_out(path: Path, root: Path) -> bool:
    """Tell whether a link or `..` takes this path out of the workbook."""
    try:
        return not path.resolve().is_relative_to(root.resolve())
    except (OSError, RuntimeError):  # links that lead to each other
        return True


def _decoded(name: str, raw: bytes) -> Source | Finding:
    if len(raw) > LARGEST:
        return _unreadable(name, "large")
    if raw.startswith(_UTF_16) or b"\0" in raw[:_FIRST]:  # every second byte of it is nought
        return problem("DA-02", "utf-16", Mark(name, 1, 1), found=Name("UTF-16"))
    try:
        text = raw.decode("utf-8")
    except UnicodeDecodeError as error:
        before = raw[: error.start].decode("utf-8").split("\n")
        line, column = len(before), len(before[-1]) + 1
        return problem("DA-02", "encoding", Mark(name, line, column))
    return Source(name, text.removeprefix("\ufeff"))


def _unreadable(name: str, reason: str) -> Finding:
    return problem("DA-01", reason, Mark(name, 1, 1))
