"""The door of units: every spelling that is understood, and one figure in another unit.

The table is closed; `tests/test_units.py` holds each row against pint, which is not loaded at run
time.
"""

from __future__ import annotations

import math
from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Unit:
    """A unit by all its spellings: inside value = written value × factor + offset."""

    inside: str
    factor: float
    spellings: tuple[str, ...]  # the first is the one that is printed
    pint: str  # the same unit in the words of the referee
    offset: float = 0.0


FOOT = 0.3048  # exact, international foot
INCH = 0.0254  # exact
_POUND = 0.45359237  # exact, avoirdupois
_GRAVITY = 9.80665  # exact, standard gravity
_POUND_FORCE = _POUND * _GRAVITY

UNITS = (
    Unit("V", 1.0, ("V",), "volt"),
    Unit("V", 1e-3, ("mV",), "millivolt"),
    Unit("V", 1e3, ("kV",), "kilovolt"),
    Unit("A", 1.0, ("A",), "ampere"),
    Unit("A", 1e-3, ("mA",), "milliampere"),
    Unit("A", 1e3, ("kA",), "kiloampere"),
    Unit("W", 1.0, ("W",), "watt"),
    Unit("W", 1e3, ("kW",), "kilowatt"),
    Unit("ohm", 1.0, ("Ω", "ohm", "Ohm"), "ohm"),
    Unit("ohm", 1e-3, ("mΩ", "mohm", "mOhm"), "milliohm"),
    Unit("ohm", 1e-6, ("μΩ", "uohm", "uOhm"), "microohm"),
    Unit("ohm/m", 1.0, ("Ω/m", "ohm/m", "Ohm/m"), "ohm/meter"),
    Unit("ohm/m", 1e-3, ("mΩ/m", "mohm/m", "mOhm/m"), "milliohm/meter"),
    Unit("ohm/m", 1e-3, ("Ω/km", "ohm/km", "Ohm/km"), "ohm/kilometer"),
    Unit("m", 1.0, ("m",), "meter"),
    Unit("m", 1e-2, ("cm",), "centimeter"),
    Unit("m", 1e-3, ("mm",), "millimeter"),
    Unit("m", FOOT, ("ft",), "foot"),
    Unit("m", INCH, ("in",), "inch"),
    Unit("mm2", 1.0, ("mm²", "mm2", "mm^2"), "millimeter**2"),
    Unit("degC", 1.0, ("°C", "degC"), "degC"),
    Unit("degC", 5 / 9, ("°F", "degF"), "degF", offset=-32 * 5 / 9),
    Unit("K", 1.0, ("K",), "kelvin"),
    Unit("K", 5 / 9, ("deltaF",), "delta_degF"),
    Unit("N*m", 1.0, ("N·m", "N m", "Nm", "N*m"), "newton*meter"),
    Unit("N*m", _POUND_FORCE * FOOT, ("lbf·ft", "lbf ft", "lbf*ft"), "pound_force*foot"),
    Unit("N*m", _POUND_FORCE * INCH, ("lbf·in", "lbf in", "lbf*in"), "pound_force*inch"),
    Unit("N", 1.0, ("N",), "newton"),
    Unit("N", 1e3, ("kN",), "kilonewton"),
    Unit("N", _POUND_FORCE, ("lbf",), "pound_force"),
    Unit("kg", 1.0, ("kg",), "kilogram"),
    Unit("kg", _POUND, ("lb",), "pound"),
    Unit("kg/m", 1.0, ("kg/m",), "kilogram/meter"),
    Unit("kg/m", 1e-3, ("g/m", "kg/km"), "gram/meter"),
    Unit("MPa", 1.0, ("MPa", "N/mm²", "N/mm2"), "megapascal"),
    Unit("K/W", 1.0, ("K/W",), "kelvin/watt"),
    Unit("s", 1.0, ("s",), "second"),
    Unit("s", 1e-3, ("ms",), "millisecond"),
    Unit("s", 60.0, ("min",), "minute"),
    Unit("s", 3600.0, ("h",), "hour"),
    Unit("s", 86400.0, ("d",), "day"),
    Unit("A*h", 1.0, ("A·h", "A h", "Ah", "A*h"), "ampere*hour"),
    Unit("W*h", 1.0, ("W·h", "W h", "Wh", "W*h"), "watt*hour"),
    Unit("W*h", 1e3, ("kW·h", "kW h", "kWh", "kW*h"), "kilowatt*hour"),
    Unit("1", 1.0, ("", "1"), "dimensionless"),
    Unit("1", 1e-2, ("%",), "percent"),
    Unit("g_n", 1.0, ("g", "g_n"), "standard_gravity"),
    Unit("1/K", 1.0, ("/K", "1/K"), "1/kelvin"),
    Unit("1/K", 1e-2, ("%/K",), "percent/kelvin"),
)

BY_SPELLING = {spelling: unit for unit in UNITS for spelling in unit.spellings}

# What a figure of a fit can be at all. Far wider than any rule: it catches a lost decimal point
# or a wrong prefix, and keeps absurd numbers out of the formulas.
RANGES = {
    "V": (0.0, 1500.0),
    "A": (0.0, 50_000.0),
    "W": (0.0, 50_000.0),
    "ohm": (0.0, 10.0),
    "ohm/m": (0.0, 1.0),
    "m": (0.0, 120.0),
    "mm2": (0.05, 400.0),
    "degC": (-60.0, 500.0),
    "K": (0.0, 300.0),
    "N*m": (0.0, 500.0),
    "N": (0.0, 1e6),
    "kg": (0.0, 60_000.0),
    "kg/m": (0.0, 20.0),
    "MPa": (0.0, 3000.0),
    "K/W": (0.0, 100.0),
    "s": (0.0, 1e7),
    "A*h": (0.0, 5000.0),
    "W*h": (0.0, 100_000.0),
    "1": (0.0, 1000.0),
    "g_n": (0.0, 100.0),
    "1/K": (0.0, 1.0),
}

EXAMPLES = {
    "V": "14.2 V",
    "A": "70 A",
    "W": "200 W",
    "ohm": "6.0 mΩ",
    "ohm/m": "1.91 mΩ/m",
    "m": "4.2 m",
    "mm2": "16 mm²",
    "degC": "45 °C",
    "K": "30 K",
    "N*m": "7.0 N·m",
    "N": "4810 N",
    "kg": "2.3 kg",
    "kg/m": "0.27 kg/m",
    "MPa": "270 MPa",
    "K/W": "0.6 K/W",
    "s": "5 s",
    "A*h": "68 Ah",
    "W*h": "512 Wh",
    "1": "5 %",
    "g_n": "20 g",
    "1/K": "2 %/K",
}


# Unicode holds some signs twice, and not all of them look alike in an editor's font.
_SAME_SIGN = (
    ("\u2212", "-"),  # minus sign
    ("\u22c5", "·"),  # dot operator
    ("\u2126", "Ω"),  # ohm sign
    ("\u00b5", "μ"),  # micro sign
    ("\u2103", "°C"),  # degree Celsius in one sign
    ("\u2109", "°F"),
    ("\u00a0", " "),  # no-break spaces
    ("\u202f", " "),
)


def tidy(text: str) -> str:
    """Fold the typographic forms of one and the same sign together."""
    for written, folded in _SAME_SIGN:
        text = text.replace(written, folded)
    return " ".join(text.split())


def convert(value: float, unit: str, to_unit: str) -> float:
    """Return `value` of `unit` in `to_unit`.

    Both are spellings of the table, of one and the same quantity: `convert(20, "N*m", "lbf·ft")`.
    KeyError for a spelling that is not in the table, ValueError for two different quantities.
    """
    source, target = BY_SPELLING[tidy(unit)], BY_SPELLING[tidy(to_unit)]
    if source.inside != target.inside:
        raise ValueError(f"{unit!r} and {to_unit!r} do not measure the same")
    return (value * source.factor + source.offset - target.offset) / target.factor


def awg_area_mm2(gauge: int) -> float:
    """Return the area in mm² of a solid round conductor of this American wire gauge.

    d = 0.127 mm · 92^((36 − n)/39), S = π·d²/4        ASTM B258 [astm-b258]

    gauge    n; 0 for 1/0, −1 for 2/0, −2 for 3/0, −3 for 4/0; −3 to 40
    """
    diameter_mm: float = 0.127 * 92.0 ** ((36 - gauge) / 39)
    return math.pi * diameter_mm**2 / 4
