"""Noun: one explicit radial circuit. Values are in the inside units of `units`.

Diagram, connection list, torque table, readings and fault checks are views of it.
"""

from __future__ import annotations

from dataclasses import dataclass

from baybook.quantity import Quantity, Unknown
from baybook.terms import JointKind


@dataclass(frozen=True, slots=True, kw_only=True)
class Joint:
    """A place where conductors meet. Its letter is its address everywhere."""

    letter: str  # down the positive with the current, up the return; I and O are left out
    # battery+ (before a fuse of the vehicle) source+ fuse-in fuse-out in+ out+ plug+, and back:
    # plug- out- in- return body (where the chassis is the return) source-
    role: str
    kind: JointKind
    device: str  # id of the device it belongs to: "battery", "F1", "charger", "station", "vehicle"
    terminal: str  # DIN 72552 or the device's own mark: "30", "31", "IN +", "OUT -"
    what: str  # in the words of vehicle file or sheet: "stud on the positive post"
    place: str
    at_m: float  # along the route from the source; outputs stand at the route's end
    zone: str
    thread: str | None
    torque: Quantity | Unknown | None  # None: nothing is tightened
    carries_A: float | None  # of a stud that itself carries the current; None: no table rates it
    tool: str | None
    conductors: tuple[str, ...]  # W tags that are joined here by this work
    photo: str | None
    existing: bool  # in the vehicle already and left as it is


@dataclass(frozen=True, slots=True, kw_only=True)
class Leg:
    """A part of a conductor that lies in one zone."""

    zone: str
    length_m: float
    ambient_C: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Conductor:
    """One cut piece of cable, or a lead that is in the vehicle already."""

    tag: str  # "W1"
    # "source" (battery to protection), "feed", "return", "output+", "output-", "existing",
    use: str  # and "body": the vehicle's, where it carries the return
    start: str  # joint letter, in the direction of the current
    end: str
    colour: str  # "red", "black": identity, always named in words too
    area_mm2: float
    awg: str  # nearest gauge, as the cable's sheet states it
    family: str  # name of the cable
    cut_m: float  # electrical length = cut length
    legs: tuple[Leg, ...]
    existing: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class Protection:
    tag: str  # "F1"
    family: str
    form: str  # "fuse" | "breaker"
    rating_A: float
    rating_written: str
    voltage: Quantity
    breaking: Quantity
    start: str  # joint letters
    end: str
    at_m: float  # along the conductor from the source
    limit_m: float  # the distance that is allowed
    conduit: bool
    factory: bool  # the vehicle maker's own fused point
    place: str = ""  # where a fuse of the vehicle's maker sits


@dataclass(frozen=True, slots=True, kw_only=True)
class Device:
    id: str  # "battery", "charger", "station"
    kind: str  # "battery" | "charger" | "station" | "isolator" | "sensor"
    name: str
    place: str
    zone: str
    existing: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class Fitting:
    """What stands on the run without being a joint: grommet, gland, sleeve, loop."""

    kind: str  # "grommet" | "gland" | "sleeve" | "loop" | "conduit"
    part: str  # part name, "" for an existing hole or a loop
    at_m: float
    length_m: float
    hole_m: float | None  # diameter of a hole that is made; None: existing
    count: int  # pieces (one per conductor, or one for both)
    why: str  # "exhaust" …, hazard kind or "wall"
    distance_m: float | None  # to the hazard
    wall: str
    behind: str
    new_hole: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class Stretch:
    """A segment of the route as the guide shows it: true distances, zone, clips."""

    name: str
    zone: str
    zone_name: str
    ambient_C: float
    start_m: float
    end_m: float
    clips: int  # for both conductors together
    access: str
    fixing: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Circuit:
    joints: tuple[Joint, ...]  # in letter order
    conductors: tuple[Conductor, ...]  # in tag order
    protections: tuple[Protection, ...]
    devices: tuple[Device, ...]
    fittings: tuple[Fitting, ...]  # in order of at_m
    stretches: tuple[Stretch, ...]
    shrink: str = ""  # id of the heat-shrink over its lugs; "": none does, or none is named
    clip: str = ""  # id of the clip size that takes the conductors of the run; "": none does

    def joint(self, role: str) -> Joint:
        """Return the only joint in this role; StopIteration if there is none."""
        return next(joint for joint in self.joints if joint.role == role)

    def conductor(self, use: str) -> Conductor:
        """Return the only conductor of this use; StopIteration if there is none."""
        return next(conductor for conductor in self.conductors if conductor.use == use)
