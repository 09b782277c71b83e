"""The aircraft circular, FAA AC 43.13-1B: its wire table and its examples held against the core.

Nothing is sized by it: its wire is tin-plated, stranded to other areas under the same numbers,
and its currents are those of big bundles. What the core says of such a wire must agree.
"""

import math
import re
from dataclasses import replace

import pytest

from baybook.sizing.ampacity import cfr183_ampacity, steady_temperature, table_current
from baybook.sizing.capacity import Around, by_table
from baybook.sizing.conductor import awg_area_mm2, resistance_factor
from baybook.sizing.network import solve
from baybook.solved import Line, Load, Network
from checks.asking import design, found
from variants import quantity

KFT = 304.8  # m
CIRCULAR_MIL = math.pi / 4 * 0.0254**2  # mm2, by definition
TABLE_C = 70.0  # ambient of Table 11-9


def sheet(area_mm2, *, ohm_per_m=None, gauge="AWG 18"):
    """The design of an example whose input cable has this one size, of tinned strands."""
    one = design("dunstrel-cobble/j9b")
    old = one.fit.cable.sizes[0]
    size = old.model_copy(
        update={
            "area": quantity(old.area, area_mm2),
            "resistance": quantity(old.resistance, ohm_per_m or 0.03 / area_mm2),
            "nearest_awg": gauge,
        }
    )
    cable = one.fit.cable.model_copy(update={"material": "tinned copper", "sizes": (size,)})
    return replace(one, fit=replace(one.fit, cable=cable))


def drop(ohm_per_foot, feet, current_A):
    """Voltage that the core loses in a line of this resistance. [V]"""
    line = Line(node="end", parent="", idle_ohm=ohm_per_foot * feet, warming=0.0)
    load = Load(node="end", current_A=current_A)
    return 28 - solve(Network(supply_V=28, lines=(line,), loads=(load,))).node("end").voltage_V


# ------------------------------------------------------------------ Table 11-9


@pytest.mark.rows("aircraft", "AC-T9-R-*")
def test_no_wire_of_the_table_beats_copper(row, rows):
    area = rows("aircraft")[row.id.replace("-R-", "-A-")].value * CIRCULAR_MIL
    per_metre = row.value / 1000 / KFT * 1000
    assert not found("CA-08", sheet(area, ohm_per_m=per_metre)), row
    # tin and lay take 12 to 31 %: what the rule allows of bare copper lies so far under the row
    (fault,) = found("CA-08", sheet(area, ohm_per_m=per_metre / 2))
    assert 1.12 < per_metre / fault.allowed.value < 1.31, row


@pytest.mark.rows("aircraft", "AC-T9-A-*")
def test_aircraft_wire_is_told_from_awg_where_it_has_less_copper(row, rows):
    # stranded to another area under the same number, ASTM B258 by the NEC's own circular mils
    number, awg = row.given["awg"], rows("conductor_resistance")
    solid = awg.get(f"AWG-cm-{row.id.rpartition('-')[2]}")
    told = found("CA-13", sheet(row.value * CIRCULAR_MIL, gauge=f"AWG {number}"))
    less = 1 - row.value * CIRCULAR_MIL / awg_area_mm2(row.number("awg"))
    assert bool(told) is (less > 0.01), row
    if solid is not None:
        assert less == pytest.approx(1 - row.value / solid.value, abs=0.004), row


@pytest.mark.rows("aircraft", "AC-T9-I-1[02468]-105", "AC-T9-I-[12468]-105", "AC-T9-I-*_0-105")
def test_a_bundle_of_which_a_fifth_is_loaded_lies_between_all_and_one(row):
    # 33 wires, 9 from size 8 up: the boat table at 70 °C, all of them loaded, and one alone
    awg = row.number("awg")
    one = sheet(awg_area_mm2(awg)).fit.cable
    wires = 33 if awg > 8 else 9
    all_loaded, alone = (
        by_table(
            one, one.sizes[0], Around(ambient_C=TABLE_C, engine_space=False, bundled=number)
        ).carries()
        for number in (wires, 1)
    )
    assert all_loaded < row.value < alone, row


@pytest.mark.rows("aircraft", "AC-T9-I-*-150", "AC-T9-I-*-200")
def test_a_hotter_wire_carries_more_by_the_square_law(row, rows):
    # from the 105 °C row of the same wire; each current within half its last digit
    cooler = rows("aircraft")[f"{row.id.rpartition('-')[0]}-105"]
    half, own = (0.05 if "." in r["value"] else 0.5 for r in (cooler, row))
    low = steady_temperature(TABLE_C, 105, row.value - own, cooler.value + half)
    high = steady_temperature(TABLE_C, 105, row.value + own, cooler.value - half)
    assert 0.95 * low < row.number("conductor_C") < 1.05 * high, row


# ------------------------------------------------------------------ examples


@pytest.mark.rows("aircraft", "AC-8max")
def test_longest_run_for_a_limit(row):
    found = drop(row.number("R"), row.value, row.number("I"))
    assert found == pytest.approx(row.number("limit"), abs=0.0005), row


@pytest.mark.rows("aircraft", "AC-EX1")
def test_worked_gauge_for_28_volts(row, rows):
    # 50 ft with the return, 20 A, 1 V: No. 10 drops 1.26 V, so No. 8
    table = rows("aircraft")
    drops = {
        awg: drop(table[f"AC-T9-R-{awg}"].value / 1000, row.number("L"), row.number("I"))
        for awg in (14, 12, 10, 8, 6, 4)
    }
    assert drops[10] == pytest.approx(1.26, abs=0.005), row
    assert next(awg for awg in drops if drops[awg] <= row.number("limit")) == row.value, row


@pytest.mark.rows("aircraft", "AC-11-7a", "AC-11-8a", "AC-11-8c")
def test_drop_within_its_limit(row):
    lost = drop(*(row.number(name) for name in ("R", "L", "I")))
    assert lost == row.printed, row
    assert lost <= row.number("limit"), row


@pytest.mark.rows("aircraft", "AC-11-7b")
def test_the_circular_accepts_what_its_limit_forbids(row):
    # printed as accepted: a strict limit asks for a size more
    lost = drop(*(row.number(name) for name in ("R", "L", "I")))
    assert lost == row.printed, row
    assert lost > row.number("limit"), row


def test_the_circular_prints_a_drop_that_its_arithmetic_does_not_give():
    # Table 11-8, second row: printed .366 V; 0.00126 ohm/ft x 19.5 ft x 20 A = .491 V
    assert drop(0.00126, 19.5, 20) == pytest.approx(0.491, abs=0.0005)


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


# ------------------------------------------------------------------ derating multiplies


@pytest.mark.rows("aircraft", "AC-EX2c", "AC-EX2e", "AC-H1[a-f]", "AC-H2a")
def test_worked_derating_is_a_product(row):
    # chart readings times each other (H1, H2 from memory): as table, engine space and bundle do
    factors = [float(part) for part in re.findall(r"\d+(?:\.\d+)?", row["conditions"])]
    if "*" in row["conditions"] or " x " in row["conditions"]:
        assert math.prod(factors) == pytest.approx(row.value, abs=0.5), row
    found = cfr183_ampacity(10, 105, engine_space=True, bundled=4)
    assert found == pytest.approx(table_current(10, 105) * 0.85 * 0.6), row
