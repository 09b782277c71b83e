"""The doors: how a figure gets in, and how it is turned into the units of a reader.

A closed table holds every spelling of a unit that is understood; `tests/test_units.py` holds
each row against pint, which is not loaded at run time. The grammar is strict on purpose: a
reader that guesses takes `14,2 V` for 142 V and `4.2 m 3` for 12.6 m.
"""

from __future__ import annotations

import difflib
import math
import re
from dataclasses import dataclass

from baybook.finding import Listing, Message, Name, Value, say


class FigureError(ValueError):
    """A figure that was not accepted. `reason` and `values` make the sentences that explain it."""

    def __init__(self, reason: str, **values: Value) -> None:
        super().__init__(reason)
        self.reason = reason
        self.values = values

    def message(self, part: str) -> Message:
        """Return the message `data.figure.<reason>.<part>`; parts are `allowed` and `way_out`."""
        return say(f"data.figure.{self.reason}.{part}", **self.values)


@dataclass(frozen=True, slots=True)
class Unit:
    """A unit by all its spellings: inside value = written value × factor + offset."""

    inside: str
    factor: float
    spellings: tuple[str, ...]  # the first is the one that is printed
    pint: str  # the same unit in the words of the referee
    offset: float = 0.0


_FOOT = 0.3048  # exact, international foot
_INCH = 0.0254  # exact
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
    Unit("m", _FOOT, ("ft",), "foot"),
    Unit("m", _INCH, ("in",), "inch"),
    Unit("mm2", 1.0, ("mm²", "mm2", "mm^2"), "millimeter**2"),
    Unit("degC", 1.0, ("°C", "degC"), "degC"),
    Unit("degC", 5 / 9, ("°F", "degF"), "degF", offset=-32 * 5 / 9),
    Unit("K", 1.0, ("K",), "kelvin"),
    Unit("K", 5 / 9, ("deltaF",), "delta_degF"),
    Unit("N*m", 1.0, ("N·m", "N m", "Nm", "N*m"), "newton*meter"),
    Unit("N*m", _POUND_FORCE * _FOOT, ("lbf·ft", "lbf ft", "lbf*ft"), "pound_force*foot"),
    Unit("N*m", _POUND_FORCE * _INCH, ("lbf·in", "lbf in", "lbf*in"), "pound_force*inch"),
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

_BY_SPELLING = {spelling: unit for unit in UNITS for spelling in unit.spellings}

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


def convert(value: float, unit: str, to_unit: str) -> float:
    """Return `value` of `unit` in `to_unit`.

    Both are spellings of the table, of one and the same quantity: `convert(20, "N*m", "lbf·ft")`.
    KeyError for a spelling that is not in the table, ValueError for two different quantities.
    """
    source, target = _BY_SPELLING[_tidy(unit)], _BY_SPELLING[_tidy(to_unit)]
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


@dataclass(frozen=True, slots=True)
class Interval:
    """A figure as read, in its inside unit; with no tolerance written the ends equal the value."""

    value: float
    low: float
    high: float


_NUMBER = r"[+-]?(?:0|[1-9][0-9]*)(?:\.[0-9]+)?(?:[eE][+-]?[0-9]+)?"
_FIGURE = re.compile(rf"({_NUMBER}) ?(.*)")
_FEET_INCHES = re.compile(rf"({_NUMBER}) ?ft ({_NUMBER}) ?in")
_AWG = re.compile(r"AWG ?([0-9]+(?:/0)?)|([0-9]+(?:/0)?) ?AWG")
_OTHER_GAUGES = re.compile(r"\b(SAE|SWG|BWG|B&S)\b", re.IGNORECASE)
# a number alone, #6, No. 6, 6 gauge: nobody says which gauge
_UNNAMED_GAUGE = re.compile(
    r"(?:#|no\.? ?|gauge ?|ga\.? ?)?[0-9]+(?:/0)?(?:[ -]?(?:gauge|ga\.?))?", re.IGNORECASE
)
_NOT_A_NUMBER = re.compile(r"[+-]?(?:nan|inf|infinity)\b", re.IGNORECASE)
_LONGEST = 60
_LARGEST_EXPONENT = 9


def read(text: str, unit: str) -> Interval:
    """Read one written figure: `4.2 m ± 2 %`, `13 ft 9 in`, `AWG 6`, `120 lbf·in`.

    text     what stands in the file
    unit     the inside unit that is expected, a key of RANGES

    FigureError says what would be right. Nothing is guessed: a comma, a thousands mark, a second
    number, a missing or unknown unit, a number that is none or is beyond reason are refused.
    """
    tidy = _tidy(text)
    _refuse_at_sight(tidy, unit)
    main, *tolerances = re.split(r" ?(?:±|\+/-|\+-) ?", tidy)
    if len(tolerances) > 1:
        raise FigureError("second", example=Name(EXAMPLES[unit]))
    value = _value(main, unit)
    spread = _spread(tolerances[0], value, unit) if tolerances else 0.0
    _keep_in_range(value, unit, "negative" if value < 0 <= RANGES[unit][0] else "range")
    for end in (value - spread, value + spread):
        _keep_in_range(end, unit, "wide")
    return Interval(value, value - spread, value + spread)


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


def _tidy(text: str) -> str:
    """Fold the typographic forms of one and the same sign together."""
    for written, folded in _SAME_SIGN:
        text = text.replace(written, folded)
    return " ".join(text.split())


def _refuse_at_sight(text: str, unit: str) -> None:
    example = Name(EXAMPLES[unit])
    if not text:
        raise FigureError("blank", example=example)
    if len(text) > _LONGEST:
        raise FigureError("long", example=example)
    if "," in text:
        raise FigureError("comma", example=example)
    if re.search(r"[0-9][_'’][0-9]|[0-9] [0-9]", text):
        raise FigureError("thousands", example=example)
    if _NOT_A_NUMBER.match(text):
        raise FigureError("not-a-number", example=example)


def _value(text: str, unit: str) -> float:
    if unit == "mm2" and (gauge := _AWG.fullmatch(text)):
        return awg_area_mm2(_gauge(gauge.group(1) or gauge.group(2)))
    if unit == "mm2" and _OTHER_GAUGES.search(text):
        raise FigureError("other-gauge", example=Name("AWG 6"))
    if unit == "mm2" and _UNNAMED_GAUGE.fullmatch(text):
        raise FigureError("unnamed-gauge", example=Name("AWG 6"))
    if unit == "m" and (pair := _FEET_INCHES.fullmatch(text)):
        feet, inches = (_number(part, unit) for part in pair.groups())
        if not 0 <= inches < 12:  # noqa: PLR2004  inches to the foot
            raise FigureError("inches", example=Name("13 ft 9 in"))
        return feet * _FOOT + inches * _INCH
    number, rest = _split(text, unit)
    found = _unit(rest, unit)
    return number * found.factor + found.offset


def is_awg(text: str) -> bool:
    """Tell whether a text is one American wire gauge, with its name: `AWG 6`, `2/0 AWG`."""
    try:
        return bool(_AWG.fullmatch(text)) and _value(text, "mm2") > 0
    except FigureError:
        return False


def _gauge(text: str) -> int:
    gauge = 1 - int(text.removesuffix("/0")) if text.endswith("/0") else int(text)
    if not -3 <= gauge <= 40 or (text.startswith("0") and text != "0"):  # noqa: PLR2004  ASTM B258
        raise FigureError("gauge", example=Name("AWG 6"))
    return gauge


def _split(text: str, unit: str) -> tuple[float, str]:
    match = _FIGURE.fullmatch(text)
    if not match:
        raise FigureError("no-number", example=Name(EXAMPLES[unit]))
    number, rest = match.groups()
    if re.match(r"[.0-9]|[+-]", rest):
        # "5." and "05" come here too: a number is written one way only
        raise FigureError("number-form", example=Name(EXAMPLES[unit]))
    if rest not in _BY_SPELLING and re.search(r"[0-9]", re.sub(r"(?<=[a-z])2$", "", rest)):
        # a digit that is not the square of a misspelt area
        raise FigureError("second", example=Name(EXAMPLES[unit]))
    return _number(number, unit), rest


def _number(text: str, unit: str) -> float:
    _, _, exponent = text.lower().partition("e")
    if exponent and abs(int(exponent[:9])) > _LARGEST_EXPONENT:
        raise FigureError("exponent", example=Name(EXAMPLES[unit]))
    return float(text)


def _unit(spelling: str, unit: str) -> Unit:
    """Return the row of the table, or say which of the usual slips this is."""
    found = _BY_SPELLING.get(spelling)
    if found and found.inside == unit:
        return found
    values: dict[str, Value] = {
        "example": Name(EXAMPLES[unit]),
        "units": Listing(tuple(Name(s) for s in _spellings(unit))),
    }
    if unit == "mm2" and spelling == "mm":
        raise FigureError("diameter", **values)
    if not spelling:
        raise FigureError("no-unit", **values)
    if found:
        raise FigureError("other-quantity", unit=Name(spelling), **values)
    raise FigureError(
        "unknown-unit", unit=Name(spelling), near=Name(_near(spelling, unit)), **values
    )


def _near(spelling: str, unit: str) -> str:
    """Return the spelling of this quantity that is most like a wrong one."""
    known = [s for row in UNITS if row.inside == unit for s in row.spellings if s]
    folded = {s.lower(): s for s in reversed(known)}
    best = difflib.get_close_matches(spelling.lower(), folded, n=1, cutoff=0.0)
    return folded[best[0]]


def _spellings(unit: str) -> tuple[str, ...]:
    return tuple(row.spellings[0] for row in UNITS if row.inside == unit and row.spellings[0])


def _spread(text: str, value: float, unit: str) -> float:
    number, rest = _split(text, unit)
    if number < 0:
        raise FigureError("tolerance", example=Name(f"{EXAMPLES[unit]} ± 2 %"))
    if rest == "%" and unit != "degC":  # a share of a Celsius figure means nothing
        return abs(value) * number / 100
    if rest == "K" and unit == "degC":
        return number
    return number * _unit(rest, unit).factor


def _keep_in_range(value: float, unit: str, reason: str) -> None:
    low, high = RANGES[unit]
    noise = 1e-12  # a converted figure at the very end may miss it by its last bit
    if not low - noise * abs(low) <= value <= high + noise * abs(high):
        text = f"{low:g} to {high:g} {_spellings(unit)[0] if unit != '1' else ''}"
        raise FigureError(reason, range=Name(text.strip()), example=Name(EXAMPLES[unit]))
