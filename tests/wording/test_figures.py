"""Figures as a reader sees them: the control value first, the conversion under it."""

import re
from pathlib import Path

import pytest
from babel.numbers import format_decimal
from hypothesis import given
from hypothesis import strategies as st

import baybook
from baybook.finding import Amount
from baybook.units import convert
from baybook.wording.converted import CUT, converted, for_us, of_torque, rounded
from baybook.wording.figures import number, significant, stated, tell_amount

NBSP = "\N{NO-BREAK SPACE}"


@pytest.mark.parametrize(
    ("amount", "figure", "unit", "converted"),
    [
        # 7.0 / 1.3558179 = 5.163; 2.0 / 0.11298483 = 17.70; by hand
        (Amount(7.0, "N*m", 1, "7.0 N·m"), "7.0", "N·m", f"5.1{NBSP}lbf·ft"),
        (Amount(7.0, "N*m", 1, "7.0 Nm"), "7.0", "N·m", f"5.1{NBSP}lbf·ft"),
        (Amount(2.0, "N*m", 1, "2.0 N·m"), "2.0", "N·m", f"17.7{NBSP}lbf·in"),
        (Amount(13.5582, "N*m", 1, "120 lbf·in"), "120", "lbf·in", f"13.5{NBSP}N·m"),
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


@pytest.mark.parametrize(
    ("area_mm2", "figure"),
    [(16.0, "16"), (2.5, "2.5"), (1.5, "1.5"), (0.75, "0.75"), (13.3021, "13.30"), (35, "35")],
)
def test_a_size_of_cable_is_never_told_as_another(area_mm2, figure):
    told = tell_amount(Amount.area(area_mm2, "AWG 6"), "en")
    assert (told["figure"], told["unit"]) == (figure, "mm²")


def test_no_room_rounds_a_size_of_cable_itself():
    rooms = Path(baybook.__file__).parent.rglob("*.py")
    assert not [f.name for f in rooms if re.search(r'Amount\([^()]*"mm2", \d', f.read_text())]


def test_german_writes_a_decimal_comma():
    assert number(4.5, 2, "de") == "4,50"


@given(
    st.floats(-1e9, 1e9) | st.just(float("inf")), st.integers(0, 6), st.sampled_from(["en", "de"])
)
def test_a_number_is_written_as_the_tables_of_languages_say(value, digits, language):
    form = "0." + "0" * digits if digits else "0"
    text = format_decimal(round(value, digits) + 0.0, format=form, locale=language)
    assert number(value, digits, language) == text.replace("-", "\N{MINUS SIGN}")


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


@given(st.floats(0.05, 400.0), st.booleans())
def test_a_converted_torque_is_never_above_the_control_value(torque, metric):
    how = of_torque(torque, metric=metric)
    back = convert(converted(torque, "N*m", how), how.unit, "N*m")
    assert back <= torque * (1 + 1e-8)
    assert torque - back < convert(0.1, how.unit, "N*m") * (1 + 1e-6)  # and not needlessly below


@given(st.floats(0.05, 120.0))
def test_a_converted_cut_is_never_too_short(length):
    back = convert(converted(length, "m", CUT), "in", "m")
    assert length * (1 - 1e-8) <= back < length + 0.1 * 0.0254 * (1 + 1e-6)


@given(
    st.one_of(
        st.tuples(st.floats(0.0005, 120.0), st.just("m")),
        st.tuples(st.floats(-40.0, 150.0), st.just("degC")),
        st.tuples(st.floats(0.2, 3000.0), st.just("kg")),
        st.tuples(st.floats(10.0, 10_000.0), st.just("N")),
    ),
    st.sampled_from(("most", "least", "plain")),
)
def test_for_a_us_reader_a_limit_never_gives_way(figure, side):
    value, unit = figure
    how = for_us(value, unit, side)
    told = converted(value, unit, how)
    exact, step = convert(value, unit, how.unit), 10.0**-how.digits
    slack = abs(exact) * 1e-8 + 1e-9
    if side == "most":
        assert exact - step - slack < told <= exact + slack
    elif side == "least":
        assert exact - slack <= told < exact + step + slack
    else:
        assert abs(told - exact) <= step / 2 + slack


@pytest.mark.parametrize(
    ("amount", "second"),
    [  # 200 / 25.4 = 7.874; 28 / 25.4 = 1.1024; 45 * 1.8 + 32 = 113; 6.4 / 0.45359237 = 14.1096
        (Amount(0.2, "m", 0, "200 mm").at_most(), f"7.8{NBSP}in"),
        (Amount(0.028, "m", 0, "28 mm").at_least(), f"1.11{NBSP}in"),
        (Amount(0.0055, "m", 1, "5.5 mm").plain(), f"0.22{NBSP}in"),
        (Amount(3.9, "m", 2).plain(), f"12.8{NBSP}ft"),
        (Amount(45.0, "degC", 0, "45 °C").at_most(), f"113{NBSP}°F"),
        (Amount(30.0, "K", 0).at_most(), f"54{NBSP}°F"),  # a rise: 30 * 1.8, without the 32
        (Amount(5.72, "m", 2).cut(), f"225.2{NBSP}in"),  # 5.72 / 0.0254 = 225.197
        (Amount(6.4, "kg", 1, "6.4 kg").at_least(), f"14.2{NBSP}lb"),
        (Amount(0.2, "m", 0, "200 mm"), ""),  # nobody said which side is careful
        (Amount(4.191, "m", 2, "13 ft 9 in").at_most(), ""),  # it is in his units already
        (Amount(4.5, "V", 1).at_most(), ""),
        (Amount(4814.0, "N", 2, show="kN").at_least(), f"1082.3{NBSP}lbf"),  # / 4.4482216 = 1082.23
        # By ASTM B258: AWG 4 has 21.15 mm², AWG 19 0.653, AWG 18 0.823, 1/0 53.5, 2/0 67.4.
        (Amount(25.0, "mm2", 0, "25 mm²").at_most(), "AWG 4"),
        (Amount(21.15, "mm2", 2).plain(), "AWG 4"),
        (Amount(21.0, "mm2", 2).at_least(), "AWG 4"),
        (Amount(0.75, "mm2", 2, "0.75 mm²").at_least(), "AWG 18"),
        (Amount(0.75, "mm2", 2, "0.75 mm²").at_most(), "AWG 19"),
        (Amount(60.0, "mm2", 0).at_most(), "AWG 1/0"),
        (Amount(60.0, "mm2", 0).at_least(), "AWG 2/0"),
        (Amount(120.0, "mm2", 0).at_least(), ""),  # 4/0, the thickest, has 107
        (Amount(0.001, "mm2", 3).at_most(), ""),  # AWG 40, the thinnest, has 0.005
        (Amount(25.0, "mm2", 0, "25 mm²"), ""),
        (Amount(25.0, "mm2", 0, gauge="AWG 3").at_most(), "AWG 3"),  # as its sheet calls it
        (Amount(21.15, "mm2", 0, "AWG 4").at_most(), ""),
    ],
)
def test_a_us_reader_is_told_limits_on_their_careful_side(amount, second):
    told = tell_amount(amount, "en", us=True)
    metric = tell_amount(amount, "en")
    assert told["converted"] == second
    assert (told["figure"], told["unit"]) == (metric["figure"], metric["unit"])
    assert metric["converted"] == ""


@pytest.mark.parametrize(
    ("exact", "side", "shown"),
    [(5.163, "down", 5.1), (5.163, "up", 5.2), (5.2, "down", 5.2), (5.1999999999999, "down", 5.2)],
)
def test_the_careful_side(exact, side, shown):
    assert rounded(exact, 1, side) == shown


def test_a_length_is_told_in_inches_where_it_is_asked_for():
    told = tell_amount(Amount(4.19, "m", 2), "en", CUT)  # 4.19 / 0.0254 = 164.96
    assert (told["text"], told["converted"]) == (f"4.19{NBSP}m", f"165.0{NBSP}in")
    assert tell_amount(Amount(4.19, "m", 2), "en")["converted"] == ""


@pytest.mark.parametrize(
    ("amount", "text"),
    [
        (Amount(7.5, "N*m", 1, "7.5 N·m"), f"7,5{NBSP}N·m"),
        (Amount(4.2, "m", 2, "4.20 m ± 2 %"), f"4,20{NBSP}m"),
        (Amount(13.3, "mm2", 1, "AWG 6"), "AWG 6"),
    ],
)
def test_a_written_figure_keeps_its_digits_and_gets_the_reader_s_mark(amount, text):
    assert tell_amount(amount, "de")["text"] == text
