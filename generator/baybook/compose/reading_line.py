"""One row of the readings, before it knows its id and where its misses lead."""

from __future__ import annotations

from baybook.compose.work import Work
from baybook.finding import Amount, Message
from baybook.guide import ReadingLine


def line(  # noqa: PLR0913, PLR0917 - a row of the table is all of this
    name: str,
    what: Message,
    state: Message,
    points: tuple[str, ...],
    predicted: Amount | None,
    low: Amount | None,
    high: Amount | None,
    if_low: Message | None = None,
    if_high: Message | None = None,
) -> ReadingLine:
    return ReadingLine(
        id="",
        name=name,
        what=what,
        state=state,
        points=points,
        predicted=predicted,
        low=low,
        high=high,
        if_low=if_low,
        if_high=if_high,
    )


def letters(work: Work, *roles: str) -> tuple[str, ...]:
    return tuple(work.joint(role).letter for role in roles)
