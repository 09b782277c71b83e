"""What a folder holds, told by digests: to know what changed since the last publish."""

from __future__ import annotations

import os
from collections.abc import Callable, Iterator, Mapping
from contextlib import suppress
from hashlib import file_digest
from pathlib import Path

from baybook.publish.store import digest

_PUBLISHED = "issued"  # revisions that stand: each vehicle's note asks for its own


def inventory(workbook: Path) -> dict[str, str]:
    """Return the digest of everything a person wrote into a workbook, named as marks name it.

    Links are told by where they lead, not by what is there; hidden files are the editor's.
    """
    root = workbook.resolve()
    return {
        f"{root.name}/{name}": _digest(Path(there)) for name, there in walked(root, _not_written)
    }


def _not_written(name: str) -> bool:
    return name == _PUBLISHED or name.rpartition("/")[2].startswith(".")


def digests(files: Mapping[str, Path]) -> dict[str, str]:
    """Return the digest of each of these files, "" for one that is gone."""
    return {name: _digest(path) for name, path in files.items()}


def stamps(folder: Path) -> dict[str, tuple[int, int]]:
    """Return size and time of every file in a folder: what can be told without reading them."""
    found = {}
    for name, there in walked(folder):
        stat = there.stat(follow_symlinks=False)
        found[name] = (stat.st_size, stat.st_mtime_ns)
    return found


def walked(
    folder: Path, leave: Callable[[str], bool] = lambda _name: False
) -> Iterator[tuple[str, os.DirEntry[str]]]:
    """Yield all files and links below a folder, each with its name from there.

    leave  tells by its name what is left out, a folder with all that is in it

    No link is followed. What is not there, or may not be read, holds nothing.
    """
    yield from _walked(os.fspath(folder), "", leave)


def _walked(
    folder: str, above: str, leave: Callable[[str], bool]
) -> Iterator[tuple[str, os.DirEntry[str]]]:
    with suppress(OSError), os.scandir(folder) as entries:
        for entry in entries:
            name = above + entry.name
            if leave(name):
                continue
            if entry.is_dir(follow_symlinks=False):
                yield from _walked(entry.path, f"{name}/", leave)
            else:
                yield name, entry


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
