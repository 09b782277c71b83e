"""What was made of a vehicle before, and whether it still holds.

A note is found by the tool, the vehicle's own folder, the shop profile and how the publish was
asked for. It holds as long as everything else that the vehicle was made of is the same, byte for
byte: the data sheets it may name, its base, the translations of its texts, and what was published
at its addresses. Its files are in the store, named by their digests.

Only what would come out the same on any day is noted: a vehicle with a failed fit, a draft, or a
withdrawal dated today is made again each time.
"""

from __future__ import annotations

import json
from collections.abc import Iterable, Mapping
from dataclasses import asdict, dataclass, replace
from datetime import date
from functools import cached_property
from hashlib import sha256
from pathlib import Path
from typing import Any

import msgspec

from baybook.book import Report
from baybook.intake.read import ReadVehicle
from baybook.intake.texts import Texts
from baybook.making import Glance, Made, Order
from baybook.overlay import Overlay
from baybook.publish.inventory import digests, inventory
from baybook.publish.listing import noted, recalled
from baybook.publish.store import Store, StoreError, digest
from baybook.publish.tool import tool_digest
from baybook.quantity import Mark
from baybook.shop import Shop

_PAIRED = ("charger", "station", "battery", "connector")  # every sheet of these is paired


@dataclass(frozen=True, slots=True, kw_only=True)
class Asked:
    """How a publish was asked for, as far as a vehicle's pages depend on it."""

    drafts: bool
    matrix: bool
    lapsed: tuple[str, ...]  # last days of the licences that are over on the day of the publish
    overlay: Overlay

    @classmethod
    def on(cls, today: date, shop: Shop, *, drafts: bool, matrix: bool, overlay: Overlay) -> Asked:
        """Return what is asked for on a day."""
        lapsed = {person.until for person in shop.people if person.until and person.until < today}
        days = tuple(map(str, sorted(lapsed)))
        return cls(drafts=drafts, matrix=matrix, lapsed=days, overlay=overlay)


@dataclass(frozen=True)
class Note:
    """What was made of one vehicle, from what."""

    slug: str
    said: Mapping[str, Any]

    @cached_property
    def glance(self) -> Glance:
        """What was asked of the vehicle before it was made."""
        said = self.said["glance"]
        return Glance(
            vehicle=ReadVehicle(
                slug=self.slug,
                code=said["code"],
                code_at=Mark(**said["code_at"]),
                fits=(),
                findings=(),
                files=frozenset(self.said["from"]),
            ),
            fits=tuple(said["fits"]),
            wanted={text: (path, Mark(**mark)) for text, (path, mark) in said["wanted"].items()},
        )

    def stands(self, texts: Mapping[str, Texts], published: Mapping[str, str]) -> bool:
        """Tell whether it holds with these translations, and what is published now."""
        return self.said["texts"] == _texts(self.glance, texts) and published in (
            self.said["before"],
            self.said["after"],
        )

    def paired(self, pairings: str) -> bool:
        """Tell whether its lines of the matrix hold with these data sheets."""
        return bool(self.said["made"]["pairings"] == pairings)

    def made(self, published: Mapping[str, str]) -> Made:
        """Return the vehicle as it was made."""
        said = self.said["made"]
        new = {name: kept for name, kept in said["issued"].items() if name not in published}
        return Made(
            slug=self.slug,
            glance=self.glance,
            settled=True,
            reports=tuple(report_from(report) for report in said["reports"]),
            files=said["files"],
            issued=new,
            ways=said["ways"],
            listed=said["listed"],
            pairings=tuple(map(tuple, said["lines"])),
            lost=(),
        )


class Notes:
    """The notes on the vehicles of one workbook, as it is now."""

    def __init__(self, store: Store, workbook: Path, asked: Asked, slugs: Iterable[str]) -> None:
        """Look at the workbook, and in `store` for notes on its vehicles."""
        self._store, self._workbook = store, workbook
        self._root = workbook.resolve().name
        self._files = inventory(workbook)
        self._asked = json.dumps(asdict(asked), sort_keys=True).encode()
        self._published: dict[str, dict[str, str]] = {}
        self._held: dict[str, Any] = {}
        folders = tuple(f"{self._root}/datasheets/{kind}/" for kind in _PAIRED)
        self._pairings = self._digest_of(n for n in self._files if n.startswith(folders))
        found = {slug: self._found(slug) for slug in slugs}
        # Of vehicles whose files are all as they were:
        self.known = {slug: note for slug, note in found.items() if note is not None}

    def recall(
        self, orders: Iterable[Order], texts: Mapping[str, Texts]
    ) -> tuple[dict[str, Made], tuple[Order, ...]]:
        """Return the vehicles that need not be made again, and orders for what is to be made.

        It can be asked once: what a note holds is in what is returned, and nowhere else.
        """
        made: dict[str, Made] = {}
        left: list[Order] = []
        for order in orders:
            published = self._published[order.slug] = _published(order)
            note = self.known.pop(order.slug, None)
            if note is None or not note.stands(texts, published):
                left.append(order)
                continue
            made[order.slug] = note.made(published)
            if not note.paired(self._pairings):
                left.append(replace(order, pages=False))
        return made, tuple(left)

    def keep(self, made: Iterable[Made], texts: Mapping[str, Texts]) -> None:
        """Note what was made, where it would be made again on any day, and nothing changed."""
        now = inventory(self._workbook)
        for one in made:
            glance = one.glance
            if glance is None or glance.vehicle.code_at is None or not one.settled or one.lost:
                continue
            names = self._own(one.slug) | {f"{self._root}/shop.yaml", *glance.vehicle.files}
            known = {name: self._files.get(name, "") for name in sorted(names)}
            if all(now.get(name, "") == content for name, content in known.items()):
                self._note(one, glance, known, texts)

    def _note(
        self, made: Made, glance: Glance, known: Mapping[str, str], texts: Mapping[str, Texts]
    ) -> None:
        before = self._published[made.slug]
        said = {
            "from": known,
            "texts": _texts(glance, texts),
            "before": before,
            "after": {**before, **made.issued},
            "glance": _glance_plain(glance),
            "made": {
                "reports": [plain_report(report) for report in made.reports],
                "files": dict(made.files),
                "issued": dict(made.issued),
                "ways": dict(made.ways),
                "listed": [[noted(one, self._store.keep) for one in told] for told in made.listed],
                "pairings": self._pairings,
                "lines": made.pairings,
            },
        }
        self._store.note(self._key(made.slug), said)

    def _found(self, slug: str) -> Note | None:
        said = self._store.noted(self._key(slug))
        if said is None:
            return None
        made = said["made"]
        same = all(self._files.get(name, "") == known for name, known in said["from"].items())
        kept = (*made["files"].values(), *made["issued"].values())
        if not same or not all(map(self._store.has, kept)):
            return None
        try:
            made["listed"] = [
                tuple(recalled(one, self._shared) for one in told) for told in made["listed"]
            ]
        except StoreError:
            return None
        return Note(slug, said)

    def _shared(self, name: str) -> Any:  # noqa: ANN401 - told content, of any form
        """Return what many listed entries share, read once. Raises StoreError if it is gone."""
        if name not in self._held:
            content = self._store.read(name) if self._store.has(name) else None
            if content is None:
                raise StoreError(name)
            self._held[name] = msgspec.json.decode(content)
        return self._held[name]

    def _own(self, slug: str) -> set[str]:
        """Return the names of all files in a vehicle's folder."""
        return self._by_slug.get(slug, set())

    @cached_property
    def _by_slug(self) -> dict[str, set[str]]:
        found: dict[str, set[str]] = {}
        for name in self._files:
            _, folder, *rest = name.split("/")
            if folder == "vehicles" and len(rest) > 1:
                found.setdefault(rest[0], set()).add(name)
        return found

    def _key(self, slug: str) -> str:
        own = self._digest_of(self._own(slug) | {f"{self._root}/shop.yaml"})
        made_of = (slug.encode(), own.encode(), self._asked)
        return digest(b"vehicle", tool_digest().encode(), *made_of)

    def _digest_of(self, names: Iterable[str]) -> str:
        pairs = [[name, self._files.get(name, "")] for name in sorted(names)]
        return sha256(json.dumps(pairs).encode()).hexdigest()


def joined(pages: Made | None, new: Made) -> Made:
    """Return what was made of a vehicle: all of it new, or new lines of the matrix alone."""
    return new if pages is None else replace(pages, pairings=new.pairings)


def _published(order: Order) -> dict[str, str]:
    """Return the digests of what stands at a vehicle's addresses, by name in `issued/`."""
    files = {f"{fit}/{file.name}": file for fit, of_fit in order.issued.items() for file in of_fit}
    return digests(files)


def _glance_plain(glance: Glance) -> dict[str, Any]:
    at = glance.vehicle.code_at
    return {
        "code": glance.vehicle.code,
        "code_at": asdict(at) if at else None,
        "fits": glance.fits,
        "wanted": {text: (path, asdict(mark)) for text, (path, mark) in glance.wanted.items()},
    }


def _texts(glance: Glance, texts: Mapping[str, Texts]) -> str:
    said = {
        language: {text: of_language.get(text) for text in glance.wanted}
        for language, of_language in texts.items()
    }
    return sha256(json.dumps(said, sort_keys=True).encode()).hexdigest()


def plain_report(report: Report) -> dict[str, Any]:
    """Return a report that has nothing to say, as data."""
    return {
        "fit": report.fit,
        "verdict": report.verdict,
        "codes": report.codes,
        "figures": report.figures,
    }


def report_from(said: Mapping[str, Any]) -> Report:
    """Return the report that `plain_report` wrote."""
    return Report(
        fit=said["fit"],
        verdict=said["verdict"],
        codes=tuple(said["codes"]),
        failed=False,
        findings=(),
        draft=(),
        figures=said["figures"],
    )
