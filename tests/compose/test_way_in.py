"""What is opened to reach the battery, what is shut before the engine runs, the cue lead."""

from dataclasses import replace

import pytest

from baybook.checks.release import walk
from baybook.compose import compose
from compose.jobs import GUIDES, check, checked, guide, say_all, told
from variants import charger, vehicle
from workbooks import example_fit


def place(name, step_id):
    return next(n for n, step in enumerate(guide(name).steps) if step.id == step_id)


def step(found, step_id):
    return next(one for one in found.steps if one.id == step_id)


@pytest.mark.parametrize("name", GUIDES)
def test_the_posts_are_reached_before_they_are_measured(name):
    reach = place(name, "battery.reach")
    for later in ("running-voltage", "sleep.before", "battery.off"):
        assert reach < place(name, later)
    assert place(name, "battery.close") < place(name, "road")
    assert place(name, "sleep.after") < place(name, "battery.shut")


def test_a_battery_that_lies_open_asks_for_no_step():
    fit = example_fit(GUIDES[0])
    battery = fit.vehicle.battery.model_copy(update={"access": None})
    found = compose(check(vehicle(fit, battery=battery)))
    assert not {s.id for s in found.steps} & {"battery.reach", "battery.close", "battery.shut"}


def test_the_cab_is_down_before_the_vehicle_is_live():
    name = "ostrigg-drey/j3"
    number = next(n for n, s in enumerate(checked_segments(name), 1) if s.shut_to_run)
    assert place(name, f"lay.{number}") < place(name, f"close.{number}")
    assert place(name, f"clip.{number}") < place(name, f"close.{number}")
    assert place(name, f"close.{number}") < place(name, "battery.on") < place(name, "start.first")


def checked_segments(name):
    fit = checked(name).design.fit
    return fit.vehicle.routes[fit.job.route].segments


def test_the_warning_of_the_cab_stands_where_the_cab_moves():
    steps = guide("ostrigg-drey/j3").steps
    warned = [s.id for s in steps for box in s.boxes if "Tilting" in str(box.hazard)]
    assert warned == ["open.3", "lay.3", "close.3"]


def test_the_warning_of_the_b_post_stands_where_the_b_post_is_met():
    steps = guide("brunsall-tansy/j1").steps
    warned = [s.id for s in steps for box in s.boxes if "B-post" in str(box.hazard)]
    assert warned == ["open.2", "lay.2"]  # the sill


@pytest.mark.parametrize("name", GUIDES[:2])
def test_the_cue_lead_has_its_terminal_size_way_joint_and_fuse(name):
    steps = {s["id"]: s for s in all_steps(told(name))}
    sheet = checked(name).design.fit.charger.cue
    assert sheet.terminal in steps["cue.charger"]["action"]["text"]
    assert steps["lay.cue"]["value_note"]["text"].startswith(f"{sheet.area.value:g}".rstrip("0"))
    assert "splice" in steps["cue"]["value_note"]["text"]
    assert place(name, "cue") < place(name, "cue.fuse") < place(name, "battery.on")
    assert f"{sheet.fuse.value:g}\xa0A" in steps["cue.fuse"]["action"]["text"]
    parts = [line["part"]["text"] for line in told(name)["kit"]]
    assert any(text.startswith("Cue lead") for text in parts)
    assert any("Cue lead" in c["text"] for c in told(name)["wiring"]["connections"])


def all_steps(tree):
    return [s for chapter in tree["chapters"] for s in chapter["steps"]]


def test_a_charger_that_says_nothing_of_its_cue_still_gets_its_lead_joined():
    found = compose(check(charger(example_fit(GUIDES[0]), cue=None)))
    ids = [s.id for s in found.steps]
    assert ids.index("cue.charger") < ids.index("cue") < ids.index("battery.on")
    assert "cue.fuse" not in ids


def test_nobody_lays_a_cue_lead_for_a_voltage_cue():
    assert not any(s.id.startswith(("cue", "lay.cue")) for s in guide(GUIDES[2]).steps)


@pytest.mark.parametrize("name", GUIDES)
def test_a_sleep_current_is_read_with_a_clamp_that_can(name):
    for step_id in ("sleep.before", "stop.load", "sleep.after"):
        assert say_all(step(guide(name), step_id).tool)["text"] == "Milliampere clamp CM-2"


def test_without_such_a_clamp_a_meter_goes_in_series():
    fit = example_fit(GUIDES[0])
    coarse = tuple(tool for tool in fit.shop.tools if tool.id != "CM-2")
    shop = fit.shop.model_copy(update={"tools": coarse})
    found = compose(check(replace(fit, shop=shop)))
    assert step(found, "sleep.before").tool.id == "tool.sleep.series"


def test_a_charger_that_goes_on_at_rest_is_read_with_the_station_off():
    told_steps = {s["id"]: s["action"]["text"] for s in all_steps(told("dunstrel-cobble/j9b"))}
    assert "station's input off" in told_steps["stop.load"]
    assert "station's input off" in told_steps["sleep.again"]
    plain = {s["id"]: s["action"]["text"] for s in all_steps(told(GUIDES[0]))}
    assert "station" not in plain["stop.load"]


def test_idle_is_predicted_with_the_loads_that_are_on():
    """V1: 68 A hot idle, 74 A winter night, 18.2 A charger: -24.2 A; with 0.90 of 68 A: -31.0 A.

    The clamp may be 2 % off, and a limit is never rounded inwards.
    """
    row = next(r for r in guide(GUIDES[0]).readings if r.what.id == "reading.idle")
    assert row.predicted.value == pytest.approx(68 - 74 - 18.23, abs=0.02)
    assert row.low.value == pytest.approx(1.02 * (0.9 * 68 - 74 - 18.23) - 0.05, abs=0.06)


@pytest.mark.parametrize("name", GUIDES)
def test_the_walk_finds_nothing(name):
    assert not walk(checked(name), guide(name))


@pytest.mark.parametrize("name", GUIDES)
def test_strip_and_wiring_agree_where_the_return_begins(name):
    joint = checked(name).design.circuit.joint("return")
    assert guide(name).route.return_from_m == joint.at_m
    marks = [m for m in guide(name).route.marks if m.kind == "joint" and m.at_m == joint.at_m]
    assert any(joint.letter in str(m.label) for m in marks)
    stations = [rank.negative for rank in guide(name).wiring.ranks if rank.negative]
    lines = next(s.lines for s in stations if s.letters == (joint.letter,))
    at = next(dict(line.values)["at"] for line in lines if line.id == "joint.return-at")
    assert at.value == joint.at_m


@pytest.mark.parametrize("name", GUIDES)
def test_the_strip_names_colour_and_clip_pitch(name):
    text = told(name)["route"]["feed_label"]["text"]
    assert text == "W2 red and W3 black, clips every 300\xa0mm"
