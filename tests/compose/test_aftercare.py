"""What is said of the years after: jump start, a new battery, two fuses in series, bends."""

import pytest

import variants
from baybook.compose import compose
from baybook.point import FactoryFuse
from compose.jobs import check, checked, guide, say_all
from workbooks import example_fit

J1, J3, J9B, J8 = (
    "brunsall-tansy/j1",
    "ostrigg-drey/j3",
    "dunstrel-cobble/j9b",
    "tavlow-camber/j8",
)


def undo(one):
    return {message.id: say_all(message)["text"] for message in one.undo}


def test_a_reader_is_told_who_checked_the_guide_and_when():
    said = [say_all(line)["text"] for line in guide(J1).cautions]
    assert any(
        line.startswith("Checked by approver against rule set 4 on 2024-11-15") for line in said
    )


def test_a_lorry_s_booster_is_over_what_a_12_v_charger_stands():
    said = undo(guide(J1))
    assert "15.8\N{NO-BREAK SPACE}V" in said["undo.jump"]
    assert "24\N{NO-BREAK SPACE}V is above that" in said["undo.jump.boost"]
    assert "undo.jump.boost" not in undo(guide(J3))  # a 24 V charger stands 31.5 V


def test_the_customer_is_told_what_comes_out_before_a_jump_start():
    step = next(step for step in guide(J1).steps if step.id == "show.jump")
    assert step.value.value == 15.8
    ids = [step.id for step in guide(J1).steps]
    assert ids.index("show.off") < ids.index("show.jump") < ids.index("sign")


def test_with_a_new_battery_the_output_is_read_before_the_station_goes_in():
    said = undo(guide(J9B))
    row = next(row for row in guide(J9B).readings if row.name == "open")
    assert f" {row.id} again" in said["undo.battery.after"]
    assert "40.38\N{NO-BREAK SPACE}V to 41.61\N{NO-BREAK SPACE}V" in said["undo.battery.after"]
    for item in example_fit(J9B).vehicle.preserve:
        assert item.what in said["undo.battery.settings"]


def test_nothing_is_kept_where_the_vehicle_forgets_nothing():
    fit = variants.vehicle(example_fit(J1), preserve=())
    assert "undo.battery.settings" not in undo(compose(check(fit)))


def test_at_a_second_battery_both_fuses_come_out():
    said = undo(compose(check(example_fit(J8))))
    for name in ("undo.jump.second", "undo.jump.boost.second", "undo.battery.second"):
        assert "F1" in said[name]
        assert "F2" in said[name]
    assert "F2" in said["undo.battery.after.second"]


@pytest.mark.parametrize(
    ("name", "least"),
    [
        (J1, "5.0"),
        (J3, "4.9"),
        (J8, "2.5"),
    ],  # 14.9 V / 3 kA = 4.97; 28.9 / 6 = 4.82; 14.5 / 6 = 2.42
)
def test_the_least_a_new_battery_may_have_inside_is_never_rounded_down(name, least):
    said = undo(compose(check(example_fit(name))))
    (told,) = [text for at, text in said.items() if at.startswith("undo.battery.least")]
    assert f"{least}\N{NO-BREAK SPACE}mΩ" in told


@pytest.mark.parametrize("name", [J1, J3, J9B, J8, "pellmare-mirren/j5", "tessick-orlet/j7"])
def test_the_way_out_takes_all_out_and_ends_with_the_vehicle_as_it_was(name):
    fit = example_fit(name)
    told = [message.id.removesuffix(".second") for message in compose(check(fit)).undo]
    cue = fit.vehicle.cues[fit.job.cue].kind.value != "voltage"
    assert ("undo.remove.cue" in told) == cue
    assert ("undo.remove.relay" in told) == (fit.vehicle.split_relay is not None)
    assert ("undo.high-voltage" in told) == (fit.vehicle.high_voltage is not None)
    assert told.index("undo.remove") < told.index("undo.remove.last")
    assert {"undo.off", "undo.leave", "undo.holes"} <= set(told)


def test_an_engine_stops_before_its_isolator_opens():
    """An alternator feeds the charger on past an open isolator, and its voltage has no battery."""
    assert "Stop the engine, then open the isolator" in undo(guide(J3))["undo.off"]


@pytest.mark.parametrize(("times", "sentence"), [(1.01, "ours"), (0.9, "both")])
def test_of_two_fuses_in_series_the_guide_says_which_opens_first(times, sentence):
    fit = example_fit(J1)
    like, fault = fit.protections[0], checked(J1).design.solved.fault
    hold = like.holds[1].model_copy(
        update={
            "multiple": variants.quantity(like.holds[1].multiple, times * fault.far_A / 80),
            "up_to": variants.quantity(like.holds[1].up_to, 2 * fault.opens_far_s),
        }
    )
    first = FactoryFuse(
        place="fuse box, place 3",
        rating=variants.quantity(like.ratings[0], 80.0),
        continuous=variants.quantity(like.ratings[0], 60.0),
        voltage=like.voltage,
        breaking=like.breaking,
        opens=(),
        holds=(hold,),
    )
    said = undo(compose(check(variants.point(fit, fit.job.source.positive, upstream=first))))
    assert "fuse box, place 3" in said[f"undo.series.{sentence}"]


def test_the_step_that_lays_a_cable_says_how_tight_it_may_bend():
    told = [say_all(step) for step in guide(J9B).steps if step.id.startswith("lay.")]
    notes = [one["value_note"]["text"] for one in told if one["value_note"]]
    assert any("no bend under 40\N{NO-BREAK SPACE}mm" in note for note in notes)  # 25 mm²
