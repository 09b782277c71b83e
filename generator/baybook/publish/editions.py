"""What stands at each address: a guide, a refusal, or a withdrawal of what stood there.

A fit that is refused, gone, or back in draft never leaves its old guide standing.
"""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date

from baybook.book import Entry, Outcome, Withdrawal
from baybook.finding import Finding, Message, say
from baybook.guide import Guide, RefusalSheet
from baybook.publish.history import History, Issue


def enter(
    outcomes: Sequence[Outcome], history: History, *, drafts: bool, today: date
) -> tuple[Entry, ...]:
    """Return the entries of the book, sorted by fit.

    drafts  whether a draft is published, as a draft
    today   the day that a withdrawal is dated by
    """
    entries = [_entry(outcome, drafts=drafts) for outcome in outcomes]
    made = [entry for entry in entries if entry is not None]
    standing = {entry.fit for entry in made}
    why = {outcome.fit.id: _why(outcome) for outcome in outcomes}
    gone = [
        _withdrawal(issues, *why.get(fit, (say("withdrawn.removed"), ())), today)
        for fit, issues in history.items()
        if fit not in standing
    ]
    return tuple(sorted([*made, *gone], key=lambda entry: entry.fit))


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
    )


def _why(outcome: Outcome) -> tuple[Message, tuple[Finding, ...]]:
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
