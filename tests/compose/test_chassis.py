"""A guide whose return is the body: steps, readings, tree, drawing and strip say so."""

import math

import pytest

from baybook.checks.release import release
from baybook.compose import compose
from chassis import chassis_fit
from compose.jobs import behind_a_factory_fuse, check, say_all
from variants import point


@pytest.fixture(scope="module")
def checked(tmp_path_factory):
    return check(chassis_fit(tmp_path_factory.mktemp("chassis")))


@pytest.fixture(scope="module")
def guide(checked):
    return compose(checked)


def steps(guide):
    return [step for chapter in guide.chapters for step in chapter.steps]


def letters(checked):
    return {joint.role: joint.letter for joint in checked.design.circuit.joints}


def test_the_walk_releases_it(checked, guide):
    assert release(checked, guide)


def test_the_body_point_is_made_bright_torqued_and_sealed(checked, guide):
    near = letters(checked)["return"]
    ids = [step.id for step in steps(guide)]
    assert ids.index("clean.return") < ids.index(f"join.{near}") < ids.index("seal.return")
    join = next(step for step in steps(guide) if step.id == f"join.{near}")
    assert join.torques == (near,)
    assert join.value.value == pytest.approx(18)


def test_the_return_lies_in_no_stretch(guide):
    tag = "W3"
    lays = [step for step in steps(guide) if f"{tag}.laid" in step.makes]
    assert [step.id for step in lays] == ["lay.return"]
    for step in steps(guide):
        assert not any(state.startswith(f"{tag}.laid.") for state in step.makes)


def test_dead_and_polarity_are_proved_against_the_body_near_the_battery(checked, guide):
    body = letters(checked)["body"]
    held = {step.hold.id: step.hold for step in steps(guide) if step.hold}
    dead = next(blank for blank in held["proved-dead"].fields if blank.id == "dead")
    assert dead.points[-1] == body
    back = next(blank for blank in held["polarity"].fields if blank.id == "return")
    assert back.points == (letters(checked)["in-"], body)


def test_the_drop_of_the_body_is_a_reading_with_a_limit(checked, guide):
    """26 mV at 15.6 A; at most what 18.1 A gives and 0.5 % more, up to the next millivolt."""
    row = next(row for row in guide.readings if row.what.id == "reading.body-drop")
    assert row.points == (letters(checked)["return"], letters(checked)["body"])
    ohms = checked.design.figure("body_resistance").value
    most = checked.design.figure("current_low").value
    assert row.predicted.value == pytest.approx(checked.design.figure("current_typ").value * ohms)
    assert row.high.value == pytest.approx(math.ceil(1000 * most * ohms * 1.005) / 1000)
    whole = next(row for row in guide.readings if row.what.id == "reading.return-drop")
    assert whole.points == (letters(checked)["in-"], letters(checked)["body"])
    again = next(step for step in steps(guide) if step.id == "body.again")
    assert row.id in str(again.action)


def test_a_bad_return_is_parted_into_body_and_lug(guide):
    """A question about the body stands behind the one about the return."""
    rows = {row.what.id: row.id for row in guide.readings}
    back, body = (
        next(line for line in guide.fault_tree if rows[what] in str(line.question))
        for what in ("reading.return-drop", "reading.body-drop")
    )
    assert dict(back.yes.values)["number"].value == body.number
    assert (body.yes.id, body.no.id) == ("if.body-drop", "if.return-drop")


def test_the_drawing_shows_the_body_between_its_points(checked, guide):
    at = letters(checked)
    order = [r.negative.letters[0] for r in guide.wiring.ranks if r.negative and r.negative.letters]
    assert order[:4] == [at["source-"], at["body"], at["return"], at["in-"]]
    runs = [rank.negative_run.style for rank in guide.wiring.ranks]
    start = next(
        n
        for n, r in enumerate(guide.wiring.ranks)
        if r.negative and r.negative.letters == (at["body"],)
    )
    end = next(
        n
        for n, r in enumerate(guide.wiring.ranks)
        if r.negative and r.negative.letters == (at["return"],)
    )
    assert set(runs[start:end]) == {"chassis"}
    assert "chassis" not in runs[:start] + runs[end:]
    marks = [rank.negative.mark for rank in guide.wiring.ranks if rank.negative]
    assert marks.count("chassis") == 1
    between = [rank.negative for rank in guide.wiring.ranks[start + 1 : end] if rank.negative]
    assert [station.mark for station in between] == ["chassis"], "no wall on a rail without cable"


def test_the_same_in_words(guide):
    text = [line["text"] for line in say_all(guide)["wiring"]["connections"]]
    body = next(line for line in text if line.startswith("The vehicle's body"))
    assert "left wheel arch" in body
    assert "left inner wing" in body


def test_strip_begins_its_return_at_the_end(guide):
    assert guide.route.return_from_m == guide.route.length_m
    assert "W3" not in str(guide.route.feed_label)


def test_behind_a_fuse_of_the_vehicle_too(tmp_path):
    """W1 is the feed and W2 the lead to the body; the walk finds nothing wrong."""
    fit = chassis_fit(tmp_path)
    fused = behind_a_factory_fuse().vehicle.points["positive-stud"].factory_fuse
    found = check(point(fit, "positive-stud", factory_fuse=fused, at_post=False))
    assert release(found, compose(found))
    assert found.design.circuit.conductor("return").tag == "W2"
