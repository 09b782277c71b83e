"""Validity: both ends count, `nan` and infinity never pass unseen."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from baybook.sizing.validity import OutOfRange, above, within


@given(st.floats(allow_nan=True, allow_infinity=True))
def test_within_lets_through_just_the_range(value):
    if 1 <= value <= 2:
        within(value, 1, 2, "it")
    else:
        with pytest.raises(OutOfRange, match=r"it .*: allowed 1 to 2"):
            within(value, 1, 2, "it")


@pytest.mark.parametrize("value", [0, -1, float("nan"), float("inf"), float("-inf")])
def test_above_refuses_the_limit_and_what_is_no_number(value):
    with pytest.raises(OutOfRange):
        above(value, 0, "it", "V")


def test_above_lets_through_the_least_number_beyond():
    above(5e-324, 0, "it")
