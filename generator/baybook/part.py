"""Noun: data sheets of parts, one model a kind: what is cut, crimped, fused, clipped, plugged."""

from typing import Literal

from pydantic import Field

from baybook.quantity import (
    Amps,
    Area,
    Degrees,
    Format,
    Id,
    KilogramsPerMetre,
    Metres,
    Noun,
    OhmsPerMetre,
    ProperName,
    Ratio,
    Seconds,
    Text,
    Torque,
    TorqueOrUnknown,
    Volts,
    Whole,
)
from baybook.sheet import ChargerSheet, Maker, Paper, PartName, StationSheet
from baybook.terms import PassageKind, Thread


class Ampacity(Noun):
    ambient: Degrees = Field(description="temperature around the cable")
    current: Amps = Field(description="what it carries there for good")


class CableSize(Noun):
    area: Area = Field(description="area of copper")
    nearest_awg: ProperName = Field(description="as the sheet states it, e.g. `AWG 4`")
    resistance: OhmsPerMetre = Field(description="at 20 °C")
    diameter: Metres = Field(description="outer diameter")
    bend_radius: Metres = Field(description="smallest that its maker allows")
    mass: KilogramsPerMetre | None = Field(default=None, description="of one metre")
    ampacity: tuple[Ampacity, ...] = Field(description="current for good, by ambient")


class CableSheet(Noun):
    format: Format
    kind: Literal["cable"] = Field(description="the folder under datasheets/ that it lies in")
    name: PartName
    maker: Maker
    sheet: Paper
    standard: ProperName = Field(description="conductor standard and class")
    material: Literal["copper", "tinned copper", "copper-clad aluminium", "aluminium"] = Field(
        description="of the conductor; only copper, plain or tinned, is worked with"
    )
    conductor_max: Degrees = Field(description="highest conductor temperature in service")
    reference_ambient: Degrees = Field(description="ambient of the first ampacity figure")
    short_circuit: Degrees = Field(description="conductor limit in a short circuit up to 5 s")
    overload_max: Degrees | None = Field(
        default=None,
        description="conductor limit in an overload up to 1 h; absent: as `conductor_max`",
    )
    sizes: tuple[CableSize, ...] = Field(description="sizes in stock, the smallest first")


class GatePoint(Noun):
    """At this multiple of the rating the part opens for sure within this time."""

    multiple: Ratio = Field(description="of the rating")
    within: Seconds = Field(description="it has opened after this time")


class HoldPoint(Noun):
    """At this multiple of the rating the part may carry for so long (None: without limit)."""

    multiple: Ratio = Field(description="of the rating")
    up_to: Seconds | None = Field(default=None, description="for so long; absent: without limit")


class DeratingPoint(Noun):
    ambient: Degrees = Field(description="temperature around the part")
    factor: Ratio = Field(description="share of the rating that is left")


class ProtectionSheet(Noun):
    format: Format
    kind: Literal["protection"] = Field(description="the folder under datasheets/ that it lies in")
    name: PartName
    maker: Maker
    sheet: Paper
    form: Literal["fuse", "breaker"] = Field(description="what opens")
    standard: ProperName | None = Field(
        default=None, description="part of ISO 8820 that the sheet claims, e.g. `ISO 8820-5`"
    )
    reset: Literal["none", "manual", "automatic"] = Field(description="how it closes again")
    ratings: tuple[Amps, ...] = Field(description="the steps that are made, rising")
    voltage: Volts = Field(description="rated DC voltage")
    breaking: Amps = Field(description="rated DC breaking capacity")
    thread: Thread = Field(description="of its two studs")
    torque: TorqueOrUnknown = Field(description="of its studs, or `unknown`")
    tool: Text | None = Field(default=None, description="socket of its nuts, e.g. `10 mm socket`")
    holds: tuple[HoldPoint, ...] = Field(description="what it carries, and for how long")
    opens: tuple[GatePoint, ...] = Field(description="empty: the maker states none")
    derating: tuple[DeratingPoint, ...] = Field(description="what warmth takes away, by ambient")


class LugSize(Noun):
    area: Area = Field(description="area of the conductor")
    studs: tuple[Thread, ...] = Field(description="threads it is made for, e.g. `M8`")
    die: ProperName = Field(description="die of the crimper")
    strip: Metres = Field(description="length of insulation to take off")
    barrel: Metres | None = Field(
        default=None, description="outer diameter of the barrel, for the heat-shrink over it"
    )


class PalmLimit(Noun):
    thread: Thread = Field(description="of the stud")
    torque: Torque = Field(description="highest that the palm stands")


class LugSheet(Noun):
    format: Format
    kind: Literal["lug"] = Field(description="the folder under datasheets/ that it lies in")
    name: PartName
    maker: Maker
    sheet: Paper
    sizes: tuple[LugSize, ...] = Field(description="sizes in stock, by conductor")
    palms: tuple[PalmLimit, ...] = Field(description="highest torque the palm stands, by stud")


class PassageSize(Noun):
    id: ProperName = Field(description="the maker's name of this size")
    form: PassageKind = Field(description="how the edge is guarded")
    conductors: Whole = Field(description="how many go through one piece")
    diameter_min: Metres = Field(description="smallest outer diameter of a conductor")
    diameter_max: Metres = Field(description="largest outer diameter of a conductor")
    hole: Metres = Field(description="diameter of the hole it sits in")
    seal: ProperName = Field(description="IP code")


class PassageSheet(Noun):
    format: Format
    kind: Literal["passage"] = Field(description="the folder under datasheets/ that it lies in")
    name: PartName
    maker: Maker
    sheet: Paper
    sizes: tuple[PassageSize, ...] = Field(description="sizes in stock")


class ConnectorSheet(Noun):
    format: Format
    kind: Literal["connector"] = Field(description="the folder under datasheets/ that it lies in")
    name: PartName
    maker: Maker
    sheet: Paper
    current: Amps = Field(description="rated current")
    voltage: Volts = Field(description="rated DC voltage")
    mates_with: tuple[Id, ...] = Field(
        description="ids of the connector sheets that it may be plugged into"
    )
    pins: Text = Field(description="how + and − are found, e.g. `marked`, `centre and sleeve`")


class SundrySize(Noun):
    id: ProperName = Field(description="the maker's name of this size")
    diameter_max: Metres = Field(description="goes over this; of a heat-shrink as supplied")
    diameter_min: Metres | None = Field(
        default=None, description="of a heat-shrink: grips down to this when it has shrunk"
    )


class SundrySheet(Noun):
    """Clips, sleeves, conduit, heat-shrink: bought by diameter."""

    format: Format
    kind: Literal["sundry"] = Field(description="the folder under datasheets/ that it lies in")
    name: PartName
    maker: Maker
    sheet: Paper
    use: Literal["clip", "heat sleeve", "conduit", "heat shrink"] = Field(
        description="what it is for"
    )
    limit: Degrees | None = Field(default=None, description="highest temperature that it stands")
    sizes: tuple[SundrySize, ...] = Field(description="sizes in stock")


AnySheet = (
    ChargerSheet
    | StationSheet
    | CableSheet
    | ProtectionSheet
    | LugSheet
    | PassageSheet
    | ConnectorSheet
    | SundrySheet
)
