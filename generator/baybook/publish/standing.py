"""What stands in an output, as far as the file system tells: size and time of every file.

Noted after each publish. So the next one takes over what is to stay without reading it, and one
for which nothing changed need not do anything. A file that was changed since has another time.
"""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path
from typing import Any

from baybook.publish.inventory import stamps
from baybook.publish.store import Store, digest
from baybook.publish.writer import MARKER


class Standing:
    """What the last publish left in one output."""

    def __init__(self, store: Store, output: Path) -> None:
        """Read what was noted of `output`, if anything was."""
        self._store, self._place = store, output.resolve()
        self._key = digest(b"output", bytes(self._place))
        noted: Mapping[str, Any] = store.noted(self._key) or {}
        self.names: dict[str, str] = noted.get("names", {})
        self._stamps: dict[str, list[int]] = noted.get("stamps", {})

    def holds(self, address: str, name: str, file: Path) -> bool:
        """Tell whether a file of the output is untouched and holds what the store calls `name`."""
        if self.names.get(address) != name or file.is_symlink() or not file.is_file():
            return False
        there = file.stat()
        return self._stamps[address] == [there.st_size, there.st_mtime_ns]

    @property
    def untouched(self) -> bool:
        """Tell whether the output holds exactly what was left in it."""
        return bool(self._stamps) and self._stamps == self._now()

    def note(self, names: Mapping[str, str]) -> None:
        """Note what a publish has just left in the output: address → name in the store."""
        self.names, self._stamps = dict(names), self._now()
        self._store.note(self._key, {"names": self.names, "stamps": self._stamps})

    def _now(self) -> dict[str, list[int]]:
        found = {address: list(stamp) for address, stamp in stamps(self._place).items()}
        found.pop(MARKER, None)
        return found
