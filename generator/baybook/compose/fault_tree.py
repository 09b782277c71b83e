"""What is wrong, found on paper: questions with this vehicle's own thresholds, yes and no.

Every threshold is a limit of the readings, so the tree asks nothing that the table does not.
A pair of readings picks the branch: low current with good volts is the station's side, volts
near the cut-out are a drop, a drop is halved until one joint is left. Each miss of a reading
names the question at which to enter.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace

from baybook.compose.practice import RUN_SPEED
from baybook.compose.work import Work, at, by_start, count, device, reading
from baybook.finding import Amount, Message, Value, say
from baybook.guide import ReadingLine, TreeLine

NEXT = ""  # go on with the next question of the chain

# Where a miss enters: reading → question if low, question if high.
_ENTRY = {
    "rest": ("rest-low", "rest-high"),
    "running": ("running-low", "running-high"),
    "open": ("open", "open"),
    "current": ("current", "more"),
    "fuse": ("", "fuse"),
    "positive": ("", "plus"),
    "return": ("", "minus"),
    "body": ("", "body"),
    "input": ("sags", "running-high"),
    "output": ("volts", "volts-high"),
    "output_current": ("amps", "amps-high"),
    "display": ("display", "display-high"),
    "joints": ("", "joints"),
    "case": ("", "case"),
    "idle": ("deeper", ""),
    "restarts": ("restarts", ""),
    "noise": ("", "noise"),
    "stopped": ("", "stopped"),
    "codes": ("", "codes"),
    "sleep": ("", "before"),
    "asleep": ("asleep-low", "asleep"),
}


@dataclass(frozen=True, slots=True)
class _Question:
    """One question under its own name; `yes` and `no` name a question, or the end of the way."""

    name: str
    asked: Message
    yes: str | Message
    no: str | Message = NEXT
    aside: bool = False  # reached by an answer only: no part of the chain


@dataclass(frozen=True, slots=True)
class Tree:
    """The numbered questions, and the readings with the question that each miss leads to."""

    lines: tuple[TreeLine, ...]
    readings: tuple[ReadingLine, ...]


def fault_tree(work: Work, rows: tuple[ReadingLine, ...]) -> Tree:
    """Return the questions, numbered from 1, each answer a number to go to or what to do."""
    asked = _linked(tuple(_questions(work, {row.name: row for row in rows})))
    numbers = {question.name: number for number, question in enumerate(asked, 1)}

    def leads(answer: str | Message) -> Message:
        if isinstance(answer, Message):
            return answer
        return say("tree.go", number=count(numbers[answer]))

    lines = tuple(
        TreeLine(
            number=numbers[one.name],
            question=one.asked,
            yes=leads(one.yes),
            no=leads(one.no),
        )
        for one in asked
    )
    return Tree(lines=lines, readings=tuple(_entered(row, numbers) for row in rows))


def _entered(row: ReadingLine, numbers: Mapping[str, int]) -> ReadingLine:
    low, high = _ENTRY[row.name]
    return replace(
        row,
        low_question=numbers[low] if row.low is not None else None,
        high_question=numbers[high] if row.high is not None else None,
    )


def _linked(asked: tuple[_Question, ...]) -> tuple[_Question, ...]:
    """Lead each answer that says "next" to the next question of the chain, the last one out."""
    onward: str | Message = say("tree.end.none")
    linked: list[_Question] = []
    for one in reversed(asked):
        yes, no = (onward if way == NEXT else way for way in (one.yes, one.no))
        linked.append(replace(one, yes=yes, no=no))
        if not one.aside:
            onward = one.name
    return tuple(reversed(linked))


def _questions(work: Work, rows: Mapping[str, ReadingLine]) -> Iterator[_Question]:
    yield from _void(rows)
    yield from _dead(work, rows)
    yield from _demand(rows)
    yield from _joints(work, rows)
    yield from _output(rows)
    yield from _warm(rows)
    yield from _idle(rows)
    yield from _parked(rows)


def _void(rows: Mapping[str, ReadingLine]) -> Iterator[_Question]:
    """What makes every other reading worthless: an empty battery, a vehicle that gives no volts."""
    for name in ("rest", "running"):
        if name in rows:
            row = rows[name]
            yield _Question(f"{name}-low", _under(row), _says(row.if_low))
            yield _Question(f"{name}-high", _over(row), _says(row.if_high))


def _dead(work: Work, rows: Mapping[str, ReadingLine]) -> tuple[_Question, ...]:
    """Does it run at all, and if not: no volts in, or no cue."""
    start = work.fit.charger.cut_in if work.voltage_cue else work.fit.charger.cut_out_run
    awake = "tree.end.cue.voltage" if work.voltage_cue else "tree.end.cue.line"
    fed = say(by_start(work, "tree.fed"), **_points(rows["input"]), limit=Amount.of(start))
    low = _limit(rows["running"].low)
    post = say(by_start(work, "tree.post"), **_points(rows["running"]), limit=low)
    vehicle = say(by_start(work, "tree.end.vehicle"))
    return (
        _Question("open", _band(rows["open"]), NEXT, "over"),
        _Question("over", _over(rows["open"]), say("tree.end.over"), "fed", aside=True),
        _Question("fed", fed, say(awake, setting=work.setting), "post", aside=True),
        _Question(
            "post", post, say("tree.end.open", fuse=device(work.fuse.tag)), vehicle, aside=True
        ),
    )


def _demand(rows: Mapping[str, ReadingLine]) -> tuple[_Question, ...]:
    """Stop and go, little current, or more than predicted: a drop, the demand, or a fault."""
    low, much = rows["input"], rows["output_current"]
    restarts = say("tree.end.station-restarts")
    return (
        _Question("hunts", say("tree.hunts"), "sags"),
        _Question("sags", _under(low), "posts", restarts, aside=True),
        _Question("current", _under(rows["current"]), "weak"),
        _Question("weak", _under(low), "posts", say("tree.end.demand"), aside=True),
        _Question("more", _over(rows["current"]), "both"),
        _Question("both", _over(much), _says(much.if_high), say("tree.end.more"), aside=True),
    )


def _joints(work: Work, rows: Mapping[str, ReadingLine]) -> Iterator[_Question]:
    """Is it the vehicle that sags; positive, and in it the protection; then the return."""
    posts = say("tree.posts", **_points(rows["running"]), limit=_limit(rows["running"].low))
    yield _Question("posts", posts, say(by_start(work, "tree.end.vehicle")), "plus", aside=True)
    plus, fuse = _says(rows["positive"].if_high), rows.get("fuse")
    yield _Question("plus", _over(rows["positive"]), plus if fuse is None else "fuse", "minus")
    if fuse is not None:
        yield _Question("fuse", _over(fuse), _says(fuse.if_high), plus, aside=True)
    minus, body = _says(rows["return"].if_high), rows.get("body")
    yield _Question("minus", _over(rows["return"]), minus if body is None else "body")
    if body is not None:
        yield _Question("body", _over(body), _says(body.if_high), minus, aside=True)


def _output(rows: Mapping[str, ReadingLine]) -> Iterator[_Question]:
    """Few volts at the station: with full current its lead or plug, with little its own limit."""
    volts, amps = rows["output"], rows["output_current"]
    lead = _says(volts.if_low)
    yield _Question("volts", _under(volts), "lead")
    yield _Question("lead", _under(amps), _says(amps.if_low), lead, aside=True)
    yield _Question("volts-high", _over(volts), _says(volts.if_high))
    yield _Question("amps", _under(amps), _says(amps.if_low))
    yield _Question("amps-high", _over(amps), _says(amps.if_high))
    if "display" in rows:
        shown = rows["display"]
        yield _Question("display", _under(shown), _says(shown.if_low))
        yield _Question("display-high", _over(shown), _says(shown.if_high))


def _warm(rows: Mapping[str, ReadingLine]) -> Iterator[_Question]:
    for name in ("joints", "case"):
        if name in rows:
            yield _Question(name, _over(rows[name]), _says(rows[name].if_high))


def _idle(rows: Mapping[str, ReadingLine]) -> Iterator[_Question]:
    """Fine at speed and not at idle is the budget, not the fit."""
    if "idle" in rows:
        row = rows["idle"]
        end = say("tree.end.idle", reading=reading(row.id), low=_limit(row.low))
        yield _Question("deeper", _under(row), _says(row.if_low))
        yield _Question("budget", say("tree.idle", speed=RUN_SPEED.amount), end)


def _parked(rows: Mapping[str, ReadingLine]) -> Iterator[_Question]:
    """Stopping, sleeping, and what the vehicle's own electronics make of the fit."""
    before, after = rows["sleep"], rows["asleep"]
    yield _Question("restarts", _under(rows["restarts"]), _says(rows["restarts"].if_low))
    yield _Question("noise", _over(rows["noise"]), _says(rows["noise"].if_high))
    yield _Question("stopped", _over(rows["stopped"]), _says(rows["stopped"].if_high))
    yield _Question("codes", _over(rows["codes"]), _says(rows["codes"].if_high))
    yield _Question("asleep", _over(after), "before")
    awake = _says(before.if_high)
    yield _Question("before", _over(before), awake, _says(after.if_high), aside=True)
    yield _Question("asleep-low", _under(after), _says(after.if_low))


# --------------------------------------------------------------------------- how a question is put


def _points(row: ReadingLine) -> dict[str, Value]:
    first, last = row.points[0], row.points[-1]
    named: dict[str, Value] = {"start": at(first), "end": at(last)}
    return named


def _says(message: Message | None) -> Message:
    if message is None:
        raise ValueError("an answer needs the words of its reading")
    return message


def _limit(amount: Amount | None) -> Amount:
    if amount is None:
        raise ValueError("a question needs a limit of its reading")
    return amount


def _band(row: ReadingLine) -> Message:
    one, low, high = reading(row.id), _limit(row.low), _limit(row.high)
    return say("tree.between", reading=one, low=low, high=high)


def _over(row: ReadingLine) -> Message:
    return say("tree.over", reading=reading(row.id), limit=_limit(row.high))


def _under(row: ReadingLine) -> Message:
    return say("tree.under", reading=reading(row.id), limit=_limit(row.low))
