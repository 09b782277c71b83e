"""The finder's index: what can be asked for of every entry, small enough to fetch on the road.

Columns, not lines: equal things stand beside each other, a text that comes again is a number, and
what can be told from something else is left out. `finder.js` reads it; FORMAT joins the two.

    makes engines chargers stations jobs   each text once
    vehicles   columns, a line a vehicle: fits (how many of `fits` are its own), code, make, model,
               engine, first, last (years after first; -1: still made), sides, slug
    fits       columns, a line an entry: job, charger, station, mark

`slug` is what comes after the folder name that make and model give; a whole name begins with "/".
"""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Iterable, Mapping
from itertools import groupby
from typing import Any, NamedTuple

from baybook.book import ToldBook, ToldEntry
from baybook.publish.data import as_bytes

FORMAT = 1
MARKS = ("ok", "caution", "hold", "refused", "withdrawn")
SIDES = ("left", "right", "both")
_MARK_OF = {"refusal": "refused", "withdrawal": "withdrawn"}
_NOT_PLAIN = re.compile(r"[^a-z0-9]+")


class _Vehicle(NamedTuple):
    """One vehicle as its entries name it; an entry that was withdrawn may name it as it was."""

    slug: str
    code: str
    make: str
    model: str
    engine: str
    first: int
    last: int | None
    sides: str


class _Dictionary:
    """Texts by number, in the order in which they come."""

    def __init__(self) -> None:
        self._numbers: dict[str, int] = {}

    def __call__(self, text: str) -> int:
        return self._numbers.setdefault(text, len(self._numbers))

    @property
    def texts(self) -> list[str]:
        return list(self._numbers)


def finder_json(book: ToldBook) -> bytes:
    """Return the index of all entries in the book's language."""
    entries = sorted(book.entries, key=lambda entry: (_vehicle(entry)[:2], entry.fit))
    grouped = [(vehicle, list(own)) for vehicle, own in groupby(entries, _vehicle)]
    texts = {name: _Dictionary() for name in ("makes", "engines", "jobs", "chargers", "stations")}
    own = [entry for _, of_vehicle in grouped for entry in of_vehicle]
    index = {
        "format": FORMAT,
        "language": book.language,
        "demonstration": book.shop["demonstration"],
        "marks": list(MARKS),
        "vehicles": {"fits": [len(of_vehicle) for _, of_vehicle in grouped]}
        | _of_vehicles([vehicle for vehicle, _ in grouped], texts),
        "fits": _of_fits(own, texts),
    }
    return as_bytes(index | {name: dictionary.texts for name, dictionary in texts.items()})


def _of_vehicles(vehicles: list[_Vehicle], texts: Mapping[str, _Dictionary]) -> dict[str, Any]:
    return {
        "code": [vehicle.code for vehicle in vehicles],
        "make": [texts["makes"](vehicle.make) for vehicle in vehicles],
        "model": [vehicle.model for vehicle in vehicles],
        "engine": [texts["engines"](vehicle.engine) for vehicle in vehicles],
        "first": [vehicle.first for vehicle in vehicles],
        "last": [_after(vehicle) for vehicle in vehicles],
        "sides": [SIDES.index(vehicle.sides) for vehicle in vehicles],
        "slug": [_shortened(vehicle) for vehicle in vehicles],
    }


def _of_fits(entries: list[ToldEntry], texts: Mapping[str, _Dictionary]) -> dict[str, Any]:
    return {
        "job": [texts["jobs"](entry.fit.rpartition("/")[2]) for entry in entries],
        "charger": [texts["chargers"](_identity(entry)["charger"]["text"]) for entry in entries],
        "station": [texts["stations"](_identity(entry)["station"]["text"]) for entry in entries],
        "mark": [MARKS.index(_mark(entry)) for entry in entries],
    }


def fits_of(index: Mapping[str, Any]) -> Iterable[str]:
    """Return the fits that an index lists, in its order: what finder.js makes of it."""
    vehicles, fits = index["vehicles"], index["fits"]
    jobs = iter(fits["job"])
    for at, own in enumerate(vehicles["fits"]):
        made = folder_name(index["makes"][vehicles["make"][at]], vehicles["model"][at])
        slug = vehicles["slug"][at]
        named = slug[1:] if slug.startswith("/") else made + slug
        yield from (f"{named}/{index['jobs'][next(jobs)]}" for _ in range(own))


def folder_name(make: str, model: str) -> str:
    """Return the folder name that make and model give: `dunstrel-cobble`."""
    letters = unicodedata.normalize("NFKD", f"{make} {model}")
    bare = "".join(letter for letter in letters if not unicodedata.category(letter).startswith("M"))
    return _NOT_PLAIN.sub("-", bare.lower()).strip("-")


def _shortened(vehicle: _Vehicle) -> str:
    made = folder_name(vehicle.make, vehicle.model)
    if made and vehicle.slug.startswith(made):
        return vehicle.slug.removeprefix(made)
    return f"/{vehicle.slug}"


def _after(vehicle: _Vehicle) -> int:
    return -1 if vehicle.last is None else vehicle.last - vehicle.first


def _vehicle(entry: ToldEntry) -> _Vehicle:
    identity = _identity(entry)
    sides = set(identity["drive_sides"])
    return _Vehicle(
        slug=entry.fit.rpartition("/")[0],
        code=identity["code"].partition("/")[0],
        make=identity["make"]["text"],
        model=identity["model"]["text"],
        engine=identity["engine"]["text"],
        first=identity["first_year"],
        last=identity["last_year"],
        sides="both" if len(sides) > 1 else sides.pop(),
    )


def _mark(entry: ToldEntry) -> str:
    told: Any = entry.content[entry.kind]
    return str(_MARK_OF.get(entry.kind) or told["verdict"])


def _identity(entry: ToldEntry) -> Any:  # noqa: ANN401 - told form: JSON
    told: Any = entry.content[entry.kind]
    return told["identity"]
