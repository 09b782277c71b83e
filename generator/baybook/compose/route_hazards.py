"""Which hazards bite where: those of the route, and the vehicle's own cautions."""

from __future__ import annotations

from baybook.compose.work import Work
from baybook.step import Phase
from baybook.terms import HazardKind

# What a cable that touches them breaks; one panel warns of all of them together.
PIPES = frozenset(
    {HazardKind.BRAKE, HazardKind.AIR_PIPE, HazardKind.WATER_PIPE, HazardKind.FUEL, HazardKind.GAS}
)
RESTRAINT = frozenset({HazardKind.AIRBAG, HazardKind.PRETENSIONER})
MOVING = frozenset({HazardKind.STEERING, HazardKind.PEDALS, HazardKind.MOVING})


def hazards_of(work: Work, number: int, *, opening: bool = False) -> tuple[str, ...]:
    """Return the hazard ids of one segment; while it is opened only what hurts a hand."""
    kinds = {hazard.kind for hazard in work.segments[number - 1].hazards}
    found: list[str] = []
    if kinds & RESTRAINT:
        found.append("restraint")
    if _close_exhaust(work, number):
        found.append("exhaust")
    if HazardKind.HIGH_VOLTAGE in kinds:
        found.append("high-voltage")
    if kinds & PIPES and not opening:
        found.append("pipes")
    if kinds & MOVING and not opening:
        found.append("moving")
    return tuple(found)


def restrained(work: Work) -> int:
    """Return the number of the segment nearest to the charger with a restraint part; 0: none."""
    return max(
        (
            number
            for number, segment in enumerate(work.segments, 1)
            if any(hazard.kind in RESTRAINT for hazard in segment.hazards)
        ),
        default=0,
    )


def _close_exhaust(work: Work, number: int) -> bool:
    """Farther than the shop's distance an exhaust is a place to keep clear of, no hazard."""
    limit = work.fit.shop.spacing.exhaust.value
    return any(
        hazard.kind is HazardKind.EXHAUST and hazard.distance.low < limit
        for hazard in work.segments[number - 1].hazards
    )


def crush_ids(work: Work) -> tuple[str, ...]:
    """Return the ids of what is held up while the work lasts: it bites again on closing."""
    return tuple(
        f"caution:{number}"
        for number, caution in enumerate(work.fit.vehicle.cautions, 1)
        if caution.symbol == "crush" and caution.before in {"dry fit", "route"}
    )


def caution_ids(work: Work, phase: Phase) -> tuple[str, ...]:
    """Return the ids of the vehicle's own cautions that bite in this phase.

    Whoever lays a cord on the route meets what whoever lays the cable meets.
    """
    met = {phase.value, "route"} if phase is Phase.DRY_FIT else {phase.value}
    return tuple(
        f"caution:{number}"
        for number, caution in enumerate(work.fit.vehicle.cautions, 1)
        if caution.before in met
    )
