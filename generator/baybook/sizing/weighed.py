"""A design and what was said of it: the form in which choices are compared."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Protocol

from baybook.design import Candidate, Design
from baybook.finding import Finding, Verdict
from baybook.sizing.recall import AFRESH, Recall

# What a judge may be asked about; see `checks/subjects.py`.
BAND, LEAD, PLUG, SETTING, FITTED = "band", "lead", "plug", "setting", "fitted"
PROTECTION, SECOND = "OC", "SB"


class Judge(Protocol):
    """What is asked for a verdict: by all rules, or by those of one subject alone."""

    def __call__(self, design: Design, /, about: str = "") -> tuple[Finding, ...]: ...


@dataclass(frozen=True, slots=True, kw_only=True)
class Way:
    """How the options are gone through; what is decided does not depend on it."""

    judge: Judge
    recall: Recall = AFRESH
    whole: bool = True  # also what comes after the first that passes, for a guide to show


@dataclass(frozen=True, slots=True, kw_only=True)
class Weighed:
    """One bare design and what the judge said of it."""

    design: Design
    findings: tuple[Finding, ...]

    @property
    def refused(self) -> tuple[Finding, ...]:
        return tuple(f for f in self.findings if f.verdict is Verdict.REFUSED)


def weigh(design: Design, judge: Judge, about: str = "") -> Weighed:
    """Put a design before all rules, or those of one subject.

    [shop-rule]

    about  the subject; "" for all
    """
    return Weighed(design=design, findings=judge(design, about))


def keeps(design: Design, judge: Judge, about: str) -> bool:
    """Tell whether no rule of one subject refuses; the others need not be asked for that.

    [shop-rule]

    about  the subject
    """
    return not weigh(design, judge, about).refused


def candidate(weighed: Weighed) -> Candidate:
    """Return what is kept of a size that was weighed.

    [shop-rule]
    """
    feed = weighed.design.solved.feed
    low = feed.low
    return Candidate(
        choice=weighed.design.choice,
        current_A=low.current_A if low else None,
        charger_V=low.charger_V if low else None,
        drop=low.drop if low else None,
        margin_V=low.charger_V - feed.cut_out_V if low else None,
        carries_A=feed.carries_A,
        findings=weighed.findings,
    )
