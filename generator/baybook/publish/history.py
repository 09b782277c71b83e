"""What was published before: `issued/` in the workbook, one file a revision.

Revisions, withdrawals and old addresses come from here, never from the output folder.
A file is written once, by a publish that succeeded, and never changed.
"""

from __future__ import annotations

import json
import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from datetime import date
from pathlib import Path
from typing import Any

from baybook.book import Entry, Revision, Told, ToldEntry

FORMAT = 1
_FILE = re.compile(r"^(\d{4})\.json$")


class HistoryError(Exception):
    """A file of `issued/` that cannot be read: it says which, and what to do."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Issue:
    """One published revision of one fit."""

    fit: str
    kind: str  # "guide" | "refusal" | "withdrawal"
    state: str
    revision: Revision
    language: str
    content: Mapping[str, Any]  # ToldEntry.content

    @property
    def identity(self) -> dict[str, Told]:
        """Return the told identity: it outlives the fit."""
        identity: dict[str, Told] = self.content[self.kind]["identity"]
        return identity


History = Mapping[str, tuple[Issue, ...]]  # fit → its revisions, the oldest first


def load_history(workbook: Path) -> History:
    """Return all that `issued/` holds. Raises HistoryError for a file that is cut or not ours."""
    found: dict[str, list[Issue]] = {}
    for file in sorted((workbook / "issued").glob("*/*/*.json")):
        if not _FILE.match(file.name):
            raise HistoryError(f"{file}: not a revision; names are 0001.json, 0002.json …")
        issue = _read(file)
        expected = "/".join(file.parts[-3:-1])
        if issue.fit != expected:
            raise HistoryError(f"{file}: speaks of {issue.fit}, stands under {expected}")
        found.setdefault(issue.fit, []).append(issue)
    return {fit: tuple(issues) for fit, issues in found.items()}


def _read(file: Path) -> Issue:
    try:
        raw = json.loads(file.read_text("utf-8"))
        if raw["format"] != FORMAT:
            raise HistoryError(f"{file}: format {raw['format']}; this version reads {FORMAT}")
        return Issue(
            fit=raw["fit"],
            kind=raw["kind"],
            state=raw["state"],
            revision=revision_from(raw["revision"]),
            language=raw["language"],
            content=raw["content"],
        )
    except (OSError, ValueError, KeyError, TypeError) as cause:
        raise HistoryError(
            f"{file}: cannot be read ({cause}); take it back from your version control"
        ) from cause


def revision_from(raw: Mapping[str, Any]) -> Revision:
    """Return the revision that `revision_plain` wrote."""
    return Revision(
        number=int(raw["number"]),
        on=date.fromisoformat(raw["on"]),
        check_after=date.fromisoformat(raw["check_after"]),
        figures=str(raw["figures"]),
        text=str(raw["text"]),
    )


def revision_plain(revision: Revision) -> dict[str, Told]:
    return {
        "number": revision.number,
        "on": revision.on.isoformat(),
        "check_after": revision.check_after.isoformat(),
        "figures": revision.figures,
        "text": revision.text,
    }


def revise(entry: Entry, earlier: tuple[Issue, ...], *, text: str, months: int) -> Revision:
    """Return the standing revision if nothing changed, else the next one.

    text    fingerprint of what the entry tells
    months  how long a print may be used before it is checked again
    """
    revision = Revision(
        number=earlier[-1].revision.number + 1 if earlier else 1,
        on=entry.on,
        check_after=months_after(entry.on, months),
        figures=entry.figures,
        text=text,
    )
    if not earlier:
        return revision
    last = earlier[-1]
    standing = replace(revision, number=last.revision.number) == last.revision
    same = standing and (last.kind, last.state) == (entry.kind, entry.state)
    return last.revision if same else revision


def months_after(day: date, months: int) -> date:
    """Return the same day so many months later, the last of the month where it is shorter."""
    month = day.month - 1 + months
    year, month = day.year + month // 12, month % 12 + 1
    for last in (day.day, 30, 29, 28):
        try:
            return date(year, month, last)
        except ValueError:
            continue
    raise AssertionError("every month has a 28th")


def issue_files(issues: Iterable[Issue], history: History) -> dict[str, bytes]:
    """Return the files of the revisions that `issued/` does not hold yet, by path inside it."""
    files: dict[str, bytes] = {}
    for issue in issues:
        if any(i.revision.number == issue.revision.number for i in history.get(issue.fit, ())):
            continue
        raw = {
            "format": FORMAT,
            "fit": issue.fit,
            "kind": issue.kind,
            "state": issue.state,
            "revision": revision_plain(issue.revision),
            "language": issue.language,
            "content": issue.content,
        }
        text = json.dumps(raw, ensure_ascii=False, indent=1, sort_keys=True)
        files[f"{issue.fit}/{issue.revision.number:04d}.json"] = (text + "\n").encode()
    return files


def issue_of(entry: ToldEntry) -> Issue:
    """Return what `issued/` keeps of a told entry."""
    content: Mapping[str, Any] = entry.content
    return Issue(
        fit=entry.fit,
        kind=entry.kind,
        state=content["state"],
        revision=revision_from(content["revision"]),
        language=entry.language,
        content=content,
    )


def add_issued(workbook: Path, files: Mapping[str, bytes]) -> None:
    """Write new revisions into `issued/`; a revision that stands there is never touched."""
    for name, content in sorted(files.items()):
        target = workbook / "issued" / name
        target.parent.mkdir(parents=True, exist_ok=True)
        staged = target.with_suffix(".part")
        staged.write_bytes(content)
        staged.rename(target)
