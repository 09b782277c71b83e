"""Tightening: threads, proof loads, torque of steel, stud and clamp, screws in sheet metal."""

import math
import re

import pytest

from baybook.sizing.bolts import (
    Screw,
    bolt_torque,
    clamping_stud_current,
    nut_factor,
    preload,
    proof_load,
    screw_clamp_torque,
    socket_torque,
    steel_torque,
    stud_current,
    stud_torque,
)
from baybook.sizing.restraint import pull_out_allowable
from baybook.sizing.validity import OutOfRange

LBF_INCH = 0.112984829  # N m, exact definition as printed
LBF = 4.4482216152605  # N
INCH = 25.4  # mm
SCREWS = {"No.10": 0.190, "No.12": 0.216, "1/4 in": 0.250}  # in, ASME B18.6.4 nominal diameters
STRESS_AREAS = {"M4": 8.78, "M5": 14.2, "M6": 20.1, "M8": 36.6, "M10": 58.0, "M12": 84.3}
HEADS = {
    "slot <=1.2 mm wide": Screw.NARROW_SLOT,
    "wider or longer slot": Screw.WIDE_SLOT,
    "split-bolt": Screw.SPLIT_BOLT,
    "other connector": Screw.HEX,
}
SIZES = {
    "18-10 AWG": (18, 16, 14, 12, 10),
    "8 AWG": (8,),
    "6-4 AWG": (6, 4),
    "2 AWG": (2,),
    "1 AWG": (1,),
    "3/0-4/0 AWG": (-2, -3),
}


def thread_and_class(row):
    """Return thread and property class as they stand in the row's item."""
    thread, _, property_class = re.search(r"(M\d+) (class )?(\d+\.\d)", row["item"]).groups()
    return thread, property_class


# ------------------------------------------------------------------ ISO 898-1


def stress_area(d_mm, pitch_mm):
    """By the formula of the page, TQ004. [mm2]"""
    return math.pi / 4 * (d_mm - 0.9382 * pitch_mm) ** 2


@pytest.mark.rows("torque", "TQ01[1-6]")
def test_the_proof_loads_stand_on_the_printed_stress_areas(row, rows):
    d, pitch = float(row["item"].rpartition("M")[2]), float(row["condition"].split()[2])
    # the standard prints three figures
    assert float(f"{stress_area(d, pitch):.3g}") == row.value, row
    for name in ("TQ017", "TQ018", "TQ019", "TQ020"):
        stress = rows("torque")[name]
        load = proof_load(f"M{d:g}", stress["item"].rpartition(" ")[2])
        assert load / stress.value == pytest.approx(row.value, rel=0.01), (row, stress)


@pytest.mark.rows("torque", "TQ02[1-9]", "TQ03*", "TQ04[0-4]")
def test_proof_load(row):
    assert proof_load(*thread_and_class(row)) == row.value, row


@pytest.mark.rows("torque", "TQ017", "TQ018", "TQ019", "TQ020")
def test_proof_load_is_stress_area_times_proof_stress(row):
    # the proof stress by class was confirmed in a second text; loads print three figures
    property_class = row["item"].rpartition(" ")[2]
    for thread, area in STRESS_AREAS.items():
        assert proof_load(thread, property_class) == pytest.approx(area * row.value, rel=0.01), row


@pytest.mark.rows("torque", "TQ045", "TQ046", "TQ048", "TQ049", "TQ050")
def test_a_proof_load_lies_below_the_ultimate_load(row):
    thread, property_class = re.search(r"(M\d+) class (\d+\.\d)", row["item"]).groups()
    # the class names its strengths: 8.8 is 800 MPa, of which 80 % is yield
    ultimate_MPa = 100 * float(property_class.partition(".")[0])
    assert STRESS_AREAS[thread] * ultimate_MPa == pytest.approx(row.value, rel=0.045), row
    assert 0.55 < proof_load(thread, property_class) / row.value < 0.85, row


# ------------------------------------------------------------------ steel bolts


@pytest.mark.rows("torque", "TQ001")
def test_short_form(row):
    assert row["value"] == "T = K * d * F", row
    assert bolt_torque(0.2, 0.008, 10_000) == pytest.approx(0.2 * 0.008 * 10_000), row


@pytest.mark.rows("torque", "TQ002")
def test_preload_form(row):
    assert row["value"] == "F = 0.75 * Fp", row
    assert preload(11_600) == pytest.approx(0.75 * 11_600), row


@pytest.mark.rows("torque", "TQ003")
def test_proof_load_form(row):
    assert row["value"] == "Fp = As * Sp", row
    assert proof_load("M8", "8.8") == pytest.approx(STRESS_AREAS["M8"] * 580, rel=0.01), row


@pytest.mark.rows("torque", "TQ004")
def test_stress_area_form(row):
    assert row["value"] == "As = (pi/4)*(d - 0.9382*P)^2", row
    # 8.8 up to 16 mm is proved at 580 MPa
    pitches = {"M5": 0.8, "M6": 1.0, "M8": 1.25, "M10": 1.5, "M12": 1.75, "M16": 2.0}
    for thread, pitch in pitches.items():
        load = 580 * stress_area(float(thread[1:]), pitch)
        assert proof_load(thread, "8.8") == pytest.approx(load, rel=0.01), (thread, row)


@pytest.mark.rows("torque", "TQ005", "TQ006", "TQ007", "TQ008")
def test_nut_factor_of_a_surface(row):
    surfaces = {
        "K, dry, as received plain steel": "dry plain steel",
        "K, zinc plated, light oil": "zinc plated, light oil",
        "K, lubricated threads": "lubricated",
        "K, anti-seize compound": "anti-seize",
    }
    assert nut_factor(surfaces[row["item"]]) == row.value, row


@pytest.mark.rows("torque", "TQ052", "TQ053", "TQ054", "TQ084")
def test_a_stainless_bolt_has_no_torque_of_ours(row):
    # ISO 3506-1 fixes none, and its proof stress is from memory: the maker's figure or a hold
    for thread in ("M6", "M8"):
        with pytest.raises(OutOfRange, match="A2-70: not in the table for this kind of joint"):
            steel_torque(thread, "A2-70", 0.15)
    assert row["item"], row


@pytest.mark.rows("torque", "TQ067", "TQ069", "TQ07*", "TQ08[01]")
def test_worked_torque(row):
    thread, property_class = thread_and_class(row)
    K = float(re.search(r"K=([\d.]+)", row["condition"])[1])
    d = float(thread[1:]) / 1000
    found = bolt_torque(K, d, preload(proof_load(thread, property_class)))
    assert found == pytest.approx(row.value, abs=0.00501), row


@pytest.mark.rows("torque", "TQ055", "TQ056", "TQ058", "TQ059", "TQ061", "TQ063", "TQ064", "TQ066")
def test_a_steel_torque_never_exceeds_the_table(row):
    assert steel_torque(*thread_and_class(row), 0.3) == row.value, row  # K so high: the table rules
    assert steel_torque(*thread_and_class(row), 0.2) <= row.value, row


# ------------------------------------------------------------------ studs and clamps


@pytest.mark.rows("torque", "TQ147", "TQ151", "TQ153", "TQ155", "TQ159", "TQ161")
def test_current_carrying_stud(row):
    thread, material, *_ = row["item"].split()
    assert stud_torque(thread, material) == row.value, row


@pytest.mark.rows("torque", "TQ086")
def test_pound_force_inch(row):
    newton_metre = LBF * INCH / 1000
    assert newton_metre == pytest.approx(row.value, rel=1e-9), row


@pytest.mark.rows("torque", "TQ11[6-9]", "TQ12*", "TQ13*", "TQ14[234]")
def test_screw_clamp_by_wire_size(row):
    size, _, head = row["item"].partition(" (")
    screw = next(screw for words, screw in HEADS.items() if words in head)
    for gauge in SIZES[size]:
        assert screw_clamp_torque(gauge, screw) / LBF_INCH == pytest.approx(row.value), row


@pytest.mark.rows("torque", "TQ107", "TQ109", "TQ11[0135]")
def test_internal_hexagon(row):
    across = re.search(r"socket ([\d/]+) in", row["item"])[1]
    assert socket_torque(across) / LBF_INCH == pytest.approx(row.value), row


def test_an_internal_hexagon_that_nobody_read_is_refused():
    with pytest.raises(OutOfRange, match="internal hexagon, in 5/32: no such cell was read"):
        socket_torque("5/32")


@pytest.mark.rows("torque", "TQ148", "TQ152", "TQ154", "TQ156", "TQ160", "TQ162")
def test_rated_current_of_a_stud(row):
    thread, material, *_ = row["item"].split()
    assert stud_current(thread, material) == row.value, row


@pytest.mark.rows("torque", "TQ167", "TQ169", "TQ170", "TQ172", "TQ173")
def test_rated_current_of_a_clamping_stud(row):
    thread = row["item"].split()[0]
    assert clamping_stud_current(thread) == row.value, row
    try:
        leading = stud_current(thread, "brass")
    except OutOfRange:
        return
    assert 1.5 <= row.value / leading < 3, row  # as the page says: lugs face to face


@pytest.mark.rows("additional", "STUD-*")
def test_large_studs(row):
    # "252 N.m at 1600 A"
    material, thread = row.id.split("-")[1:]
    torque, current = (float(part.split()[0]) for part in row["value"].split(" at "))
    assert stud_torque(thread, material.lower()) == torque, row
    assert stud_current(thread, material.lower()) == current, row


def test_a_stud_that_nobody_read_is_refused():
    with pytest.raises(OutOfRange, match="clamping stud M10: no such cell was read"):
        clamping_stud_current("M10")
    with pytest.raises(OutOfRange, match="current-carrying stud M5 brass: no such cell was read"):
        stud_current("M5", "brass")


# ------------------------------------------------------------------ screws in sheet metal


@pytest.mark.rows("torque", "TQ206", "TQ207", "TQ209", "TQ211", "TQ213")
def test_allowable_pull_out_of_a_published_report(row):
    screw, sheet = re.match(r"Allowable pull-out, (.+) screw in ([\d.]+) in", row["item"]).groups()
    found = pull_out_allowable(float(sheet) * INCH, SCREWS[screw] * INCH, 45_000 / 145.0377)
    assert found / LBF == pytest.approx(row.value, abs=0.5), row


@pytest.mark.rows("torque", "TQ215")
def test_a_body_panel_screw_carries_little(row):
    allowable = pull_out_allowable(0.8, 4.8, 270)
    assert 3 * allowable == row.printed, row
    assert allowable == pytest.approx(float(row["value_max"]), abs=0.5), row
