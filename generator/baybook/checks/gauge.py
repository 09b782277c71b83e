"""CA: whether a size has the copper of the gauge that its sheet names.

SAE gauge and AWG share their numbers and not their areas: a cable made to the one is sold under
the name of the other. Every size of both sheets is looked at, as in `copper`.
"""

from __future__ import annotations

from collections.abc import Iterator
from functools import lru_cache
from math import isclose

from baybook.checks.copper import sizes_of
from baybook.checks.found import Found, area, share
from baybook.design import Design
from baybook.finding import Message, Name, Verdict, say
from baybook.part import CableSize
from baybook.standards import load
from baybook.units import awg_area_mm2, gauge_named

# Read once on import, so that the rule opens no file.
_SAE_CMIL = load().sae_area_cmil
_CIRCULAR_MIL_MM2 = load().constants["circular_mil"]
_PRINTED = 0.01  # areas are printed to three digits, some to two
_ALIKE = 0.02  # 0.8 mm² on a sheet is SAE 18, of 0.779 mm²


def named_thicker(design: Design) -> Iterator[Found]:
    """Tell where the gauge that a sheet names has more copper than its size. [astm-b258]

    S < S_AWG, less 1 % for printed digits; within 2 % of the SAE gauge of the same number it
    is told as that one [sae-j1127]. The area of the sheet counts in every figure.
    """
    for cable, size in sizes_of(design):
        named = _area_mm2(size.nearest_awg)
        if size.area.high >= named * (1 - _PRINTED):
            continue
        yield Found(
            verdict=Verdict.CAUTION,
            place="cable.nearest_awg",
            where=size.area.where,
            found=area(size.area.value),
            allowed=area(named).at_least(),
            sources=("astm-b258", "sae-j1127"),
            values={
                "cable": Name(cable.name),
                "area": area(size.area.value),
                "gauge": Name(size.nearest_awg),
                "named": area(named).at_least(),
                "what": _told(size, named),
            },
        )


@lru_cache(maxsize=64)  # asked for at every size of every design: the sheets of a vehicle or two
def _area_mm2(gauge: str) -> float:
    return awg_area_mm2(gauge_named(gauge))


def sae_area_mm2(gauge: int) -> float | None:
    """Smallest conductor area of this SAE gauge, None where the table lists none. [mm2]

    SAE gauge is not AWG: the areas are 3 to 12 % smaller under the same number. [sae-j1127]

    gauge  any; the table lists 18 to 4/0; 1/0 is 0, 2/0 is -1, 3/0 is -2, 4/0 is -3
    """
    listed = _SAE_CMIL.get(gauge)
    return None if listed is None else _CIRCULAR_MIL_MM2 * listed


def _told(size: CableSize, named_mm2: float) -> Message:
    sae = sae_area_mm2(gauge_named(size.nearest_awg))
    as_sae = sae is not None and isclose(size.area.value, sae, rel_tol=_ALIKE)
    return say(
        "rule.CA-13.sae" if as_sae else "rule.CA-13.less",
        gauge=Name(size.nearest_awg),
        number=Name(size.nearest_awg.replace("AWG", "").strip()),
        short=share(1 - size.area.value / named_mm2, 1),
    )
