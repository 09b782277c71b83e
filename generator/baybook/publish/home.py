"""The home page: what is listed, and what the finder can ask for."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from typing import Any

from markupsafe import Markup

from baybook.book import ToldBook, ToldEntry
from baybook.publish.markup import Words, said

OPEN_END = 9999  # sorts behind every year
_GROUPS = {"guide": "guides", "refusal": "refused", "withdrawal": "withdrawn"}


@dataclass(frozen=True, slots=True, kw_only=True)
class Item:
    """One line of the list."""

    kind: str
    address: str
    mark: str
    title: Markup
    under: Markup
    verdict: Markup
    vehicle: str
    charger: str
    station: str
    first: int
    last: int
    search: str


def folder(fit: str) -> str:
    """Return the folder of a fit's page: its permanent address."""
    return f"guides/{fit}"


def old_folder(fit: str, number: int) -> str:
    """Return the folder of an earlier revision of a fit."""
    return f"{folder(fit)}/r{number}"


def home_context(book: ToldBook) -> dict[str, Any]:
    """Return what the home template shows."""
    w = Words(book.words)
    items = [_item(entry, w) for entry in book.entries]
    groups = [
        {"id": name, "entries": [item for item in items if item.kind == kind]}
        for kind, name in _GROUPS.items()
    ]
    example = f"{items[0].vehicle}, {items[0].charger}" if items else ""
    return {"groups": groups, "finder": _finder(items, book), "example": example}


def _finder(items: list[Item], book: ToldBook) -> list[dict[str, Any]]:
    return [
        {"name": "vehicle", "options": _options(item.vehicle for item in items)},
        {"name": "year", "options": _years(items, book)},
        {"name": "charger", "options": _options(item.charger for item in items)},
        {"name": "station", "options": _options(item.station for item in items)},
    ]


def _options(values: Iterable[str]) -> list[str]:
    return sorted(set(values))


def _years(items: list[Item], book: ToldBook) -> list[int]:
    if not items:
        return []
    known = [item.last for item in items if item.last != OPEN_END] + [item.first for item in items]
    known += [int(_revision(entry)["on"][:4]) for entry in book.entries]
    return list(range(max(known), min(item.first for item in items) - 1, -1))


def _revision(entry: ToldEntry) -> dict[str, Any]:
    revision: Any = entry.content["revision"]
    return revision  # type: ignore[no-any-return]


def _item(entry: ToldEntry, w: Words) -> Item:
    told: Any = entry.content[entry.kind]
    identity = told["identity"]
    mark, under, verdict = _line(entry, told, w)
    title = w("page.home.entry", vehicle=identity["vehicle"], variant=identity["variant"])
    texts = [
        identity[key]["text"]
        for key in ("vehicle", "variant", "drive", "engine", "charger", "station", "pair")
    ]
    return Item(
        kind=entry.kind,
        address=f"{folder(entry.fit)}/index.html",
        mark=mark,
        title=title,
        under=under,
        verdict=verdict,
        vehicle=identity["vehicle"]["text"],
        charger=identity["charger"]["text"],
        station=identity["station"]["text"],
        first=identity["first_year"],
        last=identity["last_year"] or OPEN_END,
        search=" ".join(
            [*texts, identity["code"], entry.fit, under.striptags(), verdict.striptags()]
        ),
    )


def _line(entry: ToldEntry, told: dict[str, Any], w: Words) -> tuple[str, Markup, Markup]:
    """Return the mark, the second line and the verdict with its figure."""
    pair = told["identity"]["pair"]
    if entry.kind == "guide":
        checked = w(f"page.verdict.{told['verdict']}")
        verdict = w("page.home.guide.verdict", verdict=checked, reason=told["short_reason"])
        if entry.content["state"] == "draft":
            verdict = w("page.home.draft") + " " + verdict
        return told["verdict"], said(pair), verdict
    if entry.kind == "refusal":
        under = w("page.home.refused.under", code=told["code"], pair=pair)
        return "refused", under, said(told["short_reason"])
    return "refused", said(pair), w("page.home.withdrawn.verdict", on=_revision(entry)["on"])
