"""Typst behind one small door: data in, PDF bytes out. Nothing else of ours knows the engine."""

from __future__ import annotations

import os
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from typing import Any, Final

import typst
from fontTools.ttLib import TTFont

from baybook.overlay import NO_OVERLAY, Overlay
from baybook.publish.compact import compact
from baybook.shipped import shipped

_STANDARD: Final = "ua-1"  # PDF/UA-1, ISO 14289-1

_BLANKS: Final = 4  # of ten: two sheets are kept, and a print takes 2 % longer

# Never drawn, so never missing: line feed, zero width space, soft hyphen.
_UNSEEN = frozenset("\n\u200b\u00ad")


class PrintError(Exception):
    """A sheet that cannot be printed: it says which one, and what would be right."""


@dataclass(frozen=True, slots=True, kw_only=True)
class PrintJob:
    """Everything that one sheet needs, ready to be sent to another process."""

    fit: str
    data: str  # JSON
    papers: tuple[str, ...]
    seconds: int  # what the PDF gives as its time of making
    sheet: str = "sheet"  # file of templates/print
    overlay: Overlay = NO_OVERLAY


def typeset(jobs: Iterable[PrintJob]) -> dict[str, dict[str, bytes]]:
    """Return the PDFs of each job by paper.

    Raises PrintError for a sheet that Typst refuses or warns about.
    """
    return {job.fit: {paper: _compile(job, paper) for paper in job.papers} for job in jobs}


def forget() -> None:
    """Let the engine forget earlier sheets sooner.

    It keeps what it made for ten sheets more, some 80 MB of each. One vehicle's sheet helps little
    with the next one's, so blank ones are set in between: they count like any other.
    """
    for _ in range(_BLANKS):
        _compiler(shipped("templates")).compile(b" ", format="pdf")


def one_thread() -> None:
    """Keep the engine to one thread in a process that has a core to itself."""
    os.environ["RAYON_NUM_THREADS"] = "1"


def _compile(job: PrintJob, paper: str) -> bytes:
    try:
        pdf, warnings = _compiler(shipped("templates")).compile_with_warnings(
            _sources(job),  # type: ignore[type-var]  # its own manual has such a mapping
            format="pdf",
            sys_inputs={"data": job.data, "paper": paper},
            pdf_standards=[_STANDARD],
            timestamp=job.seconds,
        )
    except typst.TypstError as cause:
        said = cause.message
        told = said.removeprefix(_OURS) if said.startswith(_OURS) else f"{said}\n{cause.diagnostic}"
        raise PrintError(f"{job.fit} on {paper}: {told}") from None
    if warnings:
        raise PrintError(f"{job.fit} on {paper}: {'; '.join(w.message for w in warnings)}")
    if not isinstance(pdf, bytes):
        raise PrintError(f"{job.fit} on {paper}: one PDF was expected")
    return pdf


_OURS = "panicked with: "  # before a message that a template of ours gives


def _sources(job: PrintJob) -> dict[str, bytes]:
    """Return the templates of a sheet, the one that it begins with as `main.typ`."""
    own = {name: text.encode() for name, text in job.overlay.under("print").items()}
    files = {**_shipped(shipped("templates")), **own}
    return {"main.typ": files[f"{job.sheet}.typ"], **files}


@cache
def _shipped(templates: Path) -> Mapping[str, bytes]:
    return {file.name: file.read_bytes() for file in sorted((templates / "print").glob("*.typ"))}


@cache
def _compiler(templates: Path) -> typst.Compiler:
    return typst.Compiler(
        root=templates,
        font_paths=typst.Fonts(
            include_system_fonts=False,
            include_embedded_fonts=False,
            font_paths=[templates / "fonts"],
        ),
    )


# --------------------------------------------------------------------------- glyphs


def require_glyphs(fit: str, data: Mapping[str, Any]) -> None:
    """Raise PrintError if a string of `data` holds a character that the shipped font lacks."""
    known = _glyphs(shipped("templates") / "fonts") | _UNSEEN
    if known.issuperset("".join(texts(data))):
        return
    for place, text in _placed(data, ""):
        missing = sorted(set(text) - known)
        if missing:
            named = ", ".join(f"{sign!r} (U+{ord(sign):04X})" for sign in missing)
            raise PrintError(
                f"{fit}: the shipped font has no {named}, found at {place.lstrip('.')} in {text!r};"
                " write it in other characters"
            )


@cache
def _glyphs(folder: Path) -> frozenset[str]:
    """Return the characters that every shipped weight has."""
    covered = []
    for file in sorted(folder.glob("*.ttf")):
        with TTFont(file, lazy=True) as font:
            covered.append(set(map(chr, font.getBestCmap())))
    return frozenset(set.intersection(*covered))


def texts(node: Any) -> list[str]:  # noqa: ANN401 - JSON
    """Return every string of a JSON tree but its keys, in its order."""
    found: list[str] = []
    _collect(node, found)
    return found


def _collect(node: Any, found: list[str]) -> None:  # noqa: ANN401 - JSON
    if isinstance(node, str):
        found.append(node)
    elif isinstance(node, Mapping):
        for value in node.values():
            _collect(value, found)
    elif isinstance(node, Iterable):
        for value in node:
            _collect(value, found)


def _placed(node: Any, place: str) -> Iterator[tuple[str, str]]:  # noqa: ANN401 - JSON
    """Yield every string of a JSON tree with its dotted place."""
    if isinstance(node, str):
        yield place, node
    elif isinstance(node, Mapping):
        for key, value in node.items():
            yield from _placed(value, f"{place}.{key}")
    elif isinstance(node, Iterable):
        for at, value in enumerate(node):
            yield from _placed(value, f"{place}.{at}")


def as_json(data: Mapping[str, Any]) -> str:
    """Return `data` as compact JSON, the same bytes for the same data."""
    return compact(data).decode()
