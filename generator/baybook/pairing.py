"""Noun: one charger and one station put to one vehicle, and what the rules say of it."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from baybook.finding import Amount, Listing, Message, Name


class Standing(StrEnum):
    """From best to worst as the rules have it; unknown: the shop has not said enough."""

    OK = "ok"
    CAUTION = "caution"
    HOLD = "hold"
    REFUSED = "refused"
    UNKNOWN = "unknown"


class Limit(StrEnum):
    """What keeps the power from being higher."""

    STATION_POWER = "station power"
    STATION_CURRENT = "station current"
    CHARGER_POWER = "charger power"
    CHARGER_CURRENT = "charger current"
    CHARGER_STEP = "charger power step"
    WINDOW = "voltage window"
    ALLOWANCE = "vehicle allowance"
    FUSE = "fuse limit"
    CABLE = "cable"
    SUPPLY = "vehicle supply"
    RULE = "another rule"


class Taken(StrEnum):
    """What was taken from the pattern, though it was written for another pairing."""

    FIXINGS = "fixings"
    OUTPUT_LEAD = "output lead"
    STATION_PLACE = "station place"
    CONNECTOR = "connector"  # the half that belongs to the station's
    CUE = "cue"  # the voltage cue of the vehicle: the charger has no signal input


@dataclass(frozen=True, slots=True, kw_only=True)
class Pairing:
    vehicle: str  # folder name
    charger: str  # id of its sheet
    station: str
    pattern: str  # "vehicle/fit" that everything else is taken from
    written: bool  # the pattern is a fit for this very pairing
    verdict: Standing
    codes: tuple[str, ...]  # of the rules that decide the verdict, the gravest first
    why: Message | None  # title of the first of them, or why nothing can be said
    set_V: float | None = None  # None: refused or unknown
    power_W: float | None = None  # that leaves the charger
    limit: Limit | None = None
    taken: tuple[Taken, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class PairingLine:
    """A pairing as a reader sees it."""

    slug: str
    vehicle: Message  # with what tells it from its sisters
    charger: Name
    station: Name
    verdict: str
    set_voltage: Amount | None
    power: Amount | None
    limit: Message | None
    codes: tuple[str, ...]
    why: Message | None
    pattern: str
    taken: Listing | None
    fits: tuple[str, ...]  # written for this very pairing
