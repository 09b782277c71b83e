"""The register: what each id that the tool cites stands for, and how it was read."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from enum import StrEnum
from functools import cache
from importlib.resources import files
from types import MappingProxyType
from typing import Any, Final

import yaml


class Read(StrEnum):
    """How the source came to us, from best to weakest."""

    ORIGINAL = "original"  # the document itself
    REPRINT = "reprint"  # pages that reproduce it
    DERIVED = "derived"  # arithmetic on rows that were read
    COMMON_PRACTICE = "common practice"  # the trade's custom; no document
    FROM_MEMORY = "from memory"  # not confirmed; never the only ground of a safety margin


@dataclass(frozen=True, slots=True, kw_only=True)
class Source:
    """One entry of sources.yaml."""

    id: str
    title: str
    edition: str
    clause: str  # clause or table; "-" where there is none
    read: Read
    described: bool = False  # the title is our description, and no document's own
    offers: str = ""  # a figure that a shop profile may take from it
    note: str = ""  # conflicts, misprints, and what was decided

    @property
    def place(self) -> str:
        """Edition, and clause or table in it."""
        told = self.clause not in {"-", self.edition}
        return f"{self.edition}, {self.clause}" if told else self.edition


LANGUAGE: Final = "en"  # of the register itself


@cache
def register() -> Mapping[str, Source]:
    """Return every source by its id, in the order of the file."""
    text = (files(__package__) / "sources.yaml").read_text(encoding="utf-8")
    entries: dict[str, dict[str, Any]] = yaml.load(text, Loader=yaml.CSafeLoader)
    return MappingProxyType({name: _source(name, entry) for name, entry in entries.items()})


def register_words() -> dict[str, str]:
    """Return what the register says of its sources, by the ids that other languages tell it by."""
    told = register().values()
    titles = {f"source.title.{one.id}": one.title for one in told if one.described}
    return titles | {f"source.edition.{one.id}": one.place for one in told}


def _source(name: str, entry: dict[str, Any]) -> Source:
    fields = dict(entry)
    return Source(id=name, read=Read(fields.pop("read")), **fields)
