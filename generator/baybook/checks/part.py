"""The protection that the rules look at, and a finding about it."""

from __future__ import annotations

from baybook.checks.found import Found
from baybook.circuit import Protection
from baybook.design import Design
from baybook.finding import Amount, Name, Ref, Value, Verdict
from baybook.part import GatePoint, ProtectionSheet
from baybook.standards import load

F1 = Ref("device", "F1")
# Read once on import, so that the rules open no file.
_ADIABATIC_S = load().constants["adiabatic_limit"]


def part(design: Design) -> Protection:
    """Return the only protection of the feed.

    [vehicle-survey]
    """
    return design.circuit.protections[0]


def sheet(design: Design) -> ProtectionSheet | None:
    """Return the sheet of the protection, None for a vehicle maker's own fuse.

    [fit-sheet]
    """
    if part(design).factory:
        return None
    fit = design.fit
    return fit.protections[fit.job.protection.index(design.choice.family)]


def gates(design: Design) -> tuple[GatePoint, ...]:
    """Return the sure-opening gates that count, from the sheet or the vehicle maker's paper.

    Up to 5 s, as long as the heat of a fault stays in the copper [iec60364-4-43] 434.5.2.
    """
    own = sheet(design)
    fused = design.fit.vehicle.points[design.fit.job.source.positive].factory_fuse
    stated = own.opens if own else fused.opens if fused else ()
    return tuple(gate for gate in stated if 0 < gate.within.value <= _ADIABATIC_S)


def about_part(  # noqa: PLR0913 - what a finding about the protection is made of
    design: Design,
    what: str,
    *,
    found: Value,
    allowed: Value,
    sources: tuple[str, ...],
    verdict: Verdict = Verdict.REFUSED,
    **values: Value,
) -> Found:
    """Return a finding about the protection; every sentence gets its tag, family and rating.

    [shop-rule]
    """
    own = part(design)
    named: dict[str, Value] = {
        "fuse": F1,
        "family": Name(own.family),
        "rating": Amount(own.rating_A, "A", 0),
    }
    return Found(
        verdict=verdict,
        place=f"circuit.F1.{what}",
        where=design.fit.mark("fit.source" if what == "distance" else "fit.protection"),
        found=found,
        allowed=allowed,
        sources=sources,
        values={**named, **values},
    )
