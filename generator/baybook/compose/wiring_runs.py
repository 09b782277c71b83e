"""What each rail of the drawing is between two marks, and which conductor that is."""

from __future__ import annotations

from baybook.circuit import Conductor
from baybook.compose.work import Work
from baybook.finding import Amount, Message, Name, say
from baybook.view import Run

NONE = Run(colour="", style="none")
EXISTING = Run(colour="", style="existing")
CHASSIS = Run(colour="", style="chassis")


def run_of(conductor: Conductor | None) -> Run:
    """Return how a conductor is drawn; without one, nothing is."""
    if conductor is None:
        return NONE
    if conductor.existing:
        return EXISTING
    return Run(colour=conductor.colour, style="new", conductor=conductor.tag)


def first_run(work: Work) -> Run:
    """From the battery down: our own lead, or the vehicle's up to its own fuse or point."""
    point = work.fit.vehicle.points[work.fit.job.source.positive]
    return EXISTING if work.fuse.factory or point.line else run_of(work.run[0])


def way_back(work: Work) -> Run:
    """The return along the route: a conductor, or the body."""
    return run_of(conductor_of(work, "return")) if work.body is None else CHASSIS


def conductor_of(work: Work, use: str) -> Conductor | None:
    """Return the conductor of the circuit that serves this use, if there is one."""
    return next((c for c in work.circuit.conductors if c.use == use), None)


def zone_words(work: Work, zone: str) -> Message:
    """Return the zone's name and how warm it gets there."""
    stretch = next(s for s in work.stretches if s.zone == zone)
    return say(
        "zone",
        name=Name(stretch.zone_name),
        temperature=Amount(stretch.ambient_C, "degC", 0).at_most(),
    )
