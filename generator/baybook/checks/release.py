"""The second gate: the finished steps are walked, one by one, on a model of the circuit.

Nothing here knows how the order was found. What is live follows from the battery's negative,
the protection and the ends that are joined so far; each rule looks at that timeline.
Rules: common-practice (isolation, order of work, holds) and DOE-STD-1029-92 (a warning
stands before the step it concerns).
"""

from __future__ import annotations

from baybook.checks.steps_order import ORDER
from baybook.checks.steps_sheet import SHEET
from baybook.checks.walked import Fault, Walk, follow
from baybook.design import CheckedDesign
from baybook.finding import Finding, Message, Verdict
from baybook.guide import Guide, ReleasedGuide

_RULES = (*ORDER, *SHEET)


def walk(design: CheckedDesign, guide: Guide) -> tuple[Finding, ...]:
    """Return every fault of the steps, in the order of the work; nothing if there is none.

    [shop-rule]

    design  the checked design that the guide was composed from
    guide   its steps, holds, boxes and readings are looked at
    """
    track = follow(design, guide)
    faults = [fault for rule in _RULES for fault in rule(track)]
    unique = dict.fromkeys(sorted(faults, key=lambda fault: (fault.number, fault.code)))
    return tuple(_finding(track, fault) for fault in unique)


def release(checked: CheckedDesign, guide: Guide) -> ReleasedGuide | tuple[Finding, ...]:
    """Return the guide as released, or every fault that was met on the walk.

    [shop-rule]
    """
    return walk(checked, guide) or ReleasedGuide(guide=guide)


def _finding(track: Walk, fault: Fault) -> Finding:
    values = (("number", fault.number), ("what", fault.what))
    return Finding(
        verdict=Verdict.REFUSED,
        code=fault.code,
        place=f"steps.{fault.step}" if fault.step else "steps",
        where=track.fit.mark("fit"),
        title=Message(f"rule.{fault.code}.title", values),
        found=fault.what,
        allowed=Message(f"rule.{fault.code}.allowed", values),
        why=Message(f"rule.{fault.code}.why", values),
        way_out=Message("rule.ST.way_out"),
        sources=("common-practice",),
    )
