"""The input loop: scipy solves current, warmth and resistance at once and finds the same."""

import math

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st
from scipy.optimize import brentq

from baybook.sizing.capacity import carries
from baybook.sizing.feed import Loop, Stretch, cut_out, working_point
from baybook.sizing.source import NoSolution
from baybook.terms import CueKind
from workbooks import example_fit


def make(metres, ambient=50.0, r20=0.78e-3, I_T=115.6):
    way = (Stretch(zone="run", ambient_C=ambient, length_m=metres, carries_A=I_T),)
    return Loop(
        r20_ohm_per_m=r20,
        theta_max_C=105,
        out=way,
        back=way,
        out_joints_ohm=1.3e-3,
        back_joints_ohm=0.6e-3,
    )


def by_one_equation(U, P, metres, ambient, r20, I_T):  # noqa: PLR0917 - the whole loop
    """Balance of the whole loop in the current alone, written out again."""

    def missing(current):
        theta = ambient + (105 - ambient) * (current / I_T) ** 2
        R = 2 * metres * r20 * (1 + (theta - 20) / 254.5) + 1.9e-3
        return current * (U - R * current) - P

    top = next((n for n in range(1, 2000) if missing(n) > 0), None)
    return brentq(missing, 0, top, xtol=1e-12) if top else None


@given(
    U=st.floats(10, 30),
    P=st.floats(50, 900),
    metres=st.floats(0.2, 12),
    ambient=st.floats(20, 80),
    r20=st.sampled_from([3.3e-3, 1.91e-3, 1.21e-3, 0.78e-3]),
)
def test_scipy_finds_the_same_working_point(U, P, metres, ambient, r20):
    I_T = 60.0 + 40 * (1e-3 / r20)
    referee = by_one_equation(U, P, metres, ambient, r20, I_T)
    assume(referee is not None)
    point = working_point(U, P, make(metres, ambient, r20, I_T))
    assert point.current_A == pytest.approx(referee, rel=1e-6)
    assert point.charger_V * point.current_A == pytest.approx(P, rel=1e-6)


@given(U=st.floats(10, 30), P=st.floats(50, 900), metres=st.floats(0.2, 12))
def test_no_working_point_where_scipy_finds_none(U, P, metres):
    if by_one_equation(U, P, metres, 50.0, 3.3e-3, 46.2) is None:
        with pytest.raises(NoSolution):
            working_point(U, P, make(metres, 50.0, 3.3e-3, 46.2))


@given(st.floats(0.5, 5), st.floats(0.01, 3))
def test_a_longer_run_draws_more_and_leaves_less(metres, more):
    short, long = (working_point(13.2, 300, make(m)) for m in (metres, metres + more))
    assert long.current_A > short.current_A
    assert long.charger_V < short.charger_V


def test_parts_of_the_loop_sum_up():
    point = working_point(13.2, 553, make(6))
    assert point.positive_ohm + point.return_ohm == point.loop_ohm
    assert point.drop == pytest.approx(1 - point.charger_V / 13.2)


def test_a_current_that_would_melt_the_copper_is_no_solution():
    with pytest.raises(NoSolution, match="conductor temperature"):
        working_point(60, 4000, make(0.5, I_T=5))


def test_a_loop_that_never_settles_is_no_solution(monkeypatch):
    monkeypatch.setattr("baybook.sizing.network._ROUNDS", 2)
    with pytest.raises(NoSolution, match="does not settle"):
        working_point(13.2, 553, make(6))


def test_unknown_capacity_is_no_solution():
    with pytest.raises(NoSolution):
        working_point(13.2, 553, make(6, I_T=0.0))


def test_hot_copper_is_the_most_the_loop_resists():
    loop = make(6)
    assert loop.at_most() == pytest.approx(12 * 0.78e-3 * (1 + 85 / 254.5) + 1.9e-3)
    assert loop.at_most() > sum(loop.ohms(50.0))


def test_capacity_beyond_the_sheet_is_0():
    fit = example_fit("dunstrel-cobble/j9b")
    size = fit.cable.sizes[3]
    assert carries(fit.cable, size, 65) == 98.6
    assert carries(fit.cable, size, 45) == pytest.approx(135 * math.sqrt(60 / 75))
    assert carries(fit.cable, size, 105) == 0


def test_cut_out_goes_with_the_cue():
    sheet = example_fit("dunstrel-cobble/j9b").charger
    assert cut_out(sheet, CueKind.VOLTAGE) == 12.4
    assert {cut_out(sheet, kind) for kind in CueKind if kind is not CueKind.VOLTAGE} == {11.2}
