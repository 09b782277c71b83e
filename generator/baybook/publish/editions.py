"""What stands at each address: a guide, a refusal, or a withdrawal of what stood there.

A fit that is refused, gone, or back in draft never leaves its old guide standing.
"""

from __future__ import annotations

from datetime import date

from baybook.book import Entry, Outcome, Withdrawal
from baybook.finding import Finding, Message, Name, say
from baybook.guide import Guide, RefusalSheet
from baybook.publish.history import Issue


def enter(
    outcome: Outcome | None, issues: tuple[Issue, ...], *, drafts: bool, today: date
) -> Entry | None:
    """Return what stands at the address of a fit; None: there is nothing, and never was.

    outcome  None: the fit is gone from the workbook
    issues   what was published at the address before
    drafts   whether a draft is published, as a draft
    today    the day that a withdrawal is dated by
    """
    entry = _entry(outcome, drafts=drafts) if outcome else None
    if entry is None and issues:
        return _withdrawal(issues, *_why(outcome), today)
    return entry


def _entry(outcome: Outcome, *, drafts: bool) -> Entry | None:
    """Return the guide or the kept refusal; None if this fit has nothing to publish."""
    content = outcome.content
    if outcome.failed or content is None:
        return None
    if isinstance(content, RefusalSheet):
        kind, state = "refusal", "refused"
    else:
        kind, state = "guide", "draft" if content.draft else "released"
    if state == "draft" and not drafts:
        return None
    return Entry(
        fit=outcome.fit.id,
        kind=kind,
        state=state,
        content=content,
        figures=outcome.figures,
        on=outcome.fit.job.checked.on,
        notice=Name(notice) if (notice := outcome.fit.job.checked.safety) else None,
    )


def _why(outcome: Outcome | None) -> tuple[Message, tuple[Finding, ...]]:
    if outcome is None:
        return say("withdrawn.removed"), ()
    if isinstance(outcome.content, Guide) and not outcome.failed:
        return say("withdrawn.draft"), ()
    return say("withdrawn.refused"), (*outcome.findings, *outcome.faults)


def _withdrawal(
    issues: tuple[Issue, ...], why: Message, findings: tuple[Finding, ...], today: date
) -> Entry:
    newest = issues[-1]
    withdrawn = [issue for issue in issues if issue.kind != "withdrawal"][-1]
    return Entry(
        fit=newest.fit,
        kind="withdrawal",
        state="withdrawn",
        content=Withdrawal(why=why, findings=findings, last=withdrawn.revision),
        figures=withdrawn.revision.figures,
        on=newest.revision.on if newest.kind == "withdrawal" else today,
    )
