"""Noun: everything that is published, and its told form.

`Book` holds messages; the told form is the same tree with every message turned into
plain runs of one language and set of units. Page, print, drawing and terminal read
the told form only. It is JSON all the way down:

    dataclass   {field name: told value, …}          tuple   [told value, …]
    Message     {"runs": [run, …], "text": "the same as one plain string"}
    Name        as a Message
    Ref         as a Message
    Amount      {"figure": "4.5", "unit": "N·m", "converted": "3.3 lbf·ft", "text": "4.5 N·m",
                 "value": 4.5, "inside": "N*m", "runs": [figure run, unit run]}
                `converted` is "" where there is none; `figure` and `unit` are the control value
    enum        its value        date   "2024-11-29"        None   None

    run         {"kind": "text" | "strong" | "figure" | "unit" | "letter" | "converted",
                 "text": "…"}
                letter: a joint's letter, set in a ring; figure and unit are never parted;
                converted: the figure before it once more, in brackets, for a US reader
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from typing import TypeAlias

from baybook.design import CheckedDesign, Refusal
from baybook.finding import Finding, Message, Name, Verdict
from baybook.fit import Fit
from baybook.guide import Guide, RefusalSheet
from baybook.overlay import NO_OVERLAY, Overlay

Told: TypeAlias = "dict[str, Told] | list[Told] | str | int | float | bool | None"


@dataclass(frozen=True, slots=True, kw_only=True)
class Revision:
    """Which edition of an entry this is. The date is the workbook's."""

    number: int
    on: date
    check_after: date
    figures: str  # fingerprint of all that a figure depends on
    text: str  # fingerprint of the told text


@dataclass(frozen=True, slots=True, kw_only=True)
class Outcome:
    """What became of one fit."""

    fit: Fit
    result: CheckedDesign | Refusal
    content: Guide | RefusalSheet | None  # None: the walk of the steps found faults
    findings: tuple[Finding, ...]
    faults: tuple[Finding, ...]  # a refusal not kept so, or kept and passing; a bad walk
    figures: str  # fingerprint of all that a figure depends on

    @property
    def verdict(self) -> Verdict:
        return Verdict.REFUSED if isinstance(self.result, Refusal) else self.result.verdict

    @property
    def failed(self) -> bool:
        """A fault, or a refusal that nobody expected."""
        unkept = self.fit.job.refused is None and isinstance(self.result, Refusal)
        return bool(self.faults) or unkept

    @property
    def report(self) -> Report:
        """What is said of the fit at the terminal."""
        kept = self.verdict is Verdict.REFUSED and not self.failed
        drafted = isinstance(self.content, Guide) and not self.failed
        return Report(
            fit=self.fit.id,
            verdict="refused, kept" if kept else str(self.verdict),
            codes=tuple(sorted({finding.code for finding in self.findings})),
            failed=self.failed,
            findings=(*self.findings, *self.faults) if self.failed else self.faults,
            draft=self.content.draft if drafted and isinstance(self.content, Guide) else (),
            figures=self.figures,
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class Report:
    """What became of one fit, as far as a person at the terminal is told."""

    fit: str
    verdict: str
    codes: tuple[str, ...]
    failed: bool
    findings: tuple[Finding, ...]  # of a fit that failed
    draft: tuple[Message, ...]  # why its guide is a draft
    figures: str  # the fingerprint that an approval names


@dataclass(frozen=True, slots=True, kw_only=True)
class Withdrawal:
    """Stands where a guide stood that holds no longer."""

    why: Message
    findings: tuple[Finding, ...]
    last: Revision  # the guide that it withdraws


@dataclass(frozen=True, slots=True, kw_only=True)
class Entry:
    """One address of the site, before it has words and a revision."""

    fit: str
    kind: str  # "guide" | "refusal" | "withdrawal"
    state: str  # "released" | "draft" | "refused" | "withdrawn"
    content: Guide | RefusalSheet | Withdrawal
    figures: str  # fingerprint of all that a figure depends on
    on: date
    notice: Name | None = None  # what readers of an earlier revision must know


@dataclass(frozen=True, slots=True, kw_only=True)
class ToldEntry:
    """The told content of one address.

    `content` has "state", "revision" and "earlier" (a list of revisions, each with "kind",
    "state", "verdict" and whether it had a "notice"), and under its `kind` the told guide, the
    told refusal, or the told withdrawal with the "identity" of what it stops. Where the shop has
    something to say to readers of an earlier revision, it is there as "notice".
    """

    fit: str
    kind: str  # "guide" | "refusal" | "withdrawal"
    language: str
    content: dict[str, Told]


@dataclass(frozen=True, slots=True, kw_only=True)
class Tongue:
    """One language of the site, and where its pages are."""

    language: str
    folder: str  # under the site's root: "" for the first language, else "de/"
    name: str  # as its own readers call it


@dataclass(frozen=True, slots=True, kw_only=True)
class ToldBook:
    """The book in one language. The same fits, states and revisions stand in every one."""

    language: str
    shop: dict[str, Told]
    words: dict[str, str]  # the fixed words of the templates: headings, labels
    entries: tuple[ToldEntry, ...]
    pairings: tuple[dict[str, Told], ...] = ()  # told lines of the matrix
    matrix: bool = False  # whether the site has the page of all pairings
    tongues: tuple[Tongue, ...] = ()  # all languages of the site, the first at its root
    rules: tuple[dict[str, Told], ...] = ()  # the told families of rules, for the manual
    overlay: Overlay = NO_OVERLAY  # templates of the shop's own

    @property
    def folder(self) -> str:
        """Where this language's pages are, under the site's root: "" or "de/"."""
        here = (tongue.folder for tongue in self.tongues if tongue.language == self.language)
        return next(here, "")
