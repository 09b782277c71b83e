"""The judge that sizing asks, and the first gate: no `CheckedDesign` is made elsewhere."""

from __future__ import annotations

from collections.abc import Mapping

from baybook.checks.found import Rule
from baybook.checks.reads import BAND, SETTING
from baybook.checks.registry import RULES
from baybook.design import CheckedDesign, Design, Refusal
from baybook.finding import Finding, Verdict

RANK = {verdict: rank for rank, verdict in enumerate(reversed(Verdict))}


def _by_subject() -> Mapping[str, tuple[tuple[str, Rule], ...]]:
    rules = {"": tuple(RULES.items())}
    for code, rule in RULES.items():
        subject = code.partition("-")[0]
        rules[subject] = (*rules.get(subject, ()), (code, rule))
    rules["setting"] = tuple((code, RULES[code]) for code in RULES if code in SETTING)
    rules["band"] = tuple((code, RULES[code]) for code in RULES if code in BAND)
    return rules


_RULES = _by_subject()


def judge(design: Design, about: str = "") -> tuple[Finding, ...]:
    """Return what all rules find, the gravest first, then in the order of the registry.

    [shop-rule]

    about  letters of a code, "OV": only the rules of that subject; "" for all; "setting": those
           that a set voltage has a part in; "band": of them those that charger, station and
           set voltage alone decide, whatever lead lies between
    """
    found = [found.under(code) for code, rule in _RULES[about] for found in rule(design)]
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
