"""Tables that stand beside the core: each cell by its key, as the source prints it; read once.

A cell that nobody has read is absent. The functions that ask say which one was asked for.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from types import MappingProxyType

from baybook.standards.load import rows


@dataclass(frozen=True, slots=True, kw_only=True)
class Bend:
    """Smallest bend radius of a kind of cable."""

    diameters: float  # times the outside diameter
    source: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Handbook:
    """Every table that a pure function of its own answers from. A gauge 1/0 is 0, 4/0 is -3."""

    bends: Mapping[str, Bend]  # by kind of cable
    crimp_N: Mapping[int, float]  # by AWG
    clamp_N: Mapping[float, float]  # by nominal area in mm²
    socket_lbfin: Mapping[str, float]  # by inches across flats, as written: "3/16"
    stud_A: Mapping[tuple[str, str], float]  # the stud carries the current: thread, material
    clamping_stud_A: Mapping[str, float]  # a steel stud that only clamps, by thread
    nut_factor: Mapping[str, float]  # by surface
    crash_g: Mapping[tuple[str, str], float]  # by vehicles and direction
    blade_colour: Mapping[float, str]  # by rating in A
    rest_V: Mapping[float, float]  # 12 V lead-acid, by share of charge


@cache
def handbook() -> Handbook:
    """Return the tables. The first call reads them; they do not change afterwards."""
    return Handbook(
        bends=MappingProxyType(
            {
                row["cable"]: Bend(diameters=float(row["times_diameter"]), source=row["source"])
                for row in rows("bend_radius")
            }
        ),
        crimp_N=MappingProxyType(
            {int(row["gauge"]): float(row["force_N"]) for row in rows("crimp_pull_out")}
        ),
        clamp_N=_by_number("iec60947_clamp_pull", "area_mm2", "force_N"),
        socket_lbfin=_by_word("ul486a_socket_torque", "across_in", "torque_lbfin"),
        stud_A=_by_words("din46200_stud_torque", ("thread", "material"), "current_A"),
        clamping_stud_A=_by_word("clamping_stud_current", "thread", "current_A"),
        nut_factor=_by_word("nut_factor", "surface", "K"),
        crash_g=_by_words("crash_load", ("vehicles", "direction"), "load_g"),
        blade_colour=MappingProxyType(
            {float(row["rating_A"]): row["colour"] for row in rows("iso8820_3_colour")}
        ),
        rest_V=_by_number("rest_voltage", "charge", "voltage_V"),
    )


def _by_word(table: str, key: str, value: str) -> Mapping[str, float]:
    return MappingProxyType({row[key]: float(row[value]) for row in rows(table)})


def _by_words(table: str, keys: tuple[str, str], value: str) -> Mapping[tuple[str, str], float]:
    first, second = keys
    return MappingProxyType({(row[first], row[second]): float(row[value]) for row in rows(table)})


def _by_number(table: str, key: str, value: str) -> Mapping[float, float]:
    return MappingProxyType({float(row[key]): float(row[value]) for row in rows(table)})
