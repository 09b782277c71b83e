"""How often Python looks for objects that only hold each other."""

from __future__ import annotations

import gc

_OBJECTS = 200_000  # that come to be before it looks; Python's own 700 are for small heaps


def sweep_rarely() -> None:
    """Let a process that keeps much look rarely: what it keeps holds no circles."""
    gc.set_threshold(_OBJECTS)
