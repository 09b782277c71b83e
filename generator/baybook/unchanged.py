"""Whether a publish has anything to do: told without a vehicle being read, or what reads it."""

from __future__ import annotations

import json
from collections.abc import Mapping, Sequence
from datetime import date
from pathlib import Path
from typing import Any

from baybook.overlay import Overlay
from baybook.publish.inventory import inventory, stamps
from baybook.publish.standing import Standing
from baybook.publish.store import Store, digest
from baybook.publish.tool import tool_digest


class Last:
    """The last publish of a workbook into an output."""

    def __init__(
        self, store: Store, workbook: Path, output: Path, *, drafts: bool, overlay: Overlay
    ) -> None:
        """Read what was noted of it, if anything was, and look at the workbook."""
        self.standing = Standing(store, output)
        self._store, self._workbook = store, workbook
        places = (bytes(workbook.resolve()), bytes(output.resolve()))
        asked = (str(drafts).encode(), json.dumps(overlay.files).encode())
        self._key = digest(b"publish", tool_digest().encode(), *places, *asked)
        self._noted: Mapping[str, Any] = store.noted(self._key) or {}
        self._written = _plain_digest(inventory(workbook))

    @property
    def reports(self) -> list[dict[str, Any]]:
        """What was said of its fits at the terminal, as data."""
        reports: list[dict[str, Any]] = self._noted["reports"]
        return reports

    def holds(self, today: date) -> bool:
        """Tell whether a publish today would leave everything as it is."""
        said = self._noted
        return (
            bool(said)
            and said["from"] <= today.isoformat() <= said["until"]
            and said["written"] == self._written
            and said["published"] == self._published()
            and self.standing.untouched
        )

    def note(self, today: date, until: date, reports: Sequence[Mapping[str, Any]]) -> None:
        """Note a publish that is done, unless somebody wrote into the workbook meanwhile.

        until  the last day on which the same would come of the same workbook
        """
        if _plain_digest(inventory(self._workbook)) != self._written:
            return
        said = {
            "from": today.isoformat(),
            "until": until.isoformat(),
            "written": self._written,
            "published": self._published(),
            "reports": list(reports),
        }
        self._store.note(self._key, said)

    def _published(self) -> str:
        """Return what `issued/` holds: a revision that stands is never changed, nor read for it."""
        return _plain_digest(stamps(self._workbook / "issued"))


def _plain_digest(found: Mapping[str, Any]) -> str:
    return digest(json.dumps(found, sort_keys=True).encode())
