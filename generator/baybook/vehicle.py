"""Noun: a vehicle as surveyed, and the jobs on it."""

from __future__ import annotations

from typing import Literal

from pydantic import Field

from baybook.quantity import (
    AmpHours,
    Amps,
    Area,
    Basis,
    Day,
    Id,
    Kilograms,
    KilogramsOrUnknown,
    Megapascals,
    Metres,
    MetresOrUnknown,
    Newtons,
    NewtonsOrUnknown,
    Noun,
    OhmsOrUnknown,
    ProperName,
    Ratio,
    SecondsOrUnknown,
    Text,
    Torque,
    TorqueOrUnknown,
    Volts,
    Watts,
    Whole,
    YesNo,
)
from baybook.sheet import GatePoint, HoldPoint
from baybook.shop import Approval, Zone
from baybook.terms import (
    CueKind,
    Fastener,
    HazardKind,
    JointKind,
    PassageKind,
    SupplyKind,
    TableKind,
    YesNoUnknown,
)


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
    engine: YesNo = Field(default=True, description="false: nothing on board burns fuel")


class Battery(Noun):
    chemistry: Text
    capacity: AmpHours
    place: Text
    access: Text | None = Field(
        default=None,
        description="what is opened to reach its posts, an action; absent: they lie open",
    )
    zone: Id
    internal: OhmsOrUnknown
    sensor: YesNoUnknown = Field(description="a current sensor on the negative post")
    units: Whole = Field(default=1, description="batteries in series")
    direct_use: YesNo = Field(
        default=True, description="false: the vehicle's maker forbids loads on its posts"
    )


class FactoryFuse(Noun):
    """A fuse of the vehicle's maker."""

    place: Text = Field(description="where the fuse sits")
    rating: Amps
    continuous: Amps = Field(description="current that its maker allows for good")
    voltage: Volts
    breaking: Amps
    opens: tuple[GatePoint, ...]
    holds: tuple[HoldPoint, ...] = Field(
        default=(), description="what it carries, and for how long, where its paper says so"
    )


class LineLoad(Noun):
    """What else draws from a line of the vehicle: a constant current, a constant power, or both."""

    what: Text = Field(description="in words, without an article: `trailer socket`")
    current: Amps | None = None
    power: Watts | None = None


class SharedLine(Noun):
    """The vehicle's own line from the battery's plus to a point that others draw from too."""

    drop: Volts = Field(description="from the battery's plus to the point, under load")
    current: Amps = Field(description="that went through the line meanwhile")
    carries: Amps = Field(description="current that its maker allows in it for good")
    loads: tuple[LineLoad, ...] = Field(description="what else draws from it, while driving")


class TorqueTable(Noun):
    """What must be known of a joint before a published table may serve it."""

    kind: TableKind
    property_class: ProperName | None = Field(
        default=None, description="of a steel bolt, e.g. `8.8`"
    )
    into: Literal["steel", "rivet nut", "plastic", "lead"] | None = Field(
        default=None, description="what a steel bolt is screwed into; only steel has a table"
    )
    nut_factor: Ratio | None = Field(default=None, description="K of a steel bolt, as it lies here")


class GridPoint(Noun):
    """A place on the survey sheet's outline, in squares of its grid. No figure rests on it."""

    along: Whole = Field(description="from the nose, 48 squares long")
    across: Whole = Field(description="from the vehicle's left side, 20 squares wide")
    up: Whole = Field(description="from the ground, 20 squares high")


class Point(Noun):
    """A place of the vehicle where a conductor may be joined."""

    kind: JointKind
    role: Literal["positive", "negative"]
    what: Text = Field(description="in words, without an article: `stud on the positive clamp`")
    place: Text = Field(description="where on the vehicle")
    zone: Id
    thread: ProperName
    torque: TorqueOrUnknown
    torque_other: Torque | None = Field(
        default=None, description="what a second paper says of the same joint"
    )
    table: TorqueTable | None = Field(
        default=None, description="the kind of joint, where its maker states no torque"
    )
    tool: Text = Field(description="socket, e.g. `13 mm socket`")
    photo: ProperName | None = None
    sketch: GridPoint | None = Field(default=None, description="where it is on the outline")
    at_post: YesNo = Field(description="it is the battery's own post")
    factory_fuse: FactoryFuse | None = None
    upstream: FactoryFuse | None = Field(
        default=None, description="a fuse of the vehicle's maker before this point, ours behind it"
    )
    line: SharedLine | None = Field(
        default=None, description="the vehicle's own line to it, where others draw from it too"
    )
    tap: YesNo = Field(default=False, description="between two batteries in series")
    switched_side: YesNo | None = Field(default=None, description="only at an isolator")


class Cue(Noun):
    kind: CueKind
    where: Text = Field(description="connector and pin, or where the voltage is seen")
    path: Text | None = Field(
        default=None, description="where the lead leaves the cables, and how it goes on"
    )
    length: Metres | None = Field(default=None, description="of the lead, both ends included")
    join: Text | None = Field(
        default=None, description="how the lead is joined there, e.g. `crimped splice with glue`"
    )


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
    edge: Metres | None = Field(
        default=None, description="from the cable to the edge of an opening without a part in it"
    )


class Segment(Noun):
    name: Text
    zone: Id
    length: Metres = Field(description="along the path")
    access: Text = Field(description="what is opened to reach it, an action")
    fixing: Text = Field(description="what the cable is clipped to, in words")
    bend: Metres | None = Field(
        default=None, description="radius of the tightest bend of the path, a hinge loop included"
    )
    shut_to_run: YesNo = Field(
        default=False, description="closed again before the engine runs: a tilted cab"
    )
    bundled: Whole = Field(
        default=0, description="other current-carrying conductors in the same bundle"
    )
    loop: Metres | None = Field(
        default=None, description="slack kept at a hinge, part of the length"
    )
    hazards: tuple[Hazard, ...] = Field(
        description="in the order of the route; `[]` if there is none"
    )
    passage: Passage | None = None
    sketch: tuple[GridPoint, ...] = Field(
        default=(), description="the path on the outline, corner by corner, up to its end"
    )


class Route(Noun):
    segments: tuple[Segment, ...]
    lost: ProperName | None = Field(default=None, description="why this option was not taken")


class Mount(Noun):
    place: Text
    zone: Id
    panel: Metres = Field(description="thickness of what is drilled")
    free_depth: MetresOrUnknown = Field(description="behind the panel")
    behind: Text = Field(description="what was seen or felt there")
    fixings: Whole = Field(description="how many")
    thread: ProperName = Field(description="of the screws")
    fixing: Text = Field(description="e.g. `through-bolt with spread plate`")
    fastener: Fastener | None = Field(default=None, description="what takes the screw")
    holds: NewtonsOrUnknown | None = Field(
        default=None, description="what one fixing may be pulled with, by its maker's paper"
    )
    sheet_strength: Megapascals | None = Field(
        default=None, description="tensile strength of the sheet a self-tapping screw bites into"
    )
    screw: Metres | None = Field(
        default=None, description="nominal diameter of a self-tapping screw"
    )
    torque: TorqueOrUnknown
    tool: Text
    screw_length: Metres
    drill: Metres = Field(description="diameter of the holes")
    no_screws: Text | None = Field(
        default=None, description="why the vehicle's maker forbids any screw here"
    )
    lost: ProperName | None = None
    sketch: GridPoint | None = Field(default=None, description="where it is on the outline")


class StationPlace(Noun):
    place: Text
    fixing: Text
    straps: Whole | None = Field(default=None, description="how many hold it")
    strap_holds: Newtons | None = Field(default=None, description="what one of them may bear")
    access: Text | None = Field(
        default=None, description="what is opened to reach a second battery, an action"
    )


class Masses(Noun):
    """What the vehicle weighs, and what it may weigh."""

    kerb: KilogramsOrUnknown
    gross: KilogramsOrUnknown
    aboard: Kilograms = Field(description="people and load that are counted on, all in all")


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
    symbol: Literal["airbag", "arc", "chafe", "crush", "drill", "fumes", "hot", "moving", "sensor"]
    before: Literal["prepare", "isolate", "dry fit", "drill", "route", "connect", "commission"]
    hazard: Text
    consequence: Text
    avoidance: Text


class BodyLoop(Noun):
    """What the body drops between two of its points while a known current goes through it."""

    start: Id = Field(description="id of the body point near the charger")
    end: Id = Field(description="id of the body point that the battery's negative lead joins")
    drop: Volts = Field(description="between the two points, under load")
    current: Amps = Field(description="that went through the body meanwhile")


class SourceChoice(Noun):
    positive: Id = Field(description="id of a point")
    negative: Id = Field(description="id of a point; by the chassis: the one near the charger")
    fuse_at: Metres = Field(description="along the cable from the source")
    conduit: YesNo = False
    return_path: Literal["conductor", "chassis"] = Field(
        default="conductor", description="what carries the current back"
    )
    return_length: Metres | None = Field(
        default=None,
        description="from the charger to the body point, where the chassis carries it back",
    )
    signed: Text | None = Field(default=None, description="role that signs a longer distance")
    letter: YesNo = Field(default=False, description="the customer's isolator letter is on file")


class SecondChoice(Noun):
    """The fuse at a second battery's own end, and how its temperature is read."""

    protection: tuple[Id, ...] = Field(description="ids of protection sheets to choose from")
    fuse_at: Metres = Field(description="along the cable from the second battery")
    temperature_lead: YesNo = Field(description="the charger's lead is fixed to the battery")


class SplitRelay(Noun):
    """A relay that joins both batteries; out, where a charger takes its place."""

    place: Text
    leads: Text = Field(description="the leads that go with it, in words")


class Asked(Noun):
    area: Area | None = None


class KeptRefusal(Noun):
    """This fit is published as a refusal, and fails if it is not refused so."""

    codes: tuple[ProperName, ...]
    thought: Text = Field(description="the wrong thought that leads here, one sentence")
    instead: Id | None = Field(
        default=None, description="id of a fit of this vehicle that is no refusal"
    )


class Checked(Noun):
    on: Day
    by: Text


class Job(Noun):
    """One entry of `fits:`."""

    id: Id
    title: Text
    charger: Id = Field(description="id of a charger sheet")
    charger_units: Whole = 1
    pairing: Literal["parallel", "series"] = Field(
        default="parallel", description="of the outputs, where there is more than one charger"
    )
    station: Id = Field(description="id of a station sheet, or of a battery sheet")
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
    connector: Id | None = Field(
        default=None, description="id of a connector sheet; absent: the load is a battery"
    )
    second: SecondChoice | None = Field(
        default=None, description="where the load is a battery: what protects its own end"
    )
    station_place: StationPlace
    asked: Asked = Asked()
    checked: Checked
    approvals: tuple[Approval, ...] = ()
    refused: KeptRefusal | None = None


class Vehicle(Noun):
    format: Literal["1"]
    variant_of: Id | None = Field(
        default=None, description="folder name of the vehicle that this one differs from"
    )
    code: ProperName = Field(description="the shop's own short name")
    make: ProperName
    model: ProperName
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
    masses: Masses | None = Field(default=None, description="for the payload that is left")
    points: dict[Id, Point]
    cues: dict[Id, Cue]
    isolator: Isolator | None = None
    split_relay: SplitRelay | None = None
    body_return: YesNoUnknown = Field(
        default=YesNoUnknown.UNKNOWN,
        description="its maker lets the body carry return current; `no`: a tray, bonded",
    )
    body_loops: tuple[BodyLoop, ...] = Field(
        default=(), description="measured ways through the body, for a return by the chassis"
    )
    routes: dict[Id, Route]
    mounts: dict[Id, Mount]
    restraints: Restraints
    preserve: tuple[Preserve, ...] = Field(description="what is lost while the battery is off")
    cautions: tuple[Caution, ...] = ()
    fits: tuple[Job, ...]
