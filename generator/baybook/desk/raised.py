"""What a check raised, gathered: the same finding of several fits is told once."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from pathlib import Path, PurePath, PurePosixPath

from baybook.book import Outcome
from baybook.finding import Finding, Verdict


@dataclass(frozen=True, slots=True, kw_only=True)
class Raised:
    """One finding, and which fits it was raised for."""

    finding: Finding
    fits: tuple[str, ...]  # empty: a fault of a file, before any fit was looked at
    kept: bool  # a refusal that its fit expects


def gather(problems: Sequence[Finding], outcomes: Iterable[Outcome]) -> tuple[Raised, ...]:
    """Return faults of files and findings of fits in the order of files and lines, each once."""
    fits: dict[tuple[Finding, bool], dict[str, None]] = {(one, False): {} for one in problems}
    for outcome in outcomes:
        for finding in (*outcome.findings, *outcome.faults):
            fits.setdefault((finding, _kept(outcome, finding)), {})[outcome.fit.id] = None
    raised = (Raised(finding=f, fits=tuple(ids), kept=kept) for (f, kept), ids in fits.items())
    return tuple(sorted(raised, key=_order))


def _kept(outcome: Outcome, finding: Finding) -> bool:
    return finding.verdict is Verdict.REFUSED and not outcome.failed


def _order(raised: Raised) -> tuple[str, int, int, str, tuple[str, ...]]:
    where = raised.finding.where
    return where.file, where.line, where.column, raised.finding.code, raised.fits


def top_of(workbook: Path) -> Path:
    """Return the top of the repository that holds a workbook, else the folder that holds it.

    Machines that read a report know files by their path from there, wherever it was made.
    """
    real = workbook.resolve()
    for folder in (real, *real.parents):
        if (folder / ".git").exists():
            return folder
    return real.parent


def path_from(top: PurePath, workbook: PurePath, file: str) -> str:
    """Return the path of a finding's file from `top`, with `/` on every machine.

    file  as marks name it: the workbook's own folder first
    """
    inside = PurePosixPath(file).parts[1:]
    return PurePosixPath(*workbook.relative_to(top).parts, *inside).as_posix()
