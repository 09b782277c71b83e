"""Clips that a hazard asks for, one before and one behind it: a lost one lets nothing touch.

With a clip at a quarter of the shop's pitch on either side, the next ones at the pitch, one lost
clip leaves no more cable free than everywhere else.        [shop-rule]
"""

from __future__ import annotations

from collections.abc import Iterator

from baybook.compose.action import act
from baybook.compose.practice import MINUTES
from baybook.compose.work import Work, millimetres, wire
from baybook.finding import Listing, Name, say
from baybook.step import Phase, Step

_CODE = "RT-11"  # the run passes nearer than the profile's clear distance
_EACH = 2  # one before, one behind
_SHARE = 4  # of the pitch


def clamped(work: Work, number: int) -> tuple[int, ...]:
    """Return which hazards of a segment ask for a clip on both sides, counted from 1."""
    start = f"vehicle.routes.{work.fit.job.route}.segments.{number - 1}.hazards."
    return tuple(
        1 + int(finding.place.removeprefix(start))
        for finding in work.checked.findings
        if finding.code == _CODE and finding.place.startswith(start)
    )


def extra_clips(work: Work, number: int, conductors: int) -> int:
    """Return the clips that the hazards of a segment add to it."""
    return _EACH * conductors * len(clamped(work, number))


def clamps(work: Work, number: int, tags: tuple[str, ...]) -> Iterator[Step]:
    """Return a step for each hazard that asks for it."""
    near = millimetres(work.fit.shop.spacing.clip_pitch.value / _SHARE).at_most()
    for place in clamped(work, number):
        hazard = work.segments[number - 1].hazards[place - 1]
        yield act(
            f"clamp.{number}.{place}",
            Phase.ROUTE,
            say(
                "do.clip.near",
                wires=Listing(tuple(wire(tag) for tag in tags)),
                near=near,
                what=Name(hazard.what),
            ),
            value=near,
            value_note=say("note.each-side"),
            minutes=MINUTES["clip"] * _EACH * len(tags),
            needs=(
                f"laid:{number}",
                *((f"clear:{number}.{place}",) if hazard.shield is None else ()),
            ),
            makes=(f"clamped:{number}.{place}",),
        )
