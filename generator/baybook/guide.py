"""Noun: what a reader gets, as messages and values. No sentence, no markup, no rounding.

A guide is complete in itself: `wording` turns it into words, `drawing` places its
views, `publish` lays it out. `checks.release` walks its steps.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from baybook.design import Figure
from baybook.finding import Amount, Finding, Message, Name, Value, Verdict


class Phase(StrEnum):
    """The chapters of the work, in order."""

    PREPARE = "prepare"
    ISOLATE = "isolate"
    DRY_FIT = "dry fit"
    DRILL = "drill"
    ROUTE = "route"
    TERMINATE = "terminate"
    CONNECT = "connect"
    FIRST_POWER = "first power"
    COMMISSION = "commission"
    HANDOVER = "handover"


class Signal(StrEnum):
    """Signal words by ANSI Z535 / ISO 3864 meaning, the gravest first."""

    DANGER = "danger"
    WARNING = "warning"
    CAUTION = "caution"
    NOTICE = "notice"


@dataclass(frozen=True, slots=True, kw_only=True)
class Box:
    """A safety panel: hazard, consequence, avoidance."""

    id: str
    signal: Signal
    symbol: str  # pictogram: "arc", "crush", "drill", "hot", "sensor"
    hazard: Message
    consequence: Message
    avoidance: Message
    covers: tuple[str, ...]  # hazard ids of the steps that it warns of


@dataclass(frozen=True, slots=True, kw_only=True)
class Field:
    """A box to write in: its label, and the limits printed over it."""

    id: str
    label: Message
    low: Amount | None = None
    high: Amount | None = None
    points: tuple[str, ...] = ()  # joint letters where the meter goes
    wide: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Hold:
    """A place to stop until somebody has signed."""

    id: str  # "right-parts", "proved-dead", …
    number: int
    title: Message
    body: tuple[Message, ...]
    fields: tuple[Field, ...]
    second_person: bool
    standing: bool  # one of the five that every guide has
    stands: str = (
        "steps"  # where its frame is laid out: "steps" | "readings"; the other names it in one line
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class Step:
    """One action. The order comes out of `needs` and `makes`; see compose/steps.

    States are words. Those that `checks.release` reads for itself:

    negative-off · negative-on · isolator-open   the supply
    F1.out · F1.in · F1.out.again · F1.in.again  the protection (any tag)
    running.first · running.load                 the charger is fed: its output is live
    station-unplugged · station-plugged          the plug
    W2.cut · W2.labelled · W2.laid.3 · W2.laid   a conductor; the number is that of the stretch
    D.made                                       a joint
    hole:mount · hole:2 · edge:2                 a hole is drilled, its edge guarded; the number
                                                 is its place in circuit.fittings
    open:3 · closed:3                            a stretch is opened, and closed again
    hold:proved-dead · reading:R2                signed; read
    """

    id: str
    number: int
    phase: Phase
    action: Message  # one action, the verb first, at most 20 words
    value: Amount | None
    value_note: Message | None
    tool: Message | None
    torque_mark: bool
    people: int
    minutes: float
    needs: tuple[str, ...]
    makes: tuple[str, ...]
    breaks: tuple[str, ...]  # states that end here
    hazards: tuple[str, ...]  # hazard ids that bite in this step
    works_on: tuple[str, ...]  # conductor tags touched bare: must be dead
    joins: tuple[str, ...]  # "<tag>@<letter>" ends made here
    torques: tuple[str, ...]  # joint letters brought to torque here
    energises: bool  # this step may make a conductor live
    boxes: tuple[Box, ...]  # stand directly above this step
    hold: Hold | None  # stands directly below this step
    photo: Name | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Chapter:
    phase: Phase
    title: Message
    true_before: tuple[Message, ...]
    steps: tuple[Step, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Fact:
    """A cell of the facts strip."""

    amount: Amount
    label: Message


@dataclass(frozen=True, slots=True, kw_only=True)
class KitLine:
    count: Amount
    part: Message
    note: Message | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class CutLine:
    tag: str
    colour: Message
    area: Amount
    awg: Message
    start: str
    end: str
    length: Amount
    strip: Amount | None
    ends: tuple[Message, ...]  # what goes on each end: lug and die, ferrule, bare


@dataclass(frozen=True, slots=True, kw_only=True)
class TorqueLine:
    """A row for each joint in letter order, also where nothing is tightened."""

    letter: str
    joint: Message
    thread: Message | None
    torque: Amount | None
    instead: Message | None  # "Push-in", "Leave as it is", "HOLD 6"
    conductor: Message | None
    source: Message


@dataclass(frozen=True, slots=True, kw_only=True)
class SizeLine:
    area: Amount
    current: Amount | None
    voltage: Amount | None
    drop: Amount | None
    carries: Amount
    chosen: bool
    result: Message


@dataclass(frozen=True, slots=True, kw_only=True)
class SettingLine:
    setting: Amount
    power: Amount
    limit: Message
    fits: bool
    chosen: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class ReadingLine:
    id: str  # "R1"
    what: Message
    state: Message  # in which state it is taken
    points: tuple[str, ...]
    predicted: Amount | None
    low: Amount | None
    high: Amount | None
    if_low: Message | None
    if_high: Message | None
    hold: Hold | None = None  # stands directly below this reading


@dataclass(frozen=True, slots=True, kw_only=True)
class Condition:
    """A look that tells whether the guide is for this vehicle, or how far it holds."""

    text: Message
    answer: Message | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class SourceLine:
    id: str
    title: Message
    detail: Message


# --------------------------------------------------------------------------- views to draw


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


# --------------------------------------------------------------------------- the guide


@dataclass(frozen=True, slots=True, kw_only=True)
class Identity:
    """What stands in every head and list."""

    fit: str  # "vehicle/fit"
    code: str  # "V6/J9b"
    vehicle: Name  # make and model
    variant: Message  # engine, body, years
    first_year: int
    last_year: int | None
    drive: Message
    drive_sides: tuple[str, ...]
    make: Name
    model: Name
    engine: Name
    charger: Name
    station: Name
    pair: Message  # "Sorrel 520 to Loft 2000"
    shop: Name
    demonstration: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class Guide:
    identity: Identity
    what: Message  # one line: what the finished fit does
    verdict: Verdict
    short_reason: Message  # for lists
    reasons: tuple[Message, ...]  # one sentence each, with its figure
    findings: tuple[Finding, ...]
    facts: tuple[Fact, ...]
    applies: tuple[Condition, ...]
    people: tuple[Message, ...]
    minutes: float
    time: Message
    tools: tuple[Message, ...]
    cautions: tuple[Message, ...]  # general ones, once: local code and licensed practice first
    kit: tuple[KitLine, ...]
    cuts: tuple[CutLine, ...]
    cut_note: Message
    torques: tuple[TorqueLine, ...]
    wiring: WiringView
    route: RouteView
    chapters: tuple[Chapter, ...]
    readings: tuple[ReadingLine, ...]
    reading_notes: tuple[Message, ...]
    sizes: tuple[SizeLine, ...]
    sizes_note: Message
    settings: tuple[SettingLine, ...]
    envelope: tuple[Condition, ...]
    assumptions: tuple[Message, ...]
    retorque: Message
    undo: tuple[Message, ...]  # leave it safe at any step; removal; off in ten seconds
    labels: tuple[tuple[Message, ...], ...]  # what goes on each printed label
    figures: tuple[Figure, ...]
    sources: tuple[SourceLine, ...]
    draft: tuple[Message, ...]  # why it stays a draft; empty: it does not

    @property
    def steps(self) -> tuple[Step, ...]:
        return tuple(step for chapter in self.chapters for step in chapter.steps)


@dataclass(frozen=True, slots=True, kw_only=True)
class ReleasedGuide:
    """A guide whose steps were walked. Only `checks.release` makes one."""

    guide: Guide


@dataclass(frozen=True, slots=True, kw_only=True)
class FoundAllowed:
    what: Message
    found: Value
    allowed: Value


@dataclass(frozen=True, slots=True, kw_only=True)
class RefusalSheet:
    """A refusal as a reader gets it. Nothing on it can be built from."""

    identity: Identity
    code: str
    title: Message
    thought: Name | None  # the wrong thought that leads here
    short_reason: Message
    findings: tuple[Finding, ...]
    table: tuple[FoundAllowed, ...]
    way_out: tuple[Message, ...]
    sizes: tuple[SizeLine, ...]
    sizes_note: Message
    sources: tuple[SourceLine, ...]
    kept: bool
