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
from baybook.shop import Approval, Person

_HOLDS = "caution.approved"


def standing(guide: Guide, fit: Fit, figures: str, today: date) -> Guide:
    """Return the guide with the approval that it needs, or as a draft with the reason why not.

    [shop-rule]

    figures  fingerprint of the figures as they are now
    today    the day the question is asked for
    """
    if not fit.shop.approval_required:
        return guide
    licensed = {person.role: person for person in fit.shop.people if person.licence is not None}
    said = [_said(one, licensed.get(one.by), figures, today) for one in fit.job.approvals]
    if held := [message for message in said if message.id == _HOLDS]:
        return replace(guide, cautions=(*guide.cautions, *held))
    return replace(guide, draft=(*guide.draft, *(said or [say("draft.approval.missing")])))


def _said(approval: Approval, person: Person | None, figures: str, today: date) -> Message:
    """Return whose approval holds, or why it does not."""
    role = Name(approval.by)
    if person is None:
        return say("draft.approval.nobody", role=role)
    if person.until is not None and person.until < today:
        return say("draft.approval.lapsed", role=role, day=Name(person.until.isoformat()))
    if approval.figures != figures:
        return say("draft.approval.changed", role=role, now=Name(figures))
    day = Name(approval.on.isoformat())
    return say(_HOLDS, by=role, licence=Name(str(person.licence)), on=day)
