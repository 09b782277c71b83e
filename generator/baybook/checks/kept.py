"""KR: a refusal that is kept must stay one, for the same reasons."""

from __future__ import annotations

from baybook.checks.found import SHOP_RULE, Found
from baybook.design import CheckedDesign, Refusal
from baybook.finding import Finding, Listing, Ref, Value, Verdict, say
from baybook.fit import Fit

CODE = "KR-01"


def kept(fit: Fit, outcome: CheckedDesign | Refusal) -> tuple[Finding, ...]:
    """Return an error for a kept refusal that passes, or is refused under other codes.

    A fit without a kept refusal has none. [shop-rule]
    """
    expected = fit.job.refused
    if expected is None:
        return ()
    codes = _codes(outcome)
    if isinstance(outcome, Refusal) and codes == tuple(sorted(set(expected.codes))):
        return ()
    found = _listed(codes) if codes else say("rule.KR-01.passes")
    allowed = _listed(tuple(sorted(set(expected.codes))))
    fault = Found(
        verdict=Verdict.REFUSED,
        place="fit.refused.codes",
        where=fit.mark("fit.refused.codes"),
        found=found,
        allowed=allowed,
        sources=(SHOP_RULE,),
        values={"found": found, "expected": allowed},
    )
    return (fault.under(CODE),)


def _codes(outcome: CheckedDesign | Refusal) -> tuple[str, ...]:
    if isinstance(outcome, CheckedDesign):
        return ()
    return tuple(sorted({f.code for f in outcome.findings if f.verdict is Verdict.REFUSED}))


def _listed(codes: tuple[str, ...]) -> Value:
    return Listing(tuple(Ref("rule", code) for code in codes))
