"""Heat: what a converter gives off, and how warm a joint may get."""

import re
from pathlib import Path

import pytest

from baybook.sizing.ampacity import carries_at
from baybook.sizing.heat import heat_loss
from baybook.standards import load

PROFILE = (Path(__file__).parents[2] / "fits" / "shop.yaml").read_text("utf-8")


@pytest.mark.rows("environment", "EN095", "EN096")
def test_worked_loss_of_a_converter(row):
    output, efficiency = re.search(r"a (\d+) W .* at (\d+)\s?%", row["item"]).groups()
    assert heat_loss(float(output), float(efficiency) / 100) == row.printed, row


@pytest.mark.rows("environment", "EN069", "EN070", "EN078", "EN085")
def test_the_example_lets_a_joint_rise_less_than_any_table(row):
    # a switchgear joint may rise 50 or 65 K, a clamping unit 45 K; over 40 K is repaired at once
    own = float(re.search(r"joint_rise:.*\n\s+value: (\d+) K", PROFILE)[1])
    noted = re.search(r"rise (\d+) K", row["note"])
    assert own < float(noted[1] if noted else row["value"]), row


@pytest.mark.rows("cables", "PVC-T-*")
def test_the_root_law_never_flatters_a_photovoltaic_cable(row):
    # the table's factors are from memory; at 70 and 90 °C ours are a little lower
    found = carries_at([(60.0, 1.0)], row.number("ambient_C"), 120, 60)
    assert found <= row.value, row
    assert found > 0.94 * row.value, row


@pytest.mark.rows("cables", "I6722-*")
def test_temperature_class_of_a_road_vehicle_cable(row):
    assert load().iso6722_limit_C[row.given["class"]] == row.value, row
