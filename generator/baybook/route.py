"""Noun: a way of the cable through a vehicle, and a place for the charger."""

from pydantic import Field

from baybook.point import (
    GridPoint,
)
from baybook.quantity import (
    Id,
    Megapascals,
    Metres,
    MetresOrUnknown,
    NewtonsOrUnknown,
    Noun,
    ProperName,
    Text,
    TorqueOrUnknown,
    Whole,
    YesNo,
)
from baybook.terms import Fastener, HazardKind, PassageKind, Thread


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
    thread: Thread = Field(description="of the screws")
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
    photo: ProperName | None = Field(default=None, description="number of its picture, e.g. `P5`")
    sketch: GridPoint | None = Field(default=None, description="where it is on the outline")
