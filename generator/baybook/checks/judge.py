"""The judge that sizing asks, and the first gate: no `CheckedDesign` is made elsewhere."""

from __future__ import annotations

from baybook.checks.registry import RULES
from baybook.checks.subjects import codes_about
from baybook.design import CheckedDesign, Design, Refusal
from baybook.finding import Finding, Verdict

RANK = {verdict: rank for rank, verdict in enumerate(reversed(Verdict))}


def judge(design: Design, about: str = "") -> tuple[Finding, ...]:
    """Return what all rules find, the gravest first, then in the order of the registry.

    [shop-rule]

    about  a subject, for its rules only, see `codes_about`; "" for all
    """
    found = [found.under(code) for code in codes_about(about) for found in RULES[code](design)]
    return tuple(sorted(found, key=lambda finding: RANK[finding.verdict]))


def approve(design: Design) -> CheckedDesign | Refusal:
    """Run every rule again on the finished circuit; let it pass, or refuse it.

    [shop-rule]
    """
    findings = judge(design)
    refused = tuple(f for f in findings if f.verdict is Verdict.REFUSED)
    if refused:
        return Refusal(
            fit=design.fit,
            findings=refused,
            candidates=design.candidates,
            figures=design.figures,
            charts=design.charts,
            cascades=design.cascades,
        )
    return CheckedDesign(design=design, findings=findings)
