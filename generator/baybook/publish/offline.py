"""A guide without a network: what a device must keep of it, and what makes a site installable.

Nothing is kept unless a reader asks for it. The list beside a guide names its own pages, its
pictures in every size (which one a browser takes is its own choice) and the files that every page
needs, with their size; prints and data are left out.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from baybook.book import ToldBook, ToldEntry
from baybook.publish.data import FORMAT, as_bytes
from baybook.publish.frame import assets
from baybook.publish.store import digest

LIST = "offline.json"
WORKER = "worker.js"  # at the top of the site: it answers for everything below
MANIFEST = "site.webmanifest"
_PAPER, _INK = "#ffffff", "#111111"  # of the style sheet


def offline_list(
    entry: ToldEntry,
    beside: Mapping[str, bytes],
    pictures: Mapping[str, bytes],
    *,
    folder: str,
    root: str,
) -> bytes:
    """Return the list of what a device must keep to show an entry without a network.

    beside    the files of the entry's folder
    pictures  those that its page shows, by address on the site
    root      the way from that folder to the top of the site
    """
    own = {name: page for name, page in beside.items() if name.endswith(".html")}
    shared = {f"{root}/{name}": file for name, file in assets().items() if _needed(name)}
    whole = {**own, **shared, **{f"{root}/{name}": file for name, file in pictures.items()}}
    revision: Any = entry.content["revision"]
    version = digest(*(part for name in sorted(whole) for part in (name.encode(), whole[name])))
    return as_bytes(
        {
            "format": FORMAT,
            "guide": folder,
            "revision": revision["number"],
            "version": version,
            "bytes": sum(map(len, whole.values())),
            "files": sorted(whole),
        }
    )


def _needed(name: str) -> bool:
    kinds = (".css", ".woff2", ".svg", ".js")
    return name.endswith(kinds) and not name.endswith((WORKER, "finder.js"))


def at_root() -> dict[str, bytes]:
    """Return what must stand at the top of the site, whatever its languages."""
    return {WORKER: assets()[f"assets/{WORKER}"]}


def manifest(book: ToldBook) -> bytes:
    """Return what a device asks for to install the site (W3C Web Application Manifest)."""
    icon = "../assets/icon.svg" if book.folder else "assets/icon.svg"
    return as_bytes(
        {
            "name": book.shop["name"],
            "short_name": str(book.shop["name"])[:12].rstrip(),
            "lang": book.language,
            "start_url": "index.html",
            "scope": "./",
            "display": "minimal-ui",
            "background_color": _PAPER,
            "theme_color": _INK,
            "icons": [{"src": icon, "sizes": "any", "type": "image/svg+xml"}],
        }
    )
