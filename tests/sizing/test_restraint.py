"""Restraint: heavier pulls harder, and a lost fixing loads the others."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from baybook.sizing.heat import held
from baybook.sizing.restraint import force_per_fixing, holding_force, pull_out_allowable
from baybook.sizing.validity import OutOfRange
from baybook.terms import Fastener
from variants import quantity
from workbooks import example_fit

MASSES = st.floats(0.1, 100)


@given(MASSES, st.floats(0.5, 30))
def test_force_is_weight_times_load(mass, g):
    assert holding_force(mass, g) == pytest.approx(mass * 9.80665 * g)


@given(st.floats(1, 1e5), st.integers(1, 12), st.integers(0, 11))
def test_shares_add_up_to_the_force(force, fixings, lost):
    if lost < fixings:
        share = force_per_fixing(force, fixings, lost)
        assert share * (fixings - lost) == pytest.approx(force)
        assert share >= force_per_fixing(force, fixings, 0)


@given(st.floats(0.4, 3), st.floats(2.03, 6.35), st.floats(200, 500), st.floats(1, 2))
def test_thicker_sheet_holds_more(sheet, screw, tensile, times):
    thin = pull_out_allowable(sheet, screw, tensile)
    assert pull_out_allowable(sheet * times, screw, tensile) >= thin


@pytest.mark.parametrize(
    ("call", "message"),
    [
        (lambda: holding_force(0, 20), "mass 0 kg: must be above 0 kg"),
        (lambda: holding_force(5, 0), "load factor 0 g: must be above 0 g"),
        (lambda: force_per_fixing(0, 4, 1), "force 0 N: must be above 0 N"),
        (lambda: force_per_fixing(100, 0, 0), "fixings 0: allowed 1"),
        (lambda: force_per_fixing(100, 4, -1), "fixings lost -1: allowed 0"),
        (lambda: force_per_fixing(100, 1, 1), "1 of 1 fixings lost: none is left to hold"),
        (lambda: pull_out_allowable(0, 4, 300), "sheet thickness 0 mm: must be above 0 mm"),
        (lambda: pull_out_allowable(1, 8, 300), "screw diameter 8 mm: allowed 2.03 to 6.35 mm"),
        (lambda: pull_out_allowable(1, 4, 0), "tensile strength 0 MPa: must be above 0 MPa"),
    ],
)
def test_outside_its_range_it_refuses(call, message):
    with pytest.raises(OutOfRange) as refused:
        call()
    assert message in str(refused.value)


@pytest.mark.parametrize("screw", [2.03, 6.35])
def test_both_ends_of_the_clause_s_screws_are_within_it(screw):
    assert pull_out_allowable(1.0, screw, 300) == pytest.approx(0.85 * 1.0 * screw * 300 / 3)


@pytest.mark.parametrize(
    ("sheet", "screw", "tensile", "what"),
    [
        (1.0, 2.02, 300, "screw diameter 2.02 mm"),
        (1.0, 6.36, 300, "screw diameter 6.36 mm"),
        (-0.1, 4.0, 300, "sheet thickness -0.1 mm"),
        (1.0, 4.0, -1, "tensile strength -1 MPa"),
    ],
)
def test_a_screw_just_outside_the_clause_is_refused(sheet, screw, tensile, what):
    with pytest.raises(OutOfRange, match=what):
        pull_out_allowable(sheet, screw, tensile)


def test_pull_out_by_hand():
    # 0.85 · 1.2 mm · 4.8 mm · 270 MPa / 3.0
    assert pull_out_allowable(1.2, 4.8, 270) == pytest.approx(440.64)


def test_a_mount_s_metres_are_the_clause_s_millimetres():
    fit = example_fit("brunsall-tansy/j1")
    length = fit.job.source.fuse_at
    mount = fit.vehicle.mounts[fit.job.mount].model_copy(
        update={
            "fastener": Fastener.SELF_TAPPING,
            "panel": quantity(length, 0.0012),
            "screw": quantity(length, 0.0048),
            "sheet_strength": quantity(length, 270.0),
            "holds": None,
        }
    )
    assert held(mount) == pytest.approx(440.64)
