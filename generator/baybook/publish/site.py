"""Guides and hand-written pages, joined to one site.

MkDocs builds the hand-written pages in a process of its own: it empties its output folder as it
starts, and it keeps state in its process. Our finished files never go through it.
"""

from __future__ import annotations

import json
import subprocess
import sys
from collections.abc import Mapping
from dataclasses import asdict
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any, TypeVar

from baybook.book import ToldBook
from baybook.publish.frame import shop_frame
from baybook.publish.policy import require_policy
from baybook.publish.store import Store, digest
from baybook.publish.tool import tool_digest
from baybook.publish.written import written_folder, written_pages

TIME_LIMIT_S = 120
File = TypeVar("File")


class SiteError(Exception):
    """A site that cannot be put together: it says which file, and what to do."""


def written_site(book: ToldBook, *, folder: Path | None = None) -> dict[str, bytes]:
    """Return the hand-written pages of `folder` in the frame of a book's site, by address.

    Raises SiteError if MkDocs warns or fails, PageError for a page without its policy.
    """
    with TemporaryDirectory(prefix="baybook-site-") as scratch:
        staging = Path(scratch) / "built"
        _build(folder or written_folder(book.language), staging, Path(scratch), book)
        pages = read_tree(staging)
        require_policy(pages)
        return pages


def kept_site(book: ToldBook, store: Store) -> dict[str, bytes]:
    """Return the same pages out of a store: built once for every tool and frame.

    Raises SiteError if MkDocs warns or fails.
    """
    frame = json.dumps(_frame(book), sort_keys=True).encode()
    key = digest(b"hand-written", tool_digest().encode(), frame)
    noted = store.noted(key) or {}
    kept = {address: store.read(name) for address, name in noted.items()}
    whole = {address: page for address, page in kept.items() if page is not None}
    if noted and len(whole) == len(noted):
        return whole
    made = written_site(book)
    store.note(key, {address: store.keep(page) for address, page in made.items()})
    return made


def _frame(book: ToldBook) -> dict[str, Any]:
    return {
        "words": dict(book.words),
        "frame": {
            "language": book.language,
            "shop": shop_frame(book.shop),
            "written": [page._asdict() for page in written_pages(book.language)],
            "tongue": book.folder,
            "matrix": book.matrix,
            "tongues": [asdict(tongue) for tongue in book.tongues],
        },
        "overlay": asdict(book.overlay),
    }


def _build(folder: Path, staging: Path, scratch: Path, book: ToldBook) -> None:
    build = {"config": str(folder / "mkdocs.yml"), "staging": str(staging), **_frame(book)}
    request = scratch / "build.json"
    request.write_text(json.dumps(build), "utf-8")
    command = [sys.executable, "-m", "baybook.publish.hand_written", str(request)]
    try:
        done = subprocess.run(  # noqa: S603 - our own module, in the interpreter that runs us
            command, capture_output=True, text=True, timeout=TIME_LIMIT_S, check=False
        )
    except subprocess.TimeoutExpired:
        raise SiteError(f"MkDocs took longer than {TIME_LIMIT_S} s for {folder}") from None
    if done.returncode:
        raise SiteError(
            f"the hand-written pages in {folder} cannot be built:\n{done.stderr.strip()}"
        )


def read_tree(folder: Path) -> dict[str, bytes]:
    """Return every file under `folder`, by address."""
    return {
        file.relative_to(folder).as_posix(): file.read_bytes()
        for file in sorted(folder.rglob("*"))
        if file.is_file()
    }


def merge(*parts: Mapping[str, File]) -> dict[str, File]:
    """Return all parts as one. Raises SiteError if two files claim one address.

    Addresses that differ only in case count as one: some disks do not tell them apart.
    """
    whole: dict[str, File] = {}
    taken: dict[str, str] = {}
    for part in parts:
        for address, content in part.items():
            other = taken.setdefault(address.casefold(), address)
            if address in whole or other != address:
                raise SiteError(f"two files claim the address {address}; rename one of them")
            whole[address] = content
    _refuse_file_as_folder(taken)
    return dict(sorted(whole.items()))


def _refuse_file_as_folder(taken: Mapping[str, str]) -> None:
    for folded, address in taken.items():
        parents = folded.split("/")[:-1]
        for depth in range(1, len(parents) + 1):
            above = "/".join(parents[:depth])
            if above in taken:
                raise SiteError(f"{taken[above]} is a file and the folder of {address}; rename one")
