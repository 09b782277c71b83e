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

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date
from enum import StrEnum
from typing import Annotated, Any, Literal, Protocol

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

    def boolean(self, raw: Any) -> bool: ...

    def whole(self, raw: Any) -> int: ...

    def day(self, raw: Any) -> date: ...

    def quantity(self, raw: Any, unit: str, *, unknown: bool) -> Quantity | Unknown: ...


def _read(kind: str, **options: Any) -> BeforeValidator:
    def call(raw: Any, info: ValidationInfo) -> Any:
        if not isinstance(raw, (str, Mapping)):
            return raw  # built in Python, not read from a file
        return getattr(info.context["reader"], kind)(raw, **options)

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
    seen: str = Field(default="", description="the vehicle it was read on: VIN part or fleet number")
    document: str = Field(default="", description="maker's paper: number, revision, page")
    note: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Quantity:
    """A figure with its unit. `written` stays the control value that guides print."""

    value: float  # in `unit`
    low: float  # low end of the tolerance, in `unit`; equals value if none was written
    high: float
    unit: str  # one of the inside units of units.py: "V", "A", "W", "ohm", "m", "mm2", "degC", "N*m" …
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


# --------------------------------------------------------------------------- words with a closed list


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
    alternator_headroom: LimitRatio = Field(description="share of the hot figure that is counted on")
    standby_share: LimitRatio = Field(description="usable share of the starter battery")
    deficit_refused: YesNo = Field(description="refuse where idling does not cover the demand")


class Zone(Noun):
    """An ambient on the route."""

    name: Text
    temperature: Degrees


class Lengths(Noun):
    segment_tolerance: Ratio
    end_allowance: Metres = Field(description="per leg; the runs before and behind a fuse share it")
    cutting_step: Metres = Field(description="lengths are rounded up to a multiple of it")


class JointResistances(Noun):
    """Contact resistance in the input loop."""

    positive: Ohms = Field(description="all joints of the positive, protection and holder included")
    protection: Ohms = Field(description="of which protection and holder")
    negative: Ohms = Field(description="all joints of the return")


class Restraint(Noun):
    basis: Text = Field(description="cargo or crash figure, in words")
    forward: Gravities
    other: Gravities
    fixings_lost: Whole


class Spacing(Noun):
    """Least distances on the route."""

    exhaust: Metres
    clip_pitch: Metres
    source: Text


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

    by: Text
    on: Day
    figures: Text


class Meter(Noun):
    """What the shop's meters may be off by; goes into the limits of a predicted reading."""

    voltage: Ratio
    current: Ratio


class Shop(Noun):
    format: Literal["1"] = Field(description="version of the file format")
    name: Text
    about: Text
    demonstration: YesNo
    rule_set: Text
    approval_required: YesNo
    valid_months: Whole = Field(description="a print is to be checked again after so many months")
    site: Site
    languages: tuple[Literal["en", "de"], ...]
    papers: tuple[Literal["a4", "letter"], ...]
    panels: Literal["ISO 3864", "ANSI Z535"]
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
    power: Watts
    input_limit: Amps


class PowerSteps(Noun):
    kept: YesNo = Field(description="kept without power and through a reset")
    set_by: Text
    steps: tuple[PowerStep, ...]


class Terminal(Noun):
    """Where a conductor ends on a device."""

    kind: JointKind
    area_max: Area
    strip: Metres | None = None
    thread: Text | None = None
    torque: TorqueOrUnknown | None = Field(default=None, description="absent: nothing is tightened")
    ferrule: YesNo = False
    tool: Text | None = Field(default=None, description="bit or key, e.g. `5 mm hex`")


class Derating(Noun):
    full_to: Degrees
    per_kelvin: PerKelvin
    stop: Degrees


class Clearance(Noun):
    sides: Metres
    above: Metres


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
    input_current: Amps
    output_min: Volts
    output_max: Volts
    output_step: Volts
    output_default: Volts
    default_after_reset: YesNo = Field(description="a button reset brings the default back")
    output_tolerance: Ratio
    overshoot: Volts
    output_current: Amps
    output_power: Watts
    power: PowerSteps | None = None
    efficiency: Ratio
    upstream_max: Amps = Field(description="largest protection the maker allows upstream")
    standby: Amps
    isolated: YesNo
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
    window_min: Volts
    window_max: Volts
    start: Volts
    absolute: Volts
    input_current: Amps
    input_power: Watts
    energy: WattHours
    efficiency: Ratio
    connector: Id = Field(description="id of a connector sheet, or `unknown`")
    polarity: Text = Field(description="e.g. `centre positive`, or `by pin`")
    constant_voltage_tested: YesNoUnknown
    mass: Kilograms
    charge_min: Degrees
    charge_max: Degrees


class Ampacity(Noun):
    ambient: Degrees
    current: Amps


class CableSize(Noun):
    area: Area
    nearest_awg: Text
    resistance: OhmsPerMetre = Field(description="at 20 °C")
    diameter: Metres
    bend_radius: Metres
    ampacity: tuple[Ampacity, ...]


class CableSheet(Noun):
    format: Literal["1"]
    kind: Literal["cable"]
    name: Text
    maker: Text
    sheet: Sheet
    standard: Text = Field(description="conductor standard and class")
    material: Literal["copper"]
    conductor_max: Degrees
    reference_ambient: Degrees
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
    factor: Ratio


class ProtectionSheet(Noun):
    format: Literal["1"]
    kind: Literal["protection"]
    name: Text
    maker: Text
    sheet: Sheet
    form: Literal["fuse", "breaker"]
    reset: Literal["none", "manual", "automatic"]
    ratings: tuple[Amps, ...]
    voltage: Volts = Field(description="rated DC voltage")
    breaking: Amps = Field(description="rated DC breaking capacity")
    thread: Text
    torque: TorqueOrUnknown
    holds: tuple[HoldPoint, ...]
    opens: tuple[GatePoint, ...] = Field(description="empty: the maker states none")
    derating: tuple[DeratingPoint, ...]


class LugSize(Noun):
    area: Area
    studs: tuple[Text, ...]
    die: Text
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
    conductors: Whole
    diameter_min: Metres
    diameter_max: Metres
    hole: Metres
    seal: Text


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
    mates_with: tuple[Id, ...]
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

    question: Text
    answer: Literal["yes", "no"]


class Supply(Noun):
    kind: SupplyKind
    nominal: Volts
    low: Volts = Field(description="lowest running voltage at the posts")
    typical: Volts
    high: Volts
    rest: Volts = Field(description="engine off for one hour")
    rated: Amps | None = None
    hot_idle: Amps | None = None
    hot_cruise: Amps | None = None
    base_day: Amps
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
    continuous: Amps
    voltage: Volts
    breaking: Amps
    opens: tuple[GatePoint, ...]


class Point(Noun):
    """A place of the vehicle where a conductor may be joined."""

    kind: JointKind
    role: Literal["positive", "negative"]
    what: Text
    place: Text
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
    where: Text


class Isolator(Noun):
    lead: Literal["positive", "negative"]
    place: Text
    letter: Text = Field(description="the customer's letter that the feed's side needs")


class Hazard(Noun):
    kind: HazardKind
    what: Text
    distance: Metres
    at: Metres = Field(description="along the route from the source")
    shield: Id | None = Field(default=None, description="id of a sundry sheet that shields it")
    shield_length: Metres | None = None


class Passage(Noun):
    """Where the route goes through a wall, at the end of a segment."""

    wall: Text
    form: PassageKind
    family: Id
    hole: MetresOrUnknown | None = Field(
        default=None, description="an existing hole; absent: a new one is drilled"
    )
    each: YesNo = Field(description="a passage for each conductor; else both share one")
    behind: Text = Field(description="what is behind the wall")


class Segment(Noun):
    name: Text
    zone: Id
    length: Metres
    access: Text = Field(description="what is opened to reach it, an action")
    fixing: Text
    loop: Metres | None = Field(default=None, description="slack kept at a hinge, part of the length")
    hazards: tuple[Hazard, ...]
    passage: Passage | None = None


class Route(Noun):
    segments: tuple[Segment, ...]
    lost: Text | None = Field(default=None, description="why this option was not taken")


class Mount(Noun):
    place: Text
    zone: Id
    panel: Metres
    free_depth: MetresOrUnknown
    behind: Text
    fixings: Whole
    thread: Text
    fixing: Text = Field(description="e.g. `through-bolt with spread plate`")
    torque: TorqueOrUnknown
    tool: Text
    screw_length: Metres
    drill: Metres
    lost: Text | None = None


class StationPlace(Noun):
    place: Text
    fixing: Text


class Restraints(Noun):
    """Airbags, pretensioners and the wait after disconnection."""

    found: tuple[Text, ...] = Field(description="or one line: `none found`")
    by: Text
    wait: SecondsOrUnknown


class Preserve(Noun):
    """What the vehicle forgets without its battery, and what is done about it."""

    what: Text
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
    positive: Id
    negative: Id
    fuse_at: Metres
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
    charger: Id
    charger_units: Whole = 1
    station: Id
    source: SourceChoice
    cue: Id
    route: Id
    mount: Id
    cable: Id
    lugs: Id
    protection: tuple[Id, ...]
    clips: Id
    conduit: Id | None = None
    output_cable: Id
    output_area: Area
    output_length: Metres
    connector: Id
    station_place: StationPlace
    asked: Asked = Asked()
    checked: Checked
    approvals: tuple[Approval, ...] = ()
    refused: KeptRefusal | None = None


class Vehicle(Noun):
    format: Literal["1"]
    code: Text
    make: Text
    model: Text
    body: Text
    engine: Text
    years: Years
    drive_sides: tuple[Literal["left", "right"], ...]
    outline: Literal["estate", "hatch", "van", "pickup", "lorry", "camper"]
    bases: dict[Id, Basis]
    applies: tuple[Applies, ...]
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
    preserve: tuple[Preserve, ...]
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
    marks: Mapping[str, Mark] = field(repr=False)  # dotted path, e.g. "fit.charger", "vehicle.supply.low"

    def mark(self, path: str) -> Mark:
        """Where `path` stands, or the nearest place above it."""
        while path not in self.marks and "." in path:
            path = path.rpartition(".")[0]
        return self.marks.get(path, Mark(file=f"vehicles/{self.slug}/vehicle.yaml", line=1, column=1))


@dataclass(frozen=True, slots=True, kw_only=True)
class Workbook:
    """All that was read from one folder."""

    shop: Shop
    fits: tuple[Fit, ...]  # sorted by id
