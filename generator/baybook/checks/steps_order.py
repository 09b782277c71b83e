"""ST-01 to ST-11, ST-18: what the work does to the circuit, and in which order."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterator
from itertools import pairwise
from typing import TypeAlias

from baybook.checks.walked import Fault, Moment, Walk
from baybook.quantity import Quantity

StepRule: TypeAlias = Callable[[Walk], Iterator[Fault]]
_CLOSE = 1e-6  # m


def nobody_on_live(walk: Walk) -> Iterator[Fault]:
    """ST-01: no step works on, joins or tightens what is live.

    [common-practice]
    """
    post = walk.letter("source-")
    for moment in walk.moments:
        step = moment.step
        touched = {*step.works_on, *(letter for letter in step.torques if letter != post)}
        for end in step.joins:
            touched |= set(end.split("@"))
        for bare in sorted(touched & moment.live):
            yield moment.fault("ST-01", bare)


def negative_first(walk: Walk) -> Iterator[Fault]:
    """ST-02: the battery's negative comes off before any work and goes on after the last joint.

    [common-practice]
    """
    if not any("negative-off" in moment.step.makes for moment in walk.moments):
        yield walk.sheet("ST-02", "negative-off")
    off = walk.making("negative-off")
    for moment in walk.moments:
        if _hands_on(moment) and moment.negative_on and (off is None or not _after(moment, off)):
            yield moment.fault("ST-02", "negative-off")
        if moment.negative_after and not moment.negative_on:
            missing = [end for end in walk.ends if end not in moment.joined]
            for end in missing:
                yield moment.fault("ST-02", end)


def fuse_after_polarity(walk: Walk) -> Iterator[Fault]:
    """ST-03: the protection stays out until polarity and no short are signed.

    [common-practice]
    """
    signed = walk.signing("polarity")
    tags = [part.tag for part in walk.circuit.protections]
    for moment in walk.moments:
        for state in (f"{tag}.{word}" for tag in tags for word in ("in", "in.again")):
            if state in moment.step.makes and not _done(signed, moment):
                yield moment.fault("ST-03", "hold:polarity")
        if moment.step.joins and moment.fuse_in:
            yield moment.fault("ST-03", moment.step.joins[0])
    if signed and not signed.negative_on:
        yield signed.fault("ST-03", "negative-on")


def source_end_last(walk: Walk) -> Iterator[Fault]:
    """ST-04: the end at the charger before the end nearer the battery, battery plus last.

    [common-practice]
    """
    for roles in (
        ("in+", "fuse-out", "fuse-in", "source+"),
        ("in-", "return", "source+"),
        ("out+", "load-in", "load-out", "load+", "load-"),
        ("out-", "load-"),
    ):
        letters = [letter for role in roles if (letter := walk.letter(role))]
        for first, then in pairwise(letters):
            early, late = walk.joining(first), walk.joining(then)
            if early and late and not _after(late, early):
                yield late.fault("ST-04", then)


def plug_after_voltage(walk: Walk) -> Iterator[Fault]:
    """ST-05: the station is joined after the set voltage is read and signed, nothing running.

    [common-practice]
    """
    signed = walk.signing("set-voltage")
    one = f"reading:{_read_open(walk)}"
    read = walk.making(one)
    for moment in walk.moments:
        if "station-plugged" in moment.step.makes:
            if not _done(signed, moment):
                yield moment.fault("ST-05", "hold:set-voltage")
            if not _done(read, moment):
                yield moment.fault("ST-05", one)
            if any(state.startswith("running.") for state in moment.before):
                yield moment.fault("ST-05", "running")
        if moment.fuse_after and not moment.fuse_in and not _plug_known(moment):
            yield moment.fault("ST-05", "station-unplugged")


def _read_open(walk: Walk) -> str:
    """Id of the reading under which the set voltage is signed, "" if there is none."""
    signed = (line.id for line in walk.guide.readings if line.hold is not None)
    return next(signed, "")


def edge_before_cable(walk: Walk) -> Iterator[Fault]:
    """ST-07: every hole has its guarded edge before a cable goes through.

    [common-practice]
    """
    stretches = list(enumerate(walk.checked.design.circuit.stretches, 1))
    for place, fitting in enumerate(walk.circuit.fittings):
        if fitting.kind not in {"grommet", "gland"}:
            continue
        edge = walk.making(f"edge:{place}")
        if edge is None:
            yield walk.sheet("ST-07", f"edge:{place}")
        beyond = [number for number, s in stretches if s.end_m <= fitting.at_m + _CLOSE]
        for moment in walk.moments:
            if _lays(moment, beyond) and not _done(edge, moment):
                yield moment.fault("ST-07", f"edge:{place}")


def drill_after_look(walk: Walk) -> Iterator[Fault]:
    """ST-08: every hole is drilled once, after somebody looked behind it.

    [common-practice]
    """
    looked = walk.signing("behind-screws")
    wanted = {"hole:mount"} | {
        f"hole:{place}" for place, fitting in enumerate(walk.circuit.fittings) if fitting.new_hole
    }
    drilled: Counter[str] = Counter()
    for moment in walk.moments:
        for state in moment.step.makes:
            if state.startswith("hole:"):
                drilled[state] += 1
                if not _done(looked, moment):
                    yield moment.fault("ST-08", state)
    for state in sorted(wanted | set(drilled)):
        if drilled[state] != (1 if state in wanted else 0):
            yield walk.sheet("ST-08", state)


def ends_once(walk: Walk) -> Iterator[Fault]:
    """ST-09: both ends of every conductor are joined, each once.

    [common-practice]
    """
    made = Counter(end for moment in walk.moments for end in moment.step.joins)
    for end in sorted(set(walk.ends) | set(made)):
        if made[end] != (1 if end in walk.ends else 0):
            yield walk.sheet("ST-09", end)


def torque_once(walk: Walk) -> Iterator[Fault]:
    """ST-10: a joint with a torque is brought to it once, not before its ends are in it.

    [common-practice]
    """
    done = Counter(letter for moment in walk.moments for letter in moment.step.torques)
    post = walk.letter("source-")
    for joint in walk.circuit.joints:
        stated = isinstance(joint.torque, Quantity) and bool(joint.conductors)
        if joint.letter != post and done[joint.letter] != (1 if stated else 0):
            yield walk.sheet("ST-10", joint.letter)
    for letter in sorted(letter for letter, count in done.items() if count > 1):
        if letter == post:
            yield walk.sheet("ST-10", letter)
    for moment in walk.moments:
        for letter in moment.step.torques:
            ends = [end for end in walk.ends if end.endswith(f"@{letter}")]
            if any(end not in moment.joined | set(moment.step.joins) for end in ends):
                yield moment.fault("ST-10", letter)


def laid_before_joined(walk: Walk) -> Iterator[Fault]:
    """ST-11: a conductor is cut, labelled and laid in every stretch before an end is joined.

    [common-practice]
    """
    for wire in walk.new:
        wanted = [f"{wire.tag}.cut", f"{wire.tag}.labelled", f"{wire.tag}.laid"]
        wanted += [f"{wire.tag}.laid.{number}" for number in _stretches(walk, wire.use)]
        for moment in walk.moments:
            if any(end.startswith(f"{wire.tag}@") for end in moment.step.joins):
                for state in wanted:
                    if state not in moment.before:
                        yield moment.fault("ST-11", state)


def _stretches(walk: Walk, use: str) -> list[int]:
    """The stretches that a conductor of the run lies in."""
    roles = {"feed": "fuse-out", "return": "return"}
    if use not in roles:
        return []
    near = [j.at_m for j in walk.circuit.joints if j.role == roles[use]]  # none: from the source on
    start = near[0] if near else 0.0
    numbered = enumerate(walk.circuit.stretches, 1)
    return [number for number, stretch in numbered if stretch.end_m > start + _CLOSE]


def _hands_on(moment: Moment) -> bool:
    step = moment.step
    opens = any(state.startswith(("open:", "hole:", "edge:")) for state in step.makes)
    return bool(step.joins or step.works_on or step.torques) or opens


def _after(moment: Moment, other: Moment) -> bool:
    return moment.step.number > other.step.number


def _done(earlier: Moment | None, moment: Moment) -> bool:
    """Whether `earlier` exists and stands before `moment`."""
    return earlier is not None and _after(moment, earlier)


def _plug_known(moment: Moment) -> bool:
    """Power comes on with the plug open, or with a station that its hold has let in."""
    return bool({"station-unplugged", "station-plugged"} & moment.before)


def _lays(moment: Moment, stretches: list[int]) -> bool:
    return any(
        state.endswith(f".laid.{number}") for state in moment.step.makes for number in stretches
    )


def both_sources_off(walk: Walk) -> Iterator[Fault]:
    """ST-18: a second battery is off before any joint, and an old split relay is out by then.

    [common-practice]
    """
    if not walk.letter("load+"):
        return
    wanted = ["second-off"]
    if walk.fit.vehicle.split_relay is not None:
        wanted.append("relay-out")
    for moment in walk.moments:
        if moment.step.joins:
            last = any(end.endswith(f"@{walk.letter('load-')}") for end in moment.step.joins)
            for state in wanted:
                late = state == "second-off" and "second-on" in moment.before and not last
                if state not in moment.before and not late:
                    yield moment.fault("ST-18", state)
    if "second-off" in walk.end or walk.making("second-off") is None:
        yield walk.sheet("ST-18", "second-on")


ORDER: tuple[StepRule, ...] = (
    nobody_on_live,
    negative_first,
    fuse_after_polarity,
    source_end_last,
    plug_after_voltage,
    edge_before_cable,
    drill_after_look,
    ends_once,
    torque_once,
    laid_before_joined,
    both_sources_off,
)
