"""What is laid out before the work, and what gets a paint line: nothing a step needs is missing."""

import pytest

from baybook.step import Phase
from compose.jobs import GUIDES, guide

ASKED = "tessick-orlet/j7"  # nobody states the torque of its body point
NAMES = (*GUIDES, "pellmare-mirren/j5", "tavlow-camber/j8", ASKED)


def step_of(name, step_id):
    return next(step for step in guide(name).steps if step.id == step_id)


def test_a_torque_that_is_asked_for_has_its_wrench_and_its_mark():
    step = step_of(ASKED, "join.J")
    assert step.action.id == "do.bolt.asked"
    assert step.tool.id == "tool.torque.asked.socket"
    assert step.torque_mark


@pytest.mark.parametrize("name", NAMES)
def test_a_paint_line_is_drawn_at_each_joint_that_has_its_mark(name):
    marked = [step for step in guide(name).steps if step.joins and step.torque_mark]
    assert step_of(name, "marks").value.value == len(marked)


@pytest.mark.parametrize("name", NAMES)
def test_what_protects_eyes_wheels_and_lungs_is_among_the_tools(name):
    listed = {tool.id for tool in guide(name).tools}
    assert {"tool.chocks", "tool.eyes"} <= listed
    words = {step.action.id for step in guide(name).steps}
    assert ("tool.exhaust" in listed) == ("do.start.engine" in words)
    assert ("tool.spanners" in listed) == ("do.relay.out" in words)


@pytest.mark.parametrize("name", NAMES)
def test_what_joins_the_cue_lead_is_in_the_kit(name):
    said = {step.id: step.value_note for step in guide(name).steps}
    in_kit = [line.note for line in guide(name).kit if line.part.id == "kit.cue.join"]
    joined = dict(said["cue"].values) if said.get("cue") else {}
    assert len(in_kit) == bool(joined)
    assert all(dict(note.values)["text"] in joined.values() for note in in_kit)


@pytest.mark.parametrize("name", NAMES)
def test_the_engine_is_started_with_the_wheels_on_the_ground(name):
    for chapter in guide(name).chapters:
        if chapter.phase in {Phase.FIRST_POWER, Phase.COMMISSION}:
            assert chapter.true_before[0].id == "true.grounded"
        starts = [step.id for step in chapter.steps if step.id.startswith("start.")]
        assert not starts or chapter.phase in {Phase.FIRST_POWER, Phase.COMMISSION}
