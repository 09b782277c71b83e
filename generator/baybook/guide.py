"""Noun: what a reader gets, as messages and values. No sentence, no markup, no rounding.

A guide is complete in itself: `wording` turns it into words, `drawing` places its
views, `publish` lays it out. `checks.release` walks its steps.
"""

from __future__ import annotations

from dataclasses import dataclass

from baybook.chart import Chart
from baybook.equipment import OwnForm
from baybook.figure import Figure
from baybook.finding import Amount, Finding, Message, Name, Value, Verdict
from baybook.step import Chapter, Hold, Step
from baybook.view import PlanView, RouteView, WiringView


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
class CascadeCell:
    text: Message
    differs: bool  # from the chosen or the asked size
    missing: bool  # nothing in sheets or shop


@dataclass(frozen=True, slots=True, kw_only=True)
class CascadeLine:
    """One thing that goes with a size, for each size of the table above it."""

    what: Message
    cells: tuple[CascadeCell, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class SubstituteLine:
    what: Message
    result: Message
    passes: bool
    changes: Message | None  # what changes with it


@dataclass(frozen=True, slots=True, kw_only=True)
class SettingLine:
    setting: Amount
    power: Amount
    limit: Message
    fits: bool
    chosen: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class ReadingLine:
    """One reading with what the model predicts, and where each miss leads.

    Questions of the fault tree by their number; None: there is no limit on that side.
    """

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
    name: str = ""  # what is read, the same in every guide: "current", "rest"
    low_question: int | None = None
    high_question: int | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class TreeLine:
    """One question of the fault tree; an answer names the next question, or what to do."""

    number: int
    question: Message
    yes: Message
    no: Message


@dataclass(frozen=True, slots=True, kw_only=True)
class Condition:
    """A look that tells whether the guide is for this vehicle, or how far it holds."""

    text: Message
    answer: Message | None = None
    photo: Name | None = None  # number of the picture that shows it


@dataclass(frozen=True, slots=True, kw_only=True)
class PhotoLine:
    """A picture of the vehicle that the guide shows where its number stands."""

    number: str
    alt: Name  # what is to be seen, for who cannot see it
    what: Name | None  # the point or the mount that it is of
    digest: str  # of the shop's file: another picture is another edition of the guide


@dataclass(frozen=True, slots=True, kw_only=True)
class SourceLine:
    id: str
    title: Message
    detail: Message


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
    station: Name  # or the second battery that is charged
    battery: bool  # a second battery is charged, not a station
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
    plan: PlanView | None  # None: nobody sketched the route
    chapters: tuple[Chapter, ...]
    readings: tuple[ReadingLine, ...]
    reading_notes: tuple[Message, ...]
    fault_tree: tuple[TreeLine, ...] = ()
    sizes: tuple[SizeLine, ...]
    sizes_note: Message
    cascade: tuple[CascadeLine, ...] = ()
    substitutes: tuple[SubstituteLine, ...] = ()
    settings: tuple[SettingLine, ...]
    envelope: tuple[Condition, ...]
    assumptions: tuple[Message, ...]
    retorque: Message
    undo: tuple[Message, ...]  # leave it safe at any step; removal; off in ten seconds
    labels: tuple[tuple[Message, ...], ...]  # what goes on each printed label
    end_labels: tuple[tuple[Message, ...], ...] = ()  # likewise, one for each end of each cable
    figures: tuple[Figure, ...]
    charts: tuple[Chart, ...] = ()
    sources: tuple[SourceLine, ...]
    draft: tuple[Message, ...]  # why it stays a draft; empty: it does not
    own: OwnForm | None = None  # None: the load is a battery
    photos: tuple[PhotoLine, ...] = ()  # none: its numbers are those of photos on paper

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
    cascade: tuple[CascadeLine, ...] = ()
    change: Message | None = None  # what changes with the size that passes
    figures: tuple[Figure, ...] = ()  # those that were reached before it was refused
    charts: tuple[Chart, ...] = ()  # likewise
