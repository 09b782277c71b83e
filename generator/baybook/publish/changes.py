"""What changed at an address of the site, revision by revision, and which of it concerns safety.

It reads what `listing.listed` keeps of an entry: no page is made or read for it.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Any

from baybook.book import ToldEntry

_SAFETY = frozenset({"refused", "withdrawn", "drafted", "figures", "verdict"})


@dataclass(frozen=True, slots=True, kw_only=True)
class Change:
    """One revision that a reader may want to hear of.

    kind  "new" · "again" (it was refused or withdrawn) · "revised" (words) · "figures" ·
          "verdict" · "refused" · "withdrawn" · "drafted" (a released guide went back to draft)
    """

    fit: str
    number: int
    on: str  # the day; never before that of an earlier revision of the same fit
    kind: str
    safety: bool
    newest: bool  # it is what stands at the address now


def changes_of(entry: ToldEntry) -> Iterator[Change]:
    """Yield the changes at one address, the oldest first; a draft is none.

    Of safety are withdrawals, refusals, figures or a verdict that changed since the guide that was
    released before, a guide that went back to draft, and what the shop gave a notice to.
    """
    before: Mapping[str, Any] | None = None
    guide: Mapping[str, Any] | None = None
    day = ""
    lines = _revisions(entry)
    for line in lines:
        day = max(day, line["on"])
        kind = _kind(line, before, guide)
        if kind:
            yield Change(
                fit=entry.fit,
                number=line["number"],
                on=day,
                kind=kind,
                safety=kind in _SAFETY or line["notice"],
                newest=line is lines[-1],
            )
        before = line
        guide = line if line["state"] == "released" else guide


def last_day(entry: ToldEntry) -> str:
    """Return the day that an address changed last; of a draft, the day of the draft."""
    return max(str(line["on"]) for line in _revisions(entry))


def _revisions(entry: ToldEntry) -> list[dict[str, Any]]:
    told: Any = entry.content[entry.kind]
    earlier: Any = entry.content["earlier"]
    revision: Any = entry.content["revision"]
    now = {
        "kind": entry.kind,
        "state": entry.content["state"],
        "verdict": told.get("verdict", ""),
        "notice": bool(entry.content.get("notice")),
    }
    return [*earlier, revision | now]


def _kind(
    line: Mapping[str, Any], before: Mapping[str, Any] | None, guide: Mapping[str, Any] | None
) -> str:
    """Return the kind of a change, "" for none.

    before  the revision before
    guide   the guide that was released last
    """
    if line["state"] == "draft":
        return "drafted" if before and before["state"] == "released" else ""
    if line["kind"] != "guide":
        return "refused" if line["kind"] == "refusal" else "withdrawn"
    if before is None or guide is None:
        return "new"
    if line["figures"] != guide["figures"]:
        return "figures"
    if line["verdict"] != guide["verdict"]:
        return "verdict"
    return "revised" if before["state"] == "released" else "again"
