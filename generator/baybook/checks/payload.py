"""PL: what the fit adds to the vehicle's mass, against what it may carry."""

from __future__ import annotations

from collections.abc import Iterator

from baybook.checks.found import SHOP_RULE, Found
from baybook.design import Design
from baybook.finding import Amount, Verdict, say


def _kilograms(value: float) -> Amount:
    return Amount(value, "kg", 1)


def exceeded(design: Design) -> Iterator[Found]:
    """Add no more than the vehicle may still carry.

    m_gross - m_kerb - m_aboard - m_added ≥ 0        [shop-rule]
    """
    payload, masses = design.solved.payload, design.fit.vehicle.masses
    if payload.left_kg is None or payload.added_kg is None or payload.left_kg >= 0:
        return
    yield Found(
        verdict=Verdict.REFUSED,
        place="vehicle.masses",
        where=design.fit.mark("vehicle.masses") if masses else design.fit.mark("vehicle"),
        found=_kilograms(payload.added_kg).plain(),
        allowed=_kilograms(payload.left_kg + payload.added_kg).at_most(),
        sources=(SHOP_RULE,),
        values={
            "added": _kilograms(payload.added_kg).plain(),
            "over": _kilograms(-payload.left_kg).at_least(),
        },
    )


def unknown(design: Design) -> Iterator[Found]:
    """Say so where a mass is not known: the payload was not checked. [shop-rule]"""
    if design.solved.payload.left_kg is None:
        yield Found(
            verdict=Verdict.CAUTION,
            place="vehicle.masses",
            where=design.fit.mark("vehicle.masses"),
            found=say("rule.PL-02.unknown"),
            allowed=say("rule.PL-02.known"),
            sources=(SHOP_RULE,),
        )
