"""Noun: a place of a vehicle where a conductor may be joined, and where it is on the outline."""

from collections.abc import Mapping
from types import MappingProxyType
from typing import Literal

from pydantic import Field

from baybook.part import GatePoint, HoldPoint
from baybook.quantity import (
    Amps,
    Id,
    Noun,
    ProperName,
    Ratio,
    Text,
    Torque,
    TorqueOrUnknown,
    Volts,
    Watts,
    Whole,
    YesNo,
)
from baybook.terms import JointKind, TableKind, Thread


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
    thread: Thread = Field(description="thread of the stud or screw, e.g. `M8`")
    torque: TorqueOrUnknown = Field(description="by the maker of the joint, or `unknown`")
    torque_other: Torque | None = Field(
        default=None, description="what a second paper says of the same joint"
    )
    table: TorqueTable | None = Field(
        default=None, description="the kind of joint, where its maker states no torque"
    )
    tool: Text = Field(description="socket, e.g. `13 mm socket`")
    photo: ProperName | None = Field(default=None, description="number of its picture, e.g. `P2`")
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
