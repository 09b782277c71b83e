"""Holding: forces under a load given in g, and their share at a fixing."""

import re
from dataclasses import replace

import pytest

from baybook.sizing.restraint import (
    force_per_fixing,
    holding_force,
    pull_out_allowable,
)
from baybook.sizing.sheet_screws import (
    least_screw_edge,
    least_screw_pitch,
)
from checks.asking import design, found
from variants import quantity

LBF = 4.4482216152605  # N


@pytest.mark.rows("holding", "RR05[1-9]")
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


@pytest.mark.rows("holding", "RR001", "RR023")
def test_cargo_figures_are_not_crash_figures(row, rows):
    # 0.8 g secures cargo on the road, 20 g holds equipment in a crash: each load names its basis
    cargo, crash = (rows("holding")[name].value for name in ("RR001", "RR023"))
    assert holding_force(10, crash) / holding_force(10, cargo) == pytest.approx(25), row


# ------------------------------------------------------------------ published loads


def way(row):
    """Return the direction that the row's words name."""
    words = row["item"]
    if "forward" in words or words.startswith("direction of travel"):
        return "forward"
    return "rearward" if "rearward" in words else "sideways"


def told_for(way, g):
    """Tell whether a profile with this load in a direction, and enough in the other, is told."""
    one = design("brunsall-tansy/j1")
    restraint = one.fit.shop.restraint
    loads = {"forward": 20.0, "sideways": 20.0} | {way: g}
    stated = {name: quantity(restraint.forward, load) for name, load in loads.items()}
    shop = one.fit.shop.model_copy(update={"restraint": restraint.model_copy(update=stated)})
    return bool(found("FX-14", replace(one, fit=replace(one.fit, shop=shop))))


@pytest.mark.rows("holding", "RR00[123469]", "RR01[014-79]", "RR020")
def test_a_figure_for_cargo_is_never_taken_for_one_of_a_crash(row):
    # nobody publishes a crash load to the rear: what holds cargo there is held against the side's
    direction = "sideways" if way(row) == "rearward" else way(row)
    assert told_for(direction, row.value), row


@pytest.mark.rows("holding", "RR023", "RR024")
def test_the_figure_of_cars_and_light_vans_is_one_of_a_crash(row):
    assert not told_for(way(row), row.value), row


@pytest.mark.rows("holding", "RR027", "RR028")
def test_the_least_of_all_crash_figures_is_the_limit(row):
    assert not told_for(way(row), row.value), row
    assert told_for(way(row), row.value - 0.01), row


@pytest.mark.rows("holding", "RR029")
def test_an_ambulance_holds_its_equipment_in_a_crash(row):
    assert not told_for("forward", row.value), row
    assert not told_for("sideways", row.value), row


# ------------------------------------------------------------------ screws in sheet steel


@pytest.mark.rows("torque", "TQ201")
def test_pull_out_form(row):
    assert row["value"] == "0.85 * t * d * Fu", row
    assert 3 * pull_out_allowable(0.8, 4.8, 270) == pytest.approx(0.85 * 0.8 * 4.8 * 270), row


@pytest.mark.rows("torque", "TQ203")
def test_safety_factor(row):
    assert 0.85 * 0.8 * 4.8 * 270 / pull_out_allowable(0.8, 4.8, 270) == pytest.approx(row.value)


@pytest.mark.rows("torque", "TQ204")
def test_spacing_of_screws(row):
    assert least_screw_pitch(4.8) / 4.8 == pytest.approx(row.value), row


@pytest.mark.rows("additional", "AISI-edge")
def test_edge_distance_of_a_screw(row):
    assert least_screw_edge(4.8) / 4.8 == pytest.approx(row.value), row


# ------------------------------------------------------------------ a boat's battery


@pytest.mark.rows("holding", "RR042", "RR044", "RR046")
def test_worked_pull_on_a_battery(row):
    # twice its weight, and never above 90 lbf
    mass = float(re.search(r"for a ([\d.]+) kg", row["item"])[1])
    assert min(90 * LBF, holding_force(mass, 2)) == row.printed, row


@pytest.mark.rows("holding", "RR040")
def test_pull_on_a_battery_is_the_lesser_of_two(row):
    assert row["value"] == "min(90 lbf, 2 x battery weight)", row
    # the second is the force at 2 g; a crash asks for ten times that
    assert holding_force(5, 2) == pytest.approx(2 * 5 * 9.80665), row
    assert holding_force(500, 2) > 90 * LBF, row
