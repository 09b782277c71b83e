"""The templates that a shop lays over ours: read, and held to what is allowed.

Only the layout of pages (Jinja2) and of prints (Typst) can be laid over, each file in place of the
shipped one of the same name. What such a layout drops is found in the finished page or print, as
for our own; see `verify` and `policy`.
"""

from __future__ import annotations

import re
from difflib import get_close_matches
from pathlib import Path
from typing import Final

from baybook.overlay import Overlay
from baybook.shipped import shipped

LARGEST: Final = 200_000  # bytes; the longest shipped template has a tenth of that
# Printed at the desk and not published; what MkDocs asks for itself.
_OTHERS = frozenset({"print/record.typ", "print/survey.typ", "pages/mkdocs/main.html"})
# How a text of Typst could reach beyond the files of the sheets: a module by a name that is put
# together, a package from the network, code in a string, code of another engine.
_IMPORT = re.compile(r"\b(?:import|include)\b(?! \"[a-z]+\.typ\")")
_REACH = re.compile(r"\b(?:eval|plugin|std)\b")


class OverlayError(Exception):
    """Templates that cannot be laid over ours: it says which file and line, and what to do."""


def read_overlay(folder: Path | None) -> Overlay:
    """Return the templates of a shop's own folder; none without a folder.

    Raises OverlayError for a folder that is not there, a name that no shipped template has, a
    link, a file that is no text or too large, broken syntax, and what reaches beyond its files.
    """
    if folder is None:
        return Overlay()
    if not folder.is_dir():
        raise OverlayError(f"{folder}: no such folder of templates")
    found = [path for path in sorted(folder.rglob("*")) if not _hidden(path, folder)]
    files = (path for path in found if path.is_symlink() or not path.is_dir())
    named = ((path.relative_to(folder).as_posix(), path) for path in files)
    return Overlay(str(folder), tuple((name, _text(name, path)) for name, path in named))


def _hidden(path: Path, folder: Path) -> bool:
    return any(part.startswith(".") for part in path.relative_to(folder).parts)


def _text(name: str, path: Path) -> str:
    known = _known()
    if name not in known:
        near = get_close_matches(name, known, n=1, cutoff=0) or sorted(known)
        raise OverlayError(f"{path}: no shipped template has this name; the nearest is {near[0]}")
    if path.is_symlink() or not path.is_file():
        raise OverlayError(f"{path}: a link, or no file; put the template itself there")
    with path.open("rb") as stream:
        raw = stream.read(LARGEST + 1)
    if len(raw) > LARGEST:
        raise OverlayError(f"{path}: more than {LARGEST:,} bytes; a template is far shorter")
    try:
        text = raw.decode("utf-8")
    except UnicodeDecodeError as cause:
        line = raw[: cause.start].count(b"\n") + 1
        raise OverlayError(f"{path}:{line}: not UTF-8; save it as UTF-8") from None
    if name.startswith("print/"):
        _require_within(text, path)
    else:
        _require_syntax(text, path)
    return text


def _known() -> set[str]:
    """Return the names of the shipped templates that can be laid over."""
    templates = shipped("templates")
    files = [*templates.glob("pages/**/*.*"), *templates.glob("print/*.typ")]
    return {file.relative_to(templates).as_posix() for file in files} - _OTHERS


def _require_syntax(text: str, path: Path) -> None:
    # Here: a publish with nothing to do needs neither.
    from jinja2 import TemplateSyntaxError  # noqa: PLC0415
    from jinja2.sandbox import ImmutableSandboxedEnvironment  # noqa: PLC0415

    try:
        ImmutableSandboxedEnvironment().parse(text)
    except TemplateSyntaxError as cause:
        raise OverlayError(f"{path}:{cause.lineno}: {cause.message}") from None


def _require_within(text: str, path: Path) -> None:
    for number, line in enumerate(text.splitlines(), 1):
        if found := _REACH.search(line):
            raise OverlayError(f"{path}:{number}: `{found[0]}` is not allowed in a layout")
        if found := _IMPORT.search(line):
            raise OverlayError(
                f"{path}:{number}: `{found[0]}` is allowed for a file of the sheets alone, "
                'as in: import "parts.typ"'
            )
