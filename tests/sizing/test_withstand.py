"""Withstand: more copper, a shorter fault and a cooler start never make it worse."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from baybook.sizing.validity import OutOfRange
from baybook.sizing.withstand import k_factor, let_through_ratio, overload_ratio

CURRENTS = st.floats(0, 20_000)
TIMES = st.floats(0.001, 5)
AREAS = st.floats(0.5, 120)


@given(st.floats(-40, 248), st.floats(-40, 248))
def test_a_warmer_start_leaves_less(a, b):
    cool, warm = sorted((a, b))
    assert k_factor(cool, 250) >= k_factor(warm, 250)


@given(CURRENTS, TIMES, AREAS, st.floats(1, 4))
def test_more_copper_stands_more(current, time, area, times):
    thin = let_through_ratio(current, time, 115, area)
    assert let_through_ratio(current, time, 115, area * times) <= thin


@given(CURRENTS, TIMES, AREAS)
def test_ratio_is_energy_over_energy(current, time, area):
    ratio = let_through_ratio(current, time, 115, area)
    assert ratio * (115 * area) ** 2 == pytest.approx(current**2 * time)


def test_adiabatic_factor_by_hand():
    # 226 √ln((234.5 + 160) / (234.5 + 70)) = 115; from 105 to 250 °C: 226 √ln(484.5 / 339.5)
    assert k_factor(70, 160) == pytest.approx(115, abs=0.5)
    assert k_factor(105, 250) == pytest.approx(134.8, abs=0.1)


def test_overload_by_hand():
    # by hand: 1.35 x 30 / (1.45 x 63.4) = 0.4406
    assert overload_ratio(30, 63.4) == pytest.approx(0.4406, abs=0.00005)


@given(st.floats(1, 500))
def test_a_fuse_no_larger_than_the_cable_always_passes_the_overload_rule(rating):
    assert overload_ratio(rating, rating) < 1


@pytest.mark.parametrize(
    ("call", "message"),
    [
        (lambda: k_factor(105, 105), "temperature in the fault 105 °C: must be above 105 °C"),
        (lambda: k_factor(-41, 160), "temperature before the fault -41 °C: allowed -40 to 500 °C"),
        (lambda: k_factor(30, 501), "temperature in the fault 501 °C: allowed -40 to 500 °C"),
        (lambda: let_through_ratio(-1, 1, 115, 6), "fault current -1 A: allowed 0"),
        (lambda: let_through_ratio(100, 0, 115, 6), "opening time 0 s: must be above 0 s"),
        (lambda: let_through_ratio(100, 5.01, 115, 6), "opening time 5.01 s: allowed 0 to 5 s"),
        (lambda: let_through_ratio(100, 1, 0, 6), "adiabatic factor 0: must be above 0"),
        (lambda: let_through_ratio(100, 1, 115, 0), "conductor area 0 mm²: must be above 0 mm²"),
        (lambda: overload_ratio(0, 50), "rated current 0 A: must be above 0 A"),
        (lambda: overload_ratio(30, 0), "current-carrying capacity 0 A: must be above 0 A"),
    ],
)
def test_outside_its_range_it_refuses(call, message):
    with pytest.raises(OutOfRange) as refused:
        call()
    assert message in str(refused.value)
