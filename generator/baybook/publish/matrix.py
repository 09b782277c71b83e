"""The page of all pairings: by vehicle, what passes first, with the pages that there are."""

from __future__ import annotations

from itertools import groupby
from typing import Any

from baybook.book import ToldBook
from baybook.publish.home import folder

_ORDER = ("ok", "caution", "hold", "unknown", "refused")


def matrix_vehicles(book: ToldBook) -> list[dict[str, Any]]:
    """Return the vehicles of the matrix with their lines, as the template shows them."""
    kinds = {entry.fit: entry.kind for entry in book.entries}
    told: list[Any] = list(book.pairings)
    return [
        _vehicle(slug, list(lines), kinds)
        for slug, lines in groupby(told, lambda line: line["slug"])
    ]


def _vehicle(slug: str, lines: list[Any], kinds: dict[str, str]) -> dict[str, Any]:
    same = lines[0]["verdict"] == "unknown" and all(
        line["why"] == lines[0]["why"] for line in lines
    )
    return {
        "slug": slug,
        "name": lines[0]["vehicle"],
        "unknown": lines[0]["why"] if same else None,
        "lines": [
            line | {"pages": _pages(line, kinds)}
            for line in sorted(lines, key=lambda line: _ORDER.index(line["verdict"]))
        ],
    }


def _pages(line: Any, kinds: dict[str, str]) -> list[tuple[str, str, str]]:  # noqa: ANN401
    """Return (kind, id, address) of each page about this very pairing."""
    return [
        (kinds[fit], fit.partition("/")[2], f"{folder(fit)}/index.html")
        for fit in line["fits"]
        if fit in kinds
    ]
