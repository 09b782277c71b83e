"""Open the vehicle, try every place with nothing fixed, and look behind every mark."""

from __future__ import annotations

from collections.abc import Iterator

from baybook.compose import holds, limits
from baybook.compose.action import act
from baybook.compose.practice import MINUTES
from baybook.compose.route_hazards import hazards_of
from baybook.compose.steps.settle import settle, settled
from baybook.compose.work import Work, at, count, millimetres
from baybook.finding import Amount, Message, Name, say
from baybook.step import Phase, Step

PHASE = Phase.DRY_FIT


def dry_fit(work: Work) -> tuple[Step, ...]:
    """Return the steps up to HOLD 3."""
    opened = tuple(f"open:{n}" for n in range(1, len(work.stretches) + 1))
    return (
        *_open(work),
        *settle(work, PHASE, needs=opened),
        *_places(work),
        *_cord(work),
        _behind(work),
    )


def _open(work: Work) -> Iterator[Step]:
    """From the charger to the source, as the cable will travel."""
    for number in range(len(work.stretches), 0, -1):
        segment = work.segments[number - 1]
        yield act(
            f"open.{number}",
            PHASE,
            say("do.open", access=Name(segment.access)),
            value_note=say("note.segment", name=Name(segment.name)),
            minutes=MINUTES["open"],
            needs=("hold:proved-dead",),
            makes=(f"open:{number}",),
            hazards=hazards_of(work, number, opening=True),
        )


def _places(work: Work) -> Iterator[Step]:
    mount = work.fit.vehicle.mounts[work.fit.job.mount]
    opened = tuple(f"open:{n}" for n in range(1, len(work.stretches) + 1))
    yield act(
        "charger.place",
        PHASE,
        say("do.charger.place", place=Name(mount.place)),
        value=count(mount.fixings),
        value_note=say("note.marks"),
        tool=say("tool.marker"),
        minutes=MINUTES["place"],
        needs=opened,
        makes=("charger-placed",),
        photo=Name(mount.photo) if mount.photo else None,
    )
    if spacing := work.design.solved.place.spacing_m:
        yield _spaced(*spacing)
    clear = work.fit.charger.clearance
    yield act(
        "charger.clear",
        PHASE,
        say("do.charger.clear", above=Amount.of(clear.above, 0).at_least()),
        value=Amount.of(clear.sides, 0).at_least(),
        value_note=say("note.at-least"),
        tool=say("tool.rule"),
        minutes=MINUTES["look"],
        needs=("charger-placed",),
        makes=("charger-clear",),
    )
    yield act(
        "station.place",
        PHASE,
        say("do.station.place", place=Name(work.fit.job.station_place.place)),
        value=Amount.of(work.fit.station.mass, 1).at_least(),
        value_note=say("note.mass"),
        minutes=MINUTES["place"],
        needs=("charger-placed",),
        makes=("station-placed",),
    )


def _spaced(edge_m: float, pitch_m: float) -> Step:
    """Self-tapping screws: too near an edge, or each other, the sheet tears."""
    edge, pitch = (millimetres(metres, 1).at_least() for metres in (edge_m, pitch_m))
    return act(
        "charger.spaced",
        PHASE,
        say("do.charger.spaced", edge=edge, pitch=pitch),
        value=edge,
        value_note=say("note.to-edge"),
        tool=say("tool.rule"),
        minutes=MINUTES["look"],
        needs=("charger-placed",),
        makes=("charger-spaced",),
    )


def _cord(work: Work) -> Iterator[Step]:
    route = work.stretches[-1].end_m

    yield act(
        "cord",
        PHASE,
        say("do.cord", start=at(work.joint("in+").letter), end=at(work.joint("source+").letter)),
        value=Amount(route, "m", 2).plain(),
        value_note=_beyond(work),
        tool=say("tool.cord"),
        minutes=MINUTES["place"],
        needs=("charger-placed",),
        makes=("route-measured",),
    )


def _behind(work: Work) -> Step:
    return act(
        "behind",
        PHASE,
        say("do.behind"),
        tool=say("tool.probe"),
        people=2,
        minutes=MINUTES["place"],
        needs=(
            "charger-clear",
            *(("charger-spaced",) if work.design.solved.place.spacing_m else ()),
            "station-placed",
            "route-measured",
            *settled(work, PHASE),
        ),
        makes=("hold:behind-screws",),
        hold=holds.behind_screws(work),
    )


def _beyond(work: Work) -> Message | None:
    if not work.has("envelope_length"):
        return None
    return say("note.beyond", length=limits.holds_up_to(work, "envelope_length").at_most())
