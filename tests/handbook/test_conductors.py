"""Conductors: gauges, areas, resistance at 20 °C and warm, against the printed tables."""

import math

import pytest

from baybook.checks.copper import highest_resistance
from baybook.checks.gauge import sae_area_mm2
from baybook.sizing.conductor import (
    awg_area_mm2,
    resistance_at,
    resistance_factor,
)

IACS = 0.017241  # ohm mm2/m at 20 °C, NBS Handbook 100
CIRCULAR_MIL = math.pi / 4 * 0.0254**2  # mm2, by definition
KFT = 304.8  # m


# ------------------------------------------------------------------ copper, NBS Handbook 100


@pytest.mark.rows("conductor_resistance", "K-rho")
def test_resistivity_is_mass_resistivity_over_density(row, rows):
    mass = rows("conductor_resistance")["K-IACS-mass"].value
    assert mass / 8.89 == row.printed, row


@pytest.mark.rows("conductor_resistance", "K-sigma")
def test_conductivity_is_the_inverse(row):
    conductivity = 1 / IACS
    assert conductivity == row.printed, row


@pytest.mark.rows("conductor_resistance", "K-cmil")
def test_resistivity_in_circular_mils(row):
    in_us_units = IACS / CIRCULAR_MIL * 0.3048
    assert in_us_units == row.printed, row


@pytest.mark.rows("conductor_resistance", "K-dens")
def test_density_that_turns_mass_into_volume(row, rows):
    page = rows("conductor_resistance")
    assert page["K-IACS-mass"].value / page["K-rho"].value == pytest.approx(row.value, rel=0.001)


@pytest.mark.rows("conductor_resistance", "K-alpha")
def test_temperature_coefficient_at_20_degrees(row):
    # our one constant, 234.5 °C, gives 0.003929 per K
    assert resistance_factor(21) - resistance_factor(20) == row.printed, row


# ------------------------------------------------------------------ gauges


@pytest.mark.rows("conductor_resistance", "AWG-d-*")
def test_diameter_of_a_gauge(row):
    area = awg_area_mm2(row.number("awg"))
    assert math.sqrt(4 * area / math.pi) == row.printed, row


@pytest.mark.rows("conductor_resistance", "AWG-a-*")
def test_area_of_a_gauge(row):
    assert awg_area_mm2(row.number("awg")) == row.printed, row


@pytest.mark.rows("conductor_resistance", "AWG-cm-*")
def test_circular_mils_of_a_gauge(row):
    area = awg_area_mm2(row.number("awg"))
    # NEC rounds up to three figures below 18 AWG: 1624 stands as 1620
    assert area / CIRCULAR_MIL == pytest.approx(row.value, rel=0.003), row


@pytest.mark.rows("conductor_resistance", "AWG-r-*")
def test_resistance_of_a_solid_gauge(row):
    assert 1000 * IACS / awg_area_mm2(row.number("awg")) == row.printed, row


@pytest.mark.rows("conductor_resistance", "SAE-cm-*")
def test_area_of_an_sae_gauge(row):
    assert sae_area_mm2(row.number("gauge")) / CIRCULAR_MIL == pytest.approx(row.value, abs=0.5), (
        row
    )


@pytest.mark.rows("conductor_resistance", "SAE-mm2-12")
def test_the_two_published_areas_of_sae_12_differ(row):
    # from memory: 2.91 mm² against 5833 circular mils = 2.956 mm²; the one that was read is used
    assert sae_area_mm2(12) / row.value == pytest.approx(1.016, abs=0.0005), row


# ------------------------------------------------------------------ NEC chapter 9 table 8, 75 °C


@pytest.mark.rows("conductor_resistance", "NEC8-s-*")
def test_solid_copper_at_75_degrees(row):
    cold = IACS / awg_area_mm2(row.number("awg"))
    assert resistance_at(cold, 75) * KFT == row.printed, row


@pytest.mark.rows("conductor_resistance", "NEC8-u-*")
def test_stranded_copper_at_75_degrees(row):
    # stranding lengthens the wires by 2 % (ASTM B8)
    cold = 1.02 * IACS / awg_area_mm2(row.number("awg"))
    assert resistance_at(cold, 75) * KFT == pytest.approx(row.value, rel=0.01), row


@pytest.mark.rows("conductor_resistance", "NEC8-c-*")
def test_tinned_strands_resist_more_than_plain(row):
    plain = 1.02 * IACS / awg_area_mm2(row.number("awg"))
    assert resistance_at(plain, 75) * KFT < row.value, row
    assert resistance_at(plain, 75) * KFT > 0.93 * row.value, row


@pytest.mark.rows("conductor_resistance", "NEC8-N2")
def test_temperature_coefficient_at_75_degrees(row):
    per_kelvin = (resistance_factor(76) - resistance_factor(75)) / resistance_factor(75)
    assert f"a={per_kelvin:.5f} copper" in row["conditions"], row


@pytest.mark.rows("conductor_resistance", "NEC8-W1")
def test_worked_drop_of_a_training_page(row):
    # No. 16 pair, 100 ft one way, 4 A; the page takes 4.99 ohm/kft from the table, we work it out
    per_metre = resistance_at(1.02 * IACS / awg_area_mm2(16), 75)
    assert 2 * 30.48 * per_metre * 4 == row.printed, row


@pytest.mark.rows("conductor_resistance", "UL1581-p-*")
def test_a_stranded_gauge_resists_up_to_five_percent_more_than_solid(row):
    solid = 1000 * IACS / awg_area_mm2(row.number("awg"))
    assert solid < row.value < 1.05 * solid, row


@pytest.mark.rows("conductor_resistance", "UL1581-t-*")
def test_a_tinned_gauge_resists_up_to_eleven_percent_more_than_solid(row):
    solid = 1000 * IACS / awg_area_mm2(row.number("awg"))
    assert 1.02 * solid < row.value < 1.11 * solid, row


# ------------------------------------------------------------------ IEC 60228


@pytest.mark.rows("conductor_resistance", "IEC60228-2-plain-*")
def test_class_2_plain(row):
    found = highest_resistance("IEC 60228 class 2", "copper", row.number("mm2"))
    assert 1000 * found == row.printed, row


@pytest.mark.rows("conductor_resistance", "IEC60228-5-plain-*")
def test_class_5_plain(row):
    found = highest_resistance("IEC 60228 class 5", "copper", row.number("mm2"))
    assert 1000 * found == row.printed, row


@pytest.mark.rows("conductor_resistance", "IEC60228-2-tinned-*")
def test_class_2_tinned(row):
    found = highest_resistance("IEC 60228 class 2", "tinned copper", row.number("mm2"))
    assert 1000 * found == row.printed, row


@pytest.mark.rows("conductor_resistance", "IEC60228-5-tinned-*")
def test_class_5_tinned(row):
    found = highest_resistance("IEC 60228 class 5", "tinned copper", row.number("mm2"))
    assert 1000 * found == row.printed, row


@pytest.mark.parametrize(
    ("standard", "area"),
    [("IEC 60228 class 5", 5), ("IEC 60228 class 2", 400), ("ISO 6722-1 class B", 10)],
)
def test_a_row_that_nobody_read_is_none(standard, area):
    assert highest_resistance(standard, "copper", area) is None


@pytest.mark.rows("conductor_resistance", "ISO6722-0.5", "ISO6722-[1-9]*")
def test_class_5_is_the_careful_side_of_road_vehicle_cable(row):
    # ISO 6722-1 from memory: its limit lies below class 5 at every size, so class 5 never flatters
    class_5 = highest_resistance("IEC 60228 class 5", "copper", row.number("mm2"))
    assert 1000 * class_5 >= row.value, row


@pytest.mark.rows("aircraft", "AC-F-a")
def test_copper_extrapolates_to_zero_resistance(row):
    per_kelvin = resistance_factor(21) - resistance_factor(20)
    assert 20 - 1 / per_kelvin == row.printed, row
