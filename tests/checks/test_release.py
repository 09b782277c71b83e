"""The second gate: a whole guide passes; each sabotage is met on the walk, under its own code."""

from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from baybook.checks.registry import RULES
from baybook.checks.release import release, walk
from baybook.compose import compose
from baybook.finding import Verdict
from baybook.guide import Guide, ReleasedGuide
from baybook.quantity import Unknown
from baybook.wording.tell import tell
from compose.jobs import GUIDES, check, checked, english, guide
from silenced import rules, silenced
from variants import charger, point, quantity, station, vehicle
from workbooks import example_fit

TANSY, DREY, COBBLE = GUIDES
ORLET = "tessick-orlet/j7"


@pytest.mark.parametrize("name", GUIDES)
def test_a_whole_guide_is_released(name):
    assert walk(checked(name), guide(name)) == ()
    assert release(checked(name), guide(name)) == ReleasedGuide(guide=guide(name))


# ------------------------------------------------------------------- hands that spoil a guide


def rebuilt(whole: Guide, steps) -> Guide:
    """Put changed steps back into their chapters, numbered anew."""
    numbered = [replace(step, number=n) for n, step in enumerate(steps, 1)]
    chapters = tuple(
        replace(chapter, steps=tuple(s for s in numbered if s.phase is chapter.phase))
        for chapter in whole.chapters
    )
    return replace(whole, chapters=chapters)


def without(*ids):
    return lambda whole: rebuilt(whole, [s for s in whole.steps if s.id not in ids])


def altered(step_id, **change):
    return lambda whole: rebuilt(
        whole, [replace(s, **change) if s.id == step_id else s for s in whole.steps]
    )


def moved(step_id, *, before):
    """Move a step, into the chapter of the one it is put before."""

    def spoil(whole):
        steps = [s for s in whole.steps if s.id != step_id]
        place = next(n for n, s in enumerate(steps) if s.id == before)
        taken = next(s for s in whole.steps if s.id == step_id)
        steps.insert(place, replace(taken, phase=steps[place].phase))
        return rebuilt(whole, steps)

    return spoil


def swapped(one, other):
    def spoil(whole):
        steps = list(whole.steps)
        a, b = (next(n for n, s in enumerate(steps) if s.id == x) for x in (one, other))
        steps[a], steps[b] = steps[b], steps[a]
        return rebuilt(whole, steps)

    return spoil


def step(name, step_id):
    return next(s for s in guide(name).steps if s.id == step_id)


SABOTAGE = [
    ("ST-01", TANSY, "the battery end with the negative on", moved("join.A", before="polarity")),
    ("ST-01", TANSY, "a fuse end with the battery on", moved("join.B", before="polarity")),
    ("ST-01", COBBLE, "an output end with the charger fed", moved("join.E", before="start.first")),
    ("ST-02", TANSY, "the negative never off", without("battery.off", "battery.cover")),
    ("ST-02", TANSY, "a trim opened before the negative is off", moved("open.3", before="rings")),
    ("ST-02", DREY, "the negative on before the last joint", moved("battery.on", before="join.K")),
    ("ST-03", TANSY, "the fuse in before polarity", moved("fuse.in", before="polarity")),
    ("ST-03", TANSY, "polarity not signed", altered("polarity", hold=None)),
    ("ST-03", TANSY, "polarity with the battery off", moved("polarity", before="battery.on")),
    ("ST-04", TANSY, "battery plus before the fuse holder", swapped("join.A", "join.B")),
    ("ST-04", COBBLE, "the return before the charger", moved("join.K", before="join.D")),
    ("ST-05", TANSY, "plugged before the meter", moved("plug", before="meter")),
    ("ST-05", TANSY, "plugged while running", moved("plug", before="stop.first")),
    ("ST-05", TANSY, "power with a plug nobody looked at", without("open-plug")),
    ("ST-06", TANSY, "no box for the drill", altered("drill.mount", boxes=())),
    ("ST-06", TANSY, "a hazard that a step keeps quiet", altered("plug", hazards=(), boxes=())),
    ("ST-07", COBBLE, "the cable before its gland", moved("edge.1", before="clip.2")),
    ("ST-07", TANSY, "no edge at all", without("edge.0")),
    ("ST-08", TANSY, "a hole before the look", moved("drill.mount", before="behind")),
    ("ST-08", COBBLE, "a hole forgotten", without("drill.1")),
    ("ST-09", TANSY, "an end forgotten", without("join.H")),
    ("ST-09", TANSY, "an end joined twice", altered("join.H", joins=("W5@H", "W4@E"))),
    ("ST-10", TANSY, "a joint tightened twice", altered("marks", torques=("D",))),
    ("ST-10", TANSY, "a joint never tightened", altered("join.D", torques=())),
    ("ST-10", TANSY, "the post tightened twice", altered("marks", torques=("L",))),
    ("ST-10", TANSY, "a joint tightened while empty", altered("pull.charger", torques=("K",))),
    ("ST-11", TANSY, "a cable joined before it is laid", moved("lay.1", before="marks")),
    ("ST-11", TANSY, "a cable without labels", without("label.ends")),
    ("ST-12", TANSY, "a standing hold dropped", altered("behind", hold=None)),
    ("ST-12", DREY, "a raised hold dropped", without("settle.ne-02")),
    ("ST-12", DREY, "a raised hold too late", moved("settle.oc-07", before="marks")),
    ("ST-12", TANSY, "the parts compared too late", moved("parts", before="dead")),
    ("ST-13", TANSY, "a need that is not true", altered("bag", needs=("negative-off",))),
    ("ST-13", TANSY, "rings on at the first probe", moved("rings", before="battery.off")),
    ("ST-14", TANSY, "a number twice", None),
    ("ST-15", TANSY, "a trim left open", without("close.2")),
    ("ST-15", TANSY, "a reading left out", without("read.loaded")),
    ("ST-15", COBBLE, "the fuse left out", without("fuse.in.again")),
    ("ST-16", TANSY, "no wait for the airbags", without("restraint.wait")),
    ("ST-16", TANSY, "the wait while still on", moved("restraint.wait", before="rings")),
    ("ST-19", ORLET, "no wait for the discharge", without("hv.wait")),
    ("ST-19", ORLET, "the wait before the disconnect", moved("hv.wait", before="hv.open")),
    ("ST-19", ORLET, "the disconnect not back", without("hv.close")),
    ("ST-17", TANSY, "power that nobody announces", altered("fuse.in", energises=False)),
]  # fmt: skip


@pytest.mark.parametrize(("code", "name", "what", "spoil"), SABOTAGE, ids=[s[2] for s in SABOTAGE])
def test_a_sabotaged_guide_is_refused(code, name, what, spoil):
    spoil = spoil or number_twice
    found = release(checked(name), spoil(guide(name)))
    assert isinstance(found, tuple), what
    assert code in {f.code for f in found}, [f.code for f in found]
    for finding in found:
        assert finding.verdict is Verdict.REFUSED
        assert tell(finding, english())  # every code has its sentences


@pytest.mark.parametrize(("code", "name", "what", "spoil"), SABOTAGE, ids=[s[2] for s in SABOTAGE])
def test_without_its_rule_a_sabotage_is_not_met(code, name, what, spoil):
    spoil = spoil or number_twice
    with silenced(code):
        assert code not in {f.code for f in walk(checked(name), spoil(guide(name)))}, what


def test_every_rule_of_the_steps_is_sabotaged():
    of_a_second_battery = {"ST-18"}  # tests/checks/test_two_sources.py
    assert {s[0] for s in SABOTAGE} | of_a_second_battery == set(rules()) - set(RULES)


def number_twice(whole):
    first, *rest = whole.chapters
    steps = (replace(first.steps[0], number=2), *first.steps[1:])
    return replace(whole, chapters=(replace(first, steps=steps), *rest))


def test_every_code_of_the_walk_has_a_sabotage():
    codes = {code for code, *_ in SABOTAGE}
    # ST-18 needs a second battery: tests/checks/test_two_sources.py
    assert codes == {f"ST-{n:02d}" for n in range(1, 20)} - {"ST-18"}
    for code in codes:
        for part in ("title", "allowed", "why"):
            assert english().has(f"rule.{code}.{part}")


@pytest.mark.parametrize("name", GUIDES)
def test_any_joint_made_while_it_is_live_is_met(name):
    """Whichever joint it is: made with the battery on, or with the fuse in, it is refused."""
    letters = [s.id for s in guide(name).steps if s.id.startswith("join.")]
    for letter in letters:
        found = walk(checked(name), moved(letter, before="start.first")(guide(name)))
        assert found, letter


@pytest.mark.parametrize("name", GUIDES)
def test_any_step_that_is_left_out_is_missed(name):
    """No step that makes a state somebody needs can be dropped."""
    for one in guide(name).steps:
        needed = {state for s in guide(name).steps for state in s.needs}
        if set(one.makes) & needed:
            assert walk(checked(name), without(one.id)(guide(name))), one.id


@pytest.mark.parametrize("name", GUIDES)
def test_any_box_that_is_taken_away_is_missed(name):
    for one in guide(name).steps:
        if one.boxes:
            assert walk(checked(name), altered(one.id, boxes=())(guide(name))), one.id


@pytest.mark.parametrize("name", GUIDES)
def test_any_hold_that_is_taken_away_is_missed(name):
    for one in guide(name).steps:
        if one.hold:
            assert walk(checked(name), altered(one.id, hold=None)(guide(name))), one.id


@given(data=st.data())
@settings(max_examples=60)
def test_two_steps_that_need_each_others_place_cannot_be_swapped(data):
    """Swap any two steps: the walk passes only an order in which every need is still true."""
    name = data.draw(st.sampled_from(GUIDES))
    ids = [s.id for s in guide(name).steps]
    one, other = data.draw(st.sampled_from(ids)), data.draw(st.sampled_from(ids))
    spoilt = swapped(one, other)(guide(name))
    states, holds = set(), True
    for s in spoilt.steps:
        holds &= set(s.needs) <= states and set(s.breaks) <= states
        states = (states - set(s.breaks)) | set(s.makes)
    if not holds:
        assert "ST-13" in {f.code for f in walk(checked(name), spoilt)}


@pytest.mark.parametrize(
    "step_id",
    ["battery.off", "drill.mount", "join.K", "fuse.in", "start.first", "plug", "open.2"],
)
def test_a_hazard_is_known_by_what_a_step_does_whatever_it_says(step_id):
    quiet = altered(step_id, hazards=(), boxes=())(guide(TANSY))
    assert "ST-06" in {f.code for f in walk(checked(TANSY), quiet)}


def test_a_hold_signed_with_the_very_step_that_it_gates_is_too_late():
    hold = step(TANSY, "parts").hold
    spoilt = altered("battery.off", hold=hold)(altered("parts", hold=None)(guide(TANSY)))
    assert [f.code for f in walk(checked(TANSY), spoilt)] == ["ST-12"]


def test_hold_numbers_that_jump_are_met():
    hold = step(TANSY, "dead").hold
    spoilt = altered("dead", hold=replace(hold, number=7))(guide(TANSY))
    assert [f.code for f in walk(checked(TANSY), spoilt)] == ["ST-12"]


def test_chapters_out_of_order_are_met():
    whole = guide(TANSY)
    first, second, *rest = whole.chapters
    assert "ST-14" in {
        f.code for f in walk(checked(TANSY), replace(whole, chapters=(second, first, *rest)))
    }


def test_a_step_in_a_foreign_chapter_is_met():
    whole = guide(TANSY)
    first, *rest = whole.chapters
    strange = replace(first.steps[0], phase=rest[0].phase)
    spoilt = replace(whole, chapters=(replace(first, steps=(strange, *first.steps[1:])), *rest))
    assert [f.code for f in walk(checked(TANSY), spoilt)] == ["ST-14"]


def test_a_hold_about_the_output_is_signed_before_the_plug():
    """A default that a reset brings back, outside the window: held until the meter has spoken."""
    fit = example_fit(TANSY)
    narrow = station(fit, window_max=quantity(fit.station.window_max, 25.0))
    higher = charger(
        narrow,
        output_default=quantity(fit.charger.output_default, 26.0),
    )
    design = check(higher)
    assert {f.code for f in design.findings if f.verdict is Verdict.HOLD} == {"OV-04"}
    whole = compose(design)
    assert walk(design, whole) == ()
    late = moved("settle.ov-04", before="start.load")(whole)
    assert "ST-12" in {f.code for f in walk(design, late)}


@pytest.mark.parametrize(("wait_s", "met"), [(0, set()), (1, {"ST-16"})])
def test_a_vehicle_without_a_wait_needs_none(wait_s, met):
    fit = example_fit(TANSY)
    restraints = fit.vehicle.restraints
    wait = quantity(restraints.wait, wait_s)
    changed = vehicle(fit, restraints=restraints.model_copy(update={"wait": wait}))
    design = check(changed)
    assert walk(design, compose(design)) == ()
    found = walk(design, without("restraint.wait")(compose(design)))
    assert {f.code for f in found} >= met
    assert ("ST-16" in {f.code for f in found}) is bool(met)


def test_a_fourth_box_in_a_chapter_is_too_many():
    drill = step(TANSY, "drill.mount")
    found = walk(checked(TANSY), altered("drill.mount", boxes=drill.boxes * 4)(guide(TANSY)))
    assert [f.code for f in found] == ["ST-14"]


def test_an_unknown_torque_must_not_be_given():
    fit = example_fit(TANSY)
    torque = fit.vehicle.points["body-left"].torque
    silent = Unknown(basis=torque.basis, where=torque.where)
    design = check(point(fit, "body-left", torque=silent))
    invented = altered("join.K", torques=("K",))(compose(design))
    assert "ST-10" in {f.code for f in walk(design, invented)}


def test_a_finding_of_the_walk_reads_as_a_message():
    (finding, *_) = walk(checked(TANSY), moved("join.A", before="polarity")(guide(TANSY)))
    number = next(
        s.number for s in moved("join.A", before="polarity")(guide(TANSY)).steps if s.id == "join.A"
    )
    found = walk(checked(TANSY), moved("join.A", before="polarity")(guide(TANSY)))
    live = next(f for f in found if f.code == "ST-01")
    assert tell(live.title, english())["text"] == f"step {number} works on A while it is live"
    assert live.place == "steps.join.A"
    assert finding.where.file.endswith("vehicle.yaml")
