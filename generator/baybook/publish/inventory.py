"""What a folder holds, told by digests: to know what changed since the last publish."""

from __future__ import annotations

import os
from collections.abc import Iterator, Mapping
from hashlib import file_digest
from pathlib import Path

from baybook.publish.store import digest

_PUBLISHED = "issued"  # revisions that stand: each vehicle's note asks for its own


def inventory(workbook: Path) -> dict[str, str]:
    """Return the digest of everything a person wrote into a workbook, named as marks name it.

    Links are told by where they lead, not by what is there; hidden files are the editor's.
    """
    root = workbook.resolve()
    found = {}
    for path in _files(root):
        parts = path.relative_to(root).parts
        if parts[0] != _PUBLISHED:
            found["/".join((root.name, *parts))] = _digest(path)
    return found


def digests(files: Mapping[str, Path]) -> dict[str, str]:
    """Return the digest of each of these files, "" for one that is gone."""
    return {name: _digest(path) for name, path in files.items()}


def stamps(folder: Path) -> dict[str, tuple[int, int]]:
    """Return size and time of every file in a folder: what can be told without reading them."""
    found = {}
    for path in _files(folder, hidden=True):
        there = path.lstat()
        found[path.relative_to(folder).as_posix()] = (there.st_size, there.st_mtime_ns)
    return found


def _files(folder: Path, *, hidden: bool = False) -> Iterator[Path]:
    for at, below, names in os.walk(folder):
        if not hidden:
            below[:] = [name for name in below if not name.startswith(".")]
        links = [name for name in below if Path(at, name).is_symlink()]
        for name in [*names, *links]:
            if hidden or not name.startswith("."):
                yield Path(at, name)


def _digest(path: Path) -> str:
    try:
        if path.is_symlink():
            return digest(b"link", os.fsencode(path.readlink()))
        if not path.is_file():
            return digest(b"neither file nor link")
        with path.open("rb") as content:
            return file_digest(content, "sha256").hexdigest()
    except FileNotFoundError:
        return ""
