"""The first half of the flow, one fit at a time; `check` needs no more and loads no more.

fit ─size─▶ design ─approve─▶ checked design ─compose─▶ guide ─release─▶ outcome
"""

from __future__ import annotations

from datetime import date

from baybook import checks
from baybook.book import Outcome
from baybook.checks.approvals import standing
from baybook.checks.release import release
from baybook.compose import compose, refuse
from baybook.design import Refusal
from baybook.fit import Fit
from baybook.guide import Guide, RefusalSheet, ReleasedGuide
from baybook.plain import figures_fingerprint
from baybook.sizing.choose import choose


def decide(fit: Fit, today: date) -> Outcome:
    """Size one fit, judge it, and turn the result into a guide or a refusal.

    today  the day that an approver's licence is asked for
    """
    design = choose(fit, checks.judge)
    result = design if isinstance(design, Refusal) else checks.approve(design)
    faults = checks.kept(fit, result)
    figures = figures_fingerprint(result)
    content: Guide | RefusalSheet | None
    if isinstance(result, Refusal):
        content = refuse(result)
    else:
        walked = release(result, compose(result))
        if isinstance(walked, ReleasedGuide):
            content = standing(walked.guide, fit, figures, today)
        else:
            content, faults = None, (*faults, *walked)
    return Outcome(
        fit=fit,
        result=result,
        content=content,
        findings=result.findings,
        faults=faults,
        figures=figures,
    )
