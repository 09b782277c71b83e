"""Noun: what a rule says, and the typed messages that everything for a reader is made of.

No sentence stands here or in any room but `wording`: a `Message` is an id and typed
values; the sentence is in the templates folder, by language.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from enum import StrEnum
from math import isclose
from typing import TypeAlias

from baybook.quantity import Mark, Quantity


class Verdict(StrEnum):
    """From best to worst; compare with `worst`."""

    OK = "ok"
    CAUTION = "caution"
    HOLD = "hold"
    REFUSED = "refused"


def worst(verdicts: list[Verdict]) -> Verdict:
    """Return the worst of the verdicts, OK for none."""
    order = list(Verdict)
    return max(verdicts, key=order.index, default=Verdict.OK)


@dataclass(frozen=True, slots=True)
class Amount:
    """A figure on its way to a reader.

    `written` is the control value as its source wrote it: it is printed first, the
    conversion under it. A computed figure has no `written` and is rounded to `digits`.
    `show` names another unit to show it in: "mm", "mA", "kA", "kN"; "" is the usual one
    (a share of "1" shows as per cent, "ohm" as milliohm).
    `side` says what it limits, so that a conversion is rounded to the careful side.
    `gauge` is what a sheet calls the same size in AWG: it stands in the place of a conversion.
    """

    value: float
    unit: str  # an inside unit of `units`, or "h", "min", "d"
    digits: int  # decimals, in the unit that is shown
    written: str = ""
    show: str = ""
    side: str = ""  # "most" | "least" | "plain" | "cut"; "": nobody said, and it is not converted
    gauge: str = ""  # of a cable's area: "AWG 4"

    def at_most(self) -> Amount:
        """The same figure as a maximum: less of it is the careful side."""
        return replace(self, side="most")

    def at_least(self) -> Amount:
        """The same figure as a minimum: more of it is the careful side."""
        return replace(self, side="least")

    def plain(self) -> Amount:
        """The same figure as a size or a place that limits nothing: the nearest is right."""
        return replace(self, side="plain")

    def cut(self) -> Amount:
        """The same figure as a length to cut: never shorter, in the unit of a rule."""
        return replace(self, side="cut")

    @classmethod
    def of(cls, quantity: Quantity, digits: int = 2) -> Amount:
        """A figure that somebody wrote, to be printed as written."""
        return cls(quantity.value, quantity.unit, digits, quantity.written)

    @classmethod
    def area(cls, area_mm2: float, gauge: str = "") -> Amount:
        """A conductor's size with the decimals that it is sold by: 16 mm², 2.5 mm², 0.75 mm²."""
        few = (digits for digits in range(2) if isclose(area_mm2, round(area_mm2, digits)))
        return cls(area_mm2, "mm2", next(few, 2), gauge=gauge)


@dataclass(frozen=True, slots=True)
class Name:
    """Words a person wrote in the workbook: shown as they are, never translated."""

    text: str


@dataclass(frozen=True, slots=True)
class Ref:
    """A thing with an address of its own on the sheet.

    kind: "joint" (letter in a ring) · "conductor" (W2) · "device" (F1) · "step" (its id, told as
    its number) · "hold" (likewise) · "reading" (R2) · "fit" (vehicle/fit) · "rule" (OC-02)
    """

    kind: str
    id: str


@dataclass(frozen=True, slots=True)
class Message:
    """A sentence to be: its id in the catalogue and its values by name."""

    id: str
    values: tuple[tuple[str, Value], ...] = ()


@dataclass(frozen=True, slots=True)
class Listing:
    """Several values, told as a list in the reader's language."""

    items: tuple[Value, ...]


Value: TypeAlias = Amount | Name | Ref | Message | Listing | int


def say(message_id: str, /, **values: Value) -> Message:
    """Build a message: `say("torque.joint", joint=Ref("joint", "A"), torque=…)`."""
    return Message(message_id, tuple(values.items()))


def term(word: StrEnum) -> Message:
    """Return a word of a closed list as a message: `term.polarity.by_pin`."""
    return Message(f"term.{type(word).__name__}.{word.name}".lower())


@dataclass(frozen=True, slots=True, kw_only=True)
class Finding:
    """What one rule found at one place.

    The catalogue holds the words of the rule under `rule.<code>.title`, `.why` and
    `.way_out`; the finding brings the values for them.
    """

    verdict: Verdict
    code: str  # "OC-02"
    place: str  # dotted path in the circuit or the fit: "circuit.F1.I_n"
    where: Mark
    title: Message  # "fuse F1 does not protect conductor W1"
    found: Value
    allowed: Value
    why: Message
    way_out: Message
    sources: tuple[str, ...]  # ids of the register, or "shop rule"
    draft: bool = False  # an estimate without a factor in a safety margin: the guide stays a draft
    hold: str = ""  # for a HOLD: id of the hold point that goes into the steps
