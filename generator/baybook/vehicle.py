"""Noun: a vehicle as surveyed, and the jobs on it."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType
from typing import Literal

from pydantic import Field

from baybook.quantity import (
    AmpHours,
    Amps,
    Area,
    Basis,
    Day,
    Format,
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
    first: Whole = Field(description="first model year of these looks")
    last: Whole | None = Field(default=None, description="last model year; absent: still made")


class Applies(Noun):
    """One look that tells this vehicle from its sisters."""

    question: Text = Field(description="can be answered by looking, before anything is opened")
    answer: Literal["yes", "no"] = Field(description="the answer that this vehicle gives")


class Supply(Noun):
    kind: SupplyKind = Field(description="what feeds the vehicle's own battery while it runs")
    nominal: Volts = Field(description="supply class, 12 V or 24 V")
    low: Volts = Field(description="lowest running voltage at the posts")
    typical: Volts = Field(description="usual running voltage at the posts")
    high: Volts = Field(description="highest running voltage at the posts")
    rest: Volts = Field(description="engine off for one hour")
    rated: Amps | None = Field(
        default=None, description="rated output of the alternator or converter"
    )
    hot_idle: Amps | None = Field(default=None, description="what the hot supply gives at idle")
    hot_cruise: Amps | None = Field(
        default=None, description="what the hot supply gives on the road"
    )
    base_day: Amps = Field(description="the vehicle's own demand by day")
    base_night: Amps = Field(description="winter night")
    allowance: Amps | None = Field(default=None, description="the maker's limit for added loads")
    sleep: Amps = Field(description="sleep current before the fit")
    stop_start: YesNo = Field(description="the engine stops by itself at lights")
    engine: YesNo = Field(default=True, description="false: nothing on board burns fuel")


class Battery(Noun):
    chemistry: Text = Field(description="as printed on it, e.g. `AGM`")
    capacity: AmpHours = Field(description="as printed on it")
    place: Text = Field(description="where it sits")
    access: Text | None = Field(
        default=None,
        description="what is opened to reach its posts, an action; absent: they lie open",
    )
    zone: Id = Field(description="id of a zone: how warm it gets there")
    internal: OhmsOrUnknown = Field(
        description="internal resistance, from the drop under a known load"
    )
    sensor: YesNoUnknown = Field(description="a current sensor on the negative post")
    units: Whole = Field(default=1, description="batteries in series")
    direct_use: YesNo = Field(
        default=True, description="false: the vehicle's maker forbids loads on its posts"
    )


class FactoryFuse(Noun):
    """A fuse of the vehicle's maker."""

    place: Text = Field(description="where the fuse sits")
    rating: Amps = Field(description="as printed on it")
    continuous: Amps = Field(description="current that its maker allows for good")
    voltage: Volts = Field(description="rated DC voltage")
    breaking: Amps = Field(description="rated DC breaking capacity")
    opens: tuple[GatePoint, ...] = Field(
        description="where its paper says how fast it opens; `[]` if it does not"
    )
    holds: tuple[HoldPoint, ...] = Field(
        default=(), description="what it carries, and for how long, where its paper says so"
    )


class LineLoad(Noun):
    """What else draws from a line of the vehicle: a constant current, a constant power, or both."""

    what: Text = Field(description="in words, without an article: `trailer socket`")
    current: Amps | None = Field(default=None, description="where it draws a steady current")
    power: Watts | None = Field(default=None, description="where it draws a steady power")


class SharedLine(Noun):
    """The vehicle's own line from the battery's plus to a point that others draw from too."""

    drop: Volts = Field(description="from the battery's plus to the point, under load")
    current: Amps = Field(description="that went through the line meanwhile")
    carries: Amps = Field(description="current that its maker allows in it for good")
    loads: tuple[LineLoad, ...] = Field(description="what else draws from it, while driving")


class TorqueTable(Noun):
    """What must be known of a joint before a published table may serve it."""

    kind: TableKind = Field(description="kind of joint that the table is made for")
    property_class: ProperName | None = Field(
        default=None, description="of a steel bolt, e.g. `8.8`"
    )
    into: Literal["steel", "rivet nut", "plastic", "lead"] | None = Field(
        default=None, description="what a steel bolt is screwed into; only steel has a table"
    )
    nut_factor: Ratio | None = Field(default=None, description="K of a steel bolt, as it lies here")


# Squares of the survey sheet's outline, the same for every body; how high each body is.
GRID: Mapping[str, int] = MappingProxyType({"along": 48, "across": 20})
HEIGHTS: Mapping[str, int] = MappingProxyType(
    {"estate": 15, "hatch": 17, "van": 18, "pickup": 15, "lorry": 19, "camper": 19}
)


class GridPoint(Noun):
    """A place on the survey sheet's outline, in squares of its grid. No figure rests on it."""

    along: Whole = Field(description="from the nose, 48 squares long")
    across: Whole = Field(description="from the vehicle's left side, 20 squares wide")
    up: Whole = Field(description="from the ground, as high as the outline: 15 to 19 squares")


class Point(Noun):
    """A place of the vehicle where a conductor may be joined."""

    kind: JointKind = Field(description="kind of joint")
    role: Literal["positive", "negative"] = Field(description="what is joined here")
    what: Text = Field(description="in words, without an article: `stud on the positive clamp`")
    place: Text = Field(description="where on the vehicle")
    zone: Id = Field(description="id of a zone: how warm it gets there")
    thread: ProperName = Field(description="thread of the stud or screw, e.g. `M8`")
    torque: TorqueOrUnknown = Field(description="by the maker of the joint, or `unknown`")
    torque_other: Torque | None = Field(
        default=None, description="what a second paper says of the same joint"
    )
    table: TorqueTable | None = Field(
        default=None, description="the kind of joint, where its maker states no torque"
    )
    tool: Text = Field(description="socket, e.g. `13 mm socket`")
    photo: ProperName | None = Field(
        default=None, description="number of your own picture, e.g. `P2`"
    )
    sketch: GridPoint | None = Field(default=None, description="where it is on the outline")
    at_post: YesNo = Field(description="it is the battery's own post")
    factory_fuse: FactoryFuse | None = Field(
        default=None, description="a fuse of the vehicle's maker at this point"
    )
    upstream: FactoryFuse | None = Field(
        default=None, description="a fuse of the vehicle's maker before this point, ours behind it"
    )
    line: SharedLine | None = Field(
        default=None, description="the vehicle's own line to it, where others draw from it too"
    )
    tap: YesNo = Field(default=False, description="between two batteries in series")
    switched_side: YesNo | None = Field(default=None, description="only at an isolator")


class Cue(Noun):
    kind: CueKind = Field(description="what tells the charger that the engine runs")
    where: Text = Field(description="connector and pin, or where the voltage is seen")
    path: Text | None = Field(
        default=None, description="where the lead leaves the cables, and how it goes on"
    )
    length: Metres | None = Field(default=None, description="of the lead, both ends included")
    join: Text | None = Field(
        default=None, description="how the lead is joined there, e.g. `crimped splice with glue`"
    )


class Isolator(Noun):
    lead: Literal["positive", "negative"] = Field(description="the lead that it opens")
    place: Text = Field(description="where it sits")
    letter: Text = Field(description="the customer's letter that the feed's side needs")


class Hazard(Noun):
    kind: HazardKind = Field(description="kind of hazard")
    what: Text = Field(description="what lies there, in words")
    distance: Metres = Field(description="least distance from the cable")
    at: Metres = Field(description="along the route from the source")
    shield: Id | None = Field(default=None, description="id of a sundry sheet that shields it")
    shield_length: Metres | None = Field(
        default=None, description="how much of the run the shield covers"
    )


class Passage(Noun):
    """Where the route goes through a wall, at the end of a segment."""

    wall: Text = Field(description="in words, without an article: `bulkhead, left`")
    form: PassageKind = Field(description="how the edge is guarded")
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
    name: Text = Field(description="what this stretch is called")
    zone: Id = Field(description="id of a zone: how warm it gets there")
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
    passage: Passage | None = Field(
        default=None, description="the wall at its end; absent: there is none"
    )
    sketch: tuple[GridPoint, ...] = Field(
        default=(), description="the path on the outline, corner by corner, up to its end"
    )


class Route(Noun):
    segments: tuple[Segment, ...] = Field(
        description="stretches of the way, from the source to the charger"
    )
    lost: ProperName | None = Field(default=None, description="why this option was not taken")


class Mount(Noun):
    place: Text = Field(description="where the charger sits, in words")
    zone: Id = Field(description="id of a zone: how warm it gets there")
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
    torque: TorqueOrUnknown = Field(description="of the fixings, by their maker, or `unknown`")
    tool: Text = Field(description="socket or bit, e.g. `8 mm socket`")
    screw_length: Metres = Field(description="under the head")
    drill: Metres = Field(description="diameter of the holes")
    no_screws: Text | None = Field(
        default=None, description="why the vehicle's maker forbids any screw here"
    )
    lost: ProperName | None = Field(default=None, description="why this option was not taken")
    sketch: GridPoint | None = Field(default=None, description="where it is on the outline")


class StationPlace(Noun):
    place: Text = Field(description="where the station stands, in words")
    fixing: Text = Field(description="what holds it, in words")
    straps: Whole | None = Field(default=None, description="how many hold it")
    strap_holds: Newtons | None = Field(default=None, description="what one of them may bear")
    access: Text | None = Field(
        default=None, description="what is opened to reach a second battery, an action"
    )


class Masses(Noun):
    """What the vehicle weighs, and what it may weigh."""

    kerb: KilogramsOrUnknown = Field(
        description="mass of the vehicle ready to drive, by its papers"
    )
    gross: KilogramsOrUnknown = Field(description="permitted mass, by its plate")
    aboard: Kilograms = Field(description="people and load that are counted on, all in all")


class Restraints(Noun):
    """Airbags, pretensioners and the wait after disconnection."""

    found: tuple[Text, ...] = Field(description="or one line: `none found`")
    by: Text = Field(description="who looked, and how")
    wait: SecondsOrUnknown = Field(description="from disconnection until work may begin")


class HighVoltage(Noun):
    """The traction side, made dead by a person trained for it, and how long it keeps a charge."""

    disconnect: Text = Field(description="where its service disconnect is")
    wait: SecondsOrUnknown = Field(
        description="from the service disconnect out until the high-voltage side is discharged"
    )


class Preserve(Noun):
    """What the vehicle forgets without its battery, and what is done about it."""

    what: Text = Field(description="what the vehicle forgets")
    how: Text = Field(description="an action, the verb first")
    when: Literal["before", "after"] = Field(
        default="before", description="before the negative comes off, or after it is on again"
    )


class Caution(Noun):
    """A caution that belongs to this vehicle: hazard, consequence, avoidance."""

    signal: Literal["danger", "warning", "caution", "notice"] = Field(
        description="how grave it is: by what happens if it is not heeded"
    )
    symbol: Literal[
        "airbag", "arc", "chafe", "crush", "drill", "fumes", "hot", "moving", "sensor"
    ] = Field(description="picture beside the words")
    before: Literal["prepare", "isolate", "dry fit", "drill", "route", "connect", "commission"] = (
        Field(description="part of the work that it stands before")
    )
    hazard: Text = Field(description="what can hurt")
    consequence: Text = Field(description="what happens then")
    avoidance: Text = Field(description="what to do or leave")


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
    conduit: YesNo = Field(
        default=False, description="the run from the source to the fuse lies in conduit"
    )
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

    place: Text = Field(description="where it sits")
    leads: Text = Field(description="the leads that go with it, in words")


class Asked(Noun):
    area: Area | None = Field(default=None, description="a larger size than the tool would choose")


class KeptRefusal(Noun):
    """This fit is published as a refusal, and fails if it is not refused so."""

    codes: tuple[ProperName, ...] = Field(description="codes of the rules that must refuse it")
    thought: Text = Field(description="the wrong thought that leads here, one sentence")
    instead: Id | None = Field(
        default=None, description="id of a fit of this vehicle that is no refusal"
    )


class Checked(Noun):
    on: Day = Field(description="the day the fit was gone through")
    by: Text = Field(description="role of who went through it")
    safety: Text | None = Field(
        default=None,
        description="what readers of an earlier revision must know: the feed of safety changes",
    )


class Job(Noun):
    """One entry of `fits:`."""

    id: Id = Field(description="short name, part of the guide's address")
    title: Text = Field(description="one line: what charges what, and where")
    charger: Id = Field(description="id of a charger sheet")
    charger_units: Whole = Field(default=1, description="how many chargers")
    pairing: Literal["parallel", "series"] = Field(
        default="parallel", description="of the outputs, where there is more than one charger"
    )
    station: Id = Field(description="id of a station sheet, or of a battery sheet")
    source: SourceChoice = Field(description="where the feed is joined, and its fuse")
    cue: Id = Field(description="id of a cue of the vehicle")
    route: Id = Field(description="id of a route of the vehicle")
    mount: Id = Field(description="id of a mount of the vehicle")
    cable: Id = Field(description="id of a cable sheet")
    other_cables: tuple[Id, ...] = Field(
        default=(), description="ids of cable sheets that are looked at in place of it"
    )
    lugs: Id = Field(description="id of a lug sheet")
    protection: tuple[Id, ...] = Field(description="ids of protection sheets to choose from")
    clips: Id = Field(description="id of a sundry sheet")
    shrink: Id | None = Field(
        default=None, description="id of a sundry sheet: the heat-shrink over the lugs"
    )
    conduit: Id | None = Field(
        default=None, description="id of a sundry sheet for the run in conduit"
    )
    output_cable: Id = Field(description="id of a cable sheet")
    output_area: Area = Field(description="one of the sizes of the output cable")
    output_length: Metres = Field(description="from the charger to the connector")
    connector: Id | None = Field(
        default=None, description="id of a connector sheet; absent: the load is a battery"
    )
    second: SecondChoice | None = Field(
        default=None, description="where the load is a battery: what protects its own end"
    )
    station_place: StationPlace = Field(description="where the station stands and what holds it")
    asked: Asked = Field(
        default=Asked(), description="what this fit asks for beyond the smallest that passes"
    )
    checked: Checked = Field(description="who went through it, and when")
    approvals: tuple[Approval, ...] = Field(
        default=(), description="by licensed persons, bound to the figures"
    )
    refused: KeptRefusal | None = Field(
        default=None, description="for a fit that is published as a refusal"
    )


class Vehicle(Noun):
    format: Format
    variant_of: Id | None = Field(
        default=None, description="folder name of the vehicle that this one differs from"
    )
    code: ProperName = Field(description="the shop's own short name")
    make: ProperName = Field(description="maker of the vehicle")
    model: ProperName = Field(description="model of the vehicle")
    body: Text = Field(description="body form, in words")
    engine: Text = Field(description="engine, as its papers call it")
    years: Years = Field(description="model years that this file holds for")
    drive_sides: tuple[Literal["left", "right"], ...] = Field(
        description="side of the steering wheel: `left`, `right` or both"
    )
    outline: Literal["estate", "hatch", "van", "pickup", "lorry", "camper"] = Field(
        description="outline that the drawings use"
    )
    bases: dict[Id, Basis] = Field(description="what figures of this file rest on, by name")
    applies: tuple[Applies, ...] = Field(description="looks that tell it from its sisters")
    zones: dict[Id, Zone] = Field(
        default_factory=dict, description="measured here; they replace the shop's zone of that id"
    )
    supply: Supply = Field(description="what feeds the vehicle's own battery, at the posts")
    battery: Battery = Field(description="the battery that the feed is taken from")
    masses: Masses | None = Field(default=None, description="for the payload that is left")
    points: dict[Id, Point] = Field(description="places where a conductor may be joined, by id")
    cues: dict[Id, Cue] = Field(description="what can start the charger, by id")
    isolator: Isolator | None = Field(
        default=None, description="a switch of the customer's in the feed"
    )
    split_relay: SplitRelay | None = Field(
        default=None, description="an old relay between two batteries, which comes out"
    )
    body_return: YesNoUnknown = Field(
        default=YesNoUnknown.UNKNOWN,
        description="its maker lets the body carry return current; `no`: a tray, bonded",
    )
    body_loops: tuple[BodyLoop, ...] = Field(
        default=(), description="measured ways through the body, for a return by the chassis"
    )
    routes: dict[Id, Route] = Field(description="ways of the cable, by id")
    mounts: dict[Id, Mount] = Field(description="places for the charger, by id")
    restraints: Restraints = Field(description="airbags, pretensioners, and the wait")
    high_voltage: HighVoltage | None = Field(
        default=None, description="the traction side's service disconnect, and its discharge time"
    )
    preserve: tuple[Preserve, ...] = Field(description="what is lost while the battery is off")
    cautions: tuple[Caution, ...] = Field(
        default=(), description="cautions that belong to this vehicle alone"
    )
    fits: tuple[Job, ...] = Field(description="jobs that were worked out for this vehicle")
