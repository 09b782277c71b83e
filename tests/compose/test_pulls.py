"""Pulling on finished joints: by the table's force on a scale, by hand where there is none."""

from baybook.compose import compose
from baybook.terms import JointKind
from compose.jobs import check, guide
from variants import charger
from workbooks import example_fit

J1, J2, J8 = "brunsall-tansy/j1", "brunsall-tansy/j2", "tavlow-camber/j8"


def pulls(of):
    return [step for step in of.steps if step.id.startswith("pull.")]


def step(of, step_id):
    return next(step for step in of.steps if step.id == step_id)


def letters(one):
    return {ref.id for ref in dict(one.action.values)["joints"].items}


def test_a_screw_clamp_is_pulled_on_a_scale_and_a_push_in_by_hand():
    screw, push_in = step(guide(J1), "pull.charger"), step(guide(J1), "pull.charger.out")
    assert (screw.value.value, screw.value.unit, screw.value.side) == (90, "N", "least")
    assert screw.tool.id == "tool.scale"
    assert dict(screw.value_note.values)["scale"].value == 9.2
    assert push_in.tool.id == "tool.hand"
    assert not letters(screw) & letters(push_in)
    assert screw.number < push_in.number


def test_clamps_that_are_pulled_alike_are_one_step():
    one = step(guide(J8), "pull.charger")
    assert one.value.value == 100
    assert len(letters(one)) == 4
    assert not [found for found in pulls(guide(J8)) if found.id == "pull.charger.out"]


def test_a_charger_without_screws_is_pulled_by_hand_in_one_step():
    fit = example_fit(J1)
    pushed = fit.charger.input.model_copy(update={"kind": JointKind.PUSH_IN})
    one = step(compose(check(charger(fit, input=pushed))), "pull.charger")
    assert one.tool.id == "tool.hand"
    assert len(letters(one)) == 4


def test_a_die_is_proved_before_its_first_crimp_where_a_table_has_the_size():
    sample, crimp = step(guide(J1), "pull.sample"), step(guide(J1), "crimp.1")
    assert sample.value.value == 400.5
    assert sample.number < crimp.number
    assert not [found for found in guide(J2).steps if found.id == "pull.sample"], "no row of AWG 10"


def test_the_scale_stands_among_the_tools():
    assert "tool.scale" in {tool.id for tool in guide(J1).tools}
