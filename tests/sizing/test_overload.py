"""How warm a conductor gets under what its fuse holds, by hand and by the law's own limits."""

import math
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.integrate import solve_ivp

from baybook.checks import judge
from baybook.part import HoldPoint
from baybook.sizing.choose import choose
from baybook.sizing.conductor import resistance_at
from baybook.sizing.overload import HEAT, Lain, allowed, held, hottest, time_constant, warmed
from baybook.sizing.validity import OutOfRange
from baybook.sizing.work_out import work_out
from baybook.standards import load
from variants import quantity
from workbooks import example_fit

J3, J8, J7 = "ostrigg-drey/j3", "tavlow-camber/j8", "tessick-orlet/j7"


def test_the_heat_of_copper_agrees_with_the_adiabatic_factor():
    # IEC 60364-5-54, annex A: K = sqrt(Q_c (beta + 20) / rho_20), printed as 226
    constants = load().constants
    rho = constants["copper_resistivity"] / 1000  # ohm mm
    K = math.sqrt(constants["copper_heat"] * (constants["copper_zero"] + 20) / rho)
    assert abs(K - constants["copper_adiabatic"]) < 0.5


@pytest.mark.parametrize(
    ("cable", "t_c", "source"),
    [  # (mm², ohm/m, K, A)
        # R' at 105 °C = 1.91 x 339.5/254.5 = 2.548 mohm/m
        ((10, 2.548e-3, 55, 63.4), 185, "by hand: 3.45 x 10 x 55 / (63.4^2 x 2.548e-3)"),
        ((25, 1.0405e-3, 40, 98.6), 341, "by hand: 3.45 x 25 x 40 / (98.6^2 x 1.0405e-3)"),
        ((0.75, 34.7e-3, 40, 8), 46.6, "by hand: 3.45 x 0.75 x 40 / (8^2 x 34.7e-3)"),
    ],
)
def test_time_constant(cable, t_c, source):
    assert time_constant(*cable) == pytest.approx(t_c, abs=0.5), source


@pytest.mark.parametrize(
    ("t", "theta", "source"),
    [
        (0.0, 60.0, "limit: no time, no change"),
        (100.0, 85.28, "by hand: 100 - 40 e^-1"),
        (math.inf, 100.0, "limit: settled"),
    ],
)
def test_warmed(t, theta, source):
    assert warmed(60.0, 100.0, t, 100.0) == pytest.approx(theta, abs=0.005), source


@pytest.mark.parametrize(
    "call",
    [
        lambda: time_constant(0, 1e-3, 40, 50),
        lambda: time_constant(10, 0, 40, 50),
        lambda: time_constant(10, 1e-3, 0, 50),
        lambda: time_constant(10, 1e-3, 40, 0),
        lambda: warmed(60, 100, -1, 100),
        lambda: warmed(60, 100, 1, 0),
    ],
)
def test_outside_its_range_it_refuses(call):
    with pytest.raises(OutOfRange):
        call()


def test_the_lorry_s_cable_by_hand():
    # 50 A fuse, 10 mm² at 50 °C, I_T 63.4 A: before 50 + 55 (50/63.4)^2 = 84.2 °C;
    # 67.5 A would settle at 50 + 55 (67.5/63.4)^2 = 112.3 °C; 600 s of t_c 185.3 s leave
    # 112.3 - 28.1 e^-3.238 = 111.2 °C, above the 105 °C in service and under the 130 °C for 1 h
    overload = choose(example_fit(J3), judge).solved.overload
    assert overload.hottest_C == pytest.approx(111.2, abs=0.05)
    assert (overload.up_to_s, overload.allowed_C) == (600, 130)


def test_a_vehicle_s_fuse_without_holds_counts_with_135_percent_for_good():
    # 25 A, 6 mm² at 70 °C, I_T 36.9 A: 70 + 35 (1.35 x 25 / 36.9)^2 = 99.3 °C
    overload = choose(example_fit(J7), judge).solved.overload
    assert overload.hottest_C == pytest.approx(99.3, abs=0.05)
    assert overload.up_to_s is None


def test_both_ends_are_looked_at_where_both_can_feed():
    # 50 A, 16 mm² at 40 °C, I_T 94 A: 67.5 A would settle at 40 + 65 (67.5/94)^2 = 73.5 °C
    solved = choose(example_fit(J8), judge).solved
    assert solved.second_overload.hottest_C == pytest.approx(72.1, abs=0.05)
    assert solved.second_overload.hottest_C < 73.5


def test_the_law_against_a_heat_balance_integrated_step_by_step():
    # Heat in I² R'(105 °C), heat out in proportion to the rise, heat capacity of the copper alone
    area, I_T, ambient, theta_max, t = 10.0, 63.4, 50.0, 105.0, 600.0
    R = resistance_at(1.91e-3, theta_max)
    out = I_T**2 * R / (theta_max - ambient)

    def slope(_t, theta):
        return (67.5**2 * R - out * (theta - ambient)) / (HEAT * area)

    start = ambient + (theta_max - ambient) * (50 / I_T) ** 2
    end = solve_ivp(slope, (0, t), [start], rtol=1e-9, atol=1e-9).y[0, -1]
    overload = choose(example_fit(J3), judge).solved.overload
    assert overload.hottest_C == pytest.approx(end, abs=0.01)


def hold(fit, multiple, seconds):
    like = fit.protections[0].holds[1]
    return HoldPoint(
        multiple=quantity(like.multiple, multiple),
        up_to=None if seconds is None else quantity(like.up_to, seconds),
    )


def test_what_a_sheet_does_not_state_is_not_held_shorter():
    fit = example_fit(J3)
    assert held(()) == ((1.35, None),)
    assert held((hold(fit, 1.0, None),)) == ((1.0, None), (1.35, None))
    assert held((hold(fit, 1.5, 60),)) == ((1.5, 60),)


def test_without_a_limit_for_overloads_the_limit_in_service_counts():
    cable = example_fit(J3).cable
    assert allowed(cable) == 130
    assert allowed(cable.model_copy(update={"overload_max": None})) == 105


@pytest.mark.parametrize(("ambient", "carries"), [(60.0, 0.0), (105.0, 40.0), (120.0, 40.0)])
def test_a_place_in_which_the_cable_carries_nothing_is_no_overload(ambient, carries):
    """Another rule refuses it; nothing divides by it here."""
    fit = example_fit(J3)
    size = next(size for size in fit.cable.sizes if size.area.value == 10)
    lost = Lain(zone="a", ambient_C=ambient, carries_A=carries)
    assert hottest((), 50, [lost], fit.cable, size) is None
    well = Lain(zone="b", ambient_C=50.0, carries_A=63.4)
    found = hottest((hold(fit, 1.35, 600),), 50, [lost, well], fit.cable, size)
    assert found.hottest_C == pytest.approx(111.2, abs=0.6)


def holding(fit, *holds):
    sheets = tuple(p.model_copy(update={"holds": holds}) for p in fit.protections)
    return replace(fit, protections=sheets)


@given(multiple=st.floats(1.01, 2.0), seconds=st.floats(1, 3600), longer=st.floats(1, 3600))
def test_longer_held_is_never_cooler_and_never_past_the_settled_warmth(multiple, seconds, longer):
    fit = example_fit(J3)
    design = choose(fit, judge)
    from_work = [
        _hottest(holding(fit, hold(fit, multiple, t)), design)
        for t in (seconds, seconds + longer, None)
    ]
    assert from_work == sorted(from_work)


def _hottest(fit, design):
    return work_out(fit, design.choice).solved.overload.hottest_C
