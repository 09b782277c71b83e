"""The tables: a known source on every row, no cell empty, no row twice, read once."""

from pathlib import Path

import pytest

import baybook
from baybook.standards import load, register
from baybook.standards.handbook import handbook
from baybook.standards.load import rows, tables

KEYS = {
    "cfr183_425_bundle": ("fewest",),
    "cfr183_425_engine_space": ("insulation_C",),
    "cfr183_425_table5": ("gauge", "insulation_C"),
    "constants": ("name",),
    "din46200_stud_torque": ("thread", "material"),
    "iec60228_2004_resistance": ("class", "area_mm2"),
    "iso16750_2_supply": ("code",),
    "iso8820_preferred": ("part",),
    "iso8820_scope": ("part",),
    "protection_distance": ("rule",),
    "rest_voltage": ("charge",),
    "support_interval": ("rule",),
    "iso6722_1_class": ("class",),
    "iso898_1_proof_load": ("thread", "property_class"),
    "sae_j1127_area": ("gauge",),
    "ul486a_clamp_torque": ("gauge", "screw"),
    "vdi2230_torque": ("thread", "property_class"),
    "bend_radius": ("cable",),
    "clamping_stud_current": ("thread",),
    "crimp_pull_out": ("gauge",),
    "iec60947_clamp_pull": ("area_mm2",),
    "iso8820_3_colour": ("rating_A",),
    "nut_factor": ("surface",),
    "crash_load": ("vehicles", "direction"),
    "ul486a_socket_torque": ("across_in",),
}
NAMES = {0: "1/0", -1: "2/0", -2: "3/0", -3: "4/0"}


def test_every_table_is_known_here():
    assert set(tables()) == set(KEYS)


@pytest.mark.parametrize("table", tables())
def test_every_row_names_a_registered_source_and_its_place(table):
    for row in rows(table):
        assert row["source"] in register(), row
        assert row["location"], row


@pytest.mark.parametrize("table", tables())
def test_no_cell_is_empty(table):
    for row in rows(table):
        assert all(cell and cell == cell.strip() for cell in row.values()), row


@pytest.mark.parametrize("table", tables())
def test_no_row_stands_twice(table):
    keys = [tuple(row[name] for name in KEYS[table]) for row in rows(table)]
    assert len(keys) == len(set(keys))


@pytest.mark.parametrize(
    ("table", "column"),
    [
        ("cfr183_425_table5", "awg"),
        ("sae_j1127_area", "sae"),
        ("ul486a_clamp_torque", "awg"),
        ("crimp_pull_out", "awg"),
    ],
)
def test_a_gauge_reads_as_it_is_numbered(table, column):
    for row in rows(table):
        assert row[column] == NAMES.get(int(row["gauge"]), row["gauge"])


@pytest.mark.parametrize("table", tables())
def test_no_table_lies_idle(table):
    readers = Path(baybook.__file__).parent.joinpath("standards").glob("*.py")
    assert any(f'"{table}"' in file.read_text("utf-8") for file in readers)


def test_the_tables_are_read_once():
    assert load() is load()
    assert handbook() is handbook()
    assert register() is register()


def test_the_tables_cannot_be_changed():
    with pytest.raises(TypeError):
        load().constants["copper_zero"] = 235.0


@pytest.mark.parametrize(
    ("name", "value"),
    [
        ("copper_zero", 234.5),  # IEC 60364-5-54 annex A; AC 43.13-1B 11-66d(4)
        ("copper_resistivity", 0.017241),  # NBS Handbook 100; IEC 60287-1-1, table 1
        ("copper_adiabatic", 226),  # IEC 60364-5-54 annex A
        ("copper_heat", 0.00345),  # IEC 60364-5-54 annex A; K = √(Q_c (beta + 20) / rho_20)
        ("overload_stands", 1.45),  # IEC 60364-4-43, 433.1
        ("adiabatic_limit", 5),  # IEC 60364-4-43, 434.5.2
        ("blade_fuse_carries", 1.35),  # data sheets that cite ISO 8820-3
        ("standard_gravity", 9.80665),  # 3rd CGPM, 1901
        ("preload_share", 0.75),  # Shigley
        ("pull_out", 0.85),  # AISI S100
        ("screw_safety", 3.0),  # AISI S100
        ("lbf_inch", 0.112984829),  # exact definition, printed digits
    ],
)
def test_constants_are_those_of_their_source(name, value):
    assert load().constants[name] == value


def test_the_circular_mil_by_its_definition():
    # pi/4 (0.0254 mm)²
    assert load().constants["circular_mil"] == pytest.approx(0.000506707479, rel=1e-9)
