"""What this tool is, in one digest: every file that travels with it, and the libraries it uses."""

from __future__ import annotations

import sys
from collections.abc import Iterator
from functools import cache
from importlib.metadata import PackageNotFoundError, requires, version
from pathlib import Path
from re import match

import baybook
from baybook.publish.store import digest
from baybook.shipped import shipped

_FOLDERS = ("templates", "site", "standards")


@cache
def tool_digest() -> str:
    """Return a digest that changes with the code, a template, a standard, a language, a library."""
    return digest(*_parts())


def _parts() -> Iterator[bytes]:
    yield sys.version.encode()
    for name in sorted(_libraries()):
        yield f"{name} {version(name)}".encode()
    package = Path(baybook.__file__).parent
    yield from _files(package, "*.py")
    for folder in _FOLDERS:
        yield from _files(shipped(folder), "*")


def _files(folder: Path, pattern: str) -> Iterator[bytes]:
    for path in sorted(folder.rglob(pattern)):
        if path.is_file() and "__pycache__" not in path.parts:
            yield path.relative_to(folder).as_posix().encode()
            yield path.read_bytes()


def _libraries() -> Iterator[str]:
    """Yield the libraries that the tool declares and that are there."""
    for line in requires("baybook") or ():
        found = match(r"[A-Za-z0-9._-]+", line)
        if found is None or "extra ==" in line:
            continue
        try:
            version(found[0])
        except PackageNotFoundError:
            continue
        yield found[0]
