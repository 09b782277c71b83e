"""The judge that sizing asks, and the first gate: no `CheckedDesign` is made elsewhere."""

from __future__ import annotations

from baybook.checks.registry import RULES
from baybook.design import CheckedDesign, Design, Refusal
from baybook.finding import Finding, Verdict

_GRAVEST_FIRST = tuple(reversed(Verdict))


def judge(design: Design) -> tuple[Finding, ...]:
    """Return what all rules find, the gravest first, then in the order of the registry."""
    found = [found.under(code) for code, rule in RULES.items() for found in rule(design)]
    return tuple(sorted(found, key=lambda finding: _GRAVEST_FIRST.index(finding.verdict)))


def approve(design: Design) -> CheckedDesign | Refusal:
    """Run every rule again on the finished circuit; let it pass, or refuse it."""
    findings = judge(design)
    refused = tuple(f for f in findings if f.verdict is Verdict.REFUSED)
    if refused:
        return Refusal(
            fit=design.fit,
            findings=refused,
            candidates=design.candidates,
            figures=design.figures,
        )
    return CheckedDesign(design=design, findings=findings)
