"""Noun: the worked-out circuit, what was weighed on the way, and every figure with its trace.

`Design` holds one explicit radial circuit. Diagram, connection list, torque table,
readings and fault checks are views of it. Values are in the inside units of units.py.
"""

from __future__ import annotations

from dataclasses import dataclass

from baybook.finding import Finding, Verdict, worst
from baybook.fit import Basis, Fit, JointKind, Mark, Quantity, Unknown

# --------------------------------------------------------------------------- circuit


@dataclass(frozen=True, slots=True, kw_only=True)
class Joint:
    """A place where conductors meet. Its letter is its address everywhere."""

    letter: str  # down the positive with the current, up the return; I and O are left out
    role: str  # source+ fuse-in fuse-out in+ out+ plug+, and back: plug- out- in- return source-
    kind: JointKind
    device: str  # id of the device it belongs to: "battery", "F1", "charger", "station", "vehicle"
    terminal: str  # DIN 72552 or the device's own mark: "30", "31", "IN +", "OUT -"
    what: str  # in the words of vehicle file or sheet: "stud on the positive post"
    place: str
    at_m: float  # along the route from the source; outputs stand at the route's end
    zone: str
    thread: str | None
    torque: Quantity | Unknown | None  # None: nothing is tightened
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
    use: str  # "source" (battery to protection), "feed", "return", "output+", "output-", "existing"
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
    clip: str = ""  # id of the clip size that takes the conductors of the run; "": none does

    def joint(self, role: str) -> Joint:
        """Return the only joint in this role; StopIteration if there is none."""
        return next(joint for joint in self.joints if joint.role == role)

    def conductor(self, use: str) -> Conductor:
        """Return the only conductor of this use; StopIteration if there is none."""
        return next(conductor for conductor in self.conductors if conductor.use == use)


# --------------------------------------------------------------------------- plain numbers


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
class Place:
    """Where the charger is fixed, and what pulls at it."""

    heat_W: float
    derated: float  # share of its power that the charger gives in its zone; 0: it stops
    charger_N: float
    station_N: float
    fixing_N: float
    tip_m: float  # how far a screw stands out behind its panel


@dataclass(frozen=True, slots=True, kw_only=True)
class Solved:
    """What the rules look at: plain numbers in inside units, the same that the figures show."""

    feed: Feed
    fault: Fault
    output: Output
    budget: Budget
    place: Place


# --------------------------------------------------------------------------- figures


@dataclass(frozen=True, slots=True, kw_only=True)
class Input:
    """One number that went into a formula."""

    symbol: str
    value: float
    unit: str
    written: str = ""  # as its source wrote it
    figure: str = ""  # name of the figure it comes from, else:
    basis: Basis | None = None
    where: Mark | None = None
    source: str = ""  # id of the register, for a constant or a table's cell


@dataclass(frozen=True, slots=True, kw_only=True)
class Figure:
    """A worked-out value that can be followed back to survey and standard."""

    name: str  # "current_low"
    symbol: str  # IEC: "I", "U_t", "R" …
    value: float
    unit: str
    low: float
    high: float
    digits: int
    formula: str  # as an engineer writes it: "I = (U - U_t) / R"
    inputs: tuple[Input, ...]
    sources: tuple[str, ...]  # ids of the register
    end: str = ""  # which end of the tolerances was used, and why; message id


# --------------------------------------------------------------------------- the choice


@dataclass(frozen=True, slots=True, kw_only=True)
class Choice:
    """What the sizing may decide."""

    power_W: float  # the charger's power step
    input_limit_A: float  # I_B, the limit that belongs to it
    power_kept: bool
    set_V: float
    area_mm2: float
    family: str  # of the protection, id of its sheet; "" at a factory fuse
    rating_A: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Candidate:
    """One weighed choice with what it passed and failed."""

    choice: Choice
    current_A: float | None  # at the lowest supply voltage; None: no solution exists
    charger_V: float | None
    drop: float | None  # share of the lowest supply voltage
    margin_V: float | None  # charger volts less its cut-out
    carries_A: float  # I_T in the worst zone
    findings: tuple[Finding, ...]

    @property
    def passes(self) -> bool:
        return all(f.verdict is not Verdict.REFUSED for f in self.findings)


@dataclass(frozen=True, slots=True, kw_only=True)
class SettingOption:
    """A set voltage with what it would give. For the list of settings and its chart."""

    set_V: float
    power_W: float  # at the low end of the tolerance: what it is sure to give
    limit: str  # what binds: "station power", "station current", "charger power", "charger current"
    fits: bool  # inside window, margin and touch limit, tolerance counted


@dataclass(frozen=True, slots=True, kw_only=True)
class Design:
    """A finished circuit with its figures. Not yet checked: see CheckedDesign."""

    fit: Fit
    choice: Choice
    circuit: Circuit
    figures: tuple[Figure, ...]
    candidates: tuple[Candidate, ...]  # every size that was weighed at the chosen power and setting
    settings: tuple[SettingOption, ...]
    solved: Solved

    def figure(self, name: str) -> Figure:
        """Return the figure of this name; KeyError if there is none."""
        for figure in self.figures:
            if figure.name == name:
                return figure
        raise KeyError(name)


@dataclass(frozen=True, slots=True, kw_only=True)
class CheckedDesign:
    """A design that every rule let pass. Only `checks.approve` makes one."""

    design: Design
    findings: tuple[Finding, ...]  # cautions and holds

    @property
    def verdict(self) -> Verdict:
        return worst([f.verdict for f in self.findings])

    @property
    def draft(self) -> bool:
        return any(f.draft for f in self.findings)


@dataclass(frozen=True, slots=True, kw_only=True)
class Refusal:
    """A fit without a possible design: what is wrong, and the way out."""

    fit: Fit
    findings: tuple[Finding, ...]
    candidates: tuple[Candidate, ...]
    figures: tuple[Figure, ...] = ()
