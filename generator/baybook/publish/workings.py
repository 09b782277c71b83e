"""The workings of one entry, and the symbols of all: what a reviewer with a calculator follows."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Any

from baybook.book import Told, ToldBook, ToldEntry
from baybook.publish.data import FORMAT, as_bytes

Node = Mapping[str, Any]

# What the guide's own page keeps: the figures that decide. All of them stand among the workings.
MAIN = (
    "current_low",
    "charger_voltage_low",
    "drop_low",
    "margin_low",
    "ampacity",
    "fuse_carries",
    "fault_near",
    "fault_far",
    "set_voltage",
    "output_high",
    "station_power",
    "charge_time",
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Symbol:
    """One line of the list of symbols."""

    symbol: str
    unit: str
    name: str  # of the figure; "" for what goes into a formula and is no figure
    title: Node
    formula: str = ""
    sources: tuple[str, ...] = ()  # of the formula: ids of the register


def figures_of(entry: ToldEntry) -> Sequence[Any]:
    """Return the told figures of an entry: a guide's, or those that a refusal reached."""
    told: Any = entry.content[entry.kind]
    figures: Sequence[Any] = told.get("figures", ())
    return figures


def _figures(book: ToldBook) -> Iterator[Any]:
    """Yield the figures of all entries; those that several entries share (`Alike`) once."""
    lists = {id(figures): figures for figures in map(figures_of, book.entries)}
    for figures in lists.values():
        yield from figures


def main_figures(figures: Iterable[Node]) -> list[Node]:
    """Return the figures that stand on the guide's own page."""
    return [figure for figure in figures if figure["name"] in MAIN]


def workings_json(entry: ToldEntry, shop: Mapping[str, Told]) -> bytes:
    """Return the workings of one entry as data."""
    told: Any = entry.content[entry.kind]
    return as_bytes(
        {
            "format": FORMAT,
            "fit": entry.fit,
            "kind": entry.kind,
            "language": entry.language,
            "demonstration": shop["demonstration"],
            "revision": entry.content["revision"],
            "figures": figures_of(entry),
            "sources": told["sources"],
        }
    )


def symbols(book: ToldBook) -> tuple[tuple[Symbol, ...], tuple[Symbol, ...]]:
    """Return the figures of the whole book, and what else goes into their formulas, by symbol."""
    figures: dict[str, Symbol] = {}
    inputs: dict[tuple[str, str], Symbol] = {}
    for told in _figures(book):
        figures.setdefault(told["name"], _figure(told))
        for item in told["inputs"]:
            if item["title"] and not item["figure"]:
                inputs[item["symbol"], item["title"]["text"]] = _symbol(item, "")
    return _sorted(figures.values()), _sorted(inputs.values())


def sources_of(book: ToldBook) -> list[Any]:
    """Return the lines of the sources that figures of the book cite, by title."""
    lines: dict[str, Any] = {}
    for entry in book.entries:
        told: Any = entry.content[entry.kind]
        lines |= {line["id"]: line for line in told.get("sources", ())}
    cited = {source for figure in _figures(book) for source in figure["sources"]}
    return sorted((lines[one] for one in cited & set(lines)), key=lambda at: at["title"]["text"])


def _figure(told: Node) -> Symbol:
    return replace(
        _symbol(told, told["name"]), formula=told["formula"], sources=tuple(told["sources"])
    )


def _symbol(told: Node, name: str) -> Symbol:
    unit = told["amount"]["unit"]
    return Symbol(symbol=told["symbol"], unit=unit, name=name, title=told["title"])


def _sorted(lines: Iterable[Symbol]) -> tuple[Symbol, ...]:
    return tuple(sorted(lines, key=lambda s: (s.symbol.lower(), s.symbol, s.name, s.title["text"])))
