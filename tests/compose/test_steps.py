"""The steps: their order, what they need, and that nothing of the circuit is left out."""

from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from baybook.checks.release import walk
from baybook.compose import compose
from baybook.compose.order import OrderError, put_in_order
from baybook.compose.steps import all_steps
from baybook.compose.work import Work
from baybook.finding import say
from baybook.quantity import Quantity, Unknown
from baybook.step import Phase
from baybook.terms import HazardKind, JointKind
from compose.jobs import GUIDES, OTHERS, check, checked, guide, say_all
from variants import asked, point, route, supply, vehicle
from workbooks import example_fit


@pytest.mark.parametrize("name", GUIDES)
def test_every_need_is_made_before_it_is_needed(name):
    states = set()
    for step in guide(name).steps:
        assert set(step.needs) <= states, step.id
        assert set(step.breaks) <= states, step.id
        states = (states - set(step.breaks)) | set(step.makes)


@pytest.mark.parametrize("name", GUIDES)
@given(data=st.data())
@settings(max_examples=25)
def test_the_order_does_not_come_from_the_list(name, data):
    """However the steps are thrown together, the order that is found holds."""
    steps = data.draw(st.permutations(all_steps(Work(checked=checked(name)))))
    states = set()
    for step in put_in_order(steps):
        assert set(step.needs) <= states, step.id
        assert set(step.breaks) <= states, step.id
        states = (states - set(step.breaks)) | set(step.makes)


def test_same_steps_same_order():
    work = Work(checked=checked(GUIDES[0]))
    assert put_in_order(all_steps(work)) == put_in_order(all_steps(work))


def test_a_need_that_nobody_makes_is_told():
    step = replace(guide(GUIDES[0]).steps[0], needs=("never-made",))
    with pytest.raises(OrderError, match="vin needs never-made: no step makes it"):
        put_in_order([step])


def test_a_state_with_two_makers_is_told():
    step = guide(GUIDES[0]).steps[0]
    with pytest.raises(OrderError, match="vin-read is made by vin and by again"):
        put_in_order([step, replace(step, id="again")])


def test_two_steps_of_one_name_are_told():
    step = guide(GUIDES[0]).steps[0]
    with pytest.raises(OrderError, match="two steps share an id"):
        put_in_order([step, replace(step, makes=())])


@pytest.mark.parametrize("name", GUIDES)
def test_chapters_stand_in_the_order_of_the_phases(name):
    assert [chapter.phase for chapter in guide(name).chapters] == list(Phase)


@pytest.mark.parametrize("name", GUIDES)
def test_each_end_is_joined_once(name):
    circuit = checked(name).design.circuit
    ends = sorted(
        f"{w.tag}@{letter}"
        for w in circuit.conductors
        if not w.existing
        for letter in (w.start, w.end)
    )
    assert sorted(end for step in guide(name).steps for end in step.joins) == ends


@pytest.mark.parametrize("name", GUIDES)
def test_each_torque_is_given_once(name):
    circuit = checked(name).design.circuit
    known = [j.letter for j in circuit.joints if isinstance(j.torque, Quantity)]
    post = circuit.joint("source-").letter  # taken off and put back
    assert sorted(x for step in guide(name).steps for x in step.torques) == sorted([*known, post])


@pytest.mark.parametrize("name", GUIDES)
def test_a_step_with_a_torque_says_it_and_has_a_mark(name):
    for step in guide(name).steps:
        if step.torques:
            assert step.value is not None
            assert step.value.unit == "N*m"
            assert step.torque_mark, step.id


def order_of(name, *ids):
    numbers = {step.id: step.number for step in guide(name).steps}
    return [numbers[one] for one in ids]


@pytest.mark.parametrize("name", GUIDES)
def test_the_battery_end_comes_last(name):
    joints = [f"join.{letter}" for letter in "DJKCBA"]
    after = ["battery.on", "polarity", "fuse.in", "start.first", "meter", "plug"]
    found = order_of(name, "battery.off", *joints, *after)
    assert found == sorted(found)


def test_an_isolator_is_opened_before_and_closed_after_the_negative():
    found = order_of(GUIDES[1], "isolator.open", "battery.off", "battery.on", "isolator.close")
    assert found == sorted(found)


def test_a_cab_without_restraints_waits_for_nothing():
    assert "restraint.wait" not in {step.id for step in guide(GUIDES[1]).steps}
    assert "restraint.wait" in {step.id for step in guide(GUIDES[0]).steps}


def test_a_charger_that_does_not_stop_is_cut_off_before_plugging():
    found = order_of(GUIDES[2], "meter", "stop.first", "fuse.out.again", "output.off", "plug",
                     "fuse.in.again", "start.load")  # fmt: skip
    assert found == sorted(found)
    assert "fuse.out.again" not in {step.id for step in guide(GUIDES[0]).steps}


def test_a_sleeve_goes_on_after_the_gland_and_before_its_own_stretch():
    found = order_of(GUIDES[2], "edge.1", "lay.3", "sleeve.0", "lay.2", "gland.1", "clip.2")
    assert found == sorted(found)


def test_a_run_near_a_fuel_pipe_is_clipped_on_both_sides_of_it():
    found = order_of(GUIDES[2], "lay.2", "clear.2.2", "clamp.2.2", "clip.2")
    assert found == sorted(found)
    step = next(step for step in guide(GUIDES[2]).steps if step.id == "clamp.2.2")
    assert step.value.value == pytest.approx(0.075)  # a quarter of the shop's 300 mm
    assert not any(step.id.startswith("clamp.") for step in guide(GUIDES[0]).steps)


def test_only_a_lorry_is_asked_for_dangerous_goods():
    has = [any(s.id == "dangerous-goods" for s in guide(name).steps) for name in GUIDES]
    assert has == [False, True, False]


def test_a_power_step_is_set_before_the_fuse_goes_in():
    found = order_of(GUIDES[0], "polarity", "power", "fuse.in")
    assert found == sorted(found)


@pytest.mark.parametrize("name", GUIDES)
def test_what_a_battery_forgets_is_kept_before_or_set_after(name):
    kept = [
        n for n, item in enumerate(example_fit(name).vehicle.preserve, 1) if item.when == "before"
    ]
    ids = {step.id for step in guide(name).steps}
    assert {f"preserve.{n}" for n in kept} == {one for one in ids if one.startswith("preserve.")}
    assert len([one for one in ids if one.startswith("restore.")]) == len(
        example_fit(name).vehicle.preserve
    )


# ------------------------------------------------------------------- other facts, other steps


def holds_of(found):
    return {step.hold.id: step for step in found.steps if step.hold}


def test_holds_that_rules_raise_are_numbered_after_the_five():
    numbers = {hold: step.hold.number for hold, step in holds_of(guide(GUIDES[1])).items()}
    assert numbers == {
        "right-parts": 1, "proved-dead": 2, "behind-screws": 3, "polarity": 4, "set-voltage": 5,
        "oc-07": 6, "ne-02": 7,
    }  # fmt: skip


def unknown(like):
    return Unknown(basis=like.basis, where=like.where)


def test_an_unknown_torque_is_held_at_its_joint_and_never_invented():
    fit = example_fit(GUIDES[0])
    fit = point(fit, "body-left", torque=unknown(fit.vehicle.points["body-left"].torque))
    design = check(fit)
    made = compose(design)
    (raised,) = [step for step in made.steps if step.hold and not step.hold.standing]
    join = next(step for step in made.steps if step.id == "join.K")
    assert raised.phase is Phase.CONNECT
    assert raised.number < join.number
    assert f"hold:{raised.hold.id}" in join.needs
    assert join.value is None
    assert join.torques == ()
    row = next(line for line in made.torques if line.letter == "K")
    assert row.torque is None
    assert row.instead is not None
    assert walk(design, made) == ()


def test_an_unknown_hole_is_measured_with_the_vehicle_open():
    fit = example_fit(GUIDES[0])
    old = fit.vehicle.routes[fit.job.route]
    first = old.segments[0]
    wall = first.passage.model_copy(update={"hole": unknown(first.passage.hole)})
    segments = (first.model_copy(update={"passage": wall}), *old.segments[1:])
    routes = {fit.job.route: old.model_copy(update={"segments": segments})}
    design = check(vehicle(fit, routes=routes))
    made = compose(design)
    (raised,) = [step for step in made.steps if step.hold and not step.hold.standing]
    looked = next(step for step in made.steps if step.id == "behind")
    assert raised.phase is Phase.DRY_FIT
    assert raised.number < looked.number
    assert walk(design, made) == ()


def test_an_unknown_restraint_wait_takes_the_long_one():
    fit = example_fit(GUIDES[0])
    old = fit.vehicle.restraints
    silent = vehicle(fit, restraints=old.model_copy(update={"wait": unknown(old.wait)}))
    design = check(silent)
    step = next(step for step in compose(design).steps if step.id == "restraint.wait")
    assert step.value.value == 10
    assert step.value_note == say("note.practice")
    assert walk(design, compose(design)) == ()


def test_the_service_disconnect_is_out_and_waited_for_before_a_cover():
    fit = example_fit("tessick-orlet/j7")
    for wait, value in ((fit.vehicle.high_voltage.wait, 600), (None, 10)):
        traction = fit.vehicle.high_voltage
        if wait is None:
            traction = traction.model_copy(update={"wait": unknown(traction.wait)})
        made = compose(check(vehicle(fit, high_voltage=traction)))
        ids = [step.id for step in made.steps]
        wanted = ["battery.off", "hv.open", "hv.wait", "dead", "open.3", "hv.close", "battery.on"]
        found = [ids.index(one) for one in wanted]
        assert found == sorted(found)
        (step,) = [step for step in made.steps if step.id == "hv.wait"]
        assert step.value.value == value
    silent = check(vehicle(fit, high_voltage=None))
    assert "RS-03" in {finding.code for finding in silent.findings}


@pytest.mark.parametrize(
    "change",
    [
        lambda fit: fit,
        lambda fit: route(fit, 0.6),
        lambda fit: asked(fit, 25.0) if fit.id.endswith("j9b") else fit,
        lambda fit: supply(fit, hot_idle=None, hot_cruise=None, rated=None),
        lambda fit: vehicle(fit, preserve=()),
    ],
    ids=["as it is", "shorter route", "asked size", "no alternator figure", "nothing to keep"],
)
@pytest.mark.parametrize("name", GUIDES)
def test_whatever_the_facts_the_walk_finds_no_fault(name, change):
    design = check(change(example_fit(name)))
    made = compose(design)
    assert walk(design, made) == ()
    assert say_all(made)


def test_nothing_is_tightened_at_a_push_in_terminal():
    for step in guide(GUIDES[0]).steps:
        for end in step.joins:
            joint = next(j for j in checked(GUIDES[0]).design.circuit.joints if j.letter == end[-1])
            if joint.kind is JointKind.PUSH_IN:
                assert step.torques == ()
                assert not step.torque_mark


@pytest.mark.parametrize("make", OTHERS.values(), ids=OTHERS)
def test_another_circuit_is_walked_without_a_fault_and_told(make):
    design = check(make())
    made = compose(design)
    assert walk(design, made) == ()
    assert say_all(made)


def test_a_fuse_of_the_vehicle_is_taken_out_and_put_back_and_has_no_holder():
    made = compose(check(OTHERS["factory fuse"]()))
    ids = [step.id for step in made.steps]
    assert "fuse.holder" not in ids
    assert ids.index("fuse.out") < ids.index("join.B") < ids.index("fuse.in")
    assert not any(line.part.id.startswith(("kit.fuse", "kit.spare")) for line in made.kit)
    polarity = next(step.hold for step in made.steps if step.hold and step.hold.id == "polarity")
    assert "supply" not in {field.id for field in polarity.fields}  # nothing to read before it


def test_a_return_on_the_post_is_bolted_with_the_clamp_off():
    made = compose(check(OTHERS["return on the post"]()))
    order = [step.id for step in made.steps if step.id in {"battery.off", "join.K", "battery.on"}]
    assert order == ["battery.off", "join.K", "battery.on"]
    off = next(step for step in made.steps if step.id == "battery.off")
    assert dict(off.action.values)["minus"].id == "K"


def test_a_breaker_is_locked_off_and_switched_on():
    fit = example_fit(GUIDES[0])
    lever = {"form": "breaker", "reset": "manual"}
    design = check(
        replace(fit, protections=tuple(p.model_copy(update=lever) for p in fit.protections))
    )
    made = compose(design)
    assert walk(design, made) == ()
    actions = {step.id: step.action.id for step in made.steps}
    assert actions["fuse.out"] == "do.breaker.out"
    assert actions["fuse.in"] == "do.breaker.in"
    assert any(line.part.id == "kit.breaker" for line in made.kit)
    assert say_all(made)


def test_more_hazards_than_three_panels_are_merged_and_none_is_lost():
    fit = example_fit(GUIDES[2])
    old = fit.vehicle.routes[fit.job.route]
    under = old.segments[1]
    like = under.hazards[0]
    more = tuple(
        like.model_copy(update={"kind": kind, "what": kind.value, "shield": None})
        for kind in (HazardKind.HIGH_VOLTAGE, HazardKind.AIRBAG, HazardKind.STEERING)
    )
    crowded = under.model_copy(update={"hazards": (*under.hazards, *more)})
    segments = (old.segments[0], crowded, *old.segments[2:])
    routes = {fit.job.route: old.model_copy(update={"segments": segments})}
    design = check(vehicle(fit, routes=routes))
    made = compose(design)
    assert walk(design, made) == ()
    (chapter,) = [one for one in made.chapters if one.phase is Phase.ROUTE]
    boxes = [box for step in chapter.steps for box in step.boxes]
    assert len(boxes) == 3
    assert boxes[0].signal == "danger"
    covered = {hazard for box in boxes for hazard in box.covers}
    assert covered == {"high-voltage", "restraint", "pipes", "moving", "exhaust"}
    # Names that hold an "and" of their own are not strung together by another.
    named = say_all(boxes[-1].hazard)["text"]
    assert named == "Pipes beside the cable; Moving parts; Hot exhaust"
    assert say_all(made)
