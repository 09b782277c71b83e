"""The readings of a finished fit against their limits, and the branch of the fault tree."""

from __future__ import annotations

from collections.abc import Mapping

from baybook.finding import Amount, Message, Ref
from baybook.guide import Guide, ReadingLine, TreeLine
from baybook.record import Judged

_SLACK = 1e-9  # of binary numbers


def judge_readings(guide: Guide, values: Mapping[str, Amount]) -> tuple[Judged, ...]:
    """Return each reading with its miss and where the fault tree leads from it. [shop-rule]

    guide   a composed guide: its readings and its tree
    values  what was read, by id, in the unit of the reading's limits; one for each reading
    """
    return tuple(_judged(guide, row, values) for row in guide.readings)


def _judged(guide: Guide, row: ReadingLine, values: Mapping[str, Amount]) -> Judged:
    read = values[row.id]
    if row.low is not None and read.value < row.low.value - _SLACK:
        return _follow(guide, row, values, "low", row.low_question)
    if row.high is not None and read.value > row.high.value + _SLACK:
        return _follow(guide, row, values, "high", row.high_question)
    return Judged(row=row, read=read, miss="")


def _follow(
    guide: Guide, row: ReadingLine, values: Mapping[str, Amount], miss: str, number: int | None
) -> Judged:
    lines = {line.number: line for line in guide.fault_tree}
    way: list[int] = []
    answer: Message | None = None
    while number is not None:
        replied = _reply(guide, lines[number], values)
        if replied is None:
            break
        way.append(number)
        answer = lines[number].yes if replied else lines[number].no
        number = _onward(answer)
    return Judged(
        row=row,
        read=values[row.id],
        miss=miss,
        way=tuple(way),
        answer=answer if number is None else None,
        ask=number,
    )


def _onward(answer: Message) -> int | None:
    number = dict(answer.values).get("number")
    return int(number.value) if answer.id == "tree.go" and isinstance(number, Amount) else None


def _reply(guide: Guide, line: TreeLine, values: Mapping[str, Amount]) -> bool | None:
    """Return what the readings say to a question, None if only a person can."""
    put = dict(line.question.values)
    read = _of(put.get("reading"), values)
    if line.question.id == "tree.posts":
        read = _at_the_posts(guide, values)
    limit, low, high = (_value(put.get(name)) for name in ("limit", "low", "high"))
    asked = line.question.id
    if read is None:
        return None
    if asked == "tree.over" and limit is not None:
        return read > limit + _SLACK
    if asked in {"tree.under", "tree.posts"} and limit is not None:
        return read < limit - _SLACK
    if asked == "tree.between" and low is not None and high is not None:
        return low - _SLACK <= read <= high + _SLACK
    return None


def _of(which: object, values: Mapping[str, Amount]) -> float | None:
    return values[which.id].value if isinstance(which, Ref) else None


def _value(amount: object) -> float | None:
    return amount.value if isinstance(amount, Amount) else None


def _at_the_posts(guide: Guide, values: Mapping[str, Amount]) -> float:
    """Volts at the posts under load: at the charger, and what is lost on both ways to it."""
    named = {row.name: values[row.id].value for row in guide.readings}
    return named["input"] + named["positive"] + named["return"]
