"""The other fits of a vehicle, as a page of one of them leads to them: each by what differs."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import Any
from urllib.parse import urlencode

from markupsafe import Markup

from baybook.book import ToldEntry
from baybook.publish.home import Item, item_of
from baybook.publish.markup import Words, said

TELLING = ("variant", "drive", "charger", "station")


@dataclass(frozen=True, slots=True, kw_only=True)
class Other:
    """One line of the switch."""

    item: Item
    differs: tuple[Markup, ...]  # what is other than on this page, each with its name


def others(entry: ToldEntry, siblings: Iterable[ToldEntry], w: Words) -> tuple[Other, ...]:
    """Return what else stands for the vehicle of an entry, in the order of the siblings.

    siblings  what is published of the vehicle, in the entry's language; itself may be among it
    """
    here = _identity(entry)
    found = [sibling for sibling in siblings if sibling.fit != entry.fit]
    return tuple(
        Other(
            item=item_of(sibling, w),
            differs=_differs(here, _identity(sibling), w),
        )
        for sibling in found
    )


def asked_for(entry: ToldEntry) -> str:
    """Return the question to the finder that lists every entry of the entry's make and model."""
    identity = _identity(entry)
    return urlencode({key: identity[key]["text"] for key in ("make", "model")})


def _differs(here: dict[str, Any], there: dict[str, Any], w: Words) -> tuple[Markup, ...]:
    other: Sequence[str] = [key for key in TELLING if there[key]["text"] != here[key]["text"]]
    if other:
        return tuple(Markup("{} {}").format(_name(key, w), said(there[key])) for key in other)
    return (Markup("{} {}").format(_name("code", w), there["code"]),)


def _name(key: str, w: Words) -> Markup:
    return w(f"finder.label.{key}")


def _identity(entry: ToldEntry) -> Any:  # noqa: ANN401 - told form: JSON
    told: Any = entry.content[entry.kind]
    return told["identity"]
