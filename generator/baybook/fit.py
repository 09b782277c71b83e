"""Noun: what a person wrote.

One `Fit` is one job on one vehicle with everything it refers to already looked
up. Every figure is a `Quantity`: as written, in SI, with tolerance, basis and the
place where it stands. What nobody knows is `Unknown`, never None: None only means
"does not exist here".

The models hold no rule and open no file. `intake` fills them; the reader of a
scalar reaches the models through pydantic's validation context (`Reader`), so
this file imports nothing of ours.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from datetime import date
from enum import StrEnum
from typing import Annotated, Literal, Protocol

from pydantic import BaseModel, BeforeValidator, ConfigDict, Field, ValidationInfo


@dataclass(frozen=True, slots=True)
class Mark:
    """A place in a file a person wrote: 1-based line and column, dotted path inside the file."""

    file: str
    line: int
    column: int
    path: str = ""


class State(StrEnum):
    """How a figure came to be known."""

    MEASURED = "measured"
    PAPER = "paper"  # a maker's document
    ESTIMATED = "estimated"
    RULE = "rule"  # a choice of the shop profile


class Reader(Protocol):
    """What `intake` puts into the validation context under the key "reader".

    A scalar of a file reaches the models as a `str` that also knows its place and its basis;
    each method raises a ValueError that carries the messages a person is to read.
    """

    def boolean(self, raw: object) -> bool: ...

    def whole(self, raw: object) -> int: ...

    def day(self, raw: object) -> date: ...

    def quantity(self, raw: object, unit: str, *, unknown: bool) -> Quantity | Unknown: ...


def _read(kind: str, **options: str | bool) -> BeforeValidator:
    def call(raw: object, info: ValidationInfo) -> object:
        if not isinstance(raw, (str, Mapping)) or info.context is None:
            return raw  # built in Python, not read from a file
        read: Callable[..., object] = getattr(info.context["reader"], kind)
        return read(raw, **options)

    return BeforeValidator(call)


Day = Annotated[date, _read("day")]


class Noun(BaseModel):
    """Frozen, and nothing in a file is ignored."""

    model_config = ConfigDict(frozen=True, extra="forbid", arbitrary_types_allowed=True)


class Basis(Noun):
    """Why a figure may be believed: its state and the trail to it."""

    state: State
    method: str = ""
    by: str = ""
    on: Day | None = None
    instrument: str = ""
    seen: str = Field(
        default="", description="the vehicle it was read on: VIN part or fleet number"
    )
    document: str = Field(default="", description="maker's paper: number, revision, page")
    note: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Quantity:
    """A figure with its unit. `written` stays the control value that guides print."""

    value: float  # in `unit`
    low: float  # low end of the tolerance, in `unit`; equals value if none was written
    high: float
    unit: str  # one of the inside units of units.py: "V", "A", "ohm", "m", "mm2", "degC", "N*m" …
    written: str  # "120 lbf·in", "AWG 6", "4.2 m ± 2 %"
    basis: Basis
    where: Mark


@dataclass(frozen=True, slots=True, kw_only=True)
class Unknown:
    """A fact that was looked for and is not known. A blank is an error; this is a value."""

    basis: Basis
    where: Mark


def _quantity(unit: str, *, unknown: bool = False) -> BeforeValidator:
    return _read("quantity", unit=unit, unknown=unknown)


@dataclass(frozen=True, slots=True)
class InUnit:
    """Schema mark: the inside unit of a field and whether `unknown` is a legal answer."""

    unit: str
    unknown: bool = False


Text = Annotated[str, Field(min_length=1)]
YesNo = Annotated[bool, _read("boolean")]
Whole = Annotated[int, _read("whole")]
Id = Annotated[str, Field(pattern=r"^[a-z0-9][a-z0-9-]{0,63}$")]

Volts = Annotated[Quantity, _quantity("V"), InUnit("V")]
Amps = Annotated[Quantity, _quantity("A"), InUnit("A")]
Watts = Annotated[Quantity, _quantity("W"), InUnit("W")]
Ohms = Annotated[Quantity, _quantity("ohm"), InUnit("ohm")]
OhmsPerMetre = Annotated[Quantity, _quantity("ohm/m"), InUnit("ohm/m")]
Metres = Annotated[Quantity, _quantity("m"), InUnit("m")]
Area = Annotated[Quantity, _quantity("mm2"), InUnit("mm2")]
Degrees = Annotated[Quantity, _quantity("degC"), InUnit("degC")]
Kelvins = Annotated[Quantity, _quantity("K"), InUnit("K")]
Torque = Annotated[Quantity, _quantity("N*m"), InUnit("N*m")]
TorqueOrUnknown = Annotated[
    Quantity | Unknown, _quantity("N*m", unknown=True), InUnit("N*m", unknown=True)
]
OhmsOrUnknown = Annotated[
    Quantity | Unknown, _quantity("ohm", unknown=True), InUnit("ohm", unknown=True)
]
MetresOrUnknown = Annotated[
    Quantity | Unknown, _quantity("m", unknown=True), InUnit("m", unknown=True)
]
Kilograms = Annotated[Quantity, _quantity("kg"), InUnit("kg")]
Seconds = Annotated[Quantity, _quantity("s"), InUnit("s")]
SecondsOrUnknown = Annotated[
    Quantity | Unknown, _quantity("s", unknown=True), InUnit("s", unknown=True)
]
AmpHours = Annotated[Quantity, _quantity("A*h"), InUnit("A*h")]
WattHours = Annotated[Quantity, _quantity("W*h"), InUnit("W*h")]
Ratio = Annotated[Quantity, _quantity("1"), InUnit("1")]  # "5 %" or "0.92"
Gravities = Annotated[Quantity, _quantity("g_n"), InUnit("g_n")]  # standard gravity
PerKelvin = Annotated[Quantity, _quantity("1/K"), InUnit("1/K")]  # "2 %/K"


# ---------------------------------------------------------------------- words with a closed list


class YesNoUnknown(StrEnum):
    YES = "yes"
    NO = "no"
    UNKNOWN = "unknown"


class SupplyKind(StrEnum):
    FIXED = "fixed alternator"
    CONTROLLED = "controlled alternator"
    CONVERTER = "converter"


class CueKind(StrEnum):
    RUN = "run line"  # an engine-run line (DIN 72552 terminal D+, or an output that follows it)
    READY = "ready line"
    DRIVE = "drive line"
    IGNITION = "ignition"  # DIN 72552 terminal 15
    VOLTAGE = "voltage"


class JointKind(StrEnum):
    STUD = "stud"
    BODY = "body point"
    CLAMP = "screw clamp"
    PUSH_IN = "push-in"
    CONNECTOR = "connector"
    POST = "battery post"
    ISOLATOR = "isolator"


class PassageKind(StrEnum):
    GROMMET = "grommet"  # existing hole, edge protected
    GLAND = "gland"  # sealed, usually a new hole
    OPEN = "open"  # zone changes without a wall


class HazardKind(StrEnum):
    EXHAUST = "exhaust"
    FUEL = "fuel"
    BRAKE = "brake line"
    STEERING = "steering"
    PEDALS = "pedals"
    AIRBAG = "airbag"
    PRETENSIONER = "belt pretensioner"
    HIGH_VOLTAGE = "high voltage"
    AIR_PIPE = "air pipe"
    WATER_PIPE = "water pipe"
    GAS = "gas"
    MOVING = "moving part"
    ELECTRONICS = "control unit"


# --------------------------------------------------------------------------- shop profile


class Sourced(Noun):
    """A limit of the shop with the source it was taken from."""

    source: Text = Field(description="id of the source register, or `shop rule`")


class LimitRatio(Sourced):
    value: Ratio


class LimitVolts(Sourced):
    value: Volts


class LimitMetres(Sourced):
    value: Metres


class LimitKelvins(Sourced):
    value: Kelvins


class Limits(Noun):
    """What the shop allows. Every limit names its source."""

    input_drop: LimitRatio = Field(description="share of the lowest supply voltage")
    output_drop: LimitRatio = Field(description="share of the set voltage")
    cut_out_margin: LimitVolts = Field(description="least distance of charger volts to its cut-out")
    absolute_margin: LimitRatio = Field(description="distance kept to a station's absolute maximum")
    continuous_factor: LimitRatio = Field(description="k: continuous load over fuse rating")
    fuse_distance: LimitMetres = Field(description="unprotected length at a source")
    fuse_distance_conduit: LimitMetres = Field(
        description="the same inside conduit, with the approver's signature"
    )
    touch_voltage: LimitVolts = Field(description="highest DC output, tolerance counted")
    joint_rise: LimitKelvins = Field(description="joint over ambient after 20 min at load")
    alternator_headroom: LimitRatio = Field(
        description="share of the hot figure that is counted on"
    )
    standby_share: LimitRatio = Field(description="usable share of the starter battery")
    deficit_refused: YesNo = Field(description="refuse where idling does not cover the demand")


class Zone(Noun):
    """An ambient on the route."""

    name: Text = Field(description="as the guide shows it")
    temperature: Degrees = Field(description="ambient that the cable is sized for")


class Lengths(Noun):
    segment_tolerance: Ratio = Field(description="of a segment that states none of its own")
    end_allowance: Metres = Field(description="per leg; the runs before and behind a fuse share it")
    cutting_step: Metres = Field(description="lengths are rounded up to a multiple of it")


class JointResistances(Noun):
    """Contact resistance in the input loop."""

    positive: Ohms = Field(description="all joints of the positive, protection and holder included")
    protection: Ohms = Field(description="of which protection and holder")
    negative: Ohms = Field(description="all joints of the return")


class Restraint(Noun):
    basis: Text = Field(description="cargo or crash figure, in words")
    forward: Gravities = Field(description="in the direction of travel")
    other: Gravities = Field(description="in every other direction")
    fixings_lost: Whole = Field(description="so many fixings are assumed to have failed")


class Spacing(Noun):
    """Least distances on the route."""

    exhaust: Metres = Field(description="nearer than this, the run needs a shield")
    clip_pitch: Metres = Field(description="from clip to clip")
    source: Text = Field(description="id of the source register, or `shop rule`")


class Person(Noun):
    role: Text
    licence: Text | None = None
    level: Text | None = None
    until: Day | None = Field(default=None, description="the licence lapses after this day")


class Tool(Noun):
    id: Text
    name: Text
    torque_low: Torque | None = None
    torque_high: Torque | None = None
    insulated: YesNo = False
    due: Day | None = Field(default=None, description="calibration due")


class Site(Noun):
    address: Text = Field(description="permanent address of the published site")
    reports: Text = Field(description="address for error reports (mailto: or https:)")


class Approval(Noun):
    """A licensed person's approval, bound to the figures' fingerprint."""

    by: Text = Field(description="role of a person with a licence")
    on: Day
    figures: Text = Field(description="fingerprint of the figures that were approved")


class Meter(Noun):
    """What the shop's meters may be off by; goes into the limits of a predicted reading."""

    voltage: Ratio
    current: Ratio


class Shop(Noun):
    format: Literal["1"] = Field(description="version of the file format")
    name: Text
    about: Text = Field(description="one line under the shop's name")
    demonstration: YesNo = Field(description="marks every page, print and file as invented")
    rule_set: Text = Field(description="printed with every verdict")
    approval_required: YesNo = Field(
        description="a guide stays a draft until a licensed person approved its figures"
    )
    valid_months: Whole = Field(description="a print is to be checked again after so many months")
    site: Site
    languages: tuple[Literal["en", "de"], ...]
    papers: tuple[Literal["a4", "letter"], ...]
    panels: Literal["ISO 3864", "ANSI Z535"] = Field(description="standard of the safety panels")
    people: tuple[Person, ...]
    tools: tuple[Tool, ...]
    meter: Meter
    limits: Limits
    zones: dict[Id, Zone]
    lengths: Lengths
    joints: JointResistances
    restraint: Restraint
    spacing: Spacing


# --------------------------------------------------------------------------- data sheets


class Sheet(Noun):
    """The document a data sheet was copied from."""

    document: Text
    revision: Text
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
    thread: Text | None = None
    torque: TorqueOrUnknown | None = Field(default=None, description="absent: nothing is tightened")
    ferrule: YesNo = False
    tool: Text | None = Field(default=None, description="bit or key, e.g. `5 mm hex`")


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
    name: Text
    maker: Text
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
    mass: Kilograms
    input: Terminal
    output: Terminal
    approvals: Text = Field(description="as stated on the sheet, else `not stated`")


class StationSheet(Noun):
    format: Literal["1"]
    kind: Literal["station"]
    name: Text
    maker: Text
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
    polarity: Text = Field(description="e.g. `centre positive`, or `by pin`")
    constant_voltage_tested: YesNoUnknown
    mass: Kilograms
    charge_min: Degrees = Field(description="ambient")
    charge_max: Degrees = Field(description="ambient")


class Ampacity(Noun):
    ambient: Degrees
    current: Amps


class CableSize(Noun):
    area: Area
    nearest_awg: Text = Field(description="as the sheet states it, e.g. `AWG 4`")
    resistance: OhmsPerMetre = Field(description="at 20 °C")
    diameter: Metres = Field(description="outer diameter")
    bend_radius: Metres
    ampacity: tuple[Ampacity, ...] = Field(description="current for good, by ambient")


class CableSheet(Noun):
    format: Literal["1"]
    kind: Literal["cable"]
    name: Text
    maker: Text
    sheet: Sheet
    standard: Text = Field(description="conductor standard and class")
    material: Literal["copper"]
    conductor_max: Degrees = Field(description="highest conductor temperature in service")
    reference_ambient: Degrees = Field(description="ambient of the first ampacity figure")
    short_circuit: Degrees = Field(description="conductor limit in a short circuit up to 5 s")
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
    name: Text
    maker: Text
    sheet: Sheet
    form: Literal["fuse", "breaker"]
    reset: Literal["none", "manual", "automatic"]
    ratings: tuple[Amps, ...] = Field(description="the steps that are made, rising")
    voltage: Volts = Field(description="rated DC voltage")
    breaking: Amps = Field(description="rated DC breaking capacity")
    thread: Text = Field(description="of its two studs")
    torque: TorqueOrUnknown
    holds: tuple[HoldPoint, ...]
    opens: tuple[GatePoint, ...] = Field(description="empty: the maker states none")
    derating: tuple[DeratingPoint, ...]


class LugSize(Noun):
    area: Area
    studs: tuple[Text, ...] = Field(description="threads it is made for, e.g. `M8`")
    die: Text = Field(description="die of the crimper")
    strip: Metres


class PalmLimit(Noun):
    thread: Text
    torque: Torque


class LugSheet(Noun):
    format: Literal["1"]
    kind: Literal["lug"]
    name: Text
    maker: Text
    sheet: Sheet
    sizes: tuple[LugSize, ...]
    palms: tuple[PalmLimit, ...] = Field(description="highest torque the palm stands, by stud")


class PassageSize(Noun):
    id: Text
    form: PassageKind
    conductors: Whole = Field(description="how many go through one piece")
    diameter_min: Metres = Field(description="smallest outer diameter of a conductor")
    diameter_max: Metres = Field(description="largest outer diameter of a conductor")
    hole: Metres = Field(description="diameter of the hole it sits in")
    seal: Text = Field(description="IP code")


class PassageSheet(Noun):
    format: Literal["1"]
    kind: Literal["passage"]
    name: Text
    maker: Text
    sheet: Sheet
    sizes: tuple[PassageSize, ...]


class ConnectorSheet(Noun):
    format: Literal["1"]
    kind: Literal["connector"]
    name: Text
    maker: Text
    sheet: Sheet
    current: Amps
    voltage: Volts
    mates_with: tuple[Id, ...] = Field(
        description="ids of the connector sheets that it may be plugged into"
    )
    pins: Text = Field(description="how + and − are found, e.g. `marked`, `centre and sleeve`")


class SundrySize(Noun):
    id: Text
    diameter_max: Metres


class SundrySheet(Noun):
    """Clips, sleeves, conduit: bought by diameter."""

    format: Literal["1"]
    kind: Literal["sundry"]
    name: Text
    maker: Text
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

# --------------------------------------------------------------------------- vehicle


class Years(Noun):
    first: Whole
    last: Whole | None = None


class Applies(Noun):
    """One look that tells this vehicle from its sisters."""

    question: Text = Field(description="can be answered by looking, before anything is opened")
    answer: Literal["yes", "no"] = Field(description="the answer that this vehicle gives")


class Supply(Noun):
    kind: SupplyKind
    nominal: Volts
    low: Volts = Field(description="lowest running voltage at the posts")
    typical: Volts = Field(description="usual running voltage at the posts")
    high: Volts = Field(description="highest running voltage at the posts")
    rest: Volts = Field(description="engine off for one hour")
    rated: Amps | None = None
    hot_idle: Amps | None = None
    hot_cruise: Amps | None = None
    base_day: Amps = Field(description="the vehicle's own demand by day")
    base_night: Amps = Field(description="winter night")
    allowance: Amps | None = Field(default=None, description="the maker's limit for added loads")
    sleep: Amps = Field(description="sleep current before the fit")
    stop_start: YesNo


class Battery(Noun):
    chemistry: Text
    capacity: AmpHours
    place: Text
    zone: Id
    internal: OhmsOrUnknown
    sensor: YesNoUnknown = Field(description="a current sensor on the negative post")
    units: Whole = Field(default=1, description="batteries in series")


class FactoryFuse(Noun):
    """A fused point of the vehicle's maker."""

    rating: Amps
    continuous: Amps = Field(description="current that its maker allows for good")
    voltage: Volts
    breaking: Amps
    opens: tuple[GatePoint, ...]


class Point(Noun):
    """A place of the vehicle where a conductor may be joined."""

    kind: JointKind
    role: Literal["positive", "negative"]
    what: Text = Field(description="in words, without an article: `stud on the positive clamp`")
    place: Text = Field(description="where on the vehicle")
    zone: Id
    thread: Text
    torque: TorqueOrUnknown
    tool: Text = Field(description="socket, e.g. `13 mm socket`")
    photo: Text | None = None
    at_post: YesNo = Field(description="it is the battery's own post")
    factory_fuse: FactoryFuse | None = None
    switched_side: YesNo | None = Field(default=None, description="only at an isolator")


class Cue(Noun):
    kind: CueKind
    where: Text = Field(description="connector and pin, or where the voltage is seen")


class Isolator(Noun):
    lead: Literal["positive", "negative"]
    place: Text
    letter: Text = Field(description="the customer's letter that the feed's side needs")


class Hazard(Noun):
    kind: HazardKind
    what: Text
    distance: Metres = Field(description="least distance from the cable")
    at: Metres = Field(description="along the route from the source")
    shield: Id | None = Field(default=None, description="id of a sundry sheet that shields it")
    shield_length: Metres | None = None


class Passage(Noun):
    """Where the route goes through a wall, at the end of a segment."""

    wall: Text = Field(description="in words, without an article: `bulkhead, left`")
    form: PassageKind
    family: Id = Field(description="id of a passage sheet")
    hole: MetresOrUnknown | None = Field(
        default=None, description="an existing hole; absent: a new one is drilled"
    )
    each: YesNo = Field(description="a passage for each conductor; else both share one")
    behind: Text = Field(description="what is behind the wall")


class Segment(Noun):
    name: Text
    zone: Id
    length: Metres = Field(description="along the path")
    access: Text = Field(description="what is opened to reach it, an action")
    fixing: Text = Field(description="what the cable is clipped to, in words")
    loop: Metres | None = Field(
        default=None, description="slack kept at a hinge, part of the length"
    )
    hazards: tuple[Hazard, ...] = Field(
        description="in the order of the route; `[]` if there is none"
    )
    passage: Passage | None = None


class Route(Noun):
    segments: tuple[Segment, ...]
    lost: Text | None = Field(default=None, description="why this option was not taken")


class Mount(Noun):
    place: Text
    zone: Id
    panel: Metres = Field(description="thickness of what is drilled")
    free_depth: MetresOrUnknown = Field(description="behind the panel")
    behind: Text = Field(description="what was seen or felt there")
    fixings: Whole = Field(description="how many")
    thread: Text = Field(description="of the screws")
    fixing: Text = Field(description="e.g. `through-bolt with spread plate`")
    torque: TorqueOrUnknown
    tool: Text
    screw_length: Metres
    drill: Metres = Field(description="diameter of the holes")
    lost: Text | None = None


class StationPlace(Noun):
    place: Text
    fixing: Text


class Restraints(Noun):
    """Airbags, pretensioners and the wait after disconnection."""

    found: tuple[Text, ...] = Field(description="or one line: `none found`")
    by: Text = Field(description="who looked, and how")
    wait: SecondsOrUnknown = Field(description="from disconnection until work may begin")


class Preserve(Noun):
    """What the vehicle forgets without its battery, and what is done about it."""

    what: Text = Field(description="what the vehicle forgets")
    how: Text = Field(description="an action, the verb first")
    when: Literal["before", "after"] = Field(
        default="before", description="before the negative comes off, or after it is on again"
    )


class Caution(Noun):
    """A caution that belongs to this vehicle: hazard, consequence, avoidance."""

    signal: Literal["danger", "warning", "caution", "notice"]
    symbol: Literal["arc", "crush", "drill", "hot", "sensor"]
    before: Literal["prepare", "isolate", "dry fit", "drill", "route", "connect", "commission"]
    hazard: Text
    consequence: Text
    avoidance: Text


class SourceChoice(Noun):
    positive: Id = Field(description="id of a point")
    negative: Id = Field(description="id of a point")
    fuse_at: Metres = Field(description="along the cable from the source")
    conduit: YesNo = False
    signed: Text | None = Field(default=None, description="role that signs a longer distance")
    letter: YesNo = Field(default=False, description="the customer's isolator letter is on file")


class Asked(Noun):
    area: Area | None = None


class KeptRefusal(Noun):
    """This fit is published as a refusal, and fails if it is not refused so."""

    codes: tuple[Text, ...]
    thought: Text = Field(description="the wrong thought that leads here, one sentence")


class Checked(Noun):
    on: Day
    by: Text


class Job(Noun):
    """One entry of `fits:`."""

    id: Id
    title: Text
    charger: Id = Field(description="id of a charger sheet")
    charger_units: Whole = 1
    station: Id = Field(description="id of a station sheet")
    source: SourceChoice
    cue: Id = Field(description="id of a cue of the vehicle")
    route: Id = Field(description="id of a route of the vehicle")
    mount: Id = Field(description="id of a mount of the vehicle")
    cable: Id = Field(description="id of a cable sheet")
    lugs: Id = Field(description="id of a lug sheet")
    protection: tuple[Id, ...] = Field(description="ids of protection sheets to choose from")
    clips: Id = Field(description="id of a sundry sheet")
    conduit: Id | None = None
    output_cable: Id = Field(description="id of a cable sheet")
    output_area: Area
    output_length: Metres = Field(description="from the charger to the connector")
    connector: Id = Field(description="id of a connector sheet")
    station_place: StationPlace
    asked: Asked = Asked()
    checked: Checked
    approvals: tuple[Approval, ...] = ()
    refused: KeptRefusal | None = None


class Vehicle(Noun):
    format: Literal["1"]
    code: Text = Field(description="the shop's own short name")
    make: Text
    model: Text
    body: Text
    engine: Text
    years: Years
    drive_sides: tuple[Literal["left", "right"], ...]
    outline: Literal["estate", "hatch", "van", "pickup", "lorry", "camper"]
    bases: dict[Id, Basis] = Field(description="what figures of this file rest on, by name")
    applies: tuple[Applies, ...] = Field(description="looks that tell it from its sisters")
    zones: dict[Id, Zone] = Field(
        default_factory=dict, description="measured here; they replace the shop's zone of that id"
    )
    supply: Supply
    battery: Battery
    points: dict[Id, Point]
    cues: dict[Id, Cue]
    isolator: Isolator | None = None
    routes: dict[Id, Route]
    mounts: dict[Id, Mount]
    restraints: Restraints
    preserve: tuple[Preserve, ...] = Field(description="what is lost while the battery is off")
    cautions: tuple[Caution, ...] = ()
    fits: tuple[Job, ...]


# --------------------------------------------------------------------------- the hand-over


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
        while path not in self.marks and "." in path:
            path = path.rpartition(".")[0]
        return self.marks.get(
            path, Mark(file=f"vehicles/{self.slug}/vehicle.yaml", line=1, column=1)
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class Workbook:
    """All that was read from one folder."""

    shop: Shop
    fits: tuple[Fit, ...]  # sorted by id
