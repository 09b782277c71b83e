"""The same guides as data: one JSON file beside each page, and one list of all."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from baybook.book import Told, ToldBook, ToldEntry
from baybook.publish.compact import compact
from baybook.publish.home import folder

FORMAT = 1


def guide_json(entry: ToldEntry, shop: dict[str, Told], pictures: Mapping[str, Any]) -> bytes:
    """Return one entry as it was told, with the mark of demonstration data on it.

    pictures  by number, what its page shows of them: their files count from its folder
    """
    files = {number: picture["files"] for number, picture in pictures.items()}
    return as_bytes(
        {
            "format": FORMAT,
            "fit": entry.fit,
            "kind": entry.kind,
            "language": entry.language,
            "shop": shop["name"],
            "demonstration": shop["demonstration"],
            **entry.content,
            **({"pictures": files} if files else {}),
        }
    )


def index_json(book: ToldBook) -> bytes:
    """Return the list of all entries."""
    return as_bytes(
        {
            "format": FORMAT,
            "language": book.language,
            "shop": book.shop["name"],
            "demonstration": book.shop["demonstration"],
            "entries": [_line(entry) for entry in book.entries],
        }
    )


def _line(entry: ToldEntry) -> dict[str, Any]:
    told: Any = entry.content[entry.kind]
    identity = told["identity"]
    return {
        "fit": entry.fit,
        "kind": entry.kind,
        "state": entry.content["state"],
        "verdict": told.get("verdict"),
        "code": told.get("code"),
        "title": f"{identity['vehicle']['text']} {identity['variant']['text']}",
        "pair": identity["pair"]["text"],
        "page": f"{folder(entry.fit)}/index.html",
        "data": f"{folder(entry.fit)}/guide.json",
        "revision": entry.content["revision"],
    }


def as_bytes(node: dict[str, Any]) -> bytes:
    """Return a node as one line of JSON, the same on every machine."""
    return compact(node) + b"\n"
