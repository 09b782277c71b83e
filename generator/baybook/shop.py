"""Noun: the shop profile: limits with their sources, zones, tools, people, paper."""

from typing import Literal

from pydantic import Field

from baybook.quantity import (
    Amps,
    Area,
    Day,
    Degrees,
    Format,
    Gravities,
    Id,
    Kelvins,
    Metres,
    Noun,
    Ohms,
    ProperName,
    Ratio,
    Text,
    Torque,
    Volts,
    Whole,
    YesNo,
)
from baybook.terms import AmpacitySource, HazardKind, TableKind


class Sourced(Noun):
    """A limit of the shop with the source it was taken from."""

    source: ProperName = Field(description="id of the source register, or `shop rule`")


class LimitRatio(Sourced):
    value: Ratio = Field(description="the limit, a share")


class LimitVolts(Sourced):
    value: Volts = Field(description="the limit")


class LimitMetres(Sourced):
    value: Metres = Field(description="the limit")


class LimitKelvins(Sourced):
    value: Kelvins = Field(description="the limit")


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
    fuse_distance_rule: ProperName | None = Field(
        default=None, description="id of a published rule that replaces the shop's own distance"
    )
    pair_gain: LimitRatio = Field(
        description="least gain of a second charger, as a share of what one gives"
    )
    deficit_refused: YesNo = Field(description="refuse where idling does not cover the demand")


class Zone(Noun):
    """An ambient on the route."""

    name: Text = Field(description="as the guide shows it")
    temperature: Degrees = Field(description="ambient that the cable is sized for")
    engine_space: YesNo = Field(
        default=False, description="an engine space as 33 CFR 183.425 has it"
    )


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
    rearward: Gravities | None = Field(default=None, description="absent: as `other`")
    sideways: Gravities | None = Field(default=None, description="absent: as `other`")
    upward: Gravities | None = Field(default=None, description="absent: as `other`")
    fixings_lost: Whole = Field(description="so many fixings are assumed to have failed")


class HazardSpacing(Sourced):
    """How near a cable may pass one kind of hazard."""

    kind: HazardKind = Field(description="what is near the cable")
    least: Metres = Field(description="nearer is refused")
    clear: Metres | None = Field(
        default=None, description="nearer than this it must be clamped; absent: as `least`"
    )


class Spacing(Noun):
    """Least distances on the route."""

    exhaust: Metres = Field(description="nearer than this, the run needs a shield")
    clip_pitch: Metres = Field(description="from clip to clip")
    source: ProperName = Field(description="id of the source register, or `shop rule`")
    clip_rule: ProperName | None = Field(
        default=None, description="id of a published rule that the clip pitch keeps"
    )
    hazards: tuple[HazardSpacing, ...] = Field(
        default=(), description="distances by kind of hazard, beside that to the exhaust"
    )


class Person(Noun):
    role: Text = Field(description="what fits and bases call this person")
    licence: ProperName | None = Field(
        default=None, description="number of the licence, of who may approve"
    )
    level: ProperName | None = Field(default=None, description="training, in words")
    until: Day | None = Field(default=None, description="the licence lapses after this day")


class Tool(Noun):
    id: ProperName = Field(description="what bases call the tool, e.g. `DM-3`")
    name: Text = Field(description="what it is, with its range")
    torque_low: Torque | None = Field(default=None, description="lowest setting of a torque tool")
    torque_high: Torque | None = Field(default=None, description="highest setting of a torque tool")
    insulated: YesNo = Field(default=False, description="a tool for work on live parts")
    current_step: Amps | None = Field(
        default=None, description="smallest current that a clamp meter tells apart"
    )
    dies: tuple[ProperName, ...] = Field(default=(), description="dies that go with a crimper")
    due: Day | None = Field(default=None, description="calibration due")


class Drum(Noun):
    """A cable that the shop keeps as a rule; not a count of what is left today."""

    cable: Id = Field(description="id of a cable sheet")
    area: Area = Field(description="of the conductor")
    colour: Literal["red", "black"] = Field(description="of the insulation")
    length: Metres = Field(description="of a new drum")


class Site(Noun):
    address: ProperName = Field(description="permanent address of the published site")
    reports: ProperName = Field(description="address for error reports (mailto: or https:)")


class Approval(Noun):
    """A licensed person's approval, bound to the figures' fingerprint."""

    by: Text = Field(description="role of a person with a licence")
    on: Day = Field(description="the day of the signature")
    figures: ProperName = Field(description="fingerprint of the figures that were approved")


class Meter(Noun):
    """What the shop's meters may be off by; goes into the limits of a predicted reading."""

    voltage: Ratio = Field(description="share that a reading of volts may be off by")
    current: Ratio = Field(description="share that a reading of amperes may be off by")
    temperature: Kelvins | None = Field(default=None, description="difference of two readings")
    display: Ratio | None = Field(default=None, description="a station's own display")
    draw: Ratio | None = Field(
        default=None, description="what a load may take less than its sheet says, without a fault"
    )
    sleep: Amps | None = Field(
        default=None, description="what a sleeping vehicle's current wanders by"
    )


class LabelStock(Sourced):
    """Sheets of labels that the shop keeps: where each label stands on the paper."""

    id: Id = Field(description="stands in the name of the print: labels-<id>.pdf")
    name: Text = Field(description="what it is called on the shelf")
    paper: Literal["a4", "letter"] = Field(description="size of the sheet")
    rows: Whole = Field(description="labels from top to foot")
    columns: Whole = Field(description="labels from left to right")
    width: Metres = Field(description="of one label")
    height: Metres = Field(description="of one label")
    left: Metres = Field(description="edge of the sheet to the first label")
    top: Metres = Field(description="edge of the sheet to the first label")
    pitch_across: Metres = Field(description="left edge of a label to that of the next")
    pitch_down: Metres = Field(description="top edge of a label to that of the next")


class Shop(Noun):
    format: Format
    name: ProperName = Field(description="the shop's name, on every page and print")
    about: Text = Field(description="one line under the shop's name")
    demonstration: YesNo = Field(description="marks every page, print and file as invented")
    rule_set: ProperName = Field(description="printed with every verdict")
    approval_required: YesNo = Field(
        description="a guide stays a draft until a licensed person approved its figures"
    )
    valid_months: Whole = Field(description="a print is to be checked again after so many months")
    site: Site = Field(description="where the guides are published")
    languages: tuple[Literal["en", "de"], ...] = Field(
        description="languages that guides are published in"
    )
    papers: tuple[Literal["a4", "letter"], ...] = Field(
        description="papers that prints are made for"
    )
    units: Literal["metric", "us"] = Field(
        default="metric",
        description="`us`: English pages give lengths, temperatures and masses in US units too",
    )
    people: tuple[Person, ...] = Field(description="who works here, by role")
    tools: tuple[Tool, ...] = Field(description="tools and meters, with their calibration")
    meter: Meter = Field(description="what a reading may be off by")
    limits: Limits = Field(description="what the shop allows, each limit with its source")
    zones: dict[Id, Zone] = Field(description="how warm it gets where a cable lies, by id")
    ampacity: AmpacitySource = Field(
        default=AmpacitySource.SHEET,
        description="where it is read what a cable carries: its sheet, or the table of boats",
    )
    lengths: Lengths = Field(description="tolerance, allowance and step of cable lengths")
    joints: JointResistances = Field(description="contact resistance in the input loop")
    restraint: Restraint = Field(description="what charger and station must be held against")
    spacing: Spacing = Field(description="least distances on a route")
    stock: tuple[Drum, ...] = Field(
        default=(), description="drums that are kept; a cable that is not listed is to buy"
    )
    torque_tables: tuple[TableKind, ...] = Field(
        default=(), description="published tables that may stand in where a maker is silent"
    )
    label_stock: tuple[LabelStock, ...] = Field(
        default=(), description="sheets of labels that a print is made for"
    )
