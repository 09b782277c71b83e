"""The tables, read once. A cell that nobody has read is absent; it is never filled by guess."""

from __future__ import annotations

import csv
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from functools import cache
from importlib.resources import files
from types import MappingProxyType
from typing import TypeVar

Row = Mapping[str, str]
_Key = TypeVar("_Key")
_Value = TypeVar("_Value")


@dataclass(frozen=True, slots=True, kw_only=True)
class Cfr183:
    """33 CFR 183.425 Table 5 and its notes. A gauge 1/0 is 0, 4/0 is -3."""

    current_A: Mapping[tuple[int, float], float]  # by gauge and insulation rating in °C
    engine_factor: Mapping[float, float]  # note 1, by insulation rating; 80 °C was never read
    bundle_factor: tuple[tuple[int, float], ...]  # note 2: from so many conductors, rising


@dataclass(frozen=True, slots=True, kw_only=True)
class Standards:
    """Every table that the tool calculates with. Each key reads as the source prints it."""

    constants: Mapping[str, float]
    class2_r20_mohm_per_m: Mapping[float, float]  # plain copper, by nominal area in mm²
    class5_r20_mohm_per_m: Mapping[float, float]
    class2_tinned_r20_mohm_per_m: Mapping[float, float]
    class5_tinned_r20_mohm_per_m: Mapping[float, float]
    iso6722_limit_C: Mapping[str, float]  # by temperature class, "A" to "H"
    sae_area_cmil: Mapping[float, float]  # by SAE gauge; 1/0 is 0
    cfr183: Cfr183
    highest_supply_V: Mapping[float, float]  # by nominal voltage, over all codes of the class
    proof_load_N: Mapping[tuple[str, str], float]  # by thread and property class
    steel_torque_Nm: Mapping[tuple[str, str], float]  # the highest, by thread and property class
    stud_torque_Nm: Mapping[tuple[str, str], float]  # by thread and material
    clamp_torque_lbfin: Mapping[tuple[int, str], float]  # by AWG and head of the screw


@cache
def load() -> Standards:
    """Return the tables. The first call reads them; they do not change afterwards."""
    return Standards(
        constants=_frozen({row["name"]: float(row["value"]) for row in rows("constants")}),
        class2_r20_mohm_per_m=_resistance("2", "plain"),
        class5_r20_mohm_per_m=_resistance("5", "plain"),
        class2_tinned_r20_mohm_per_m=_resistance("2", "tinned"),
        class5_tinned_r20_mohm_per_m=_resistance("5", "tinned"),
        iso6722_limit_C=_frozen(
            {row["class"]: float(row["limit_C"]) for row in rows("iso6722_1_class")}
        ),
        sae_area_cmil=_frozen(
            {float(row["gauge"]): float(row["area_cmil"]) for row in rows("sae_j1127_area")}
        ),
        cfr183=_cfr183(),
        highest_supply_V=_highest_supply(),
        proof_load_N=_by_thread("iso898_1_proof_load", "property_class", "proof_load_N"),
        steel_torque_Nm=_by_thread("vdi2230_torque", "property_class", "torque_Nm"),
        stud_torque_Nm=_by_thread("din46200_stud_torque", "material", "torque_Nm"),
        clamp_torque_lbfin=_frozen(
            {
                (int(row["gauge"]), row["screw"]): float(row["torque_lbfin"])
                for row in rows("ul486a_clamp_torque")
            }
        ),
    )


def tables() -> tuple[str, ...]:
    """Return the names of all tables, sorted."""
    names = (entry.name for entry in files(__package__).iterdir())
    return tuple(sorted(name.removesuffix(".csv") for name in names if name.endswith(".csv")))


def rows(table: str) -> Iterator[Row]:
    """Yield the rows of one table as they are written, with their source column."""
    text = (files(__package__) / f"{table}.csv").read_text(encoding="utf-8")
    yield from csv.DictReader(text.splitlines())


def _frozen(table: dict[_Key, _Value]) -> Mapping[_Key, _Value]:
    return MappingProxyType(table)


def _resistance(conductor_class: str, metal: str) -> Mapping[float, float]:
    column = f"r20_{metal}_mohm_per_m"
    listed = (row for row in rows("iec60228_2004_resistance") if row["class"] == conductor_class)
    return _frozen({float(row["area_mm2"]): float(row[column]) for row in listed})


def _cfr183() -> Cfr183:
    return Cfr183(
        current_A=_frozen(
            {
                (int(row["gauge"]), float(row["insulation_C"])): float(row["current_A"])
                for row in rows("cfr183_425_table5")
            }
        ),
        engine_factor=_frozen(
            {
                float(row["insulation_C"]): float(row["factor"])
                for row in rows("cfr183_425_engine_space")
            }
        ),
        bundle_factor=tuple(
            (int(row["fewest"]), float(row["factor"])) for row in rows("cfr183_425_bundle")
        ),
    )


def _highest_supply() -> Mapping[float, float]:
    highest: dict[float, float] = {}
    for row in rows("iso16750_2_supply"):
        nominal, high = float(row["nominal_V"]), float(row["high_V"])
        highest[nominal] = max(high, highest.get(nominal, high))
    return _frozen(highest)


def _by_thread(table: str, second: str, value: str) -> Mapping[tuple[str, str], float]:
    return _frozen({(row["thread"], row[second]): float(row[value]) for row in rows(table)})
