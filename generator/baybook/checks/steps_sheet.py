"""ST-06 and ST-12 to ST-17, ST-19: boxes, holds, needs, numbers, and how the vehicle is left."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterator
from typing import TypeAlias

from baybook.checks.walked import Fault, Moment, Walk, closed
from baybook.finding import Finding, Verdict
from baybook.fit import has_high_voltage
from baybook.quantity import Unknown
from baybook.step import Phase
from baybook.terms import HazardKind, YesNoUnknown

StepRule: TypeAlias = Callable[[Walk], Iterator[Fault]]
_STANDING = ("right-parts", "proved-dead", "behind-screws", "polarity", "set-voltage")
_MOST_BOXES = 3
_RESTRAINT = frozenset({HazardKind.AIRBAG, HazardKind.PRETENSIONER})


def box_before_hazard(walk: Walk) -> Iterator[Fault]:
    """ST-06: each hazard has its box at or before the step, in the same chapter.

    [common-practice]
    """
    warned: set[tuple[int, str]] = set()
    for moment in walk.moments:
        for box in moment.step.boxes:
            warned |= {(moment.chapter, hazard) for hazard in box.covers}
        for hazard in sorted({*moment.step.hazards, *_bites(walk, moment)}):
            if (moment.chapter, hazard) not in warned:
                yield moment.fault("ST-06", hazard)


def _bites(walk: Walk, moment: Moment) -> Iterator[str]:
    """The hazards that a step has by what it does, whatever it says of itself."""
    step = moment.step
    makes = set(step.makes)
    at_plus = {walk.letter("source+")} & {end.partition("@")[2] for end in step.joins}
    if at_plus or makes & {"negative-off", "negative-on"} or moment.fuse_after != moment.fuse_in:
        yield "arc"
    if any(state.startswith("hole:") for state in makes):
        yield "drill"
    if "station-plugged" in makes:
        yield "overvoltage"
    if walk.fit.vehicle.supply.engine and any(state.startswith("running.") for state in makes):
        yield "fumes"
    sensor = walk.fit.vehicle.battery.sensor is not YesNoUnknown.NO
    if sensor and any(end.endswith(f"@{walk.letter('return')}") for end in step.joins):
        yield "sensor"
    segments = walk.fit.vehicle.routes[walk.fit.job.route].segments
    for number, segment in enumerate(segments, 1):
        touched = f"open:{number}" in makes or f"laid:{number}" in makes
        if touched and _RESTRAINT & {hazard.kind for hazard in segment.hazards}:
            yield "restraint"


def holds_signed(walk: Walk) -> Iterator[Fault]:
    """ST-12: five standing holds and one for each that a rule raised, each once, in time.

    [common-practice]
    """
    there = Counter(m.step.hold.id for m in walk.moments if m.step.hold)
    raised = {_hold_of(f): f for f in walk.checked.findings if f.verdict is Verdict.HOLD}
    wanted = {*_STANDING, *raised}
    for hold in sorted(wanted | set(there)):
        if there[hold] != (1 if hold in wanted else 0):
            yield walk.sheet("ST-12", hold)
    numbers = [m.step.hold.number for m in walk.moments if m.step.hold]
    if sorted(numbers) != list(range(1, len(numbers) + 1)):
        yield walk.sheet("ST-12", "numbers")
    yield from _in_time(walk, "right-parts", walk.making("negative-off"))
    for moment in walk.moments:
        if any(state.startswith(("open:", "hole:")) for state in moment.step.makes):
            yield from _in_time(walk, "proved-dead", moment)
    for hold, finding in raised.items():
        yield from _in_time(walk, hold, _gate(walk, finding))


def _hold_of(finding: Finding) -> str:
    return finding.hold or finding.code.lower()


def _gate(walk: Walk, finding: Finding) -> Moment | None:
    """The step that must wait: a joint's own, the plug for the output, else the first joint."""
    letters = [j.letter for j in walk.circuit.joints if j.letter in finding.place.split(".")]
    if letters:
        return walk.joining(letters[0])
    if finding.code.startswith("OV-"):
        return walk.making("station-plugged")
    return next((moment for moment in walk.moments if moment.step.joins), None)


def _in_time(walk: Walk, hold: str, gate: Moment | None) -> Iterator[Fault]:
    signed = walk.signing(hold)
    if gate and (signed is None or signed.step.number >= gate.step.number):
        yield gate.fault("ST-12", hold)


def needs_true(walk: Walk) -> Iterator[Fault]:
    """ST-13: what a step needs, and what it ends, is true when it is reached.

    [common-practice]
    """
    for moment in walk.moments:
        for state in (*moment.step.needs, *moment.step.breaks):
            if state not in moment.before:
                yield moment.fault("ST-13", state)


def numbered(walk: Walk) -> Iterator[Fault]:
    """ST-14: steps count from 1, chapters follow the phases, no chapter drowns in boxes.

    [common-practice]
    """
    for number, moment in enumerate(walk.moments, 1):
        if moment.step.number != number:
            yield moment.fault("ST-14", str(number))
    order = list(Phase)
    phases = [chapter.phase for chapter in walk.guide.chapters]
    if phases != sorted(set(phases), key=order.index):
        yield walk.sheet("ST-14", "chapters")
    for chapter in walk.guide.chapters:
        if any(step.phase is not chapter.phase for step in chapter.steps):
            yield walk.sheet("ST-14", chapter.phase.value)
        if sum(len(step.boxes) for step in chapter.steps) > _MOST_BOXES:
            yield walk.sheet("ST-14", chapter.phase.value)


def left_whole(walk: Walk) -> Iterator[Fault]:
    """ST-15: at the end it is connected, fused, plugged in, closed, and every reading is taken.

    [common-practice]
    """
    wanted = ["negative-on", "station-plugged"]
    wanted += [f"closed:{number}" for number, _ in enumerate(walk.circuit.stretches, 1)]
    taken = {state for moment in walk.moments for state in moment.step.makes}
    for state in wanted:
        if state not in walk.end:
            yield walk.sheet("ST-15", state)
    for state in sorted(state for state in walk.end if state.startswith(("open:", "running."))):
        yield walk.sheet("ST-15", state)
    for protection in walk.circuit.protections:
        if not closed(protection.tag, walk.end):
            yield walk.sheet("ST-15", protection.tag)
    for reading in walk.guide.readings:
        if f"reading:{reading.id}" not in taken:
            yield walk.sheet("ST-15", reading.id)


def restraint_waited(walk: Walk) -> Iterator[Fault]:
    """ST-16: the restraint system's wait stands between the negative and the first trim.

    [common-practice]
    """
    wait = walk.fit.vehicle.restraints.wait
    if not isinstance(wait, Unknown) and wait.value == 0:
        return
    for moment in walk.moments:
        opens = any(state.startswith("open:") for state in moment.step.makes)
        if opens and "restraint-waited" not in moment.before:
            yield moment.fault("ST-16", "restraint-waited")
    waited, off = walk.making("restraint-waited"), walk.making("negative-off")
    if waited and off and waited.step.number < off.step.number:
        yield waited.fault("ST-16", "negative-off")


def high_voltage_waited(walk: Walk) -> Iterator[Fault]:
    """ST-19: the service disconnect is out and discharged before a cover, back before the feed.

    [common-practice]
    """
    if not has_high_voltage(walk.fit):
        return
    waited, back = walk.making("hv-waited"), walk.making("negative-on")
    if waited and "hv-open" not in waited.before:
        yield waited.fault("ST-19", "hv-open")
    for moment in walk.moments:
        opens = any(state.startswith(("open:", "hole:")) for state in moment.step.makes)
        if opens and not {"hv-open", "hv-waited"} <= moment.before:
            yield moment.fault("ST-19", "hv-waited")
    if back and "hv-closed" not in back.before:
        yield back.fault("ST-19", "hv-closed")


def energising_said(walk: Walk) -> Iterator[Fault]:
    """ST-17: a step that makes something live says so.

    [common-practice]
    """
    for moment in walk.moments:
        fresh = moment.live_after - moment.live
        if fresh and not moment.step.energises:
            yield moment.fault("ST-17", min(fresh))


SHEET: tuple[StepRule, ...] = (
    box_before_hazard,
    holds_signed,
    needs_true,
    numbered,
    left_whole,
    restraint_waited,
    high_voltage_waited,
    energising_said,
)
