"""The fault tree: it can be followed on paper, and asks what the readings allow."""

import pytest

from baybook.compose import compose
from compose.jobs import GUIDES, OTHERS, check, guide, told
from variants import charger, vehicle
from workbooks import example_fit

ALL = [*GUIDES, *OTHERS]


def tree(name):
    return (compose(check(OTHERS[name]())) if name in OTHERS else guide(name)).fault_tree


def leads_to(answer):
    """Return the number that an answer sends to; None: it says what to do."""
    return int(dict(answer.values)["number"].value) if answer.id == "tree.go" else None


@pytest.mark.parametrize("name", ALL)
def test_the_questions_are_numbered_and_every_answer_leads_to_one(name):
    lines = tree(name)
    assert [line.number for line in lines] == list(range(1, len(lines) + 1))
    for line in lines:
        for answer in (line.yes, line.no):
            assert leads_to(answer) in {None, *range(1, len(lines) + 1)}


@pytest.mark.parametrize("name", ALL)
def test_every_question_is_reached_and_every_way_ends(name):
    lines = {line.number: line for line in tree(name)}
    seen = set()

    def follow(number, way):
        assert number not in way, f"a ring: {way} {number}"
        seen.add(number)
        for answer in (lines[number].yes, lines[number].no):
            if (onward := leads_to(answer)) is not None:
                follow(onward, (*way, number))

    follow(1, ())
    assert seen == set(lines)


@pytest.mark.parametrize("name", GUIDES)
def test_a_threshold_is_a_limit_of_the_reading_that_is_named(name):
    rows = {row.id: row for row in guide(name).readings}
    asked = 0
    for line in guide(name).fault_tree:
        values = dict(line.question.values)
        if "reading" not in values:
            continue
        row = rows[values["reading"].id]
        asked += 1
        if line.question.id == "tree.over":
            assert values["limit"] == row.high
        elif line.question.id == "tree.under":
            assert values["limit"] == row.low
        else:
            assert (values["low"], values["high"]) == (row.low, row.high)
    assert asked >= 8


def test_what_starts_the_charger_decides_what_is_looked_at():
    def fed(name):
        lines = told(name)["fault_tree"]
        return next(line for line in lines if " or more from " in line["question"]["text"])

    line, voltage = fed(GUIDES[0]), fed(GUIDES[2])
    assert "cue lead" in line["yes"]["text"]
    assert "11.5\xa0V" in line["question"]["text"]
    assert "cue lead" not in voltage["yes"]["text"]
    assert "13.0\xa0V" in voltage["question"]["text"]


def test_a_pair_of_readings_picks_the_branch():
    """D18: little current with good volts is demand; stop and go near the cut-out is a drop."""
    lines = {line.number: line for line in guide(GUIDES[0]).fault_tree}
    ids = {row.name: row.id for row in guide(GUIDES[0]).readings}

    def at(words, name):
        return next(
            line
            for line in lines.values()
            if line.question.id == words and dict(line.question.values)["reading"].id == ids[name]
        )

    def asks(number):
        return dict(lines[number].question.values)["reading"].id

    little = at("tree.under", "current")
    assert lines[leads_to(little.yes)].no.id == "tree.end.demand"
    hunts = next(line for line in lines.values() if line.question.id == "tree.hunts")
    assert lines[leads_to(hunts.yes)].no.id == "tree.end.station-restarts"
    assert lines[leads_to(lines[leads_to(hunts.yes)].yes)].question.id == "tree.posts"
    drop = at("tree.over", "positive")
    assert asks(leads_to(drop.yes)) == ids["fuse"]
    assert asks(leads_to(drop.no)) == ids["return"]
    budget = next(line for line in lines.values() if line.question.id == "tree.idle")
    assert budget.yes.id == "tree.end.idle"
    volts = at("tree.under", "output")
    assert asks(leads_to(volts.yes)) == ids["output_current"]
    assert lines[leads_to(volts.yes)].no.id == "if.output-loaded-low"


@pytest.mark.parametrize("name", ALL)
def test_each_miss_enters_at_a_question_about_its_own_reading(name):
    found = compose(check(OTHERS[name]())) if name in OTHERS else guide(name)
    lines = {line.number: line for line in found.fault_tree}
    for row in found.readings:
        assert (row.low_question is None) == (row.low is None), row.name
        assert (row.high_question is None) == (row.high is None), row.name
        for number in {row.low_question, row.high_question} - {None}:
            asked = dict(lines[number].question.values)["reading"].id
            # too many volts at the charger are too many at the posts
            assert asked == row.id or (row.name, number) == ("input", row.high_question)


def test_a_reading_is_left_out_where_it_has_no_meaning():
    names = {row.name for row in guide(GUIDES[0]).readings}
    assert {"rest", "fuse", "display", "case", "idle"} <= names
    fit = example_fit(GUIDES[0])
    battery = fit.vehicle.battery.model_copy(update={"chemistry": "LFP"})
    bare = charger(vehicle(fit, battery=battery), thermal=None)
    assert names - {row.name for row in compose(check(bare)).readings} == {"rest", "case"}
    fused = compose(check(OTHERS["factory fuse"]()))
    assert "fuse" not in {row.name for row in fused.readings}
    camper = {row.name for row in compose(check(example_fit("tavlow-camber/j8"))).readings}
    assert not {"display", "case"} & camper
