"""Input current: energy balance, and the constant-power load behind a resistance."""

import pytest

from baybook.sizing.source import constant_power


@pytest.mark.rows("dcdc", "D-1", "D-2", "D-5", "D-6")
def test_input_current_without_a_cable(row):
    P_in = row.number("P") / row.number("eta")
    current, _ = constant_power(row.number("V"), 1e-9, P_in)
    assert current == row.printed, row


@pytest.mark.rows("dcdc", "D-7", "D-10")
def test_constant_power_load(row):
    current_A, load_V = (float(part.split()[0]) for part in row["value"].split(";"))
    current, voltage = constant_power(row.number("E"), row.number("R"), row.number("Pin"))
    assert current == pytest.approx(current_A, abs=0.002), row
    assert voltage == pytest.approx(load_V, abs=0.002), row
