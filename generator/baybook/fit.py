"""Noun: what a person wrote.

One `Fit` is one job on one vehicle with everything it refers to already looked up. None only
means "does not exist here"; what nobody knows is `Unknown`. The models hold no rule and open
no file: `intake` fills them.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from baybook.quantity import Mark
from baybook.sheet import (
    CableSheet,
    ChargerSheet,
    ConnectorSheet,
    LugSheet,
    PassageSheet,
    ProtectionSheet,
    StationSheet,
    SundrySheet,
)
from baybook.shop import Shop
from baybook.vehicle import Job, Vehicle


@dataclass(frozen=True, slots=True, kw_only=True)
class Fit:
    """One job with everything it refers to. The hand-over from intake to sizing."""

    id: str  # "vehicle/fit"
    slug: str  # the vehicle's folder name
    shop: Shop
    vehicle: Vehicle
    job: Job
    charger: ChargerSheet
    station: StationSheet
    cable: CableSheet
    output_cable: CableSheet
    protections: tuple[ProtectionSheet, ...]  # in the order the fit names them
    lugs: LugSheet
    connector: ConnectorSheet
    clips: SundrySheet
    sundries: Mapping[str, SundrySheet]
    passages: Mapping[str, PassageSheet]
    # by dotted path: "fit.charger", "vehicle.supply.low", "protection.<id>.voltage"
    marks: Mapping[str, Mark] = field(repr=False)

    def mark(self, path: str) -> Mark:
        """Where `path` stands, or the nearest place above it."""
        while path:
            try:
                return self.marks[path]
            except KeyError:
                path = path.rpartition(".")[0]
        return Mark(file=f"vehicles/{self.slug}/vehicle.yaml", line=1, column=1)


@dataclass(frozen=True, slots=True, kw_only=True)
class Workbook:
    """All that was read from one folder."""

    shop: Shop
    fits: tuple[Fit, ...]  # sorted by id
