"""Conductor: what must hold for every gauge, area and temperature, and where it ends."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from baybook.sizing.conductor import (
    awg_area_mm2,
    resistance_at,
    resistance_factor,
)
from baybook.sizing.validity import OutOfRange
from baybook.standards import load

TEMPERATURES = st.floats(-40, 500)
GAUGES = st.integers(-3, 36)
AREAS = st.sampled_from(sorted(load().class5_r20_mohm_per_m))


@given(TEMPERATURES, TEMPERATURES)
def test_hotter_copper_resists_more(a, b):
    cool, hot = sorted((a, b))
    assert resistance_factor(cool) <= resistance_factor(hot)


def test_factor_is_one_at_20_degrees():
    assert resistance_factor(20) == 1


@given(TEMPERATURES, st.floats(1e-6, 1))
def test_resistance_scales_with_the_cold_one(theta, r20):
    assert resistance_at(r20, theta) == pytest.approx(r20 * resistance_factor(theta))


@given(GAUGES, GAUGES)
def test_a_higher_gauge_is_a_thinner_wire(a, b):
    if a < b:
        assert awg_area_mm2(a) > awg_area_mm2(b)


@given(st.integers(-3, 30))
def test_six_gauges_halve_the_diameter(gauge):
    # 92^(6/39) = 2.005: the rule of thumb that every electrician knows (common practice)
    assert awg_area_mm2(gauge) / awg_area_mm2(gauge + 6) == pytest.approx(4, rel=0.01)


@given(AREAS, AREAS)
@pytest.mark.parametrize("name", ["class2_r20_mohm_per_m", "class5_r20_mohm_per_m"])
def test_more_copper_never_resists_more(name, a, b):
    table = getattr(load(), name)
    if a < b:
        assert table[a] > table[b]


@given(AREAS)
def test_tinned_copper_resists_at_least_as_much_as_plain(area):
    tables = load()
    assert tables.class5_tinned_r20_mohm_per_m[area] > tables.class5_r20_mohm_per_m[area]
    assert tables.class2_tinned_r20_mohm_per_m[area] > tables.class2_r20_mohm_per_m[area]


@pytest.mark.parametrize(
    ("call", "message"),
    [
        (lambda: resistance_factor(-41), "conductor temperature -41 °C: allowed -40 to 500 °C"),
        (lambda: resistance_factor(501), "conductor temperature 501 °C: allowed -40 to 500 °C"),
        (lambda: resistance_factor(float("nan")), "conductor temperature nan °C: allowed -40 to"),
        (lambda: resistance_at(0, 20), "resistance at 20 °C 0 ohm/m: must be above 0 ohm/m"),
        (lambda: awg_area_mm2(-4), "AWG -4: allowed -3 to 36"),
        (lambda: awg_area_mm2(37), "AWG 37: allowed -3 to 36"),
    ],
)
def test_outside_its_range_it_refuses(call, message):
    with pytest.raises(OutOfRange) as refused:
        call()
    assert message in str(refused.value)
