"""Noun: what is to be drawn, as marks and messages; `drawing` places it."""

from __future__ import annotations

from dataclasses import dataclass

from baybook.finding import Amount, Message


@dataclass(frozen=True, slots=True, kw_only=True)
class Station:
    """One mark on a rail of the wiring drawing, with the words beside it."""

    mark: str  # "joint", "fuse", "grommet" …: the closed list is that of drawing/marks.py
    letters: tuple[str, ...]
    head: Message | None
    lines: tuple[Message, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Run:
    """How a rail looks between this rank and the next."""

    colour: str  # "red", "black", "" for none
    style: str  # "new", "existing", "signal", "none"
    conductor: str = ""  # its tag, "W2"; empty for a lead that has none


@dataclass(frozen=True, slots=True, kw_only=True)
class Rank:
    """One row of the wiring drawing: a pair of marks, or a device over both rails."""

    kind: str  # "pair" | "device"
    at: Amount | None  # printed on the ruler
    zone: str
    zone_starts: Message | None  # name and temperature, where a zone begins
    zone_line: bool
    positive: Station | None
    negative: Station | None
    positive_run: Run
    negative_run: Run
    device: Message | None = None
    device_lines: tuple[Message, ...] = ()
    device_existing: bool = False
    length_m: float = 0.0  # of the run below, for its drawn height


@dataclass(frozen=True, slots=True, kw_only=True)
class WiringView:
    title: Message
    ranks: tuple[Rank, ...]
    connections: tuple[Message, ...]  # the full text equivalent, one line a conductor


@dataclass(frozen=True, slots=True, kw_only=True)
class StripZone:
    name: Message
    start_m: float
    end_m: float


@dataclass(frozen=True, slots=True, kw_only=True)
class StripMark:
    kind: str  # "joint" "fuse" "breaker" "grommet" "gland" "sleeve" "conduit" "loop"
    at_m: float  # of a sleeve its middle, of a conduit its beginning
    length_m: float
    label: Message
    on_ruler: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class PlanMark:
    """A place on the outline, with a number that its legend explains."""

    kind: str  # "joint" | "fuse" | "passage" | "hazard" | "charger"
    number: int
    label: Message
    along: float  # squares of the outline's grid
    across: float
    up: float


@dataclass(frozen=True, slots=True, kw_only=True)
class PlanView:
    """The route on an outline of the vehicle, from above and from the left."""

    title: Message
    outline: str  # "estate" "hatch" "van" "pickup" "lorry" "camper"
    drive_sides: tuple[str, ...]
    path: tuple[tuple[float, float, float], ...]  # along, across, up
    marks: tuple[PlanMark, ...]  # in the order of the run
    above: Message  # name of each picture
    beside: Message
    nose: Message
    text: Message  # the full text equivalent


@dataclass(frozen=True, slots=True, kw_only=True)
class RouteView:
    title: Message
    zones: tuple[StripZone, ...]
    marks: tuple[StripMark, ...]
    clip_pitch_m: float
    length_m: float
    return_from_m: float = 0.0  # where the return conductor begins
    feed_label: Message
    end_label: Message
    text: Message  # the text equivalent
