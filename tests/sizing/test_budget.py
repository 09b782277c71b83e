"""Budget, standby, and what a charger on the voltage cue may go on drawing."""

from dataclasses import replace

import pytest

from baybook.checks import judge
from baybook.sizing.budget import charge_hours, days_until_flat, spare_current, standing_current
from baybook.sizing.choose import choose
from baybook.sizing.validity import OutOfRange
from variants import quantity, supply, vehicle
from workbooks import example_fit


def test_spare_by_hand():
    assert spare_current(58, 0.90, 38, 43.8) == pytest.approx(-29.6)


def test_of_a_supply_that_gives_next_to_nothing_next_to_nothing_is_spare():
    assert spare_current(0.5, 0.9, 0.0, 0.0) == pytest.approx(0.45)
    with pytest.raises(OutOfRange, match=r"own loads -0\.5 A: allowed 0"):
        spare_current(58, 0.9, -0.5, 43.8)


def test_days_by_hand():
    # half of 88 A h at 28 mA: 44 / 0.028 / 24
    assert days_until_flat(44, 0.028) == pytest.approx(65.5, abs=0.05)
    assert days_until_flat(44, 0) == float("inf")


def test_charge_hours_by_hand():
    assert charge_hours(2150, 520, 0.92) == pytest.approx(4.5, abs=0.05)


def feed(fit):
    return choose(fit, judge).solved.feed


def test_a_charger_stops_for_sure_at_a_rest_voltage_under_its_cut_out():
    found = feed(example_fit("dunstrel-cobble/j9b"))
    assert found.cut_out_V == 12.4
    assert standing_current(12.4, found) is None
    assert standing_current(12.39, found) is None


def test_while_the_station_tapers_it_hangs_on():
    fit = example_fit("dunstrel-cobble/j9b")
    found = feed(fit)
    rest = fit.vehicle.supply.rest.value
    assert found.rest.charger_V < found.cut_out_V, "at full power it stops"
    expected = (rest - 12.4) / found.rest.loop_ohm
    assert standing_current(rest, found) == pytest.approx(expected)
    assert expected < found.rest.current_A


def test_at_a_high_rest_voltage_it_never_stops():
    fit = supply(example_fit("dunstrel-cobble/j9b"), rest=13.1)
    found = feed(fit)
    assert found.rest.charger_V > found.cut_out_V
    assert standing_current(13.1, found) == found.rest.current_A


def test_without_any_working_point_nothing_is_drawn():
    none = replace(feed(example_fit("dunstrel-cobble/j9b")), low=None, rest=None)
    assert standing_current(12.7, none) is None
    low_only = replace(feed(example_fit("dunstrel-cobble/j9b")), rest=None)
    assert standing_current(12.7, low_only) == pytest.approx(0.3 / low_only.low.loop_ohm)


def test_only_the_voltage_cue_is_asked():
    assert choose(example_fit("brunsall-tansy/j1"), judge).solved.budget.standing_A is None


def test_no_alternator_no_budget():
    fit = supply(example_fit("brunsall-tansy/j1"), hot_idle=None, hot_cruise=None)
    budget = choose(fit, judge).solved.budget
    assert budget.idle_day_A is None
    assert budget.cruise_night_A is None


def test_sleep_adds_the_chargers_own():
    budget = choose(example_fit("brunsall-tansy/j1"), judge).solved.budget
    assert budget.sleep_A == pytest.approx(0.027)


def test_a_smaller_battery_lasts_shorter():
    fit = example_fit("brunsall-tansy/j1")
    battery = fit.vehicle.battery
    half = battery.model_copy(update={"capacity": quantity(battery.capacity, 34)})
    days = [choose(f, judge).solved.budget.standby_d for f in (fit, vehicle(fit, battery=half))]
    assert days[1] == pytest.approx(days[0] / 2)
