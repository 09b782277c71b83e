"""Strip, crimp, pull, shrink: every end is finished before one is joined."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import replace
from itertools import groupby

from baybook.compose.action import act
from baybook.compose.ends import End, all_ends
from baybook.compose.hanging import hanging
from baybook.compose.practice import MINUTES, NO_MOVEMENT
from baybook.compose.work import Work, at, count, wire
from baybook.finding import Amount, Listing, Message, Name, say
from baybook.quantity import Quantity
from baybook.step import Phase, Step

PHASE = Phase.TERMINATE


def terminate(work: Work) -> tuple[Step, ...]:
    """Return the steps that finish the cable ends."""
    ends = all_ends(work)
    lugs = [end for end in ends if end.form == "lug"]
    return (*_strip(ends), *_lugs(work, lugs), *_ferrules(ends), *_plug(work, ends))


def _named(ends: Iterable[End]) -> Listing:
    return Listing(
        tuple(say("end.at", wire=wire(end.wire.tag), joint=at(end.joint.letter)) for end in ends)
    )


def _strip(ends: tuple[End, ...]) -> Iterator[Step]:
    """Ends that are stripped to one length are one step."""
    stripped = [end for end in ends if end.form != "plug"]

    def key(end: End) -> tuple[bool, float]:
        return (end.form == "lug", -1.0 if end.strip is None else end.strip.value)

    for number, (_, group) in enumerate(groupby(sorted(stripped, key=key), key), 1):
        same = tuple(group)
        loaded = {end.wire.tag for end in same}
        strip = same[0].strip
        yield act(
            f"strip.{number}",
            PHASE,
            _stripping(same),
            value=Amount.of(strip, 1).plain() if isinstance(strip, Quantity) else None,
            value_note=say(f"note.strip.{same[0].form}"),
            tool=say("tool.stripper"),
            minutes=MINUTES["strip"] * len(same),
            needs=tuple(f"{tag}.laid" for tag in sorted(loaded)),
            makes=tuple(_finished(end) for end in same),
            breaks=("ends-capped",) if number == 1 else (),
        )


def _stripping(same: tuple[End, ...]) -> Message:
    strip = same[0].strip
    if strip is None:
        return say("do.strip.as-stated", ends=_named(same))
    return say("do.strip", strip=Amount.of(strip, 1).plain(), ends=_named(same))


def _finished(end: End) -> str:
    return f"{end.id}.ready" if end.form == "bare" else f"{end.id}.stripped"


def _lugs(work: Work, lugs: list[End]) -> Iterator[Step]:
    """Lugs of one size and one hole are one step; then all are pulled and shrunk."""
    if not lugs:
        return
    sample = tuple(_sample(work, lugs))
    yield from sample
    crimps = tuple(_crimp(work, lugs, after=tuple(s for step in sample for s in step.makes)))
    yield from crimps
    yield from _proved(lugs, needs=tuple(state for step in crimps for state in step.makes))


def _crimp(work: Work, lugs: list[End], *, after: tuple[str, ...]) -> Iterator[Step]:
    def key(end: End) -> tuple[str, str]:
        return (end.lug.area.written if end.lug else "", end.joint.thread or "")

    for number, (_, group) in enumerate(groupby(sorted(lugs, key=key), key), 1):
        same = tuple(group)
        yield act(
            f"crimp.{number}",
            PHASE,
            say(
                "do.crimp",
                size=_lug_words(work, same[0]),
                ends=_named(same),
            ),
            value=count(len(same)),
            value_note=say("note.die", die=Name(same[0].lug.die)) if same[0].lug else None,
            tool=say("tool.crimper"),
            minutes=MINUTES["crimp"] * len(same),
            needs=(*(f"{end.id}.stripped" for end in same), *after),
            makes=(f"crimped:{number}",),
        )


def _sample(work: Work, lugs: list[End]) -> Iterator[Step]:
    """A die is proved by a crimp that is not fitted: pulling one to its force may spoil it."""
    scale = hanging(work, "crimp_{}")
    mine = next((end for end in lugs if end.wire.area_mm2 == work.design.choice.area_mm2), None)
    if scale is not None and mine is not None:
        yield act(
            "pull.sample",
            PHASE,
            say("do.pull.sample", area=_area(mine), force=scale.force),
            value=scale.force,
            value_note=scale.note,
            tool=say("tool.scale"),
            minutes=MINUTES["crimp"],
            needs=(f"{mine.id}.stripped",),
            makes=("sample-pulled",),
        )


def _proved(lugs: list[End], *, needs: tuple[str, ...]) -> Iterator[Step]:
    yield act(
        "pull.lugs",
        PHASE,
        say("do.pull.lugs"),
        value=NO_MOVEMENT.amount,
        value_note=say("note.movement"),
        tool=say("tool.hand"),
        minutes=len(lugs),
        needs=needs,
        makes=("lugs-pulled",),
    )
    yield act(
        "shrink",
        PHASE,
        say("do.shrink"),
        value=count(len(lugs)),
        value_note=say("note.barrels"),
        tool=say("tool.heat"),
        minutes=len(lugs),
        needs=("lugs-pulled",),
        makes=tuple(f"{end.id}.ready" for end in lugs),
    )


def _lug_words(work: Work, end: End) -> Message:
    return say(
        "lug",
        name=Name(work.fit.lugs.name),
        area=_area(end),
        thread=Name(end.joint.thread or ""),
    )


def _area(end: End) -> Amount:
    area = Amount.of(end.lug.area) if end.lug else Amount.area(end.wire.area_mm2)
    return replace(area, gauge=end.wire.awg)


def _ferrules(ends: tuple[End, ...]) -> Iterator[Step]:
    same = tuple(end for end in ends if end.form == "ferrule")
    if same:
        yield act(
            "ferrules",
            PHASE,
            say("do.ferrules", ends=_named(same)),
            value=count(len(same)),
            tool=say("tool.crimper"),
            minutes=MINUTES["crimp"] * len(same),
            needs=tuple(f"{end.id}.stripped" for end in same),
            makes=tuple(f"{end.id}.ready" for end in same),
        )


def _pin(work: Work, sign: str) -> Message:
    contact = work.contact(sign)
    if contact:
        return say(f"note.contact.{contact}")
    return say("note.pins", pins=Name(work.fit.plug.pins))


def _plug(work: Work, ends: tuple[End, ...]) -> Iterator[Step]:
    """The plug half is made up on the bench side: nothing feeds it yet."""
    plugs = [end for end in ends if end.form == "plug"]
    for end in plugs:
        sign = "plus" if end.joint.role == "plug+" else "minus"
        yield act(
            f"plug.{end.joint.letter}",
            PHASE,
            say(
                f"do.plug.{sign}",
                wire=wire(end.wire.tag),
                joint=at(end.joint.letter),
                connector=Name(work.fit.plug.name),
            ),
            value_note=_pin(work, sign),
            tool=say("tool.plug"),
            minutes=MINUTES["crimp"],
            needs=(f"{end.wire.tag}.laid",),
            makes=(f"{end.joint.letter}.made",),
            works_on=(end.wire.tag,),
            joins=(end.id,),
        )
    if plugs:
        yield act(
            "pull.plug",
            PHASE,
            say("do.pull.plug"),
            value=NO_MOVEMENT.amount,
            value_note=say("note.movement"),
            tool=say("tool.hand"),
            needs=tuple(f"{end.joint.letter}.made" for end in plugs),
            makes=("plug-pulled",),
        )
