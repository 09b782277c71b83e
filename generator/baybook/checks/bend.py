"""CA: whether a cable's sheet lets it bend tighter than the published rule of its class.

The sheet's own figure counts for the path; this rule asks for a second look at it.
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from baybook.checks.copper import class_named, laid_sizes
from baybook.checks.found import Found, area, millimetres, pieces
from baybook.design import Design
from baybook.finding import Amount, Name, Verdict
from baybook.part import CableSheet, CableSize
from baybook.standards.handbook import Bend, handbook

# Read once on import, so that the rule opens no file.
_BENDS = handbook().bends
_PHOTOVOLTAIC = re.compile(r"\bEN ?50618\b", re.IGNORECASE)
_FLEXIBLE = "5"  # [iec60228]
_THIN_MM2 = 35  # [bs7211], the first of its two rows ends here
_CLEAN = 1e-9  # 3 × 5.4 mm and 16.2 mm differ in the last binary digit


def tighter_than_class(design: Design) -> Iterator[Found]:
    """Tell where the sheet of a laid size allows less than the bend of its class.

    r ≥ n D        n by kind: [bs7211] for a flexible single core, [en50618]
    """
    for cable, size in laid_sizes(design):
        bend = _bend(cable, size)
        least_m = bend.diameters * size.diameter.low if bend else 0.0
        if bend is None or size.bend_radius.high >= least_m * (1 - _CLEAN):
            continue
        least, claimed = millimetres(least_m, 1).at_least(), Amount.of(size.bend_radius, 1).plain()
        yield Found(
            verdict=Verdict.CAUTION,
            place="cable.bend_radius",
            where=size.bend_radius.where,
            found=claimed,
            allowed=least,
            sources=(bend.source,),
            values={
                "cable": Name(cable.name),
                "area": area(size.area.value, size.nearest_awg),
                "claimed": claimed,
                "least": least,
                "times": pieces(int(bend.diameters)),
                "diameter": Amount.of(size.diameter, 1).plain(),
            },
        )


def _bend(cable: CableSheet, size: CableSize) -> Bend | None:
    """The published bend of this size, None where its sheet names no class that has one."""
    if _PHOTOVOLTAIC.search(cable.standard):
        return _BENDS["photovoltaic, fixed"]
    if class_named(cable.standard) != _FLEXIBLE:
        return None
    side = "up to" if size.area.low <= _THIN_MM2 else "above"
    return _BENDS[f"flexible single core {side} 35 mm2"]
