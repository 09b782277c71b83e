"""Noun: what a person wrote.

One `Fit` is one job on one vehicle with everything it refers to already looked up. None only
means "does not exist here"; what nobody knows is `Unknown`. The models hold no rule and open
no file: `intake` fills them.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from baybook.job import Job
from baybook.part import (
    CableSheet,
    ConnectorSheet,
    LugSheet,
    PassageSheet,
    ProtectionSheet,
    SundrySheet,
)
from baybook.photo import Picture
from baybook.quantity import Mark
from baybook.second import BatterySheet
from baybook.sheet import ChargerSheet, StationSheet
from baybook.shop import Shop
from baybook.terms import HazardKind, SupplyKind
from baybook.vehicle import BodyLoop, Vehicle

_PAIR = 2  # the feed and its return


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
    connector: ConnectorSheet | None  # None: the load is a battery, and has none
    clips: SundrySheet
    sundries: Mapping[str, SundrySheet]
    passages: Mapping[str, PassageSheet]
    shrink: SundrySheet | None = None  # None: the fit names none
    other_cables: tuple[CableSheet, ...] = ()  # in the order the fit names them
    second: BatterySheet | None = None  # the load, where it is a battery; `station` is its window
    second_protections: tuple[ProtectionSheet, ...] = ()
    photos: Mapping[str, Picture] = field(default_factory=dict)  # by number; none: all on paper
    # by dotted path: "fit.charger", "vehicle.supply.low", "protection.<id>.voltage"
    marks: Mapping[str, Mark] = field(repr=False)

    @property
    def plug(self) -> ConnectorSheet:
        """The half at the station's end; LookupError where the load is a battery."""
        if self.connector is None:
            raise LookupError(f"{self.id} has no connector")
        return self.connector

    @property
    def body_loop(self) -> BodyLoop | None:
        """The measured way through the body that is to carry the return; None: a conductor is."""
        source = self.job.source
        if source.return_path != "chassis" or source.return_length is None:
            return None
        loops = (loop for loop in self.vehicle.body_loops if loop.start == source.negative)
        return next(loops, None)

    @property
    def in_run(self) -> int:
        """How many conductors lie side by side along the route."""
        return _PAIR if self.body_loop is None else 1

    def mark(self, path: str) -> Mark:
        """Where `path` stands, or the nearest place above it."""
        while path:
            try:
                return self.marks[path]
            except KeyError:
                path = path.rpartition(".")[0]
        return Mark(file=f"vehicles/{self.slug}/vehicle.yaml", line=1, column=1)


def has_high_voltage(fit: Fit) -> bool:
    """Whether a traction side feeds the vehicle, or the cable passes one."""
    if fit.vehicle.supply.kind is SupplyKind.CONVERTER or fit.vehicle.high_voltage is not None:
        return True
    segments = fit.vehicle.routes[fit.job.route].segments
    return any(h.kind is HazardKind.HIGH_VOLTAGE for s in segments for h in s.hazards)


@dataclass(frozen=True, slots=True, kw_only=True)
class Workbook:
    """All that was read from one folder."""

    shop: Shop
    fits: tuple[Fit, ...]  # sorted by id
    # every sheet of these kinds by id, whether a fit names it or not
    chargers: Mapping[str, ChargerSheet] = field(default_factory=dict)
    stations: Mapping[str, StationSheet] = field(default_factory=dict)
    connectors: Mapping[str, ConnectorSheet] = field(default_factory=dict)
