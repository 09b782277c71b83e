"""Noun: the plain numbers of a sized circuit, for the rules. No trace, no unit but in the name."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class Shared:
    """The vehicle's own line at a working point of the feed that starts at its end."""

    ohm: float
    tap_V: float  # at its end
    others_A: float  # that the other loads on it draw


@dataclass(frozen=True, slots=True, kw_only=True)
class Operating:
    """The input loop at one supply voltage, the charger drawing constant power."""

    supply_V: float
    current_A: float
    charger_V: float
    loop_ohm: float
    positive_ohm: float  # of the loop: source to charger, protection included
    return_ohm: float
    hottest_C: float
    line: Shared | None = None  # of the vehicle, before the point that the feed starts at

    @property
    def source_volts(self) -> float:
        """Voltage where the feed starts."""
        return self.supply_V if self.line is None else self.line.tap_V

    @property
    def shared_amps(self) -> float:
        """Current of the vehicle's own line; that of the feed where nobody shares it."""
        return self.current_A + (self.line.others_A if self.line else 0.0)

    @property
    def shared_volts(self) -> float:
        """Voltage that the vehicle's own line drops; nought where nobody shares it."""
        return self.supply_V - self.source_volts

    @property
    def drop(self) -> float:
        """Share of the supply voltage that is lost in the loop."""
        return 1 - self.charger_V / self.supply_V


@dataclass(frozen=True, slots=True, kw_only=True)
class Feed:
    """The input side. None: no current exists at which the power arrives."""

    power_W: float  # at the charger's input
    cut_out_V: float  # the one that belongs to the start cue
    carries_A: float  # I_T in the worst zone
    zone: str  # id of that zone
    low: Operating | None
    typical: Operating | None
    rest: Operating | None  # engine off for one hour, the charger still drawing


@dataclass(frozen=True, slots=True, kw_only=True)
class Fault:
    """The protection in its place. None: what it depends on is not known."""

    zone: str  # id of the zone the protection lies in
    factor: float | None  # k·d
    carries_A: float | None  # I_n·k·d, or the continuous current of a vehicle maker's fuse
    internal_low_ohm: float | None
    internal_high_ohm: float | None
    near_A: float | None
    far_A: float | None
    far_ohm: float  # the loop of a far fault without the battery
    opens_near_s: float | None  # None also: the part does not open for sure
    opens_far_s: float | None
    k: float
    withstand_near: float | None
    withstand_far: float | None
    overload: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Overload:
    """The hottest that a conductor gets under what its protection may hold, and where."""

    zone: str
    ambient_C: float
    carries_A: float  # I_T in that zone
    multiple: float  # of I_n that is held
    before: float  # of I_n that is held without end: how warm the copper starts
    up_to_s: float | None  # None: without end
    constant_s: float  # of the copper's warming
    hottest_C: float
    allowed_C: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Second:
    """A second battery's own end. None: what it depends on is not known."""

    factor: float | None  # k·d of its protection
    carries_A: float | None  # I_n·k·d
    near_A: float | None
    far_A: float | None
    far_ohm: float  # the loop of a short at the charger's output, without the battery
    opens_near_s: float | None
    opens_far_s: float | None
    k: float
    withstand: tuple[float, ...]  # let-through over k²S², near and far as far as it opens
    overload: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Output:
    """The output side at one set voltage."""

    full_W: float  # what the power step and the station allow
    power_W: float  # what is given at the set voltage
    sure_W: float  # what is given at the low end of the tolerance
    limit: str  # what binds: "station power", "station current", "charger power", "charger current"
    low_V: float
    high_V: float  # tolerance and overshoot counted
    default_high_V: float  # the same at the charger's default
    default_low_V: float
    current_A: float
    most_A: float  # what may flow: the smaller current limit of charger and station
    lead_ohm: float
    lead_carries_A: float
    station_V: float
    drop: float  # share of the set voltage


@dataclass(frozen=True, slots=True, kw_only=True)
class Budget:
    """Spare current of the supply, negative for a deficit. None: no figure, or no solution."""

    idle_day_A: float | None
    idle_night_A: float | None
    cruise_day_A: float | None
    cruise_night_A: float | None
    sleep_A: float  # after the fit
    usable_Ah: float
    standby_d: float
    standing_A: float | None  # what may still be drawn at rest voltage; None: the charger stops


@dataclass(frozen=True, slots=True, kw_only=True)
class Payload:
    """What the fit adds to the vehicle's mass. None: a mass that it rests on is not known."""

    cable_kg: float | None
    added_kg: float | None
    left_kg: float | None  # gross less kerb, people and load, and what is added


@dataclass(frozen=True, slots=True, kw_only=True)
class Place:
    """Where the charger is fixed, and what pulls at it."""

    heat_W: float
    derated: float  # share of its power that the charger gives in its zone; 0: it stops
    charger_N: float  # forward
    station_N: float
    rearward: tuple[float, float]  # charger, station [N]
    sideways: tuple[float, float]
    upward: tuple[float, float]
    fixing_N: float  # the worst direction, so many fixings lost
    held_N: float | None  # what one fixing may be pulled with; None: nobody states it
    tip_m: float  # how far a screw stands out behind its panel
    spacing_m: tuple[float, float] | None  # of self-tapping screws: to an edge, to the next


@dataclass(frozen=True, slots=True, kw_only=True)
class Solved:
    """What the rules look at: plain numbers in inside units, the same that the figures show."""

    feed: Feed
    fault: Fault
    output: Output
    budget: Budget
    place: Place
    payload: Payload
    second: Second | None = None
    overload: Overload | None = None  # of the input cable; None: it carries nothing
    second_overload: Overload | None = None  # of the output cable, at a second battery


@dataclass(frozen=True, slots=True, kw_only=True)
class Line:
    """One stretch of a radial network, out and back, from a node to the next one."""

    node: str  # where it ends; each node ends one line
    parent: str  # node it starts at; "" at the source's posts
    idle_ohm: float  # no current flows, copper as warm as its zones, contacts counted
    warming: float  # ohm/A²: R = idle_ohm + warming · I²


@dataclass(frozen=True, slots=True, kw_only=True)
class Load:
    """What hangs on a node: constant power, constant current, or both."""

    node: str
    power_W: float = 0.0
    current_A: float = 0.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Network:
    """One source, lines that branch and never meet again, loads at their nodes."""

    supply_V: float
    lines: tuple[Line, ...]  # in any order
    loads: tuple[Load, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Node:
    """A node at its working point, with the line that ends there."""

    name: str
    voltage_V: float
    current_A: float  # in its line
    ohm: float  # of its line, as warm as the current makes it


@dataclass(frozen=True, slots=True, kw_only=True)
class Flow:
    """A solved network."""

    nodes: tuple[Node, ...]  # parents before children
    current_A: float  # that the source gives
    sweeps: int  # it took to settle

    def node(self, name: str) -> Node:
        """Return the node of this name; StopIteration if there is none."""
        return next(node for node in self.nodes if node.name == name)
