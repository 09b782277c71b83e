"""A tap between two batteries, and two chargers as one: by hand."""

import pytest

from baybook.sizing.source_point import as_asked, pair, times
from baybook.sizing.validity import OutOfRange
from variants import job, point, vehicle
from workbooks import example_fit

J1, J3 = example_fit("brunsall-tansy/j1"), example_fit("ostrigg-drey/j3")
VOLTS = ("nominal", "low", "typical", "high", "rest")


def values(sheet, *names):
    return tuple(getattr(sheet, name).value for name in names)


def test_between_two_batteries_half_of_the_volts_are_left():
    tapped = as_asked(point(J3, J3.job.source.positive, tap=True)).vehicle.supply
    assert values(tapped, *VOLTS) == pytest.approx((12.0, 13.4, 14.1, 14.45, 12.7))
    assert tapped.low.written == "13.4 V"


def test_one_battery_has_no_half_and_a_point_that_is_no_tap_has_the_whole():
    fit = point(J1, J1.job.source.positive, tap=True)
    assert as_asked(fit) is fit
    assert as_asked(J3) is J3
    three = vehicle(J3, battery=J3.vehicle.battery.model_copy(update={"units": 3}))
    tapped = as_asked(point(three, J3.job.source.positive, tap=True))
    assert tapped.vehicle.supply.low.value == pytest.approx(26.8 / 3)


@pytest.mark.parametrize(
    ("series", "amps", "volts"),
    [
        # 700 W, 36 A in, 3.4 kg, 18 A, 30 to 58 V in steps of 1 V, 42 V, 0.5 V over
        (False, 36.0, (30.0, 58.0, 1.0, 42.0, 0.5)),
        (True, 18.0, (60.0, 116.0, 2.0, 84.0, 1.0)),
    ],
)
def test_two_chargers_add_up_as_they_are_joined(series, amps, volts):
    both = pair(J3.charger, 2, series=series)
    assert values(both, "output_power", "input_current", "mass") == pytest.approx((1400, 72, 6.8))
    assert both.standby.value == pytest.approx(0.018)
    assert both.output_current.value == pytest.approx(amps)
    names = ("output_min", "output_max", "output_step", "output_default", "overshoot")
    assert values(both, *names) == pytest.approx(volts)
    assert both.efficiency == J3.charger.efficiency
    assert both.name == f"2 × {J3.charger.name}"
    assert (
        as_asked(job(J3, charger_units=2, pairing="series" if series else "parallel")).charger
        == both
    )


def test_each_power_step_of_a_pair_is_twice_the_step():
    steps = pair(J1.charger, 2, series=False).power.steps
    assert [(s.power.value, s.input_limit.value) for s in steps] == [
        (200, 20), (300, 30), (400, 40), (480, 48)
    ]  # fmt: skip


def test_a_pair_is_two_or_more():
    with pytest.raises(OutOfRange, match="chargers 1: allowed 2 to inf"):
        pair(J3.charger, 1, series=False)


def test_a_multiple_moves_both_ends():
    mass = J3.charger.mass
    found = times(mass, 2.5)
    assert (found.value, found.low, found.high) == pytest.approx(
        (2.5 * mass.value, 2.5 * mass.low, 2.5 * mass.high)
    )
    assert found.written == "8.5 kg"
    with pytest.raises(OutOfRange, match="factor 0: must be above 0"):
        times(mass, 0)
