"""The walk itself: what is true, joined and live before and after each step."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from baybook.circuit import Circuit, Conductor
from baybook.design import CheckedDesign
from baybook.finding import Name
from baybook.fit import Fit
from baybook.guide import Guide
from baybook.step import Phase, Step


@dataclass(frozen=True, slots=True)
class Fault:
    """One thing that is wrong with one step, or with the whole sheet (number 0)."""

    code: str
    number: int
    step: str
    what: Name  # a state, a tag, a letter: never a sentence


@dataclass(frozen=True, slots=True, kw_only=True)
class Moment:
    """One step with the world around it."""

    step: Step
    phase: Phase
    chapter: int
    before: frozenset[str]  # states
    joined: frozenset[str]  # "<tag>@<letter>", before the step
    negative_on: bool  # before the step
    fuse_in: bool  # any protection, before the step
    live: frozenset[str]  # tags and letters, before the step
    live_after: frozenset[str]
    fuse_after: bool
    negative_after: bool

    def fault(self, code: str, what: str) -> Fault:
        return Fault(code, self.step.number, self.step.id, Name(what))


@dataclass(frozen=True, slots=True, kw_only=True)
class Walk:
    """The whole timeline."""

    checked: CheckedDesign
    guide: Guide
    moments: tuple[Moment, ...]
    end: frozenset[str]  # states after the last step

    @property
    def fit(self) -> Fit:
        return self.checked.design.fit

    @property
    def circuit(self) -> Circuit:
        return self.checked.design.circuit

    @property
    def new(self) -> tuple[Conductor, ...]:
        return tuple(wire for wire in self.circuit.conductors if not wire.existing)

    @property
    def ends(self) -> tuple[str, ...]:
        """Every end that this work makes: "<tag>@<letter>"."""
        return tuple(f"{w.tag}@{letter}" for w in self.new for letter in (w.start, w.end))

    def making(self, state: str) -> Moment | None:
        """The first step that makes a state."""
        return next((m for m in self.moments if state in m.step.makes), None)

    def joining(self, letter: str) -> Moment | None:
        """The first step that joins an end at this letter."""
        return next(
            (m for m in self.moments if any(e.endswith(f"@{letter}") for e in m.step.joins)), None
        )

    def signing(self, hold: str) -> Moment | None:
        """The first step under which this hold stands."""
        return next((m for m in self.moments if m.step.hold and m.step.hold.id == hold), None)

    def letter(self, role: str) -> str:
        """The letter of the joint in this role, "" if there is none."""
        return next((j.letter for j in self.circuit.joints if j.role == role), "")

    def sheet(self, code: str, what: str) -> Fault:
        """A fault of the sheet as a whole."""
        return Fault(code, 0, "", Name(what))


def follow(checked: CheckedDesign, guide: Guide) -> Walk:
    """Walk the steps and keep what was true around each.

    [shop-rule]
    """
    circuit = checked.design.circuit
    states: frozenset[str] = frozenset()
    joined: frozenset[str] = frozenset()
    negative = True
    live = _live(circuit, states, joined, on=negative)
    moments = []
    for chapter, step in _steps(guide):
        after = (states - frozenset(step.breaks)) | frozenset(step.makes)
        ends = joined | frozenset(step.joins)
        on = _negative(step, on=negative)
        live_after = _live(circuit, after, ends, on=on)
        moments.append(
            Moment(
                step=step,
                phase=step.phase,
                chapter=chapter,
                before=states,
                joined=joined,
                negative_on=negative,
                fuse_in=_fused(circuit, states),
                live=live,
                live_after=live_after,
                fuse_after=_fused(circuit, after),
                negative_after=on,
            )
        )
        states, joined, negative, live = after, ends, on, live_after
    return Walk(checked=checked, guide=guide, moments=tuple(moments), end=states)


def _steps(guide: Guide) -> Iterator[tuple[int, Step]]:
    for number, chapter in enumerate(guide.chapters):
        for step in chapter.steps:
            yield number, step


def _negative(step: Step, *, on: bool) -> bool:
    if "negative-off" in step.makes:
        return False
    return on or "negative-on" in step.makes or "negative-off" in step.breaks


def _fused(circuit: Circuit, states: frozenset[str]) -> bool:
    return any(closed(protection.tag, states) for protection in circuit.protections)


def closed(tag: str, states: frozenset[str]) -> bool:
    """Tell whether a protection is in, or switched on.

    [shop-rule]
    """
    return f"{tag}.in" in states or f"{tag}.in.again" in states


def _live(
    circuit: Circuit, states: frozenset[str], joined: frozenset[str], *, on: bool
) -> frozenset[str]:
    """Return the letters and tags that a battery's plus reaches while its negative is on.

    Either source will do: a second battery feeds back as far as its protection lets it.

    The charger is taken as running whenever its input is fed: the worse case.
    """
    reached: set[str] = set()
    waiting = [*(_sources(circuit) if on else ()), *_second(circuit, states)]
    while waiting:
        here = waiting.pop()
        if here not in reached:
            reached.add(here)
            waiting.extend(_next(circuit, states, joined, here))
    return frozenset(reached)


def _sources(circuit: Circuit) -> list[str]:
    """Where the battery's plus reaches the circuit first: before a fuse of the vehicle's maker."""
    at = {joint.role: joint.letter for joint in circuit.joints}
    return [at["battery+"] if "battery+" in at else at["source+"]]


def _second(circuit: Circuit, states: frozenset[str]) -> list[str]:
    """The plus of a second battery, unless its negative is off."""
    plus = [joint.letter for joint in circuit.joints if joint.role == "load+"]
    return [] if "second-off" in states else plus


def _next(
    circuit: Circuit, states: frozenset[str], joined: frozenset[str], here: str
) -> Iterator[str]:
    for wire in circuit.conductors:
        if wire.existing or wire.use == "return":
            continue
        ends = [letter for letter in (wire.start, wire.end) if f"{wire.tag}@{letter}" in joined]
        if here in ends:
            yield wire.tag
        if here == wire.tag:
            yield from ends
    for protection in circuit.protections:
        if closed(protection.tag, states):
            if here == protection.start:
                yield protection.end
            if here == protection.end:
                yield protection.start
    roles = {joint.role: joint.letter for joint in circuit.joints}
    if here == roles.get("in+"):
        yield from (roles[role] for role in ("out+", "out-") if role in roles)
