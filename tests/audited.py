"""What the running process asks the system for: files that it opens, addresses that it calls."""

from __future__ import annotations

import os
import sys
import threading
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field


@dataclass(slots=True)
class Asked:
    """All that was asked for meanwhile, by any thread."""

    read: list[str] = field(default_factory=list)
    written: list[str] = field(default_factory=list)
    called: list[str] = field(default_factory=list)
    thread: str = ""  # only of threads with this in their name

    def note(self, event: str, given: tuple) -> None:
        if self.thread not in threading.current_thread().name:
            return
        if event == "open":
            flags = given[2] if isinstance(given[2], int) else 0
            wants = self.written if flags & (os.O_WRONLY | os.O_RDWR | os.O_CREAT) else self.read
            wants.append(str(given[0]))
        elif event in {"os.mkdir", "os.link"}:
            self.written.append(str(given[0] if event == "os.mkdir" else given[1]))
        elif event in {"socket.connect", "socket.getaddrinfo"}:
            self.called.append(str(given))


_ASKED: list[Asked] = []


def _hook(event: str, given: tuple) -> None:
    for asked in _ASKED:
        asked.note(event, given)


sys.addaudithook(_hook)  # it cannot be taken away again


@contextmanager
def audited(thread: str = "") -> Iterator[Asked]:
    """Collect what is asked for meanwhile."""
    asked = Asked(thread=thread)
    _ASKED.append(asked)
    try:
        yield asked
    finally:
        _ASKED.remove(asked)
