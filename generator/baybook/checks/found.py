"""What a rule hands back, before its code and its words are put to it."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass, field
from math import isclose
from typing import TypeAlias

from baybook.design import Design
from baybook.finding import Amount, Finding, Message, Value, Verdict
from baybook.quantity import Mark

SHOP_RULE = "shop-rule"
SHEET = "fit-sheet"
PRACTICE = "common-practice"
_CLEAN = 1e-9  # less is an artefact of binary numbers


@dataclass(frozen=True, slots=True, kw_only=True)
class Found:
    """One fault at one place. `values` go to every sentence of the rule."""

    verdict: Verdict
    place: str  # dotted path in the circuit or the fit
    where: Mark
    found: Value
    allowed: Value
    sources: tuple[str, ...]
    values: dict[str, Value] = field(default_factory=dict)
    draft: bool = False
    hold: str = ""  # ending of the hold's id, where one rule may hold at several places

    def under(self, code: str) -> Finding:
        """Return the finding of this code: its sentences are `rule.<code>.title` and so on."""
        values = tuple(self.values.items())
        hold = f"{code.lower()}-{self.hold}" if self.hold else code.lower()
        return Finding(
            verdict=self.verdict,
            code=code,
            place=self.place,
            where=self.where,
            title=Message(f"rule.{code}.title", values),
            found=self.found,
            allowed=self.allowed,
            why=Message(f"rule.{code}.why", values),
            way_out=Message(f"rule.{code}.way_out", values),
            sources=self.sources,
            draft=self.draft,
            hold=hold if self.verdict is Verdict.HOLD else "",
        )


Rule: TypeAlias = Callable[[Design], Iterator[Found]]


def volts(value: float) -> Amount:
    """Return a voltage as a rule tells it.

    [shop-rule]

    value  any [V]
    """
    return _amount(value, "V", 2)


def setting(value: float) -> Amount:
    """Return a set voltage, as its dial shows it.

    [shop-rule]

    value  any [V]
    """
    return _amount(value, "V", 1)


def amps(value: float) -> Amount:
    """Return a current as a rule tells it.

    [shop-rule]

    value  any [A]
    """
    return _amount(value, "A", 1)


def whole_amps(value: float) -> Amount:
    """Return a current without decimals as a rule tells it.

    [shop-rule]

    value  any [A]
    """
    return Amount(value, "A", 0)


def kiloamps(value: float) -> Amount:
    """Return a fault current, in kA as a rule tells it.

    [shop-rule]

    value  any [A]
    """
    return _amount(value, "A", 2, "kA", 1e-3)


def pieces(number: int) -> Amount:
    """Return a number of things as a rule tells it.

    [shop-rule]

    number  any [pieces]
    """
    return Amount(number, "1", 0, show="1")


def watts(value: float) -> Amount:
    """Return a power as a rule tells it.

    [shop-rule]

    value  any [W]
    """
    return Amount(value, "W", 0)


def share(value: float, digits: int = 2) -> Amount:
    """Return a share, in per cent as a rule tells it.

    [shop-rule]

    value   any [1]
    digits  decimals that are shown, any
    """
    return _amount(value, "1", digits, scale=100)


def area(value: float, gauge: str = "") -> Amount:
    """Return a conductor area as a rule tells it.

    [shop-rule]

    value  any [mm2]
    gauge  as its sheet names it, "" where no sheet does
    """
    return Amount.area(value, gauge)


def degrees(value: float) -> Amount:
    """Return a temperature as a rule tells it.

    [shop-rule]

    value  any [°C]
    """
    return Amount(value, "degC", 0).plain()


def millimetres(value: float, digits: int = 0) -> Amount:
    """Return a length, in mm as a rule tells it.

    [shop-rule]

    value   any [m]
    digits  decimals that are shown, any
    """
    return _amount(value, "m", digits, "mm", 1e3)


def _amount(value: float, unit: str, most: int, show: str = "", scale: float = 1.0) -> Amount:
    """Return a figure with the decimals that it has, at most so many.

    What was stated as 30.8 V, or follows from stated figures without a rest, is not 30.80 V.

    scale  from `unit` to the unit that is shown
    """
    return Amount(value, unit, _decimals(value * scale, most), show=show)


def _decimals(shown: float, most: int) -> int:
    for digits in range(most):
        if isclose(shown, round(shown, digits), abs_tol=_CLEAN):
            return digits
    return most
