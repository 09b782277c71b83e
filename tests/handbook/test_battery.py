"""The battery and its charging: rest volts, internal resistance, the formulas as printed."""

import math

import pytest

from baybook.sizing.rest import rest_voltage
from baybook.sizing.source import NoSolution, constant_power, prospective_current
from baybook.sizing.validity import OutOfRange
from baybook.sizing.withstand import k_factor

SPREAD = 0.1  # V by which sources differ at one state of charge


@pytest.mark.rows("dcdc", "B-R1-*")
def test_rest_volts(row):
    assert rest_voltage(row.number("soc") / 100) == row.value, row


@pytest.mark.rows("dcdc", "B-R2-100", "B-R3-100", "B-R3-75", "B-R3-25")
def test_other_lists_of_rest_volts_lie_within_a_tenth(row):
    assert rest_voltage(row.number("soc") / 100) == pytest.approx(row.value, abs=SPREAD), row


@pytest.mark.rows("dcdc", "B-R2-25")
def test_two_lists_differ_by_more_so_no_margin_rests_on_them(row):
    assert abs(rest_voltage(0.25) - row.value) > SPREAD, row


@pytest.mark.rows("dcdc", "B-R2-50", "B-R2-0")
def test_a_state_of_charge_that_the_table_does_not_have_is_refused(row):
    with pytest.raises(OutOfRange, match=r"rest volts at a charge of .*: no such cell was read"):
        rest_voltage(row.number("soc") / 100)


@pytest.mark.rows("dcdc", "D-F1")
def test_input_current_form(row):
    assert row["conditions"] == "Iin = Pout/(eta*Vin)", row
    current, _ = constant_power(13.2, 1e-12, 400 / 0.9)
    assert current == pytest.approx(400 / (0.9 * 13.2)), row


@pytest.mark.rows("dcdc", "D-F2")
def test_constant_power_form(row):
    assert row["conditions"] == "I = (E - sqrt(E^2-4*R*Pin))/(2R); Pmax = E^2/(4R)", row
    E, R, P = 13.5, 0.03, 444.4
    assert constant_power(E, R, P)[0] == pytest.approx((E - math.sqrt(E**2 - 4 * R * P)) / (2 * R))
    most = E**2 / (4 * R)
    constant_power(E, R, most * (1 - 1e-9))
    with pytest.raises(NoSolution):
        constant_power(E, R, most * (1 + 1e-9))


@pytest.mark.rows("fault_withstand", "B-1", "B-2")
def test_battery_forms(row):
    E, V, current = 12.6, 11.9, 100.0
    internal = (E - V) / current
    assert "(E-V)" in row["conditions"], row
    assert prospective_current(E, internal) == pytest.approx(E * current / (E - V)), row


@pytest.mark.rows("fault_withstand", "K-F")
def test_adiabatic_form(row):
    assert row["conditions"].startswith("k = K*sqrt(ln((Tf+B)/(Ti+B))), copper K=226 B=234.5"), row
    assert k_factor(70, 160) == pytest.approx(226 * math.sqrt(math.log(394.5 / 304.5))), row
