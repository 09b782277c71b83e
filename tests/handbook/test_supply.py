"""Supply voltage classes: the highest voltage that a part must be rated above."""

import pytest

from baybook.standards import load
from baybook.standards.load import rows as table


@pytest.mark.rows("supply_codes", "I16750-*")
def test_codes_as_remembered_and_confirmed(row):
    low, high = row["value"].split("..")
    listed = {line["code"]: line for line in table("iso16750_2_supply")}[row.given["code"]]
    assert (listed["low_V"], listed["high_V"]) == (low, high), row
    assert float(listed["nominal_V"]) == row.number("nominal"), row


@pytest.mark.rows("supply_voltage", "EN00*")
def test_codes_as_read(row):
    code = row["item"].split(",")[0].split()[1]
    listed = {line["code"]: line for line in table("iso16750_2_supply")}[code]
    assert float(listed["low_V"]) == row.value, row
    assert float(listed["high_V"]) == float(row["value_max"]), row


@pytest.mark.parametrize(("nominal_V", "highest_V"), [(12, 16), (24, 32)])
def test_highest_supply_of_a_class(nominal_V, highest_V):
    assert load().highest_supply_V[nominal_V] == highest_V
