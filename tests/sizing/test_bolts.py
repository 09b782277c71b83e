"""Bolts: never more than the table, never a value for a joint of another kind."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from baybook.sizing.bolts import (
    Screw,
    bolt_torque,
    preload,
    proof_load,
    screw_clamp_torque,
    steel_torque,
    stud_torque,
)
from baybook.sizing.validity import OutOfRange
from baybook.standards import load

STEEL = st.sampled_from(sorted(load().steel_torque_Nm))
FACTORS = st.floats(0.1, 0.3)


@given(STEEL, FACTORS)
def test_never_above_the_table(joint, K):
    assert 0 < steel_torque(*joint, K) <= load().steel_torque_Nm[joint]


@given(STEEL, FACTORS, FACTORS)
def test_a_slippery_thread_never_takes_more(joint, a, b):
    slippery, rough = sorted((a, b))
    assert steel_torque(*joint, slippery) <= steel_torque(*joint, rough)


def test_torque_by_hand():
    # 0.2 x 8 mm x 10 kN = 16 N m: a turned sign or a power is far from it
    assert bolt_torque(0.2, 0.008, 10_000) == pytest.approx(16.0)
    assert bolt_torque(0.2, 0.016, 10_000) == pytest.approx(32.0)


def test_a_slippery_steel_bolt_by_hand():
    # M8 of class 8.8: 0.10 x 8 mm x 0.75 x 21.2 kN = 12.72 N m, under the table's own figure
    assert steel_torque("M8", "8.8", 0.10) == pytest.approx(12.72)


def test_a_clamp_s_lbf_in_become_newton_metres_by_hand():
    # UL 486A-486B, Table I.1, hex, 8 AWG: 75 lbf in = 75 x 0.1129848 = 8.474 N m
    assert screw_clamp_torque(8, Screw.HEX) == pytest.approx(8.474, abs=0.001)


@given(FACTORS, st.floats(0.003, 0.03), st.floats(100, 1e5))
def test_torque_is_linear_in_the_preload(K, d, F):
    assert bolt_torque(K, d, 2 * F) == pytest.approx(2 * bolt_torque(K, d, F))


@pytest.mark.parametrize("property_class", ["4.6", "5.8", "8.8", "10.9"])
def test_a_thicker_bolt_holds_more(property_class):
    threads = ["M4", "M5", "M6", "M8", "M10", "M12", "M14", "M16"]
    loads = [proof_load(thread, property_class) for thread in threads]
    assert loads == sorted(loads)


def test_preload_leaves_a_quarter():
    assert preload(1000) == 750


@pytest.mark.parametrize("screw", list(Screw))
def test_a_thicker_wire_never_takes_a_lower_clamp_torque(screw):
    gauges = [gauge for gauge, name in load().clamp_torque_lbfin if name == screw.value]
    torques = [screw_clamp_torque(gauge, screw) for gauge in sorted(gauges, reverse=True)]
    assert torques == sorted(torques)


@pytest.mark.parametrize(
    ("call", "message"),
    [
        (lambda: bolt_torque(0.31, 0.006, 1), "nut factor 0.31: allowed 0.1 to 0.3"),
        (lambda: bolt_torque(0.2, 0, 1), "nominal diameter 0 m: must be above 0 m"),
        (lambda: bolt_torque(0.2, 0.006, 0), "preload 0 N: must be above 0 N"),
        (lambda: preload(0), "proof load 0 N: must be above 0 N"),
        (lambda: proof_load("M7", "8.8"), "steel bolt M7, 8.8: not in the table for this kind"),
        (lambda: steel_torque("M6", "5.8", 0.2), "steel bolt M6, 5.8: not in the table"),
        (lambda: stud_torque("M5", "brass"), "current-carrying stud M5, brass: not in the table"),
        (lambda: screw_clamp_torque(1, Screw.NARROW_SLOT), "screw clamp 1, narrow slot: not in"),
    ],
)
def test_outside_its_range_it_refuses(call, message):
    with pytest.raises(OutOfRange) as refused:
        call()
    assert message in str(refused.value)
