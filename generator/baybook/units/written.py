"""The door of figures: how one that a person wrote is read, or why it is not.

The grammar is strict on purpose: a reader that guesses takes `14,2 V` for 142 V and `4.2 m 3` for
12.6 m.
"""

from __future__ import annotations

import difflib
import re
from dataclasses import dataclass

from baybook.finding import Listing, Message, Name, Value, say
from baybook.units.table import (
    BY_SPELLING,
    EXAMPLES,
    FOOT,
    INCH,
    RANGES,
    UNITS,
    Unit,
    awg_area_mm2,
    tidy,
)


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
    tidied = tidy(text)
    _refuse_at_sight(tidied, unit)
    main, *tolerances = re.split(r" ?(?:±|\+/-|\+-) ?", tidied)
    if len(tolerances) > 1:
        raise FigureError("second", example=Name(EXAMPLES[unit]))
    value = _value(main, unit)
    spread = _spread(tolerances[0], value, unit) if tolerances else 0.0
    _keep_in_range(value, unit, "negative" if value < 0 <= RANGES[unit][0] else "range")
    for end in (value - spread, value + spread):
        _keep_in_range(end, unit, "wide")
    return Interval(value, value - spread, value + spread)


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
    if unit == "mm2" and _AWG.fullmatch(text):
        return awg_area_mm2(gauge_named(text))
    if unit == "mm2" and _OTHER_GAUGES.search(text):
        raise FigureError("other-gauge", example=Name("AWG 6"))
    if unit == "mm2" and _UNNAMED_GAUGE.fullmatch(text):
        raise FigureError("unnamed-gauge", example=Name("AWG 6"))
    if unit == "m" and (pair := _FEET_INCHES.fullmatch(text)):
        feet, inches = (_number(part, unit) for part in pair.groups())
        if not 0 <= inches < 12:  # noqa: PLR2004  inches to the foot
            raise FigureError("inches", example=Name("13 ft 9 in"))
        return feet * FOOT + inches * INCH
    number, rest = _split(text, unit)
    found = _unit(rest, unit)
    return number * found.factor + found.offset


def is_awg(text: str) -> bool:
    """Tell whether a text is one American wire gauge, with its name: `AWG 6`, `2/0 AWG`."""
    try:
        return bool(_AWG.fullmatch(text)) and _value(text, "mm2") > 0
    except FigureError:
        return False


def gauge_named(text: str) -> int:
    """Return the number of an American wire gauge: 6 for `AWG 6`, -1 for `2/0 AWG`.

    text    one that `is_awg` knows, with its name

    FigureError for a gauge that ASTM B258 does not have.
    """
    written = _AWG.fullmatch(text)
    if not written:
        raise FigureError("unnamed-gauge", example=Name("AWG 6"))
    return _gauge(written.group(1) or written.group(2))


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
    if rest not in BY_SPELLING and re.search(r"[0-9]", re.sub(r"(?<=[a-z])2$", "", rest)):
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
    found = BY_SPELLING.get(spelling)
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
