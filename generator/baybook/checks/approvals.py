"""A licensed person's approval: the third thing, beside the two gates.

It is recorded in the workbook and bound to the figures' fingerprint, so it dies with
any figure that changes. Where the profile requires one and there is none that holds,
the guide stays a draft.
"""

from __future__ import annotations

from dataclasses import replace
from datetime import date

from baybook.finding import Message, Name, say
from baybook.fit import Fit
from baybook.guide import Guide
from baybook.shop import Approval, Shop


def standing(guide: Guide, fit: Fit, figures: str, today: date) -> Guide:
    """Return the guide, as a draft with the reason if a required approval does not hold.

    [shop-rule]

    figures  fingerprint of the figures as they are now
    today    the day the question is asked for
    """
    if not fit.shop.approval_required:
        return guide
    reasons = [_fault(approval, fit.shop, figures, today) for approval in fit.job.approvals]
    if any(reason is None for reason in reasons):
        return guide
    why = [reason for reason in reasons if reason is not None] or [say("draft.approval.missing")]
    return replace(guide, draft=(*guide.draft, *why))


def _fault(approval: Approval, shop: Shop, figures: str, today: date) -> Message | None:
    person = next((p for p in shop.people if p.role == approval.by), None)
    if person is None or person.licence is None:
        return say("draft.approval.nobody", role=Name(approval.by))
    if person.until is not None and person.until < today:
        return say(
            "draft.approval.lapsed", role=Name(approval.by), day=Name(person.until.isoformat())
        )
    if approval.figures != figures:
        return say("draft.approval.changed", role=Name(approval.by), now=Name(figures))
    return None
