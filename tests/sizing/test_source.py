"""The constant-power load: scipy finds the same root, and the one that works."""

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.optimize import brentq

from baybook.sizing.source import NoSolution, constant_power, prospective_current
from baybook.sizing.validity import OutOfRange

volts = st.floats(6, 60)
ohms = st.floats(1e-4, 0.2)
shares = st.floats(0.01, 0.99)  # of the most power that can arrive


@given(volts, ohms, shares)
def test_scipy_finds_the_same_root(U, R, share):
    P = share * U**2 / (4 * R)
    current, voltage = constant_power(U, R, P)
    # below the summit of I·(U - R·I) the balance has one root: the working point
    referee = brentq(lambda amps: amps * (U - R * amps) - P, 0, U / (2 * R), xtol=1e-13)
    assert current == pytest.approx(referee, rel=1e-9)
    assert voltage == pytest.approx(U - R * referee, rel=1e-9)


@given(volts, ohms, shares)
def test_power_and_loop_balance(U, R, share):
    P = share * U**2 / (4 * R)
    current, voltage = constant_power(U, R, P)
    assert voltage * current == pytest.approx(P)
    assert U - R * current == pytest.approx(voltage)
    assert voltage >= U / 2, "the other root is the collapse"


def test_worked_by_hand():
    # U = 12 V, R = 0.05 ohm, P = 220 W: √(144 - 44) = 10, U_t = 11, I = 20
    assert constant_power(12, 0.05, 220) == pytest.approx((20, 11))


def test_more_than_can_arrive():
    with pytest.raises(NoSolution, match=r"power 721 W: at most 720 W arrives over 0\.05 ohm"):
        constant_power(12, 0.05, 721)


@pytest.mark.parametrize(("U", "R", "P"), [(0, 0.05, 1), (12, 0, 1), (12, 0.05, 0), (12, -1, 1)])
def test_outside_its_range(U, R, P):
    with pytest.raises(OutOfRange):
        constant_power(U, R, P)


def test_dead_short():
    assert prospective_current(14.8, 0.0042 * 0.9) == pytest.approx(3915, abs=0.5)
    with pytest.raises(OutOfRange):
        prospective_current(14.8, 0)
