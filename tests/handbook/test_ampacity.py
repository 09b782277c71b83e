"""Ampacity: the root law against every cell of a published table, and 33 CFR 183.425 whole."""

import pytest

from baybook.sizing.ampacity import carries_at, cfr183_ampacity, steady_temperature
from baybook.sizing.conductor import resistance_factor


@pytest.mark.rows("ambient_factors", "CEC5A-*")
def test_root_law_gives_every_cell_of_the_ambient_table(row):
    at_30 = [(30.0, 1.0)]
    ambient, insulation = row.number("ambient_C"), row.number("insulation_C")
    assert carries_at(at_30, ambient, insulation, 30) == row.printed, row


@pytest.mark.rows("ambient_factors", "CECD3-*")
def test_square_law_gives_the_part_load_factors(row):
    # a 60 °C conductor at 30 °C: at part load it settles lower and resists less
    theta = steady_temperature(30, 60, row.number("load_pct") / 100, 1)
    assert resistance_factor(60) / resistance_factor(theta) == row.printed, row


@pytest.mark.rows("cfr183_boats", "CFR-T5-*")
def test_table_5(row):
    found = cfr183_ampacity(
        row.number("awg"), row.number("insulation_C"), engine_space=False, bundled=1
    )
    assert found == row.printed, row


@pytest.mark.rows("cfr183_boats", "CFR-N1-60", "CFR-N1-75", "CFR-N1-90", "CFR-N1-105")
def test_engine_space(row):
    insulation = row.number("insulation_C")
    outside = cfr183_ampacity(4, insulation, engine_space=False, bundled=1)
    assert cfr183_ampacity(4, insulation, engine_space=True, bundled=1) / outside == row.printed, (
        row
    )


@pytest.mark.rows("cfr183_boats", "CFR-N1-200")
def test_engine_space_takes_the_lower_of_two_sources(row):
    # from memory 1.00, where the root law and a table that was read give 0.94
    inside = cfr183_ampacity(4, 200, engine_space=True, bundled=1) / cfr183_ampacity(
        4, 200, engine_space=False, bundled=1
    )
    assert inside == pytest.approx(0.94)
    assert inside < row.value, row


@pytest.mark.rows("cfr183_boats", "CFR-N2-*")
def test_bundle(row):
    fewest, _, most = row.given["n_conductors"].rstrip("+").partition("-")
    alone = cfr183_ampacity(10, 105, engine_space=False, bundled=1)
    assert (
        cfr183_ampacity(10, 105, engine_space=False, bundled=int(fewest)) / alone == row.printed
    ), row
    assert (
        cfr183_ampacity(10, 105, engine_space=False, bundled=int(most or fewest)) / alone
        == row.printed
    ), row


@pytest.mark.rows("cfr183_boats", "CFR-W1", "CFR-W2", "CFR-W4", "CFR-W7")
def test_worked_allowable_current(row):
    inside = row.given["engine_space"] == "yes"
    bundled = int(row.given["n"])
    found = cfr183_ampacity(
        row.number("awg"), row.number("insulation_C"), engine_space=inside, bundled=bundled
    )
    assert found == row.printed, row


@pytest.mark.rows("cfr183_boats", "CFR-W9")
def test_worked_smallest_gauge(row):
    gauges = (18, 16, 14, 12, 10, 8, 6, 4)
    enough = [
        gauge
        for gauge in gauges
        if cfr183_ampacity(gauge, 105, engine_space=True, bundled=1) >= row.number("I")
    ]
    assert enough[0] == row.value, row
