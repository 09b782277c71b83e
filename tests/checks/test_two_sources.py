"""The walk with two sources: a conductor is live if either battery feeds it."""

from dataclasses import replace

import pytest

from baybook.checks import approve, judge
from baybook.checks.release import walk
from baybook.checks.walked import follow
from baybook.compose import compose
from baybook.sizing.choose import choose
from workbooks import example_fit


@pytest.fixture(scope="module")
def job():
    checked = approve(choose(example_fit("tavlow-camber/j8"), judge))
    return checked, compose(checked)


def spoilt(guide, step_id, **changes):
    """Return the guide with one step changed."""
    chapters = tuple(
        replace(
            chapter,
            steps=tuple(
                replace(one, **{name: change(one) for name, change in changes.items()})
                if one.id == step_id
                else one
                for one in chapter.steps
            ),
        )
        for chapter in guide.chapters
    )
    return replace(guide, chapters=chapters)


def codes(checked, guide):
    return {fault.code for fault in walk(checked, guide)}


def test_the_steps_are_walked_without_a_fault(job):
    assert walk(*job) == ()


def test_the_second_battery_keeps_its_run_live_until_its_negative_is_off(job):
    track = follow(*job)
    plus = job[0].design.circuit.joint("load+").letter
    off = track.making("second-off")
    assert plus in off.live
    assert plus not in off.live_after


def test_its_own_run_is_live_when_its_negative_is_on_again_and_no_farther_than_f2(job):
    circuit = job[0].design.circuit
    on = follow(*job).making("second-on")
    assert {"W5", circuit.joint("load+").letter, circuit.joint("load-out").letter} <= on.live_after
    assert not {"W4", circuit.joint("load-in").letter} & on.live_after


def test_f2_in_joins_both_sources(job):
    circuit = job[0].design.circuit
    track = follow(*job)
    assert {"W4", circuit.joint("out+").letter} <= track.making("F2.in").live_after


def test_a_joint_before_the_second_battery_is_off_is_a_fault(job):
    checked, guide = job
    late = spoilt(guide, "second.off", makes=lambda _: ())
    assert {"ST-01", "ST-18"} <= codes(checked, late)


def test_an_old_split_relay_that_stays_is_a_fault(job):
    checked, guide = job
    assert "ST-18" in codes(checked, spoilt(guide, "relay.leads", makes=lambda _: ()))


def test_f2_before_polarity_is_signed_is_a_fault(job):
    checked, guide = job
    early = spoilt(guide, "second.out", makes=lambda one: (*one.makes, "F2.in"))
    assert "ST-03" in codes(checked, early)


def test_f2_before_the_output_is_read_is_a_fault(job):
    checked, guide = job
    blind = spoilt(guide, "meter", hold=lambda _: None)
    assert "ST-05" in codes(checked, blind)


def test_a_fuse_that_is_left_out_is_a_fault(job):
    checked, guide = job
    out = spoilt(guide, "plug", makes=lambda one: tuple(s for s in one.makes if s != "F2.in"))
    assert "ST-15" in codes(checked, out)


def test_a_step_that_makes_the_second_run_live_and_does_not_say_so_is_a_fault(job):
    checked, guide = job
    minus = checked.design.circuit.joint("load-").letter
    silent = spoilt(guide, f"join.{minus}", energises=lambda _: False)
    assert "ST-17" in codes(checked, silent)


def test_its_run_is_live_past_f2_once_that_is_in(job):
    """A second battery feeds back through its protection, as far as the charger's output."""
    checked, guide = job
    at = {joint.role: joint.letter for joint in checked.design.circuit.joints}
    closed = spoilt(guide, "join.J", makes=lambda one: (*one.makes, "F2.in"))
    on = follow(checked, closed).making("second-on")
    assert {at["load-out"], at["load-in"], "W4", at["out+"]} <= on.live_after
    assert at["in+"] not in on.live_after


def test_a_vehicle_s_own_fuse_lets_the_battery_through():
    checked = approve(choose(example_fit("tessick-orlet/j7"), judge))
    track = follow(checked, compose(checked))
    at = {joint.role: joint.letter for joint in checked.design.circuit.joints}
    put_in = track.making("F1.in")
    assert put_in.live == {at["battery+"]}
    assert {at["source+"], "W1", at["in+"]} <= put_in.live_after
