"""The rules of the job, as they must hold over every course of steps; see `bench.py`.

`wrongs(checked, guide)` names each broken rule with the step that breaks it.
"""

from collections import Counter

from baybook.quantity import Unknown
from baybook.terms import HazardKind, PassageKind, SupplyKind
from compose.bench import Bench, Course

RESTRAINT = {HazardKind.AIRBAG, HazardKind.PRETENSIONER}
STANDING = ("right-parts", "proved-dead", "behind-screws", "polarity", "set-voltage")


def wrongs(checked, guide):
    """Return every rule that the work breaks: (rule, what)."""
    course = Course(checked, guide)
    return {(rule.__name__, what) for rule in RULES for what in rule(course)}


# ------------------------------------------------------------------ the rules of the job


def nobody_works_on_a_live_conductor(course):
    bench = Bench(course.circuit)
    post = course.at.get("source-")
    for step in course.steps:
        touched = set(step.works_on) | {letter for letter in step.torques if letter != post}
        touched |= {part for end in step.joins for part in end.split("@")}
        yield from (f"{step.id}: {hot}" for hot in sorted(touched & bench.live()))
        bench.do(step)


def negative_comes_off_first_and_goes_on_last(course):
    off, on = course.first("negative-off"), course.last("negative-on")
    post = course.at.get("source-")
    for n, step in enumerate(course.steps):
        opens = [s for s in step.makes if s.startswith(("open:", "hole:", "edge:", "laid:"))]
        bare = [letter for letter in step.torques if letter != post]
        if (step.joins or step.works_on or bare or opens) and not off < n < on:
            yield step.id
    for tag in (p.tag for p in course.circuit.protections):
        if course.first(f"{tag}.in") < on:
            yield f"{tag} before the negative is on"
    if "load+" in course.at:
        first = min(course.joining(letter) for letter in course.at.values())
        if not off < course.first("second-off") < first:
            yield "second-off"
        if course.first("second-on") != course.joining(course.at["load-"]):
            yield "second-on"


def metal_comes_off_before_a_post_is_touched(course):
    """A ring between post and body welds itself on: off before the first probe or tool."""
    off = course.first("metal-off")
    readings = [s for step in course.steps for s in step.makes if s.startswith("reading:")]
    for touch in (*readings, "negative-off", "isolator-open"):
        if touch in {s for step in course.steps for s in step.makes} and course.first(touch) < off:
            yield touch


def protection_waits_for_polarity_and_short(course):
    for protection in course.circuit.protections:
        tag = protection.tag
        into, out = course.first(f"{tag}.in", f"{tag}.in.again"), course.first(f"{tag}.out")
        for earlier in (course.signing("polarity"), course.first("no-short"), out):
            if not earlier < into:
                yield f"{tag} in before {course.name(earlier)}"
        if out > course.first("negative-on"):
            yield f"{tag} not looked at before the negative is on"
    live = Bench(course.circuit)
    for n, step in enumerate(course.steps):
        if n == course.signing("polarity") and (live.closed or not live.battery):
            yield "polarity is measured dead, or past a closed fuse"
        live.do(step)


def charger_end_goes_before_battery_end(course):
    chains = (
        ("in+", "fuse-out", "fuse-in", "source+"),
        ("in-", "return", "source+"),
        ("out+", "load-in", "load+"),
        ("out-", "load-"),
    )
    for chain in chains:
        places = [course.joining(course.at[role]) for role in chain if role in course.at]
        made = [n for n in places if n < len(course.steps)]
        if made != sorted(made):
            yield " ".join(chain)
    last = max(n for n, step in enumerate(course.steps) if step.joins)
    if "load+" not in course.at and course.name(last) != f"join.{course.at['source+']}":
        factory = any(p.factory for p in course.circuit.protections)
        if not factory:
            yield f"{course.name(last)} is joined last"


def output_stays_unplugged_until_metered(course):
    bench = Bench(course.circuit)
    read = known = plugged = False
    output = next(row.id for row in course.guide.readings if row.name == "open")
    for step in course.steps:
        if "station-plugged" in step.makes:
            if not read or bench.running:
                yield f"{step.id} before the meter, or while it runs"
            plugged = True
        bench.do(step)
        known |= "station-unplugged" in step.makes
        if f"reading:{output}" in step.makes:
            read = bench.running and not plugged and step.hold is not None
        if bench.running and not plugged and not known:
            yield f"{step.id}: power at a plug that nobody looked at"
    if not plugged:
        yield "never plugged in"


def a_warning_stands_before_its_hazard(course):
    for chapter in course.guide.chapters:
        warned = set()
        for step in chapter.steps:
            warned |= {hazard for box in step.boxes for hazard in box.covers}
            yield from (f"{step.id}: {h}" for h in {*step.hazards, *_bite(course, step)} - warned)


def _bite(course, step):
    """The hazards of a step by what is done, not by what it says of itself."""
    if any(state.startswith("hole:") for state in step.makes):
        yield "drill"
    switched = {f"{p.tag}.in" for p in course.circuit.protections}
    if {"negative-off", "negative-on"} & set(step.makes) or switched & set(step.makes):
        yield "arc"
    if "station-plugged" in step.makes:
        yield "overvoltage"
    for number, segment in _segments(course):
        kinds = {hazard.kind for hazard in segment.hazards}
        if {f"open:{number}", f"laid:{number}"} & set(step.makes):
            if kinds & RESTRAINT:
                yield "restraint"
            if HazardKind.HIGH_VOLTAGE in kinds:
                yield "high-voltage"


def _segments(course):
    return enumerate(course.fit.vehicle.routes[course.fit.job.route].segments, 1)


def a_grommet_goes_in_before_its_cable(course):
    walls = [
        (number, segment.passage)
        for number, segment in _segments(course)
        if segment.passage is not None and segment.passage.form is not PassageKind.OPEN
    ]
    guarded = [n for n, step in enumerate(course.steps) if _states(step, "edge:")]
    if len(guarded) != len(walls):
        yield f"{len(walls)} walls, {len(guarded)} edges"
    # From the charger to the source: the cable is through the wall when its far side is laid.
    for (number, _), edge in zip(walls, sorted(_edges(course)), strict=False):
        laid = course._first(lambda step, n=number: _laid(step, n))
        if not edge[1] < laid:
            yield f"wall of stretch {number}"


def _states(step, beginning):
    return [state for state in step.makes if state.startswith(beginning)]


def _edges(course):
    """(place along the run, step) of each guarded edge: its number counts along the run."""
    for n, step in enumerate(course.steps):
        for state in _states(step, "edge:"):
            yield int(state.split(":")[1]), n


def _laid(step, number):
    return any(state == f"laid:{number}" for state in step.makes)


def somebody_looks_behind_before_a_hole(course):
    looked = course.signing("behind-screws")
    holes = Counter()
    for n, step in enumerate(course.steps):
        for state in _states(step, "hole:"):
            holes[state] += 1
            if not looked < n:
                yield step.id
    new = sum(s.passage is not None and _new(s.passage) for _, s in _segments(course))
    if set(holes.values()) != {1} or len(holes) != 1 + new:
        yield f"{dict(holes)}, {new} new holes and the mount"


def _new(passage):
    return passage.form is not PassageKind.OPEN and passage.hole is None


def restraints_and_high_voltage_are_waited_for(course):
    off, waited = course.first("negative-off"), course.first("restraint-waited")
    wait = course.fit.vehicle.restraints.wait
    if isinstance(wait, Unknown) or wait.value > 0:
        opened = [n for n, step in enumerate(course.steps) if _states(step, "open:")]
        if not off < waited < min(opened, default=len(course.steps) + 1):
            yield "restraint-waited"
        value = course.steps[waited].value if waited < len(course.steps) else None
        if value is not None and not isinstance(wait, Unknown) and value.value < wait.value:
            yield "a shorter wait than the maker's"
    yield from _high_voltage_waited_for(course, off)
    converter = course.fit.vehicle.supply.kind is SupplyKind.CONVERTER
    if converter and not course.first("ready-out") < off:
        yield "Ready is not looked at"


def _high_voltage_waited_for(course, off):
    segments = course.fit.vehicle.routes[course.fit.job.route].segments
    passed = any(h.kind is HazardKind.HIGH_VOLTAGE for s in segments for h in s.hazards)
    if course.fit.vehicle.supply.kind is not SupplyKind.CONVERTER and not passed:
        return
    taken, discharged = course.first("hv-open"), course.first("hv-waited")
    opened = [n for n, step in enumerate(course.steps) if _states(step, "open:")]
    if not off < taken < discharged < min(opened, default=len(course.steps) + 1):
        yield "hv-waited"
    if not course.first("hv-closed") < course.first("negative-on"):
        yield "the service disconnect is not back"
    traction = course.fit.vehicle.high_voltage
    if traction and not isinstance(traction.wait, Unknown):
        value = course.steps[discharged].value if discharged < len(course.steps) else None
        if value is None or value.value < traction.wait.value:
            yield "a shorter discharge than the maker's"


def each_joint_is_made_once_and_torqued_once(course):
    made = Counter(end for step in course.steps for end in step.joins)
    wanted = {
        f"{wire.tag}@{letter}"
        for wire in course.circuit.conductors
        if not wire.existing
        for letter in (wire.start, wire.end)
    }
    yield from (end for end in wanted | set(made) if made[end] != (end in wanted))
    turned = Counter(letter for step in course.steps for letter in step.torques)
    yield from (f"{letter} twice" for letter, count in turned.items() if count > 1)
    stated = {row.letter for row in course.guide.torques if row.torque is not None}
    new = {letter for end in wanted for letter in [end.split("@")[1]]}
    yield from (f"{letter} is not torqued" for letter in stated & new if turned[letter] != 1)
    for step in course.steps:
        here = {end.split("@")[1] for end in step.joins}
        yield from (f"{x} torqued away from its joint" for x in set(step.torques) & new - here)


def each_hold_is_signed_before_what_depends_on_it(course):
    signed = Counter(step.hold.id for step in course.steps if step.hold)
    yield from (f"{hold} {signed[hold]} times" for hold in STANDING if signed[hold] != 1)
    gates = {
        "right-parts": course.first("negative-off"),
        "proved-dead": min(
            n
            for n, s in enumerate(course.steps)
            if s.joins or _states(s, "open:") or _states(s, "hole:")
        ),
        "behind-screws": min(n for n, s in enumerate(course.steps) if _states(s, "hole:")),
        "polarity": course.first(*(f"{p.tag}.in" for p in course.circuit.protections)),
        "set-voltage": course.first("station-plugged"),
    }
    for hold, gate in gates.items():
        if not course.signing(hold) < gate:
            yield hold
    for n, step in enumerate(course.steps):
        for state in step.needs:
            if state.startswith("hold:") and not course.signing(state[5:]) < n:
                yield f"{step.id} before {state}"
    for finding in course.checked.findings:
        if finding.verdict.value == "hold" and not signed[finding.hold or finding.code.lower()]:
            yield f"{finding.code} is never signed"


def a_cable_is_labelled_and_laid_before_it_is_joined(course):
    for n, step in enumerate(course.steps):
        for end in step.joins:
            tag = end.split("@")[0]
            for state in (f"{tag}.cut", f"{tag}.labelled", f"{tag}.laid"):
                if not course.first(state) < n:
                    yield f"{step.id} before {state}"


def it_is_left_closed_fused_and_read(course):
    bench, opened, taken = Bench(course.circuit), set(), set()
    for step in course.steps:
        bench.do(step)
        opened |= {state[5:] for state in _states(step, "open:")}
        opened -= {state[7:] for state in _states(step, "closed:")}
        taken |= {state[8:] for state in _states(step, "reading:")}
    yield from (f"stretch {number} is left open" for number in opened)
    yield from (
        f"{p.tag} is left out" for p in course.circuit.protections if p.tag not in bench.closed
    )
    yield from (f"{row.id} is not taken" for row in course.guide.readings if row.id not in taken)
    if bench.running or not bench.battery or not bench.second:
        yield "running, or a negative off"


def what_a_step_needs_is_true(course):
    true = set()
    for step in course.steps:
        yield from (f"{step.id}: {s}" for s in {*step.needs, *step.breaks} - true)
        true = (true - set(step.breaks)) | set(step.makes)


RULES = (
    nobody_works_on_a_live_conductor,
    negative_comes_off_first_and_goes_on_last,
    metal_comes_off_before_a_post_is_touched,
    protection_waits_for_polarity_and_short,
    charger_end_goes_before_battery_end,
    output_stays_unplugged_until_metered,
    a_warning_stands_before_its_hazard,
    a_grommet_goes_in_before_its_cable,
    somebody_looks_behind_before_a_hole,
    restraints_and_high_voltage_are_waited_for,
    each_joint_is_made_once_and_torqued_once,
    each_hold_is_signed_before_what_depends_on_it,
    a_cable_is_labelled_and_laid_before_it_is_joined,
    it_is_left_closed_fused_and_read,
    what_a_step_needs_is_true,
)
