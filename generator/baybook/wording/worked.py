"""A figure as an engineer writes it: what it is, its formula, the formula with its numbers."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping

from baybook.figure import Figure, Input
from baybook.finding import Message, Name, say
from baybook.wording.catalogue import Catalogue

# Figures of which there is one a conductor or zone: the rest of the name says which.
_FAMILIES = {
    "cut_": ("figure.cut", "tag"),
    "ampacity_": ("figure.ampacity_zone", "zone"),
    "temperature_low_": ("figure.temperature_low", "zone"),
    "temperature_typ_": ("figure.temperature_typ", "zone"),
}
_SYMBOL = re.compile(r"(?<![A-Za-z_0-9])[A-Za-z][A-Za-z_0-9]*")
_NUMBERED = re.compile(r"^(\w+)_(\d+)$")
_POWER = "²"

Run = dict[str, str]


def figure_title(name: str) -> Message:
    """Return what a figure is, by its name."""
    for prefix in ("least", "most"):
        if name.startswith(f"{prefix}_"):
            what = say(f"figure.reading.{name.removeprefix(f'{prefix}_')}")
            return say(f"figure.{prefix}", reading=what)
    for prefix, (sentence, slot) in _FAMILIES.items():
        if name.startswith(prefix):
            return say(sentence, **{slot: Name(name.removeprefix(prefix))})
    return say(f"figure.{name}")


def input_title(given: Input, figure: str, catalogue: Catalogue) -> Message | None:
    """Return what an input of a figure is: the figure it comes from, else by its symbol.

    figure  name of the figure that it goes into: `a` is one thing in a length, another in a force
    """
    if given.figure:
        return figure_title(given.figure)
    numbered = _NUMBERED.match(given.symbol)
    symbol = f"{numbered[1]}_n" if numbered else given.symbol
    for sentence in _narrowing(f"input.{symbol}", figure):
        if catalogue.has(sentence):
            return say(sentence, n=Name(numbered[2])) if numbered else say(sentence)
    return None


def _narrowing(sentence: str, figure: str) -> Iterator[str]:
    parts = figure.split("_")
    for count in range(len(parts), 0, -1):
        yield f"{sentence}.{'_'.join(parts[:count])}"
    yield sentence


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
