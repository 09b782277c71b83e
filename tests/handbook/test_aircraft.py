"""The aircraft circular, FAA AC 43.13-1B: its wire table whole, its examples, its nuts."""

import math
import re

import pytest

from baybook.sizing.aircraft import (
    aircraft_bundle_current,
    aircraft_nut_torque,
    aircraft_wire_area_mm2,
    aircraft_wire_r20,
)
from baybook.sizing.ampacity import cfr183_ampacity, table_current
from baybook.sizing.conductor import awg_area_mm2, resistance_factor
from baybook.sizing.validity import OutOfRange
from baybook.standards.load import rows as table

KFT = 304.8  # m
CIRCULAR_MIL = math.pi / 4 * 0.0254**2  # mm2, by definition
LBF_INCH = 0.112984829  # N m
GAUGES = (24, 22, 20, 18, 16, 14, 12, 10, 8, 6, 4, 2, 1, 0, -1, -2, -3)


# ------------------------------------------------------------------ Table 11-9


@pytest.mark.rows("aircraft", "AC-T9-R-*")
def test_resistance_of_tin_plated_wire(row):
    assert aircraft_wire_r20(row.number("awg")) * KFT == row.printed, row


@pytest.mark.rows("aircraft", "AC-T9-A-*")
def test_area_of_aircraft_wire(row):
    assert aircraft_wire_area_mm2(row.number("awg")) / CIRCULAR_MIL == row.printed, row


@pytest.mark.rows("aircraft", "AC-T9-I-*")
def test_continuous_current_in_a_bundle(row):
    found = aircraft_bundle_current(row.number("awg"), row.number("conductor_C"))
    assert found == row.printed, row


@pytest.mark.parametrize("awg", GAUGES)
def test_the_table_was_entered_whole(awg):
    # every cell of the page: 17 sizes, three temperatures, resistance, area
    currents = [aircraft_bundle_current(awg, column) for column in (105, 150, 200)]
    assert currents == sorted(set(currents))
    assert aircraft_wire_area_mm2(awg) > 0
    assert aircraft_wire_r20(awg) > 0


@pytest.mark.parametrize("awg", GAUGES)
def test_no_wire_of_the_table_beats_copper(awg):
    # 0.017241 ohm mm2/m (NBS Handbook 100); the last digit printed is 0.01 ohm per 1000 ft
    ideal = 1000 * 0.017241 / aircraft_wire_area_mm2(awg)
    assert 1000 * aircraft_wire_r20(awg) >= ideal - 1000 * 0.005 / KFT


@pytest.mark.parametrize(("awg", "share"), [(20, 1.19), (14, 0.93), (10, 0.90), (2, 1.00)])
def test_aircraft_wire_is_no_solid_awg(awg, share):
    # stranded to another area under the same number: the table is never read for a trade cable
    assert aircraft_wire_area_mm2(awg) / awg_area_mm2(awg) == pytest.approx(share, abs=0.006)


def test_a_cell_that_the_page_does_not_have_is_refused():
    with pytest.raises(OutOfRange, match=r"aircraft wire, AWG 3: no such cell was read"):
        aircraft_wire_r20(3)
    with pytest.raises(OutOfRange, match=r"aircraft wire, AWG and °C 8 125: no such cell"):
        aircraft_bundle_current(8, 125)


# ------------------------------------------------------------------ examples


@pytest.mark.rows("aircraft", "AC-8max")
def test_longest_run_for_a_limit(row):
    per_foot = aircraft_wire_r20(10) * KFT / 1000
    assert row.number("limit") / (per_foot * row.number("I")) == pytest.approx(row.value, abs=0.01)


@pytest.mark.rows("aircraft", "AC-EX1")
def test_worked_gauge_for_28_volts(row):
    # 50 ft with the return, 20 A, 1 V: No. 10 drops 1.26 V, so No. 8
    drops = {awg: aircraft_wire_r20(awg) * KFT / 1000 * 50 * 20 for awg in GAUGES}
    assert drops[10] == pytest.approx(1.26, abs=0.005), row
    fits = [awg for awg in GAUGES if drops[awg] <= row.number("limit")]
    assert fits[0] == row.value, row


@pytest.mark.rows("aircraft", "AC-T6-14-c", "AC-T6-28-c", "AC-T6-200-c")
def test_allowed_drop_is_that_of_the_examples(row, rows):
    # Tables 11-7 and 11-8 work with 0.5 V, 1 V and 7 V; some 3.5 % of the nominal voltage
    assert 0.034 < row.value / row.number("nominal_V") < 0.0361, row
    if row.number("nominal_V") == 28:
        assert rows("aircraft")["AC-EX1"].number("limit") == row.value


@pytest.mark.rows("aircraft", "AC-F-L2")
def test_run_length_shrinks_as_copper_warms(row):
    # L2 = 254.5 L1 / (234.5 + T2): our one temperature law, turned over
    assert row["conditions"].startswith("L2 = 254.5*L1/(234.5+T2) copper"), row
    for theta in (20, 70, 105, 200):
        assert 254.5 / (234.5 + theta) == pytest.approx(1 / resistance_factor(theta)), row


@pytest.mark.rows("aircraft", "AC-T3-*-18", "AC-T3-*-1[0246]", "AC-T3-*-[2468]", "AC-T3-*-1_0")
def test_no_published_protection_exceeds_what_the_boat_table_carries(row):
    # Table 11-3 is older than both: I_n never above 33 CFR 183.425, Table 5, 105 °C
    assert row.value <= table_current(row.number("awg"), 105), row


# ------------------------------------------------------------------ Table 7-1, inch threads


@pytest.mark.rows("torque", "TQ08[789]", "TQ09*", "TQ10[123]")
def test_recommended_torque_of_a_nut(row):
    thread, kind = row["item"].split()[:2]
    low, high = aircraft_nut_torque(thread, kind.removesuffix("-type"))
    assert low / LBF_INCH == pytest.approx(row.value), row
    assert high / LBF_INCH == pytest.approx(float(row["value_max"])), row


def test_a_recommended_torque_stays_under_its_allowable():
    for row in table("faa_ac4313_table7_1_torque"):
        assert float(row["low_lbfin"]) < float(row["high_lbfin"]) < float(row["most_lbfin"]), row


def test_the_inch_table_knows_no_metric_bolt_and_no_estimated_cell():
    with pytest.raises(OutOfRange, match=r"aircraft nut M6 tension: no such cell was read"):
        aircraft_nut_torque("M6", "tension")
    # the page prints the shear nut of 1-14 as an estimated value: left out
    with pytest.raises(OutOfRange):
        aircraft_nut_torque("1-14", "shear")


# ------------------------------------------------------------------ derating multiplies


@pytest.mark.rows("aircraft", "AC-EX2c", "AC-EX2e", "AC-H1[a-f]", "AC-H2a")
def test_worked_derating_is_a_product(row):
    # chart readings times each other (H1, H2 from memory): as table, engine space and bundle do
    factors = [float(part) for part in re.findall(r"\d+(?:\.\d+)?", row["conditions"])]
    if "*" in row["conditions"] or " x " in row["conditions"]:
        assert math.prod(factors) == pytest.approx(row.value, abs=0.5), row
    found = cfr183_ampacity(10, 105, engine_space=True, bundled=4)
    assert found == pytest.approx(table_current(10, 105) * 0.85 * 0.6), row
