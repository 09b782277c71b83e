"""Noun: data sheets of equipment and parts, one model a kind."""

from __future__ import annotations

from typing import Literal

from pydantic import Field

from baybook.quantity import (
    Amps,
    Area,
    Day,
    Degrees,
    Id,
    KelvinsPerWatt,
    Kilograms,
    KilogramsPerMetre,
    Metres,
    Noun,
    OhmsPerMetre,
    PerKelvin,
    ProperName,
    Ratio,
    Seconds,
    Text,
    Torque,
    TorqueOrUnknown,
    Volts,
    WattHours,
    Watts,
    Whole,
    YesNo,
)
from baybook.terms import JointKind, PassageKind, Polarity, YesNoUnknown


class Sheet(Noun):
    """The document a data sheet was copied from."""

    document: ProperName
    revision: ProperName
    on: Day


class PowerStep(Noun):
    power: Watts = Field(description="output power at this step")
    input_limit: Amps = Field(description="input current the charger keeps to at this step")


class PowerSteps(Noun):
    kept: YesNo = Field(description="kept without power and through a reset")
    set_by: Text = Field(description="what is turned or pressed, in words")
    steps: tuple[PowerStep, ...]


class Terminal(Noun):
    """Where a conductor ends on a device."""

    kind: JointKind
    area_max: Area = Field(description="largest conductor it accepts")
    strip: Metres | None = None
    thread: ProperName | None = None
    torque: TorqueOrUnknown | None = Field(default=None, description="absent: nothing is tightened")
    screw: Literal["narrow slot", "wide slot", "split bolt", "hex"] | None = Field(
        default=None, description="head of the clamp's screw, for a torque by wire size"
    )
    ferrule: YesNo = False
    tool: Text | None = Field(default=None, description="bit or key, e.g. `5 mm hex`")


class CueInput(Noun):
    """The signal input that starts the charger, and the lead to it."""

    terminal: ProperName = Field(description="as marked on the charger")
    area: Area = Field(description="of the lead")
    current: Amps = Field(description="drawn from the vehicle's line, at most")
    fuse: Amps = Field(description="the lead's own fuse")
    fuse_within: Metres = Field(description="from the joint with the vehicle's line")


class Derating(Noun):
    full_to: Degrees = Field(description="full power up to this ambient")
    per_kelvin: PerKelvin = Field(description="share of full power lost for each kelvin above")
    stop: Degrees = Field(description="the charger stops here")


class Clearance(Noun):
    sides: Metres = Field(description="free space left and right")
    above: Metres = Field(description="free space above")


class ChargerSheet(Noun):
    format: Literal["1"]
    kind: Literal["charger"]
    name: ProperName
    maker: ProperName
    sheet: Sheet
    nominal: Volts = Field(description="12 V or 24 V supply class")
    input_min: Volts
    input_max: Volts
    cut_in: Volts = Field(description="with voltage cue")
    cut_out: Volts = Field(description="with voltage cue")
    cut_out_run: Volts = Field(description="with a run, ready or drive line")
    input_current: Amps = Field(description="the charger's own input limit at full power")
    output_min: Volts
    output_max: Volts
    output_step: Volts
    output_default: Volts = Field(description="setting as delivered")
    default_after_reset: YesNo = Field(description="a button reset brings the default back")
    output_tolerance: Ratio = Field(description="of the set voltage")
    overshoot: Volts = Field(description="on load steps, above the tolerance")
    output_current: Amps
    output_power: Watts
    power: PowerSteps | None = None
    efficiency: Ratio
    upstream_max: Amps = Field(description="largest protection the maker allows upstream")
    standby: Amps = Field(description="drawn with the vehicle parked")
    isolated: YesNo = Field(description="input and output have no common conductor")
    pairing: Text = Field(description="`none`, `parallel`, `series` or `parallel and series`")
    derating: Derating
    clearance: Clearance
    thermal: KelvinsPerWatt | None = Field(
        default=None, description="case over ambient for each watt of its heat"
    )
    mass: Kilograms
    input: Terminal
    output: Terminal
    temperature_lead: YesNo = Field(
        default=False, description="a lead that reads the temperature of the battery it charges"
    )
    cue: CueInput | None = Field(default=None, description="absent: started by voltage alone")
    approvals: Text = Field(description="as stated on the sheet, else `not stated`")


class StationSheet(Noun):
    format: Literal["1"]
    kind: Literal["station"]
    name: ProperName
    maker: ProperName
    sheet: Sheet
    window_min: Volts = Field(description="lowest input voltage at which it charges")
    window_max: Volts = Field(description="highest input voltage at which it charges")
    start: Volts = Field(description="the input wakes up from here")
    absolute: Volts = Field(description="above this the input is destroyed")
    input_current: Amps = Field(description="the station takes no more")
    input_power: Watts = Field(description="the station takes no more")
    energy: WattHours = Field(description="from empty to full")
    efficiency: Ratio = Field(description="from the input into the cells")
    connector: Id = Field(description="id of a connector sheet, or `unknown`")
    polarity: Polarity = Field(description="which contact of its inlet is plus")
    constant_voltage_tested: YesNoUnknown
    mass: Kilograms
    charge_min: Degrees = Field(description="ambient")
    charge_max: Degrees = Field(description="ambient")


class Ampacity(Noun):
    ambient: Degrees
    current: Amps


class CableSize(Noun):
    area: Area
    nearest_awg: ProperName = Field(description="as the sheet states it, e.g. `AWG 4`")
    resistance: OhmsPerMetre = Field(description="at 20 °C")
    diameter: Metres = Field(description="outer diameter")
    bend_radius: Metres
    mass: KilogramsPerMetre | None = Field(default=None, description="of one metre")
    ampacity: tuple[Ampacity, ...] = Field(description="current for good, by ambient")


class CableSheet(Noun):
    format: Literal["1"]
    kind: Literal["cable"]
    name: ProperName
    maker: ProperName
    sheet: Sheet
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
    sizes: tuple[CableSize, ...]


class GatePoint(Noun):
    """At this multiple of the rating the part opens for sure within this time."""

    multiple: Ratio
    within: Seconds


class HoldPoint(Noun):
    """At this multiple of the rating the part may carry for so long (None: without limit)."""

    multiple: Ratio
    up_to: Seconds | None = None


class DeratingPoint(Noun):
    ambient: Degrees
    factor: Ratio = Field(description="share of the rating that is left")


class ProtectionSheet(Noun):
    format: Literal["1"]
    kind: Literal["protection"]
    name: ProperName
    maker: ProperName
    sheet: Sheet
    form: Literal["fuse", "breaker"]
    standard: ProperName | None = Field(
        default=None, description="part of ISO 8820 that the sheet claims, e.g. `ISO 8820-5`"
    )
    reset: Literal["none", "manual", "automatic"]
    ratings: tuple[Amps, ...] = Field(description="the steps that are made, rising")
    voltage: Volts = Field(description="rated DC voltage")
    breaking: Amps = Field(description="rated DC breaking capacity")
    thread: ProperName = Field(description="of its two studs")
    torque: TorqueOrUnknown
    holds: tuple[HoldPoint, ...]
    opens: tuple[GatePoint, ...] = Field(description="empty: the maker states none")
    derating: tuple[DeratingPoint, ...]


class LugSize(Noun):
    area: Area
    studs: tuple[ProperName, ...] = Field(description="threads it is made for, e.g. `M8`")
    die: ProperName = Field(description="die of the crimper")
    strip: Metres


class PalmLimit(Noun):
    thread: ProperName
    torque: Torque


class LugSheet(Noun):
    format: Literal["1"]
    kind: Literal["lug"]
    name: ProperName
    maker: ProperName
    sheet: Sheet
    sizes: tuple[LugSize, ...]
    palms: tuple[PalmLimit, ...] = Field(description="highest torque the palm stands, by stud")


class PassageSize(Noun):
    id: ProperName
    form: PassageKind
    conductors: Whole = Field(description="how many go through one piece")
    diameter_min: Metres = Field(description="smallest outer diameter of a conductor")
    diameter_max: Metres = Field(description="largest outer diameter of a conductor")
    hole: Metres = Field(description="diameter of the hole it sits in")
    seal: ProperName = Field(description="IP code")


class PassageSheet(Noun):
    format: Literal["1"]
    kind: Literal["passage"]
    name: ProperName
    maker: ProperName
    sheet: Sheet
    sizes: tuple[PassageSize, ...]


class ConnectorSheet(Noun):
    format: Literal["1"]
    kind: Literal["connector"]
    name: ProperName
    maker: ProperName
    sheet: Sheet
    current: Amps
    voltage: Volts
    mates_with: tuple[Id, ...] = Field(
        description="ids of the connector sheets that it may be plugged into"
    )
    pins: Text = Field(description="how + and − are found, e.g. `marked`, `centre and sleeve`")


class SundrySize(Noun):
    id: ProperName
    diameter_max: Metres


class SundrySheet(Noun):
    """Clips, sleeves, conduit: bought by diameter."""

    format: Literal["1"]
    kind: Literal["sundry"]
    name: ProperName
    maker: ProperName
    sheet: Sheet
    use: Literal["clip", "heat sleeve", "conduit"]
    limit: Degrees | None = None
    sizes: tuple[SundrySize, ...]


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
