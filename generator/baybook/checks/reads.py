"""What each rule looks at besides the vehicle and the job, so that a verdict can be kept.

A rule that is not named here looks at nothing else. `tests/checks/test_remembering.py` watches
every rule and fails on one that looks at more than stands here.
"""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

_CHOSEN = ("choice.area_mm2", "choice.family", "choice.rating_A")
_FUSED = (*_CHOSEN, "circuit.protections")
_SETTING = ("fit.charger", "fit.station", "choice.set_V", "solved.output")
_SECOND = (
    "fit.charger",
    "circuit.protections",
    "choice.second_family",
    "choice.second_rating_A",
    "solved.second",
    "solved.second_overload",
    "solved.output",
)

READS: Mapping[str, tuple[str, ...]] = MappingProxyType(
    {
        **dict.fromkeys(("SU-05", "SU-09", "SU-01", "OV-11", "CU-01", "CU-02"), ("fit.charger",)),
        **dict.fromkeys(("NE-04",), ("fit.charger",)),
        **dict.fromkeys(("OV-08", "OV-09", "OV-12"), ("fit.station", "fit.connector")),
        **dict.fromkeys(("OV-01", "OV-02", "OV-03", "OV-04", "OV-05", "OV-06"), _SETTING),
        "SU-10": _SETTING,
        "OV-07": ("solved.output.current_A", "solved.output.drop"),
        "OV-10": (
            "fit.charger",
            "fit.connector",
            "solved.output.high_V",
            "solved.output.lead_carries_A",
            "solved.output.most_A",
        ),
        "HT-01": ("fit.charger", "solved.output.power_W", "solved.place.derated"),
        "FX-01": ("solved.place.tip_m",),
        **dict.fromkeys(
            ("FX-03", "FX-11", "FX-12"), ("solved.place.fixing_N", "solved.place.held_N")
        ),
        "FX-13": (
            "solved.place.rearward",
            "solved.place.sideways",
            "solved.place.station_N",
            "solved.place.upward",
        ),
        **dict.fromkeys(("PL-01", "PL-02"), ("solved.payload",)),
        **dict.fromkeys(("TQ-01", "TQ-02", "TQ-11", "TQ-12", "TQ-13"), ("circuit.joints",)),
        **dict.fromkeys(("SU-02", "SU-11"), ("choice.input_limit_A", "choice.power_W")),
        "SU-07": ("choice.input_limit_A", "choice.power_W", "fit.charger"),
        **dict.fromkeys(("SU-12", "OC-21"), ("choice.input_limit_A", "solved.feed")),
        **dict.fromkeys(("NE-03", "CU-04"), ("solved.feed",)),
        "CA-07": ("solved.feed.carries_A",),
        **dict.fromkeys(("SU-03", "SU-04", "CU-03"), ("solved.budget", "solved.feed")),
        **dict.fromkeys(("CA-01", "CA-03"), ("choice.area_mm2", "solved.feed")),
        "CA-02": ("choice.area_mm2", "fit.charger", "solved.feed"),
        "CA-04": ("choice.area_mm2", "fit.charger"),
        "CA-05": (
            "choice.area_mm2",
            "circuit.clip",
            "circuit.fittings",
            "circuit.joints",
            "circuit.shrink",
        ),
        "CA-12": ("choice.area_mm2", "circuit.joints", "solved.feed"),
        **dict.fromkeys(("CA-11", "CA-14", "RT-02", "RT-12"), ("choice.area_mm2",)),
        "AG-01": (
            "choice.area_mm2",
            "choice.rating_A",
            "circuit.conductors",
            "circuit.protections",
            "solved.feed",
            "figures",  # each design has its own, or none; with them the setting too
        ),
        "OC-01": ("choice.input_limit_A", "circuit.protections", "solved.fault"),
        "OC-02": (*_FUSED, "circuit.conductors", "solved.feed.carries_A", "solved.feed.zone"),
        "OC-03": (*_FUSED, "fit.charger"),
        "OC-09": ("circuit.protections", "solved.fault.overload", "solved.feed.carries_A"),
        **dict.fromkeys(("OC-05", "OC-06", "OC-08", "OC-22"), (*_FUSED, "solved.fault")),
        **dict.fromkeys(("OC-04", "OC-07", "OC-10", "OC-11", "OC-12", "OC-24", "OC-26"), _FUSED),
        "OC-25": ("choice.rating_A", "solved.overload"),
        **dict.fromkeys(("SB-01", "SB-02", "SB-03", "SB-04", "SB-05", "SB-06"), _SECOND),
        **dict.fromkeys(("SB-07", "SB-08", "SB-09", "SB-10"), _SECOND),
    }
)


def _moves(path: str) -> bool:
    return path == "choice.set_V" or path.startswith("solved.output")


# What a set voltage has a part in; the agreement of the laws looks at it only in a whole design.
SETTING = frozenset(code for code, reads in READS.items() if any(map(_moves, reads)))
# Of the output these look at nothing but the band between its lowest and highest voltage.
BAND = frozenset({"OV-01", "OV-02", "OV-03", "OV-04", "OV-05", "OV-06"})
