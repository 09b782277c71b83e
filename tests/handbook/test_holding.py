"""Holding: forces under a load given in g, and their share at a fixing."""

import re

import pytest

from baybook.sizing.restraint import force_per_fixing, holding_force

NINETY_LBF = 400.34  # N


@pytest.mark.rows("holding", "RR05*")
def test_worked_holding_force(row):
    g, mass = re.search(r"([\d.]+) g\b.*?([\d.]+) kg", row["item"]).groups()
    assert holding_force(float(mass), float(g)) == row.printed, row


@pytest.mark.rows("holding", "RR060")
def test_worked_share_of_a_bolt(row):
    assert force_per_fixing(holding_force(20, 20), 4, 0) == row.printed, row
    # and with one fixing lost, as the shop takes it
    assert force_per_fixing(holding_force(20, 20), 4, 1) == pytest.approx(
        row.value * 4 / 3, abs=0.1
    )


@pytest.mark.rows("holding", "RR042", "RR044", "RR046")
def test_worked_pull_on_a_boat_battery(row):
    mass = float(re.search(r"for a ([\d.]+) kg", row["item"])[1])
    assert min(NINETY_LBF, holding_force(mass, 2)) == row.printed, row


@pytest.mark.rows("holding", "RR001", "RR023")
def test_cargo_figures_are_not_crash_figures(row, rows):
    # 0.8 g secures cargo on the road, 20 g holds equipment in a crash: each load names its basis
    cargo, crash = (rows("holding")[name].value for name in ("RR001", "RR023"))
    assert holding_force(10, crash) / holding_force(10, cargo) == pytest.approx(25), row
