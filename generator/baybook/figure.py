"""Noun: a worked-out value that can be followed back to survey and standard."""

from __future__ import annotations

from dataclasses import dataclass

from baybook.quantity import Basis, Mark


@dataclass(frozen=True, slots=True, kw_only=True)
class Input:
    """One number that went into a formula."""

    symbol: str
    value: float
    unit: str
    written: str = ""  # as its source wrote it
    end: str = ""  # "low" | "high": the end of its tolerance that is used; "": as written
    figure: str = ""  # name of the figure it comes from, with its zone; else:
    zone: str = ""
    basis: Basis | None = None
    where: Mark | None = None
    source: str = ""  # id of the register, for a constant or a table's cell


@dataclass(frozen=True, slots=True, kw_only=True)
class Figure:
    """A worked-out value that can be followed back to survey and standard."""

    name: str  # "current_low"
    symbol: str  # IEC: "I", "U_t", "R" …
    value: float
    unit: str
    low: float
    high: float
    digits: int
    formula: str  # as an engineer writes it: "I = (U - U_t) / R"
    inputs: tuple[Input, ...]
    sources: tuple[str, ...]  # ids of the register
    end: str = ""  # which end of the tolerances was used, and why; message id
    show: str = ""  # unit to show it in, "mm"; "" is the usual one
    zone: str = ""  # of one that there is in each zone: the zone's name, as the guide shows it
