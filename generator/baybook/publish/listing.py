"""What lists of all guides need of one: little, so that a large site is listed in little memory."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import replace
from typing import Any

from baybook.book import ToldEntry
from baybook.publish.compact import compact
from baybook.publish.store import digest

_TOLD = ("identity", "verdict", "code", "short_reason")
_BESIDE = ("state", "revision", "notice")
_SHARED = ("figures", "sources")  # most of what is kept, and the same in many vehicles
_PASSED = ("number", "on", "figures", "kind", "state", "verdict", "notice")  # of a revision


def listed(entry: ToldEntry) -> ToldEntry:
    """Return an entry with what home, index, symbols and feeds ask for, and nothing else."""
    told: Any = entry.content[entry.kind]
    kept = {key: told[key] for key in _TOLD if key in told}
    kept["figures"] = [_symbol(figure) for figure in told.get("figures", ())]
    cited = {source for figure in kept["figures"] for source in figure["sources"]}
    kept["sources"] = [line for line in told.get("sources", ()) if line["id"] in cited]
    beside: dict[str, Any] = {k: entry.content[k] for k in _BESIDE if k in entry.content}
    earlier: Any = entry.content["earlier"]
    beside["earlier"] = [{key: line[key] for key in _PASSED} for line in earlier]
    return replace(entry, content={entry.kind: kept} | beside)


class Alike:
    """Holds once what the listed entries of many vehicles have in common: symbols and sources."""

    def __init__(self) -> None:
        self._held: dict[str, Any] = {}

    def __call__(self, vehicle: Iterable[Iterable[ToldEntry]]) -> tuple[tuple[ToldEntry, ...], ...]:
        """Return the listed entries of a vehicle, what others have too being the same object."""
        return tuple(tuple(map(self._entry, languages)) for languages in vehicle)

    def _entry(self, entry: ToldEntry) -> ToldEntry:
        told: Any = entry.content[entry.kind]
        shared = {key: self._once(told[key]) for key in _SHARED}
        return replace(entry, content={**entry.content, entry.kind: {**told, **shared}})

    def _once(self, node: Any) -> Any:  # noqa: ANN401 - told content, of any form
        return self._held.setdefault(digest(compact(node)), node)


def noted(entry: ToldEntry, keep: Callable[[bytes], str]) -> dict[str, Any]:
    """Return a listed entry as data; what others share too is kept apart, and named there."""
    told: Any = entry.content[entry.kind]
    named = {key: keep(compact(told[key])) for key in _SHARED}
    content = {**entry.content, entry.kind: {**told, **named}}
    return {"fit": entry.fit, "kind": entry.kind, "language": entry.language, "content": content}


def recalled(said: Mapping[str, Any], kept: Callable[[str], Any]) -> ToldEntry:
    """Return the entry that `noted` made data of; `kept` tells what stands under a name."""
    told = said["content"][said["kind"]]
    whole = {**told, **{key: kept(told[key]) for key in _SHARED}}
    return ToldEntry(**{**said, "content": {**said["content"], said["kind"]: whole}})


def _symbol(figure: Mapping[str, Any]) -> dict[str, Any]:
    return _line(figure) | {
        "name": figure["name"],
        "formula": figure["formula"],
        "sources": figure["sources"],
        "inputs": [
            _line(item) | {"figure": item["figure"]} for item in figure["inputs"] if item["title"]
        ],
    }


def _line(node: Mapping[str, Any]) -> dict[str, Any]:
    return {
        "symbol": node["symbol"],
        "title": node["title"],
        "amount": {"unit": node["amount"]["unit"]},
    }
