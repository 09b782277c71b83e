"""Power steps, set voltages, and what binds."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from baybook.sizing.output import (
    binding,
    bounds,
    in_order_of_choice,
    lead_resistance,
    lead_temperature,
    miss,
    power_at,
    power_steps,
    set_voltages,
    solve_output,
)
from variants import charger, job, quantity, station
from workbooks import example_fit

J1, J3, J9B = "brunsall-tansy/j1", "ostrigg-drey/j3", "dunstrel-cobble/j9b"


@pytest.mark.parametrize(
    ("station_W", "steps"),
    [
        (200, [200, 150, 100]),  # the lowest with full power, then downwards
        (110, [150, 100]),
        (240, [240, 200, 150, 100]),
        (900, [240, 200, 150, 100]),  # none gives it: the highest first
        (90, [100]),
    ],
)
def test_steps_in_order(station_W, steps):
    sheet = example_fit(J1).charger
    assert [step.power_W for step in power_steps(sheet, station_W)] == steps


def test_a_step_that_is_not_kept_does_not_count():
    sheet = example_fit(J1).charger
    forgets = sheet.model_copy(update={"power": sheet.power.model_copy(update={"kept": False})})
    (only,) = power_steps(forgets, 200)
    assert (only.power_W, only.input_limit_A, only.kept) == (240, 24, False)


def test_no_steps_means_full_power():
    (only,) = power_steps(example_fit(J9B).charger, 900)
    assert (only.power_W, only.input_limit_A, only.kept) == (520, 46, True)


def test_set_voltages():
    assert set_voltages(example_fit(J9B).charger) == tuple(float(v) for v in range(20, 49))
    assert set_voltages(example_fit(J1).charger)[:3] == (18.0, 18.5, 19.0)


def test_a_default_beside_the_grid_can_be_set_too():
    sheet = example_fit(J9B).charger
    odd = sheet.model_copy(update={"output_default": quantity(sheet.output_default, 36.4)})
    assert 36.4 in set_voltages(odd)


def order(fit, step_W):
    outputs = [(v, solve_output(fit, step_W, v)) for v in set_voltages(fit.charger)]
    return in_order_of_choice(outputs, fit.charger.output_default.value)


def test_the_default_comes_first_if_it_gives_full_power():
    assert order(example_fit(J1), 200)[0] == 24.0


def test_else_the_lowest_with_full_power_at_its_low_tolerance():
    # 13 A: 54 V · 0.99 · 13 A = 695 W, 55 V gives 708 W; 41 V · 0.99 · 13 A = 528 W
    assert order(example_fit(J3), 700)[0] == 55.0
    assert order(example_fit(J9B), 520)[0] == 41.0


def test_then_the_others_by_their_power():
    rest = order(example_fit(J3), 700)[4:]
    assert rest[0] == 54.0
    assert rest[-1] == 30.0


@pytest.mark.parametrize(
    ("fit", "step_W", "U", "limit"),
    [
        (J1, 200, 24.0, "station power"),
        (J1, 150, 24.0, "charger power"),
        (J1, 240, 19.0, "station current"),
        (J3, 700, 42.0, "station current"),
        (J3, 700, 55.0, "charger power"),
    ],
)
def test_what_binds(fit, step_W, U, limit):
    found = example_fit(fit)
    assert binding(found.charger, found.station, step_W, U) == limit


def test_charger_current_may_bind():
    fit = example_fit(J3)
    small = charger(fit, output_current=quantity(fit.charger.output_current, 5))
    assert binding(small.charger, small.station, 700, 42) == "charger current"


def test_j3_at_42_v_gives_546_w():
    fit = example_fit(J3)
    assert power_at(fit.charger, fit.station, 700, 42.0) == 546


def test_bounds_count_tolerance_and_overshoot():
    assert bounds(example_fit(J3).charger, 30.0) == pytest.approx((29.7, 30.8))
    assert bounds(example_fit(J1).charger, 24.0) == pytest.approx((23.76, 24.54))


@given(st.floats(18, 30))
def test_output_obeys_ohm_and_the_limits(U):
    fit = example_fit(J1)
    output = solve_output(fit, 200, U)
    assert output.current_A <= output.most_A + 1e-9
    assert output.power_W <= output.full_W
    assert output.station_V == pytest.approx(U - output.current_A * output.lead_ohm)
    assert output.drop == pytest.approx(1 - output.station_V / U)
    assert output.sure_W <= output.power_W


def test_a_lead_of_unknown_capacity_counts_as_hot_as_it_may_get():
    fit = example_fit(J1)
    assert lead_temperature(fit, 8.3, 0.0) == 105
    assert lead_temperature(fit, 500.0, 40.0) == 105, "never beyond its insulation"
    assert lead_temperature(fit, 0.0, 40.0) == 45
    assert lead_resistance(fit, 105) == pytest.approx(2 * 1.2 * 4.95e-3 * (1 + 85 / 254.5))


def test_a_longer_lead_drops_more():
    fit = example_fit(J1)
    longer = job(fit, output_length=quantity(fit.job.output_length, 5.0))
    assert solve_output(longer, 200, 24).drop > solve_output(fit, 200, 24).drop


def test_miss_ranks_by_the_distance_to_the_window():
    fit = example_fit("ostrigg-drey/j4")
    assert miss(fit.station, solve_output(fit, 700, 30)) == pytest.approx(30.8 - 29.5)
    assert miss(fit.station, solve_output(fit, 700, 31)) > 1.3
    low = station(
        fit, start=quantity(fit.station.start, 40), window_max=quantity(fit.station.start, 90)
    )
    assert miss(low.station, solve_output(low, 700, 30)) == pytest.approx(40 - 29.7)
