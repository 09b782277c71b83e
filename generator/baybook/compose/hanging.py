"""A pull that is judged on a hanging scale: the force of its table, and what the scale shows."""

from __future__ import annotations

from dataclasses import dataclass

from baybook.compose.work import Work
from baybook.finding import Amount, Message, say


@dataclass(frozen=True, slots=True, kw_only=True)
class Hanging:
    """How hard to pull, and how a technician sees it."""

    force: Amount
    note: Message  # what the scale shows


def hanging(work: Work, name: str) -> Hanging | None:
    """Return the pull of a pair of figures, None where the design has none.

    name  of both figures, with {} for "pull" and "scale"
    """
    pull, scale = name.format("pull"), name.format("scale")
    if not work.has(pull):
        return None
    shown = work.amount(scale).at_least()
    return Hanging(force=work.amount(pull).at_least(), note=say("note.scale", scale=shown))
