"""What a judge may be asked about beside everything: some rules, by a word or by letters."""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache

from baybook.checks.reads import BAND, READS, SETTING
from baybook.checks.registry import RULES

# What is fitted at the input, and what rests on that whatever power goes through it.
_FITTED = frozenset(
    {
        "fit.charger",
        "choice.power_W",
        "choice.input_limit_A",
        "choice.area_mm2",
        "choice.family",
        "choice.rating_A",
        "circuit.clip",
        "circuit.conductors",
        "circuit.fittings",
        "circuit.joints",
        "circuit.protections",
        "circuit.shrink",
        "solved.feed.carries_A",
        "solved.feed.zone",
        "solved.fault",
        "solved.fault.overload",
        "solved.overload",
    }
)


def _at_most(paths: frozenset[str]) -> frozenset[str]:
    """Return the rules that look at nothing else besides the vehicle and the job."""
    return frozenset(code for code in RULES if paths.issuperset(READS.get(code, ())))


def _lettered(letters: str) -> frozenset[str]:
    return frozenset(code for code in RULES if code.partition("-")[0] == letters)


_NAMED: Mapping[str, frozenset[str]] = {
    "": frozenset(RULES),
    "setting": SETTING,
    "band": BAND,
    "lead": (_lettered("OV") & SETTING) - BAND,
    "plug": _lettered("OV") - SETTING,
    "fitted": _at_most(_FITTED),
    "beside": frozenset(RULES) - SETTING - _at_most(_FITTED),
}


@cache
def codes_about(about: str) -> tuple[str, ...]:
    """Return the codes of the rules of a subject, in the order of the registry.

    [shop-rule]

    about  "" for all; letters of a code, "OV", for those that have them; "setting": those that a
           set voltage has a part in; "band": of them those that charger, station and set voltage
           alone decide, whatever lead lies between; "lead": the others of the output that it has
           a part in; "plug": those of the output that say the same of every setting; "fitted":
           those that charger, power step, cable and protection decide, whatever the station;
           "beside": neither "setting" nor "fitted"
    """
    wanted = _NAMED[about] if about in _NAMED else _lettered(about)
    return tuple(code for code in RULES if code in wanted)
