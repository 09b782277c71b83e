"""A reading against its limits, and the way of a miss through a fault tree of six questions."""

from dataclasses import replace
from types import SimpleNamespace

import pytest

from baybook.checks.commission import judge_readings
from baybook.finding import Amount, Ref, say
from baybook.guide import ReadingLine, TreeLine


def volts(value):
    return Amount(value, "V", 2)


def row(name, number, low, high, questions=(None, None)):
    return ReadingLine(
        id=f"R{number}",
        what=say("reading.any"),
        state=say("state.any"),
        points=("+", "-"),
        predicted=None,
        low=None if low is None else volts(low),
        high=None if high is None else volts(high),
        if_low=None,
        if_high=None,
        name=name,
        low_question=questions[0],
        high_question=questions[1],
    )


def go(number):
    return say("tree.go", number=Amount(number, "1", 0))


READINGS = (
    row("input", 1, 12.0, 14.0, (1, 4)),
    row("positive", 2, None, 0.3, (None, 2)),
    row("return", 3, None, 0.2, (None, 5)),
    row("noise", 4, 1.0, None, (6, None)),
)
TREE = (
    TreeLine(
        number=1,
        question=say("tree.over", reading=Ref("reading", "R2"), limit=volts(0.3)),
        yes=say("end.plus"),
        no=go(2),
    ),
    TreeLine(
        number=2,
        question=say("tree.between", reading=Ref("reading", "R3"), low=volts(0.1), high=volts(0.2)),
        yes=go(3),
        no=say("end.return"),
    ),
    TreeLine(
        number=3,
        question=say("tree.posts", limit=volts(12.5)),
        yes=say("end.vehicle"),
        no=say("end.charger"),
    ),
    TreeLine(number=4, question=say("tree.fed"), yes=say("end.fed"), no=say("end.dead")),
    TreeLine(
        number=5,
        question=say("tree.under", reading=Ref("reading", "R1"), limit=volts(12.0)),
        yes=say("tree.rest", number=Amount(4, "min", 0)),  # minutes, not a question
        no=go(4),
    ),
    TreeLine(
        number=6,
        question=say("tree.heard", reading=Ref("reading", "R4"), limit=volts(1.0)),
        yes=say("end.heard"),
        no=say("end.quiet"),
    ),
)
GUIDE = SimpleNamespace(readings=READINGS, fault_tree=TREE)


def judged(name, **changed):
    good = {"input": 13.0, "positive": 0.2, "return": 0.15, "noise": 2.0} | changed
    read = {line.id: volts(good[line.name]) for line in READINGS}
    found = {one.row.name: one for one in judge_readings(GUIDE, read)}
    assert found[name].read == volts(good[name])
    return found[name]


@pytest.mark.parametrize(
    ("name", "value", "miss"),
    [
        ("input", 12.0, ""),
        ("input", 11.99, "low"),
        ("input", 14.0, ""),
        ("input", 14.01, "high"),
        ("positive", -5.0, ""),  # no limit below
        ("positive", 0.1 + 0.2, ""),  # 0.30000000000000004 is 0.3
        ("positive", 0.31, "high"),
        ("noise", 99.0, ""),  # no limit above
        ("noise", 0.9, "low"),
    ],
)
def test_a_limit_itself_is_still_inside(name, value, miss):
    assert judged(name, **{name: value}).miss == miss


@pytest.mark.parametrize(
    ("changed", "way", "answer"),
    [
        ({"positive": 0.31}, (1,), "end.plus"),
        ({"return": 0.05}, (1, 2), "end.return"),
        ({"return": 0.21}, (1, 2), "end.return"),
        # the limits themselves lie between; 11.5 + 0.2 + 0.1 = 11.8 V at the posts, under 12.5 V
        ({"return": 0.1}, (1, 2, 3), "end.vehicle"),
        ({"return": 0.2}, (1, 2, 3), "end.vehicle"),
        # 11.99 + 0.3 + 0.2 = 12.49 V; a drop that stands at its limit is not over it
        ({"input": 11.99, "positive": 0.3, "return": 0.2}, (1, 2, 3), "end.vehicle"),
    ],
)
def test_the_readings_answer_the_questions_in_turn(changed, way, answer):
    found = judged("input", **({"input": 11.5} | changed))
    assert (found.miss, found.way, found.ask) == ("low", way, None)
    assert found.answer.id == answer


def test_volts_at_the_posts_that_are_enough_blame_the_charger():
    # at the posts 11.5 + 0.2 + 0.1 = 11.8 V, which is not under 11.8 V
    posts = replace(TREE[2], question=say("tree.posts", limit=volts(11.8)))
    guide = SimpleNamespace(readings=READINGS, fault_tree=(*TREE[:2], posts, *TREE[3:]))
    read = {"R1": volts(11.5), "R2": volts(0.2), "R3": volts(0.1), "R4": volts(2.0)}
    assert judge_readings(guide, read)[0].answer.id == "end.charger"


def test_where_the_readings_fall_silent_a_person_is_asked():
    high = judged("input", input=14.5)
    assert (high.miss, high.way, high.answer, high.ask) == ("high", (), None, 4)
    # the return's drop is too high, the input is not low: on to the question nobody measured
    onward = judged("return", **{"return": 0.25})
    assert (onward.way, onward.answer, onward.ask) == ((5,), None, 4)


def test_a_low_input_ends_the_question_under():
    assert judged("return", **{"return": 0.25, "input": 11.99}).answer.id == "tree.rest"
    assert judged("return", **{"return": 0.25, "input": 12.0}).answer is None


def test_a_question_of_another_kind_is_a_person_s_whatever_it_names():
    found = judged("noise", noise=0.5)
    assert (found.miss, found.way, found.answer, found.ask) == ("low", (), None, 6)


@pytest.mark.parametrize("ends", [{"low": volts(0.1), "high": volts(2.0)}, {"high": volts(2.0)}])
def test_a_question_of_another_kind_that_names_two_ends_is_a_person_s_too(ends):
    heard = replace(TREE[5], question=say("tree.heard", reading=Ref("reading", "R4"), **ends))
    guide = SimpleNamespace(readings=READINGS, fault_tree=(*TREE[:5], heard))
    read = {"R1": volts(13.0), "R2": volts(0.2), "R3": volts(0.15), "R4": volts(0.5)}
    found = judge_readings(guide, read)[3]
    assert (found.miss, found.answer, found.ask) == ("low", None, 6)


def test_a_miss_without_a_question_of_its_own_leads_nowhere():
    bare = SimpleNamespace(readings=(row("input", 1, 12.0, 14.0),), fault_tree=TREE)
    (found,) = judge_readings(bare, {"R1": volts(11.0)})
    assert (found.miss, found.way, found.answer, found.ask) == ("low", (), None, None)
