"""One row of the readings, and the tolerances that go into its limits."""

from __future__ import annotations

from baybook.compose.work import Work
from baybook.finding import Amount, Message
from baybook.guide import ReadingLine


def line(  # noqa: PLR0913, PLR0917 - a row of the table is all of this
    one: str,
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
        id=one,
        what=what,
        state=state,
        points=points,
        predicted=predicted,
        low=low,
        high=high,
        if_low=if_low,
        if_high=if_high,
    )


def volt_share(work: Work) -> float:
    return work.fit.shop.meter.voltage.value


def amp_share(work: Work) -> float:
    return work.fit.shop.meter.current.value


def figure(work: Work, name: str) -> float:
    return work.design.figure(name).value


def letters(work: Work, *roles: str) -> tuple[str, ...]:
    return tuple(work.joint(role).letter for role in roles)
