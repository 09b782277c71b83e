"""What is wrong, found on paper: questions with this vehicle's own thresholds, yes and no.

Every threshold is a limit of the readings, so the tree asks nothing that the table does not.
A pair of readings picks the branch: low current with good volts is the station's side, volts
near the cut-out are a drop, a drop is halved until one joint is left.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from baybook.compose.practice import RUN_SPEED
from baybook.compose.readings import readings
from baybook.compose.work import Work, at, by_start, count, device, reading
from baybook.finding import Amount, Message, Ref, Value, say
from baybook.guide import ReadingLine, TreeLine

_WHAT = {
    "running": "reading.running",
    "open": "reading.output-open",
    "current": "reading.source-current",
    "fuse": "reading.fuse-drop",
    "plus": "reading.positive-drop",
    "minus": "reading.return-drop",
    "body": "reading.body-drop",
    "input": "reading.charger-input",
    "idle": "reading.idle",
    "joints": "reading.joints",
}


@dataclass(frozen=True, slots=True)
class _Question:
    """One question under its own name; `yes` and `no` name a question, or the end of the way."""

    name: str
    asked: Message
    yes: str | Message
    no: str | Message


def fault_tree(work: Work) -> tuple[TreeLine, ...]:
    """Return the questions, numbered from 1, each answer a number to go to or what to do."""
    by_words = {row.what.id: row for row in readings(work)}
    rows = {name: by_words[words] for name, words in _WHAT.items() if words in by_words}
    asked = _questions(work, rows)
    numbers = {question.name: number for number, question in enumerate(asked, 1)}

    def leads(answer: str | Message) -> Message:
        if isinstance(answer, Message):
            return answer
        return say("tree.go", number=count(numbers[answer]))

    return tuple(
        TreeLine(
            number=numbers[one.name],
            question=one.asked,
            yes=leads(one.yes),
            no=leads(one.no),
        )
        for one in asked
    )


def _questions(work: Work, rows: dict[str, ReadingLine]) -> tuple[_Question, ...]:
    return (
        *_dead(work, rows),
        *_hunting(rows),
        *_demand(rows),
        _at_the_posts(work, rows),
        *_joints(rows),
        *_idle(rows),
    )


def _dead(work: Work, rows: dict[str, ReadingLine]) -> tuple[_Question, ...]:
    """Does it run at all, and if not: no volts in, or no cue."""
    start = work.fit.charger.cut_in if work.voltage_cue else work.fit.charger.cut_out_run
    awake = "tree.end.cue.voltage" if work.voltage_cue else "tree.end.cue.line"
    return (
        _Question("open", _band(rows["open"]), "hunts", "over"),
        _Question("over", _over(rows["open"]), say("tree.end.over"), "fed"),
        _Question(
            "fed",
            say(by_start(work, "tree.fed"), **_points(rows["input"]), limit=Amount.of(start)),
            say(awake, setting=work.setting),
            "post",
        ),
        _Question(
            "post",
            say(
                by_start(work, "tree.post"),
                **_points(rows["running"]),
                limit=_limit(rows["running"].low),
            ),
            say("tree.end.open", fuse=device(work.fuse.tag)),
            say(by_start(work, "tree.end.vehicle")),
        ),
    )


def _hunting(rows: dict[str, ReadingLine]) -> tuple[_Question, ...]:
    """Stop and go: near the cut-out it is a drop, else it is the station."""
    return (
        _Question("hunts", say("tree.hunts"), "sags", "current"),
        _Question("sags", _under(rows["input"]), "posts", say("tree.end.station-restarts")),
    )


def _demand(rows: dict[str, ReadingLine]) -> tuple[_Question, ...]:
    """Little current with good volts is the station's side; more than predicted is a fault."""
    return (
        _Question("current", _under(rows["current"]), "weak", "more"),
        _Question("weak", _under(rows["input"]), "posts", say("tree.end.demand")),
        _Question("more", _over(rows["current"]), say("tree.end.more"), "plus"),
    )


def _joints(rows: dict[str, ReadingLine]) -> tuple[_Question, ...]:
    """Positive first, and in it the protection; then the return; then what is warm."""
    plus = rows["plus"].if_high or say("tree.end.find")
    minus = rows["minus"].if_high or say("tree.end.find")
    hot = rows["joints"].if_high or say("tree.end.find")
    fuse = rows.get("fuse")
    within = (
        (_Question("fuse", _over(fuse), fuse.if_high or say("tree.end.find"), plus),)
        if fuse is not None
        else ()
    )
    body = rows.get("body")
    through = (
        (_Question("body", _over(body), body.if_high or say("tree.end.find"), minus),)
        if body is not None
        else ()
    )
    last = "idle" if "idle" in rows else say("tree.end.none")
    return (
        _Question("plus", _over(rows["plus"]), "fuse" if within else plus, "minus"),
        *within,
        _Question("minus", _over(rows["minus"]), "body" if through else minus, "warm"),
        *through,
        _Question("warm", _over(rows["joints"]), hot, last),
    )


def _at_the_posts(work: Work, rows: dict[str, ReadingLine]) -> _Question:
    """Is it the vehicle that sags."""
    return _Question(
        "posts",
        say("tree.posts", **_points(rows["running"]), limit=_limit(rows["running"].low)),
        say(by_start(work, "tree.end.vehicle")),
        "plus",
    )


def _idle(rows: dict[str, ReadingLine]) -> Iterator[_Question]:
    """Fine at speed and not at idle is the budget, not the fit."""
    if "idle" in rows:
        yield _Question(
            "idle",
            say("tree.idle", speed=RUN_SPEED.amount),
            say("tree.end.idle", reading=_id(rows["idle"]), low=_limit(rows["idle"].low)),
            say("tree.end.none"),
        )


# --------------------------------------------------------------------------- how a question is put


def _points(row: ReadingLine) -> dict[str, Value]:
    first, last = row.points[0], row.points[-1]
    named: dict[str, Value] = {"start": at(first), "end": at(last)}
    return named


def _limit(amount: Amount | None) -> Amount:
    if amount is None:
        raise ValueError("a question needs a limit of its reading")
    return amount


def _id(row: ReadingLine) -> Ref:
    return reading(row.id)


def _band(row: ReadingLine) -> Message:
    return say("tree.between", reading=_id(row), low=_limit(row.low), high=_limit(row.high))


def _over(row: ReadingLine) -> Message:
    return say("tree.over", reading=_id(row), limit=_limit(row.high))


def _under(row: ReadingLine) -> Message:
    return say("tree.under", reading=_id(row), limit=_limit(row.low))
