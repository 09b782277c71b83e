"""Figures as a reader sees them: the control value first, the conversion under it."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from baybook.finding import Amount
from baybook.wording.figures import number, significant, stated, tell_amount

NBSP = "\N{NO-BREAK SPACE}"


@pytest.mark.parametrize(
    ("amount", "figure", "unit", "converted"),
    [
        (Amount(7.0, "N*m", 1, "7.0 N·m"), "7.0", "N·m", f"5.2{NBSP}lbf·ft"),
        (Amount(7.0, "N*m", 1, "7.0 Nm"), "7.0", "N·m", f"5.2{NBSP}lbf·ft"),
        (Amount(13.5582, "N*m", 1, "120 lbf·in"), "120", "lbf·in", f"13.6{NBSP}N·m"),
        (Amount(25, "mm2", 0, "25 mm2"), "25", "mm²", ""),
        (Amount(4.19, "m", 2, "13 ft 9 in"), "13 ft 9 in", "", ""),
        (Amount(13.3, "mm2", 1, "AWG 6"), "AWG 6", "", ""),
        (Amount(0.0423, "1", 2), "4.23", "%", ""),
        (Amount(0.0189, "ohm", 1), "18.9", "mΩ", ""),
        (Amount(0.15, "m", 0, show="mm"), "150", "mm", ""),
        (Amount(0.028, "A", 0, show="mA"), "28", "mA", ""),
        (Amount(-29.6, "A", 1), "\N{MINUS SIGN}29.6", "A", ""),
        (Amount(3922.0, "A", 2, show="kA"), "3.92", "kA", ""),
    ],
)
def test_amount(amount, figure, unit, converted):
    told = tell_amount(amount, "en")
    assert (told["figure"], told["unit"], told["converted"]) == (figure, unit, converted)


def test_german_writes_a_decimal_comma():
    assert number(4.5, 2, "de") == "4,50"


def test_nothing_below_the_last_digit_is_a_minus_zero():
    assert number(-0.001, 1, "en") == "0.0"


@given(st.floats(-1e6, 1e6), st.integers(0, 4))
def test_a_rounded_figure_is_within_half_its_last_digit(value, digits):
    shown = float(number(value, digits, "en").replace("\N{MINUS SIGN}", "-"))
    assert abs(shown - value) <= 0.5 * 10**-digits * (1 + 1e-9)


@pytest.mark.parametrize(
    ("value", "unit", "written", "text"),
    [
        (12.3, "V", "12.3 V", "12.3"),
        (12.3, "V", "12.30 V", "12.30"),
        (24.0, "V", "", "24"),
        (0.0012, "ohm", "1.2 mΩ", "1.2"),
        (5.94, "V", "6.0 V ± 1 %", "5.94"),
        (200.0, "W", "200 W", "200"),
    ],
)
def test_what_was_stated_gets_no_decimals_that_nobody_wrote(value, unit, written, text):
    assert tell_amount(stated(value, unit, written), "en")["figure"] == text


@pytest.mark.parametrize(
    ("value", "digits"), [(12.640912, 4), (0.0128, 4), (520, 0), (0, 0), (13.2, 1), (1234567.8, 0)]
)
def test_significant_keeps_six_figures_and_no_zeros_behind_them(value, digits):
    assert significant(value, "V").digits == digits
