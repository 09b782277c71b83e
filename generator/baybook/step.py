"""Noun: the work, one action at a time: steps, holds, safety panels, chapters."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from baybook.finding import Amount, Message, Name


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
    symbol: str  # pictogram: a file of templates/symbols
    hazard: Message
    consequence: Message
    avoidance: Message
    covers: tuple[str, ...]  # hazard ids of the steps that it warns of


@dataclass(frozen=True, slots=True, kw_only=True)
class Blank:
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
    fields: tuple[Blank, ...]
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
    hold:proved-dead · reading:R4                signed; read
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
