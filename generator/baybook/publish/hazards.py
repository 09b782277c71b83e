"""What can hurt on the way through a guide: for a reader who has ten seconds."""

from __future__ import annotations

from typing import Any

from baybook.step import Signal

_GRAVITY = tuple(Signal)


def hazards(guide: Any) -> list[dict[str, Any]]:  # noqa: ANN401 - told JSON
    """Return each safety panel once, the gravest first, with the number of its first step."""
    found: dict[tuple[str, str], dict[str, Any]] = {}
    for chapter in guide["chapters"]:
        for step in chapter["steps"]:
            for box in step["boxes"]:
                known = (box["signal"], box["hazard"]["text"])
                found.setdefault(known, box | {"step": step["number"]})
    return sorted(found.values(), key=lambda box: _GRAVITY.index(box["signal"]))
