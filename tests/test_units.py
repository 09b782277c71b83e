"""The doors: each spelling against pint, the wire gauges against a printed table, the grammar."""

import math
import re

import pint
import pytest
from hypothesis import given
from hypothesis import strategies as st

from baybook.units import EXAMPLES, RANGES, UNITS, FigureError, awg_area_mm2, convert, read

REFEREE = pint.UnitRegistry()

INSIDE = {
    "V": "volt",
    "A": "ampere",
    "W": "watt",
    "ohm": "ohm",
    "ohm/m": "ohm/meter",
    "m": "meter",
    "mm2": "millimeter**2",
    "degC": "degC",
    "K": "kelvin",
    "N*m": "newton*meter",
    "N": "newton",
    "kg": "kilogram",
    "kg/m": "kilogram/meter",
    "MPa": "megapascal",
    "K/W": "kelvin/watt",
    "s": "second",
    "A*h": "ampere*hour",
    "W*h": "watt*hour",
    "1": "dimensionless",
    "g_n": "standard_gravity",
    "1/K": "1/kelvin",
}


# ------------------------------------------------------------------ the table


@pytest.mark.parametrize("unit", UNITS, ids=lambda unit: unit.spellings[0] or "(none)")
@pytest.mark.parametrize("figure", [0.0, 1.0, 37.5])
def test_every_row_agrees_with_pint(unit, figure):
    judged = REFEREE.Quantity(figure, unit.pint).to(INSIDE[unit.inside]).magnitude
    assert figure * unit.factor + unit.offset == pytest.approx(judged, rel=1e-12, abs=1e-12)


def test_no_spelling_means_two_things():
    spellings = [spelling for unit in UNITS for spelling in unit.spellings]
    assert len(spellings) == len(set(spellings))


def test_every_inside_unit_has_a_range_and_an_example_that_reads():
    assert set(RANGES) == set(EXAMPLES) == set(INSIDE) == {unit.inside for unit in UNITS}
    for unit, example in EXAMPLES.items():
        assert read(example, unit).value > 0


@pytest.mark.parametrize(
    ("value", "unit", "to_unit", "expected", "source"),
    [
        # by agreement of 1959: 1 lb = 0.453 592 37 kg, 1 ft = 0.3048 m; g_n = 9.806 65 m/s²
        (20, "N*m", "lbf·ft", 14.7512, "20 / (0.45359237 x 9.80665 x 0.3048), by hand"),
        (4.5, "N*m", "lbf·in", 39.8286, "4.5 / (0.45359237 x 9.80665 x 0.0254), by hand"),
        (24.5, "kg", "lb", 54.0133, "24.5 / 0.45359237, by hand"),
        (4.191, "m", "ft", 13.75, "exact: 1 ft = 0.3048 m"),
        (0.0205, "m", "in", 0.80709, "exact: 1 in = 25.4 mm"),
        (0.0205, "m", "mm", 20.5, "exact"),
        (45, "degC", "°F", 113.0, "exact: 1.8 t + 32"),
        (-40, "degC", "°F", -40.0, "exact: the scales meet"),
        (0.0302, "1", "%", 3.02, "exact"),
        (4810, "N", "kN", 4.81, "exact"),
        (2.8, "h", "min", 168, "exact"),
    ],
)
def test_convert(value, unit, to_unit, expected, source):
    assert convert(value, unit, to_unit) == pytest.approx(expected, rel=2e-5), source


def test_convert_refuses_two_quantities_and_unknown_spellings():
    with pytest.raises(ValueError, match="do not measure the same"):
        convert(1, "V", "A")
    with pytest.raises(KeyError):
        convert(1, "V", "furlong")


@pytest.mark.parametrize(
    ("gauge", "diameter_mm", "area_mm2"),
    [
        # ASTM B258 as in NBS Handbook 100 (1966); derived from its formula, and the diameters of
        # gauges 0 to 20 agree with a gauge table that was read
        (-3, 11.6840, 107.2),  # 4/0
        (-2, 10.4049, 85.03),  # 3/0
        (0, 8.2515, 53.48),  # 1/0
        (1, 7.3481, 42.41),
        (3, 5.8273, 26.67),
        (4, 5.1894, 21.15),
        (6, 4.1154, 13.30),
        (10, 2.5882, 5.261),
        (12, 2.0525, 3.309),
        (16, 1.2908, 1.309),
        (18, 1.0237, 0.823),
        (22, 0.6438, 0.3255),
        (24, 0.5106, 0.2047),
    ],
)
def test_wire_gauges_are_those_of_the_handbook(gauge, diameter_mm, area_mm2):
    assert awg_area_mm2(gauge) == pytest.approx(area_mm2, rel=5e-4)
    assert awg_area_mm2(gauge) == pytest.approx(math.pi / 4 * diameter_mm**2, rel=2e-4)


# ------------------------------------------------------------------ what is read


@pytest.mark.parametrize(
    ("text", "unit", "value"),
    [
        ("13.2 V", "V", 13.2),
        ("13.2V", "V", 13.2),
        ("60 mV", "V", 0.06),
        ("16 mm²", "mm2", 16),
        ("16 mm2", "mm2", 16),
        ("16 mm^2", "mm2", 16),
        ("AWG 6", "mm2", 13.302),
        ("6 AWG", "mm2", 13.302),
        ("AWG 2/0", "mm2", 67.43),
        ("7.0 N·m", "N*m", 7),
        ("7.0 N⋅m", "N*m", 7),
        ("7.0 N m", "N*m", 7),
        ("7.0 Nm", "N*m", 7),
        ("120 lbf·in", "N*m", 13.558),
        ("15 lbf ft", "N*m", 20.337),
        ("45 °C", "degC", 45),
        ("45 degC", "degC", 45),
        ("−20 °C", "degC", -20),
        ("113 °F", "degC", 45),
        ("113 degF", "degC", 45),
        ("6.0 mΩ", "ohm", 0.006),
        ("6.0 mohm", "ohm", 0.006),
        ("6.0 mOhm", "ohm", 0.006),
        ("6.0 m\u2126", "ohm", 0.006),  # the sign for ohm instead of the letter Omega
        ("1.91 mΩ/m", "ohm/m", 0.00191),
        ("1.91 ohm/km", "ohm/m", 0.00191),
        ("13 ft 9 in", "m", 4.191),
        ("13.75 ft", "m", 4.191),
        ("5 %", "1", 0.05),
        ("0.92", "1", 0.92),
        ("2 %/K", "1/K", 0.02),
        ("20 g", "g_n", 20),
        ("68 Ah", "A*h", 68),
        ("1.5 kWh", "W*h", 1500),
        ("3e2 W", "W", 300),
        ("+5 V", "V", 5),
        ("13.2\u00a0V", "V", 13.2),
    ],
)
def test_reads(text, unit, value):
    figure = read(text, unit)
    assert figure.value == pytest.approx(value, rel=1e-4)
    assert figure.low == figure.high == figure.value


@pytest.mark.parametrize(
    ("text", "unit", "low", "high"),
    [
        ("4.2 m ± 2 %", "m", 4.116, 4.284),
        ("4.2 m +/- 2 %", "m", 4.116, 4.284),
        ("4.2 m ± 50 mm", "m", 4.15, 4.25),
        ("13 ft 9 in ± 2 %", "m", 4.10718, 4.27482),
        ("6.0 mΩ ± 10 %", "ohm", 0.0054, 0.0066),
        ("45 °C ± 3 K", "degC", 42, 48),
        ("113 °F ± 9 °F", "degC", 40, 50),
        ("0.92 ± 0.01", "1", 0.91, 0.93),
    ],
)
def test_reads_a_tolerance(text, unit, low, high):
    figure = read(text, unit)
    assert (figure.low, figure.high) == pytest.approx((low, high))


# ------------------------------------------------------------------ what is refused, and why


@pytest.mark.parametrize(
    ("text", "unit", "reason"),
    [
        ("14,2 V", "V", "comma"),
        ("1,000 W", "W", "comma"),
        ("1 000 W", "W", "thousands"),
        ("1\u202f000 W", "W", "thousands"),
        ("1'000 W", "W", "thousands"),
        ("1_000 W", "W", "thousands"),
        ("4.2 m 3", "m", "second"),
        ("4.2 m ± 2 % ± 3 %", "m", "second"),
        ("4.2 m 3 m", "m", "second"),
        ("12 V to 14 V", "V", "second"),
        ("12-14 V", "V", "number-form"),
        ("6 mm", "mm2", "diameter"),
        ("SAE 6", "mm2", "other-gauge"),
        ("6 gauge", "mm2", "unnamed-gauge"),
        ("6 ga", "mm2", "unnamed-gauge"),
        ("#6", "mm2", "unnamed-gauge"),
        ("6", "mm2", "unnamed-gauge"),
        ("2/0", "mm2", "unnamed-gauge"),
        ("SWG 6", "mm2", "other-gauge"),
        ("AWG 41", "mm2", "gauge"),
        ("AWG 5/0", "mm2", "gauge"),
        ("AWG 06", "mm2", "gauge"),
        ("nan V", "V", "not-a-number"),
        ("inf V", "V", "not-a-number"),
        ("-Infinity V", "V", "not-a-number"),
        ("1e99 V", "V", "exponent"),
        ("1e-10 V", "V", "exponent"),
        ("14.2", "V", "no-unit"),
        ("14.2 A", "V", "other-quantity"),
        ("20 g", "kg", "other-quantity"),
        ("5 %", "V", "other-quantity"),
        ("14.2 v", "V", "unknown-unit"),
        ("14.2 volts", "V", "unknown-unit"),
        ("7 in-lb", "N*m", "unknown-unit"),
        ("-3 V", "V", "negative"),
        ("-5 %", "1", "negative"),
        ("4200 m", "m", "range"),
        ("-300 °C", "degC", "range"),
        ("5 V ± 200 %", "V", "wide"),
        (".5 V", "V", "no-number"),
        ("5. V", "V", "number-form"),
        ("05 V", "V", "number-form"),
        ("1.2.3 V", "V", "number-form"),
        ("about 5 V", "V", "no-number"),
        ("V", "V", "no-number"),
        ("~5 V", "V", "no-number"),
        ("", "V", "blank"),
        ("  ", "V", "blank"),
        ("45 °C ± 3 %", "degC", "other-quantity"),
        ("5 V ± -1 V", "V", "tolerance"),
        ("5 V ±", "V", "no-number"),
        ("13 ft 14 in", "m", "inches"),
        ("5 V " + "x" * 80, "V", "long"),
        ("٥ V", "V", "no-number"),
        ("unknown", "V", "no-number"),
    ],
)
def test_refuses(text, unit, reason):
    with pytest.raises(FigureError) as refused:
        read(text, unit)
    assert refused.value.reason == reason


def test_an_unknown_unit_names_the_nearest():
    with pytest.raises(FigureError) as refused:
        read("14.2 v", "V")
    assert refused.value.values["near"].text == "V"
    assert [unit.text for unit in refused.value.values["units"].items] == ["V", "mV", "kV"]


# ------------------------------------------------------------------ rules for every input


@st.composite
def written(draw):
    """Return a figure as a person would write it, with its inside unit and what it means."""
    unit = draw(st.sampled_from(UNITS))
    spelling = draw(st.sampled_from([s for s in unit.spellings if not s.startswith("1")]))
    low, high = ((bound - unit.offset) / unit.factor for bound in RANGES[unit.inside])
    step = 1e-4
    number = draw(st.integers(math.ceil(low / step), math.floor(high / step))) * step
    gap = draw(st.sampled_from(["", " "]))
    return f"{number:.4f}{gap}{spelling}", unit.inside, number * unit.factor + unit.offset


@given(written())
def test_what_is_written_is_read_back(figure):
    text, unit, value = figure
    assert read(text, unit).value == pytest.approx(value, rel=1e-6, abs=1e-9)


@given(written(), st.sampled_from([",", ",000", " 000", "_"]))
def test_a_thousands_mark_or_comma_is_never_read(figure, mark):
    text, unit, _ = figure
    with pytest.raises(FigureError):
        read(text.replace(".", mark + "." if mark[1:] else mark, 1), unit)


@given(st.text(max_size=70), st.sampled_from(sorted(RANGES)))
def test_anything_is_read_or_refused_with_a_reason(text, unit):
    try:
        figure = read(text, unit)
    except FigureError:
        return
    low, high = RANGES[unit]
    assert low <= figure.low <= figure.value <= figure.high <= high


_PIECES = [
    "1",
    "14.2",
    "0",
    ".",
    ",",
    " ",
    "±",
    "+/-",
    "V",
    "mm",
    "mm²",
    "AWG",
    "/0",
    "%",
    "-",
    "e9",
]


@given(
    st.lists(st.sampled_from(_PIECES), max_size=9).map("".join), st.sampled_from(["V", "mm2", "1"])
)
def test_pieces_of_figures_never_slip_through(text, unit):
    try:
        figure = read(text, unit)
    except FigureError:
        return
    assert "," not in text
    assert len(re.findall(r"[0-9]+(?:\.[0-9]+)?(?:e9)?", text.replace("/0", ""))) <= 2
    assert math.isfinite(figure.value)


@given(st.floats(0, 100), st.sampled_from([u for u in UNITS if u.inside != "degC"]))
def test_convert_goes_there_and_back(figure, unit):
    there = convert(figure, unit.inside, unit.spellings[0])
    assert convert(there, unit.spellings[0], unit.inside) == pytest.approx(figure, abs=1e-9)
