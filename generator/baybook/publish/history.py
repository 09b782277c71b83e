"""What was published before: `issued/` in the workbook, one file a revision.

Revisions, withdrawals and old addresses come from here, never from the output folder.
A file is written once, just before its site takes the place of the old one, and never changed:
a publish that is killed in between leaves a revision that nobody saw, never two under one number.
"""

from __future__ import annotations

import json
import re
from collections.abc import Iterable, Iterator, Mapping, Sequence
from contextlib import suppress
from dataclasses import dataclass, field, replace
from datetime import date
from pathlib import Path
from typing import Any

import msgspec

from baybook.book import Entry, Revision, Told, ToldEntry
from baybook.publish.compact import compact

FORMAT = 1
LARGEST = (
    20_000_000  # bytes; the longest honest revision, in two languages, has a fifteenth of that
)
_FILE = re.compile(r"^[0-9]{4}\.json$")
_DEPTH = 3  # vehicle, fit, revision
_STAGED = ".part"  # a revision that a killed publish did not finish
_KINDS = ("guide", "refusal", "withdrawal")
_TAKE_BACK = "take issued/ back from your version control"


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
    # The told identity in the site's other languages: a withdrawal needs it when the fit is gone.
    identities: Mapping[str, Any] = field(default_factory=dict)

    @property
    def identity(self) -> dict[str, Told]:
        """Return the told identity: it outlives the fit."""
        identity: dict[str, Told] = self.content[self.kind]["identity"]
        return identity

    def identity_in(self, language: str) -> dict[str, Told]:
        """Return the told identity in a language; of an edition before it, as it was told then.

        Nothing else is left of a fit that is gone, and most of it is names.
        """
        found: dict[str, Told] = self.identities.get(language, self.identity)
        return found


Issued = Mapping[str, tuple[Path, ...]]  # fit → the files of its revisions, the oldest first


def issued(workbook: Path) -> Issued:
    """Return what `issued/` holds, by name. Raises HistoryError for what is missing or stray."""
    found: dict[str, list[Path]] = {}
    for file in _files(workbook / "issued"):
        files = found.setdefault(_fit(file), [])
        if int(file.stem) != (follows := len(files) + 1):
            _issue(file)  # a file under a wrong number is told as such
            missing = file.with_name(f"{follows:04d}.json")
            raise HistoryError(f"{missing}: missing, and {file.name} follows it; {_TAKE_BACK}")
        files.append(file)
    return {fit: tuple(files) for fit, files in found.items()}


def load_issues(files: Iterable[Path]) -> tuple[Issue, ...]:
    """Return the revisions in these files. Raises HistoryError for one that is cut or not ours."""
    return tuple(map(_issue, files))


def _issue(file: Path) -> Issue:
    issue = _read(file)
    if issue.fit != _fit(file):
        raise HistoryError(
            f"{file}: speaks of {issue.fit}, stands under {_fit(file)}; {_TAKE_BACK}"
        )
    if issue.revision.number != int(file.stem):
        raise HistoryError(
            f"{file}: holds revision {issue.revision.number} under the name of {int(file.stem)}; "
            f"{_TAKE_BACK}"
        )
    return issue


def _fit(file: Path) -> str:
    return "/".join(file.parts[-3:-1])


def _files(root: Path) -> Iterator[Path]:
    """Yield the revisions, those of a fit in their order; hidden files are the editor's."""
    for file in [root, *sorted(root.rglob("*"))]:
        parts = file.relative_to(root).parts
        if any(part.startswith(".") for part in parts) or file.suffix == _STAGED:
            continue
        if file.is_symlink():
            raise HistoryError(f"{file}: a link; put the files themselves in its place")
        if file.is_dir() or not file.exists():
            continue
        if len(parts) != _DEPTH or not _FILE.match(file.name):
            raise HistoryError(
                f"{file}: not a revision; issued/ holds VEHICLE/FIT/0001.json, 0002.json …; "
                "move the file out"
            )
        yield file


def _read(file: Path) -> Issue:
    try:
        if file.stat().st_size > LARGEST:
            raise HistoryError(f"{file}: more than {LARGEST:,} bytes; {_TAKE_BACK}")
        raw = json.loads(file.read_text("utf-8"))
        if raw["format"] != FORMAT:
            raise HistoryError(f"{file}: format {raw['format']}; this version reads {FORMAT}")
        return Issue(
            fit=raw["fit"],
            kind=_kind(raw),
            state=raw["state"],
            revision=revision_from(raw["revision"]),
            language=raw["language"],
            content=raw["content"],
            identities=raw.get("identities", {}),
        )
    except (OSError, ValueError, KeyError, TypeError, RecursionError) as cause:
        raise HistoryError(
            f"{file}: not a revision that baybook wrote; {_TAKE_BACK} ({_said(cause)})"
        ) from cause


def _kind(raw: Mapping[str, Any]) -> str:
    kind: str = raw["kind"]
    if kind not in _KINDS or not raw["content"][kind]["identity"]["code"]:
        raise ValueError("no guide, refusal or withdrawal")
    return kind


def _said(cause: Exception) -> str:
    return f"{cause} is missing" if isinstance(cause, KeyError) else str(cause)


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


def passed(issue: Issue) -> dict[str, Told]:
    """Return what a later edition says of a revision."""
    return revision_plain(issue.revision) | {
        "kind": issue.kind,
        "language": issue.language,
        "state": issue.state,
        "verdict": issue.content[issue.kind].get("verdict", ""),
        "notice": bool(issue.content.get("notice")),
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


def issue_files(
    issues: Iterable[Issue], history: Mapping[str, Sequence[Issue]]
) -> dict[str, bytes]:
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
        } | ({"identities": issue.identities} if issue.identities else {})
        lines = msgspec.json.format(compact(raw), indent=1)  # for who reads it in a comparison
        files[f"{issue.fit}/{issue.revision.number:04d}.json"] = lines + b"\n"
    return files


def issue_of(entry: ToldEntry, *others: ToldEntry) -> Issue:
    """Return what `issued/` keeps of a told entry.

    others  the same entry in the site's other languages
    """
    content: Mapping[str, Any] = entry.content
    told: dict[str, Any] = {other.language: other.content[other.kind] for other in others}
    return Issue(
        fit=entry.fit,
        kind=entry.kind,
        state=content["state"],
        revision=revision_from(content["revision"]),
        language=entry.language,
        content=content,
        identities={language: node["identity"] for language, node in told.items()},
    )


def add_issued(workbook: Path, files: Mapping[str, bytes]) -> None:
    """Write new revisions into `issued/`; a revision that stands there is never touched.

    Raises HistoryError for a folder that cannot be written, and for a revision that another
    publish wrote in the meantime.
    """
    for name in sorted(files):
        content = files[name]  # one at a time: there are as many as guides
        target = workbook / "issued" / name
        staged = target.with_suffix(_STAGED)
        try:
            target.parent.mkdir(parents=True, exist_ok=True)
            staged.write_bytes(content)
            _name_once(staged, target)
        except OSError as cause:
            if isinstance(cause, FileExistsError) and _holds(target, content):
                continue  # the same publish, twice at once
            if target.exists():
                raise HistoryError(
                    f"{target}: another publish wrote it just now; publish again"
                ) from None
            raise HistoryError(f"{target}: cannot be written: {cause.strerror or cause}") from cause
        finally:
            with suppress(OSError):
                staged.unlink(missing_ok=True)


def _holds(file: Path, content: bytes) -> bool:
    return file.is_file() and file.read_bytes() == content


def _name_once(staged: Path, target: Path) -> None:
    """Give a finished file its name. Raises FileExistsError if the name is taken."""
    try:
        target.hardlink_to(staged)
    except FileExistsError:
        raise
    except OSError:  # a file system without hard links
        if target.exists():
            raise FileExistsError(str(target)) from None
        staged.rename(target)
