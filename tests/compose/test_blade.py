"""The cue lead's own fuse: its colour where the sheet says that it is a blade fuse."""

from baybook.compose import compose
from baybook.sheet import CueInput
from compose.jobs import check, guide
from variants import charger
from workbooks import example_fit

J1 = "brunsall-tansy/j1"


def of_cue(one):
    (step,) = (step for step in one.steps if step.id == "cue.fuse")
    (line,) = (line for line in one.kit if line.note and line.note.id.startswith("kit.cue."))
    return step.value_note, line.note


def test_kit_and_step_tell_the_colour():
    note, line = of_cue(guide(J1))
    assert line.id == "kit.cue.blade"
    # 1 A is black by ISO 8820-3
    assert dict(line.values)["colour"].id == dict(note.values)["colour"].id == "blade.black"


def test_a_fuse_of_no_named_standard_has_no_colour():
    fit = example_fit(J1)
    cue = CueInput.model_validate(fit.charger.cue.model_copy(update={"fuse_standard": None}))
    note, line = of_cue(compose(check(charger(fit, cue=cue))))
    assert (note.id, line.id) == ("note.cue.own", "kit.cue.fuse")
