"""Published rules that a shop profile may name, each with what it allows; read once."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from types import MappingProxyType

from baybook.standards.load import rows


@dataclass(frozen=True, slots=True, kw_only=True)
class Distance:
    """How far from its source a conductor may run without protection. [m]"""

    plain_m: float
    enclosed_m: float  # where the whole of it is sheathed or enclosed


@dataclass(frozen=True, slots=True, kw_only=True)
class FuseScope:
    """What a part of ISO 8820 covers."""

    least_A: float
    most_A: float
    voltage_V: float
    breaking_A: float
    source: str


@dataclass(frozen=True, slots=True, kw_only=True)
class RuleSets:
    support_m: Mapping[str, float]  # largest distance between supports, by rule
    distance: Mapping[str, Distance]  # of a protection from its source, by rule
    fuse_scope: Mapping[str, FuseScope]  # by part, as a sheet names it
    preferred_A: Mapping[str, frozenset[float]]  # by part; from memory, for plausibility only
    rest_V: tuple[tuple[float, float], ...]  # (share of charge, rest volts of a 12 V battery)


@cache
def rule_sets() -> RuleSets:
    """Return the rule sets. The first call reads them; they do not change afterwards."""
    return RuleSets(
        support_m=MappingProxyType(
            {row["rule"]: float(row["pitch_m"]) for row in rows("support_interval")}
        ),
        distance=MappingProxyType(
            {
                row["rule"]: Distance(
                    plain_m=float(row["plain_m"]), enclosed_m=float(row["enclosed_m"])
                )
                for row in rows("protection_distance")
            }
        ),
        fuse_scope=MappingProxyType(
            {
                row["part"]: FuseScope(
                    least_A=float(row["least_A"]),
                    most_A=float(row["most_A"]),
                    voltage_V=float(row["voltage_V"]),
                    breaking_A=float(row["breaking_A"]),
                    source=row["source"],
                )
                for row in rows("iso8820_scope")
            }
        ),
        preferred_A=MappingProxyType(
            {
                row["part"]: frozenset(float(rating) for rating in row["ratings_A"].split())
                for row in rows("iso8820_preferred")
            }
        ),
        rest_V=tuple(
            (float(row["charge"]), float(row["voltage_V"])) for row in rows("rest_voltage")
        ),
    )
