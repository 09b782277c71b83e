"""The home page: what is listed."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import groupby
from typing import Any

from markupsafe import Markup

from baybook.book import ToldBook, ToldEntry
from baybook.publish.markup import Words, said

LONG = 40  # a list of more entries is folded
_GROUPS = (("guide", "guides"), ("refusal", "refused"), ("withdrawal", "withdrawn"))


@dataclass(frozen=True, slots=True, kw_only=True)
class Item:
    """One line of the list."""

    kind: str
    address: str
    mark: str
    title: Markup
    under: Markup
    verdict: Markup
    make: str
    vehicle: str
    charger: str


def folder(fit: str) -> str:
    """Return the folder of a fit's page: its permanent address."""
    return f"guides/{fit}"


def old_folder(fit: str, number: int) -> str:
    """Return the folder of an earlier revision of a fit."""
    return f"{folder(fit)}/r{number}"


def home_context(book: ToldBook) -> dict[str, Any]:
    """Return what the lists of the home template show."""
    w = Words(book.words)
    items = [item_of(entry, w) for entry in book.entries]
    groups = [_group(name, [item for item in items if item.kind == kind]) for kind, name in _GROUPS]
    example = f"{items[0].vehicle}, {items[0].charger}" if items else ""
    return {"groups": groups, "example": example}


def _group(name: str, items: list[Item]) -> dict[str, Any]:
    """Return a list; a long one is folded by makes."""
    if len(items) <= LONG:
        return {"id": name, "entries": items, "makes": []}
    by_make = sorted(items, key=lambda item: item.make.casefold())
    makes = [(make, list(own)) for make, own in groupby(by_make, lambda item: item.make)]
    return {"id": name, "entries": items, "makes": makes}


def _revision(entry: ToldEntry) -> dict[str, Any]:
    revision: Any = entry.content["revision"]
    return revision  # type: ignore[no-any-return]


def item_of(entry: ToldEntry, w: Words) -> Item:
    """Return an entry as a line of a list."""
    told: Any = entry.content[entry.kind]
    identity = told["identity"]
    mark, under, verdict = _line(entry, told, w)
    title = w("page.home.entry", vehicle=identity["vehicle"], variant=identity["variant"])
    return Item(
        kind=entry.kind,
        address=f"{folder(entry.fit)}/index.html",
        mark=mark,
        title=title,
        under=under,
        verdict=verdict,
        make=identity["make"]["text"],
        vehicle=identity["vehicle"]["text"],
        charger=identity["charger"]["text"],
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
