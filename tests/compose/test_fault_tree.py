"""The fault tree: it can be followed on paper, and asks what the readings allow."""

import pytest

from baybook.compose import compose
from compose.jobs import GUIDES, OTHERS, check, guide, told

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
    line, voltage = told(GUIDES[0])["fault_tree"], told(GUIDES[2])["fault_tree"]
    assert "cue lead" in line[2]["yes"]["text"]
    assert "11.5\xa0V" in line[2]["question"]["text"]
    assert "cue lead" not in voltage[2]["yes"]["text"]
    assert "13.0\xa0V" in voltage[2]["question"]["text"]


def test_a_pair_of_readings_picks_the_branch():
    """D18: little current with good volts is demand; stop and go near the cut-out is a drop."""
    lines = {line.number: line for line in guide(GUIDES[0]).fault_tree}

    def at(words, reading):
        return next(
            line
            for line in lines.values()
            if line.question.id == words and dict(line.question.values)["reading"].id == reading
        )

    little = at("tree.under", "R3")
    assert lines[leads_to(little.yes)].no.id == "tree.end.demand"
    hunts = next(line for line in lines.values() if line.question.id == "tree.hunts")
    assert lines[leads_to(hunts.yes)].no.id == "tree.end.station-restarts"
    assert lines[leads_to(lines[leads_to(hunts.yes)].yes)].question.id == "tree.posts"
    drop = at("tree.over", "R5")
    assert dict(lines[leads_to(drop.yes)].question.values)["reading"].id == "R4"
    assert dict(lines[leads_to(drop.no)].question.values)["reading"].id == "R6"
    assert lines[max(lines)].yes.id == "tree.end.idle"
