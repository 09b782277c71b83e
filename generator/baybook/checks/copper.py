"""CA: whether a cable's sheet agrees with copper and with the standard that it names.

Every size of both sheets is looked at, not only the chosen one: a sheet that is wrong in one
row is not believed in the others.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from functools import lru_cache

from baybook.checks.found import Found, degrees
from baybook.design import Design
from baybook.finding import Amount, Name, Verdict
from baybook.part import CableSheet, CableSize
from baybook.standards import load

# Read once on import, so that the rules open no file.
_STANDARDS = load()
_RHO = _STANDARDS.constants["copper_resistivity"]  # ohm mm²/m at 20 °C
_PRINTED = 0.01  # resistances and areas are printed to three digits
_CLEAN = 1e-9  # 0.554 mΩ/m read and 0.554 / 1000 differ in the last binary digit
_IEC = re.compile(r"\bIEC ?60228\b.*\bclass ?([25])\b", re.IGNORECASE)
_ISO = re.compile(r"\bISO ?(?:6722(?:-1)?|19642(?:-\d+)?)\b.*\bclass ?([A-H])\b", re.IGNORECASE)
_MAXIMA: Mapping[tuple[str, str], Mapping[float, float]] = {
    ("2", "copper"): _STANDARDS.class2_r20_mohm_per_m,
    ("5", "copper"): _STANDARDS.class5_r20_mohm_per_m,
    ("2", "tinned copper"): _STANDARDS.class2_tinned_r20_mohm_per_m,
    ("5", "tinned copper"): _STANDARDS.class5_tinned_r20_mohm_per_m,
}


def less_than_copper(design: Design) -> Iterator[Found]:
    """Believe no sheet whose conductor resists less than copper of its area. [nbs-100]

    R'_20 ≥ 0.017241 ohm mm²/m / S, less 1 % for printed digits
    """
    for cable, size in sizes_of(design):
        least = _RHO / size.area.high
        if size.resistance.high < least * (1 - _PRINTED):
            yield _found(cable, size, least, ("nbs-100",), Verdict.REFUSED)


def more_than_standard(design: Design) -> Iterator[Found]:
    """Believe no sheet whose conductor resists more than the standard that it names allows.

    R'_20 ≤ the row of its class and metal        [iec60228], Tables 2 and 3
    Less copper than its name, or no copper: neither its ampacity nor its withstand holds.
    """
    for cable, size in sizes_of(design):
        most = _most(cable, size)
        if most is not None and size.resistance.low > most * (1 + _CLEAN):
            yield _found(cable, size, most, ("iec60228",), Verdict.REFUSED)


def maximum_unread(design: Design) -> Iterator[Found]:
    """Tell where no table that was read holds the sheet's resistance. [shop-rule]

    The sheet's own figure is used. The resistances of ISO 6722-1 and ISO 19642 were not read.
    """
    for cable, size in laid_sizes(design):
        if _most(cable, size) is None:
            yield _found(cable, size, size.resistance.value, ("shop-rule",), Verdict.CAUTION)


def warmer_than_class(design: Design) -> Iterator[Found]:
    """Let no sheet claim more heat than its temperature class stands. [iso6722-1]

    conductor_max ≤ limit of the class that the sheet names, A 85 °C to H 250 °C
    """
    for cable in _cables(design):
        named = _ISO.search(cable.standard)
        if named is None:
            continue
        limit = _STANDARDS.iso6722_limit_C[named.group(1).upper()]
        if cable.conductor_max.high > limit:
            yield Found(
                verdict=Verdict.REFUSED,
                place="cable.conductor_max",
                where=cable.conductor_max.where,
                found=Amount.of(cable.conductor_max, 0).plain(),
                allowed=degrees(limit).at_most(),
                sources=("iso6722-1",),
                values={
                    "cable": Name(cable.name),
                    "standard": Name(cable.standard),
                    "claimed": Amount.of(cable.conductor_max, 0).plain(),
                    "limit": degrees(limit).at_most(),
                },
            )


def _cables(design: Design) -> tuple[CableSheet, ...]:
    own, lead = design.fit.cable, design.fit.output_cable
    return (own,) if own == lead else (own, lead)


def sizes_of(design: Design) -> Iterator[tuple[CableSheet, CableSize]]:
    """Every size of both sheets, the input cable's first. [fit-sheet]"""
    for cable in _cables(design):
        for size in cable.sizes:
            yield cable, size


def laid_sizes(design: Design) -> Iterator[tuple[CableSheet, CableSize]]:
    """The size that is chosen of the input cable, and the lead's. [fit-sheet]"""
    chosen, lead = design.choice.area_mm2, design.fit.job.output_area.value
    cables = _cables(design)
    areas = ({chosen, lead},) if len(cables) == 1 else ({chosen}, {lead})
    for cable, wanted in zip(cables, areas, strict=True):
        yield from ((cable, size) for size in cable.sizes if size.area.value in wanted)


@lru_cache(maxsize=64)  # asked for at every size of every design: the sheets of a vehicle or two
def class_named(standard: str) -> str | None:
    """Class of IEC 60228 that a sheet names, None where it names none. [iec60228]

    standard  as the sheet words it, "IEC 60228 class 5"
    """
    named = _IEC.search(standard)
    return named.group(1) if named else None


def highest_resistance(standard: str, material: str, area_mm2: float) -> float | None:
    """Highest resistance at 20 °C by the standard that a sheet names, None if unread. [ohm/m]

    The table's own row, never a value between two rows. [iec60228], Tables 2 and 3

    standard  as the sheet words it, "IEC 60228 class 5"
    material  "copper" or "tinned copper"
    area_mm2  nominal area, any; the tables list 0.5 to 300 [mm2]
    """
    named = class_named(standard)
    if named is None:
        return None
    row = _MAXIMA[named, material].get(area_mm2)
    return None if row is None else row / 1000


def _most(cable: CableSheet, size: CableSize) -> float | None:
    return highest_resistance(cable.standard, cable.material, size.area.value)


def _found(
    cable: CableSheet, size: CableSize, limit: float, sources: tuple[str, ...], verdict: Verdict
) -> Found:
    area = Amount.area(size.area.value)
    claimed = Amount(size.resistance.value, "ohm/m", 2)
    allowed = Amount(limit, "ohm/m", 2)
    return Found(
        verdict=verdict,
        place="cable.resistance",
        where=size.resistance.where,
        found=claimed,
        allowed=allowed,
        sources=sources,
        values={
            "cable": Name(cable.name),
            "standard": Name(cable.standard),
            "area": area,
            "claimed": claimed,
            "limit": allowed,
        },
    )
