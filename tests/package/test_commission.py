"""Readings back: judged against the sheet, and put through the rules again."""

import random
from datetime import date

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from baybook.checks.commission import judge_readings
from baybook.sizing.interval import loop
from baybook.sizing.source import constant_power
from package.commissioned import FITS, job, missed, read, record
from variants import quantity


def simulated(design, dice, added=0.0):
    """Return the readings at load of a circuit inside its tolerances, `added` ohm in the plus."""
    light, supply = loop(design, light=True), design.fit.vehicle.supply
    U = dice.uniform(supply.low.low, supply.high.high)
    P = dice.uniform(design.figure("input_power_least").value, design.figure("input_power").value)
    plus = design.figure("positive_resistance_low").value
    back = design.figure("return_resistance_low").value
    cold = light.at_least() / (plus + back)
    share = cold + dice.random() * (1 - cold)
    plus, back = plus * share + added, back * share
    current, at_charger = constant_power(U, plus + back, P)
    true = {
        "running": U,
        "current": current,
        "positive": current * plus,
        "return": current * back,
        "input": at_charger,
    }
    meter = design.fit.shop.meter
    off = dict.fromkeys(true, meter.voltage.value) | {"current": meter.current.value}
    return {n: v * (1 + dice.choice([-off[n], off[n], dice.uniform(-off[n], off[n])]))
            for n, v in true.items()}  # fmt: skip


@settings(max_examples=150, deadline=None)
@given(st.sampled_from(FITS), st.integers(0, 10**9))
def test_a_fit_within_its_tolerances_passes(name, seed):
    _, design, _ = job(name)
    found = record(name, **simulated(design, random.Random(seed)))  # noqa: S311
    assert not missed(found)
    assert all(way.inside for way in found.ways)
    assert found.outside == ()
    assert found.passed


@settings(max_examples=150, deadline=None)
@given(st.sampled_from(FITS), st.integers(0, 10**9))
def test_a_bad_joint_is_found_at_any_supply(name, seed):
    """By its resistance, also where the drop alone lies within its limit."""
    _, design, _ = job(name)
    limit = design.figure("positive_resistance_low").value
    meter = design.fit.shop.meter
    both = (1 + meter.voltage.value) / (1 - meter.current.value)
    cold = loop(design, light=True).at_least() / design.figure("loop_resistance").value
    added = limit * (both**2 * 1.001 - cold)  # over the limit, however cold, whatever the meter
    dice = random.Random(seed)  # noqa: S311
    found = record(name, **simulated(design, dice, added))
    assert next(way.what.id for way in found.ways if not way.inside) == "record.way.positive"
    assert not found.passed


@pytest.mark.parametrize(
    ("changed", "row", "answer"),
    [
        ({"rest": 12.0}, "rest", "if.rest-low"),
        ({"rest": 13.2}, "rest", "if.rest-high"),
        ({"running": 11.8}, "running", "if.running-low.engine"),
        ({"running": 15.6}, "running", "if.running-high"),
        ({"open": 26.0}, "open", "tree.end.over"),
        ({"current": 9.0}, "current", "tree.end.demand"),
        ({"current": 22.0}, "current", "tree.end.more"),
        ({"current": 22.0, "output_current": 11.0}, "current", "if.output-current-high"),
        ({"positive": 0.5}, "positive", "if.positive-drop"),
        ({"positive": 0.5, "fuse": 0.3}, "positive", "if.fuse-drop"),
        ({"fuse": 0.1}, "fuse", "if.fuse-drop"),
        ({"return": 0.6}, "return", "if.return-drop"),
        ({"input": 11.0, "positive": 2.0}, "input", "if.positive-drop"),
        ({"input": 11.0}, "input", "tree.end.vehicle"),
        ({"input": 15.6}, "input", "tree.end.none"),
        ({"output": 22.0}, "output", "if.output-loaded-low"),
        ({"output": 22.0, "output_current": 5.0}, "output", "if.output-current-low"),
        ({"output": 25.0}, "output", "if.output-loaded-high"),
        ({"output_current": 5.0}, "output_current", "if.output-current-low"),
        ({"output_current": 11.0}, "output_current", "if.output-current-high"),
        ({"display": 100.0}, "display", "if.display-low"),
        ({"display": 300.0}, "display", "if.display-high"),
        ({"joints": 45.0}, "joints", "if.joints"),
        ({"case": 40.0}, "case", "if.case"),
        ({"idle": -60.0}, "idle", "if.idle"),
        ({"restarts": 3.0}, "restarts", "if.restarts"),
        ({"noise": 1.0}, "noise", "if.noise"),
        ({"codes": 2.0}, "codes", "if.codes"),
        ({"stopped": 0.4}, "stopped", "if.stopped.line"),
        ({"sleep": 0.2}, "sleep", "if.sleep-before"),
        ({"asleep": 0.2}, "asleep", "if.sleep-after"),
        ({"asleep": 0.2, "sleep": 0.2}, "asleep", "if.sleep-before"),
        ({"asleep": 0.005}, "asleep", "if.sleep-after-low"),
    ],
)
def test_a_pair_of_readings_picks_the_branch(changed, row, answer):
    _, _, guide = job(FITS[0])
    judged = {one.row.name: one for one in judge_readings(guide, read(guide, **changed))}
    assert judged[row].miss
    if row == "input" and answer == "tree.end.none":  # volts at the posts are in: on through all
        assert judged[row].ask is not None
        return
    assert judged[row].answer.id == answer


def test_a_question_to_a_person_is_named():
    _, _, guide = job(FITS[0])
    judged = {one.row.name: one for one in judge_readings(guide, read(guide, open=20.0))}
    lines = {line.number: line for line in guide.fault_tree}
    assert judged["open"].answer is None
    assert lines[judged["open"].ask].question.id == "tree.fed"


def test_a_current_of_nothing_gives_no_resistance():
    assert record(FITS[0], current=0.0).ways == ()


def test_a_vehicle_outside_the_envelope_is_told_so():
    assert {f.code for f in record("dunstrel-cobble/j9b", running=12.2).outside} >= {"CA-02"}
    _, design, _ = job("brunsall-tansy/j1")
    segments = design.fit.vehicle.routes[design.fit.job.route].segments
    longer = tuple(quantity(s.length, 2 * s.length.value) for s in segments)
    found = record("brunsall-tansy/j1", {"lengths": longer})
    assert "CA-01" in {f.code for f in found.outside}
    assert not found.passed
    same = record("brunsall-tansy/j1", {"lengths": tuple(s.length for s in segments)})
    assert same.passed


def test_a_tool_past_its_calibration_fails_the_record():
    found = record(FITS[0], {"on": date(2026, 12, 1)})
    assert any(tool.overdue for tool in found.tools)
    assert not found.passed
