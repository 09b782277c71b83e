"""Noun: a vehicle as surveyed."""

from typing import Literal

from pydantic import Field

from baybook.job import Job
from baybook.photo import Photo, PhotoNumber
from baybook.point import (
    Point,
)
from baybook.quantity import (
    AmpHours,
    Amps,
    Basis,
    Format,
    Id,
    Kilograms,
    KilogramsOrUnknown,
    Metres,
    Noun,
    OhmsOrUnknown,
    ProperName,
    SecondsOrUnknown,
    Text,
    Volts,
    Whole,
    YesNo,
)
from baybook.route import Mount, Route
from baybook.shop import Zone
from baybook.terms import (
    CueKind,
    SupplyKind,
    YesNoUnknown,
)


class Years(Noun):
    first: Whole = Field(description="first model year of these looks")
    last: Whole | None = Field(default=None, description="last model year; absent: still made")


class Applies(Noun):
    """One look that tells this vehicle from its sisters."""

    question: Text = Field(description="can be answered by looking, before anything is opened")
    answer: Literal["yes", "no"] = Field(description="the answer that this vehicle gives")
    photo: ProperName | None = Field(
        default=None, description="number of the picture that shows it, e.g. `P1`"
    )


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


class SplitRelay(Noun):
    """A relay that joins both batteries; out, where a charger takes its place."""

    place: Text = Field(description="where it sits")
    leads: Text = Field(description="the leads that go with it, in words")


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
    plate_photo: ProperName | None = Field(
        default=None, description="number of the picture of its type plate, e.g. `P10`"
    )
    applies: tuple[Applies, ...] = Field(
        description="looks that tell it from its sisters, three to five; the plate is asked first"
    )
    photos: dict[PhotoNumber, Photo] = Field(
        default_factory=dict,
        description="pictures of this vehicle, by number; absent: its photos are on paper",
    )
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
