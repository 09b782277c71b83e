"""One stretch of the route: sleeves on, cables through, clear of what is beside them, clipped."""

from __future__ import annotations

from collections.abc import Iterator

from baybook.circuit import Conductor, Fitting, Stretch
from baybook.compose.action import act
from baybook.compose.clamps import clamped, clamps
from baybook.compose.practice import MINUTES, NO_MOVEMENT
from baybook.compose.route_hazards import hazards_of
from baybook.compose.steps.drill import edges
from baybook.compose.work import Work, count, millimetres, wire
from baybook.finding import Amount, Listing, Name, say
from baybook.step import Phase, Step
from baybook.terms import HazardKind

PHASE = Phase.ROUTE
_CLOSE = 1e-6  # m: two places on the route are the same


def one_stretch(work: Work, number: int) -> Iterator[Step]:
    stretch = work.stretches[number - 1]
    tags = in_stretch(work, stretch)
    if not tags:
        return
    yield from _sleeves(work, number)
    yield _lay(work, number, tags)
    yield from _clearances(work, number, tags)
    yield from clamps(work, number, tags)
    yield from _loop(work, number, tags)
    yield from _glands(work, number, tags)
    yield act(
        f"clip.{number}",
        PHASE,
        say("do.clip", wires=wires_of(tags), fixing=Name(stretch.fixing)),
        value=count(stretch.clips),
        value_note=say(
            "note.apart", pitch=millimetres(work.fit.shop.spacing.clip_pitch.value).at_most()
        ),
        minutes=MINUTES["clip"] * stretch.clips,
        needs=(f"laid:{number}", *_kept(work, number)),
        makes=(f"clipped:{number}",),
    )


def _sleeves(work: Work, number: int) -> Iterator[Step]:
    """A sleeve goes over the free ends, once they are through the wall behind it."""
    for place, fitting in _sleeves_in(work, number):
        tags = _sleeved(work, fitting)
        yield act(
            f"sleeve.{place}",
            PHASE,
            say(
                f"do.{fitting.kind}",
                part=Name(fitting.part),
                wires=wires_of(tags),
                start=Amount(fitting.at_m, "m", 2).plain(),
            ),
            value=Amount(fitting.length_m, "m", 2).at_least(),
            value_note=say("note.pieces", count=count(fitting.count)),
            minutes=MINUTES["fit"],
            needs=(
                "ends-capped",
                *((f"laid:{number + 1}",) if number < len(work.stretches) else ()),
            ),
            makes=(f"sleeve:{place}",),
        )


def _sleeves_in(work: Work, number: int) -> tuple[tuple[int, Fitting], ...]:
    stretch = work.stretches[number - 1]
    return tuple(
        (place, fitting)
        for place, fitting in enumerate(work.circuit.fittings)
        if fitting.kind in {"sleeve", "conduit"}
        and stretch.start_m - _CLOSE <= fitting.at_m < stretch.end_m - _CLOSE
    )


def _sleeved(work: Work, fitting: Fitting) -> tuple[str, ...]:
    """The conductors that lie where the sleeve is; a conduit before the protection holds W1."""
    if fitting.at_m < work.fuse.at_m - _CLOSE and fitting.kind == "conduit":
        return (work.circuit.conductor("source").tag,)
    middle = fitting.at_m + fitting.length_m / 2
    return tuple(
        conductor.tag
        for conductor in work.run
        if conductor.use != "source" and _near_end(work, conductor) <= middle
    )


def _glands(work: Work, number: int, tags: tuple[str, ...]) -> Iterator[Step]:
    """A gland is closed once the cable lies on both of its sides."""
    end = work.stretches[number - 1].end_m
    for place, fitting in edges(work):
        if fitting.kind == "gland" and abs(fitting.at_m - end) < _CLOSE:
            yield act(
                f"gland.{place}",
                PHASE,
                say("do.gland", wires=wires_of(tags), wall=Name(fitting.wall)),
                value=NO_MOVEMENT.amount,
                value_note=say("note.movement"),
                tool=say("tool.gland"),
                minutes=MINUTES["look"] * fitting.count,
                needs=(f"laid:{number}",),
                makes=(f"sealed:{place}",),
            )


def _lay(work: Work, number: int, tags: tuple[str, ...]) -> Step:
    stretch, last = work.stretches[number - 1], len(work.stretches)
    behind = tuple(f"edge:{place}" for place, f in edges(work) if f.at_m >= stretch.end_m - _CLOSE)
    sleeves = tuple(f"sleeve:{place}" for place, _ in _sleeves_in(work, number))
    done = [tag for tag in tags if _first_stretch(work, tag) == number]
    return act(
        f"lay.{number}",
        PHASE,
        say("do.lay", wires=wires_of(tags), name=Name(stretch.name)),
        value=Amount(stretch.end_m - stretch.start_m, "m", 2).plain(),
        value_note=say(
            "note.zone",
            zone=Name(stretch.zone_name),
            ambient=_ambient(stretch),
            bend=_bend(work),
        ),
        people=2 if number < last else 1,
        minutes=MINUTES["lay"],
        needs=(
            "ends-capped",
            "charger-fixed",
            f"open:{number}",
            *behind,
            *sleeves,
            *((f"laid:{number + 1}",) if number < last else ()),
        ),
        makes=(
            f"laid:{number}",
            *(f"{tag}.laid.{number}" for tag in tags),
            *(f"{tag}.laid" for tag in done),
        ),
        hazards=hazards_of(work, number),
    )


def _first_stretch(work: Work, tag: str) -> int:
    """The stretch nearest to the source that the conductor still lies in."""
    return next(n for n, s in enumerate(work.stretches, 1) if tag in in_stretch(work, s))


def _bend(work: Work) -> Amount:
    """The tightest radius that the sheet of the cable allows at this size."""
    sizes, area = work.fit.cable.sizes, work.design.choice.area_mm2
    return Amount.of(next(s.bend_radius for s in sizes if s.area.value == area), 0).at_least()


def _ambient(stretch: Stretch) -> Amount:
    return Amount(stretch.ambient_C, "degC", 0).at_most()


def _kept(work: Work, number: int) -> tuple[str, ...]:
    segment = work.segments[number - 1]
    states = [
        f"clear:{number}.{place}"
        for place, hazard in enumerate(segment.hazards, 1)
        if hazard.shield is None
    ]
    sealed = [
        f"sealed:{place}"
        for place, fitting in edges(work)
        if fitting.kind == "gland" and abs(fitting.at_m - work.stretches[number - 1].end_m) < _CLOSE
    ]
    held = [f"clamped:{number}.{place}" for place in clamped(work, number)]
    return (*states, *held, *sealed, *((f"loop:{number}",) if segment.loop is not None else ()))


def _clearances(work: Work, number: int, tags: tuple[str, ...]) -> Iterator[Step]:
    """A shielded hazard has its sleeve; from every other one the surveyed distance is kept."""
    for place, hazard in enumerate(work.segments[number - 1].hazards, 1):
        if hazard.shield is None:
            never = hazard.kind is not HazardKind.ELECTRONICS
            yield act(
                f"clear.{number}.{place}",
                PHASE,
                say(
                    "do.clear",
                    wires=wires_of(tags),
                    distance=millimetres(hazard.distance.value).at_least(),
                    what=Name(hazard.what),
                ),
                value=millimetres(hazard.distance.value).at_least(),
                value_note=say("note.no-tie") if never else say("note.at-least"),
                tool=say("tool.rule"),
                minutes=MINUTES["look"],
                needs=(f"laid:{number}",),
                makes=(f"clear:{number}.{place}",),
            )


def _loop(work: Work, number: int, tags: tuple[str, ...]) -> Iterator[Step]:
    loop = work.segments[number - 1].loop
    if loop is not None:
        yield act(
            f"loop.{number}",
            PHASE,
            say(
                "do.loop",
                loop=Amount.of(loop).at_least(),
                wires=wires_of(tags),
                name=Name(work.stretches[number - 1].name),
            ),
            value=Amount.of(loop).at_least(),
            value_note=say("note.slack"),
            minutes=MINUTES["look"],
            needs=(f"laid:{number}",),
            makes=(f"loop:{number}",),
        )


def in_stretch(work: Work, stretch: Stretch) -> tuple[str, ...]:
    """Return the tags of the conductors that lie in this stretch, W1 left out."""
    return tuple(
        conductor.tag
        for conductor in work.run
        if conductor.use != "source" and _near_end(work, conductor) < stretch.end_m - _CLOSE
    )


def _near_end(work: Work, conductor: Conductor) -> float:
    return min(work.at(conductor.start).at_m, work.at(conductor.end).at_m)


def wires_of(tags: tuple[str, ...]) -> Listing:
    return Listing(tuple(wire(tag) for tag in tags))
