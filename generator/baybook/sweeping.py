"""How often Python looks for objects that only hold each other."""

from __future__ import annotations

import atexit
import gc

_OBJECTS = 200_000  # that come to be before it looks; Python's own 700 are for small heaps


def sweep_rarely() -> None:
    """Let a process that keeps much look rarely: what it keeps holds no circles.

    At its end it looks no more: the machine takes all of its memory back at once.
    """
    gc.set_threshold(_OBJECTS)
    atexit.register(gc.freeze)
