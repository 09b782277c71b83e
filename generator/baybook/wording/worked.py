"""A figure as an engineer writes it: what it is, its formula, the formula with its numbers."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from math import isclose

from baybook.figure import Figure, Input
from baybook.finding import Amount, Message, Name, say
from baybook.wording.catalogue import Catalogue

# Figures of which there is one a conductor or zone: the rest of the name says which.
_FAMILIES = {
    "cut_": ("figure.cut", "tag"),
    "envelope_ambient_": ("figure.envelope_ambient", "zone"),
    "ampacity_": ("figure.ampacity_zone", "zone"),
    "temperature_low_": ("figure.temperature_low", "zone"),
    "temperature_typ_": ("figure.temperature_typ", "zone"),
}
_SYMBOL = re.compile(r"(?<![A-Za-z_0-9])[A-Za-z][A-Za-z_0-9]*")
_NUMBERED = re.compile(r"^(\w+)_(\d+)$")
_POWER = "²"
_SHOWS = 2e-4  # of a figure: less than the last digit of what is printed

Run = dict[str, str]


@dataclass(frozen=True, slots=True, kw_only=True)
class Titles:
    """What the figures of one fit and their inputs are, in words."""

    catalogue: Catalogue
    battery: bool  # the load is a second battery: a title with a twin is said of that

    def of_figure(self, name: str, zone: str = "") -> Message:
        """Return what a figure is, by its name and the name of its zone."""
        for prefix in ("least", "most"):
            if name.startswith(f"{prefix}_"):
                what = say(self._twin(f"figure.reading.{name.removeprefix(f'{prefix}_')}"))
                return say(f"figure.{prefix}", reading=what)
        for prefix, (sentence, slot) in _FAMILIES.items():
            if name.startswith(prefix):
                return say(sentence, **{slot: Name(zone or name.removeprefix(prefix))})
        return say(self._twin(f"figure.{name}"))

    def of_input(self, given: Input, figure: str) -> Message | None:
        """Return what an input is: the figure it comes from, else by its symbol.

        figure  that it goes into, by name: `a` is one thing in a length, another in a force
        """
        if given.figure:
            return self.of_figure(given.figure, given.zone)
        return self._by_symbol(given.symbol, figure)

    def _by_symbol(self, written: str, figure: str) -> Message | None:
        numbered = _NUMBERED.match(written)
        symbol = f"{numbered[1]}_n" if numbered else written
        for sentence in _narrowing(f"input.{symbol}", figure):
            if self.catalogue.has(sentence):
                found = self._twin(sentence)
                return say(found, n=Name(numbered[2])) if numbered else say(found)
        return None

    def _twin(self, sentence: str) -> str:
        twin = f"{sentence}.second"
        return twin if self.battery and self.catalogue.has(twin) else sentence


def _narrowing(sentence: str, figure: str) -> Iterator[str]:
    parts = figure.split("_")
    for count in range(len(parts), 0, -1):
        yield f"{sentence}.{'_'.join(parts[:count])}"
    yield sentence


def between(figure: Figure) -> Message | None:
    """Return between which ends a figure lies; None where no tolerance shows."""
    if isclose(figure.low, figure.high, rel_tol=_SHOWS):
        return None
    low, high = (
        Amount(value, figure.unit, figure.digits + 1, show=figure.show)
        for value in (figure.low, figure.high)
    )
    return say("figure.between", low=low, high=high)


def with_numbers(figure: Figure, amounts: Mapping[str, list[Run]]) -> list[Run]:
    """Return the right side of the formula with each symbol replaced by its number and unit.

    amounts  runs of each input by its symbol
    """
    text = figure.formula.partition(" = ")[2]
    runs: list[Run] = []
    end = 0
    for match in _SYMBOL.finditer(text):
        if match[0] not in amounts:
            continue
        number = amounts[match[0]]
        # A square belongs to figure and unit, a minus to the figure alone.
        closed = text[match.end() :].startswith(_POWER) or number[0]["text"].startswith("−")
        before, after = ("(", ")") if closed else ("", "")
        runs.append({"kind": "text", "text": text[end : match.start()] + before})
        runs.extend(number)
        runs.append({"kind": "text", "text": after})
        end = match.end()
    runs.append({"kind": "text", "text": text[end:]})
    return [run for run in runs if run["text"]]
