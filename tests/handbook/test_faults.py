"""Faults: adiabatic factors, withstand, prospective currents, what a blade fuse lets stand."""

import math
from types import SimpleNamespace

import pytest

from baybook.checks.copper import highest_resistance
from baybook.sizing.protection import derating_factor, sure_opening
from baybook.sizing.source import prospective_current
from baybook.sizing.withstand import k_factor, let_through_ratio, overload_ratio
from baybook.standards import load


@pytest.mark.rows("fault_withstand", "K-[012]", "K-[5-9]", "K-1[0-9]")
def test_printed_adiabatic_factors(row):
    found = k_factor(row.number("initial_C"), row.number("final_C"))
    assert found == pytest.approx(row.value, abs=0.5), row  # printed as whole numbers


@pytest.mark.rows("fault_withstand", "K-G*")
def test_adiabatic_factor_of_vehicle_cable(row):
    assert k_factor(row.number("Ti"), row.number("Tf")) == row.printed, row


@pytest.mark.rows("fault_withstand", "K-Qc")
def test_the_constant_of_copper_from_its_material_data(row):
    heat, resistivity, beta = (row.number(name) for name in ("Qc", "rho", "beta"))
    assert math.sqrt(heat * (beta + 20) / resistivity) == row.printed, row
    assert load().constants["copper_adiabatic"] == row.value, row


@pytest.mark.rows("fault_withstand", "K-95")
def test_worked_short_circuit_current(row):
    k = k_factor(row.number("Ti"), row.number("Tf"))
    current_kA = k * row.number("S") / math.sqrt(row.number("t")) / 1000
    assert current_kA == row.printed, row
    assert let_through_ratio(1000 * current_kA, 1, k, 95) == pytest.approx(1)


@pytest.mark.rows("fault_withstand", "F-1")
def test_longest_fault_time(row):
    area, k, current = (row.number(name) for name in ("S", "k", "I"))
    one_second = let_through_ratio(current, 1, k, area)
    assert 1 / one_second == row.printed, row


@pytest.mark.rows("fault_withstand", "F-3")
def test_smallest_area_for_a_let_through(row):
    one_square = let_through_ratio(math.sqrt(8500 / 0.01), 0.01, row.number("k"), 1)
    assert math.sqrt(one_square) == row.printed, row


@pytest.mark.rows("fault_withstand", "F-4")
def test_smallest_area_for_a_fault(row):
    one_square = let_through_ratio(5000, 0.1, row.number("k"), 1)
    assert math.sqrt(one_square) == row.printed, row


@pytest.mark.rows("fault_withstand", "B-3")
def test_battery_resistance_from_cold_cranking(row):
    assert 1000 * (12.6 - 7.2) / row.number("CCA") == row.printed, row


@pytest.mark.rows("fault_withstand", "B-4")
def test_battery_short_circuit_from_cold_cranking(row):
    internal = (12.6 - 7.2) / row.number("CCA")
    assert prospective_current(12.6, internal) == row.printed, row


@pytest.mark.parametrize(
    ("name", "U", "internal_mohm", "length_m", "area_mm2"),
    [("L-1", 12.6, 5, 5, 10), ("L-3", 25.2, 8, 7, 16)],
)
def test_prospective_current_at_the_far_end(rows, *, name, U, internal_mohm, length_m, area_mm2):
    row = rows("fault_withstand")[name]
    contacts = 2e-3
    r20 = highest_resistance("IEC 60228 class 5", "copper", area_mm2)
    loop = internal_mohm / 1000 + 2 * length_m * r20 + contacts
    assert prospective_current(U, loop) == row.printed, row


def printed(**figures):
    """Return a row of a data sheet that states just these figures."""
    return SimpleNamespace(
        **{name: SimpleNamespace(value=value, low=value) for name, value in figures.items()}
    )


@pytest.mark.rows("fuses", "F-C-1[36]*", "F-C-350", "F-E-135", "F-E-350", "F-SF-*[35][50]")
def test_a_gate_is_the_end_of_its_window(row):
    # the strip fuse (SF) is from memory: in use its gates come from the sheet of the part fitted
    multiple = row.number("current_pct") / 100
    _, longest = (float(end) for end in row["value"].split(".."))
    gates = [printed(multiple=multiple, within=longest)]
    assert sure_opening(gates, 40, 40 * multiple) == longest, row
    assert sure_opening(gates, 40, 40 * multiple - 0.1) is None, row


@pytest.mark.rows("fuses", "F-SF-600")
def test_of_several_gates_the_highest_that_is_reached(row, rows):
    page = rows("fuses")
    gates = [
        printed(multiple=pct / 100, within=float(page[f"F-SF-{pct}"]["value"].split("..")[1]))
        for pct in (135, 350, 600)
    ]
    assert sure_opening(gates, 40, 6 * 40) == float(row["value"].split("..")[1]), row


@pytest.mark.rows("fuses", "F-C-110", "F-E-100", "F-SF-100")
def test_near_its_rating_a_fuse_promises_nothing(row):
    assert row["value"].endswith("..inf"), row
    gates = [printed(multiple=1.35, within=1800)]
    assert sure_opening(gates, 40, 40 * row.number("current_pct") / 100) is None, row


@pytest.mark.rows("fuses", "F-E-der-*")
def test_derating_takes_the_next_hotter_row(row):
    points = [printed(ambient=20, factor=40 / 40), printed(ambient=65, factor=34 / 40)]
    ambient = row.number("ambient_C")
    assert 40 * derating_factor(points, ambient) == row.printed, row
    assert 40 * derating_factor(points, ambient - 1) == row.printed, row


@pytest.mark.rows("fuses", "F-C-135", "F-E-135", "F-SF-135")
def test_a_fuse_may_carry_135_percent_for_minutes(row):
    # so the cable must stand 1.35 I_n; the strip fuse's window (SF) is from memory only
    _, longest = row["value"].split("..")
    assert float(longest) >= 600, row
    assert overload_ratio(100, 100) == pytest.approx(1.35 / 1.45)
