"""OC: the two faults, and what the cable stands until the protection has opened."""

from __future__ import annotations

from collections.abc import Iterator

from baybook.checks.cable import chosen_area
from baybook.checks.found import SHEET, SHOP_RULE, Found, kiloamps, share, whole_amps
from baybook.checks.part import F1, about_part, gates, part
from baybook.design import Design
from baybook.finding import Message, Verdict, say
from baybook.quantity import State


def breaking_capacity(design: Design) -> Iterator[Found]:
    """Break the dead short right behind the part: strong battery, no contact resistance.

    I = U_high / R_int,min ≤ I_cn; R_int,min measured, or 0.7 × an estimate
    [circuit-laws] [shop-rule]
    """
    near, capacity = design.solved.fault.near_A, part(design).breaking
    if near is None:
        yield _unknown_battery(design)
    elif near > capacity.low:
        yield about_part(
            design,
            "I_cn",
            found=kiloamps(near),
            allowed=kiloamps(capacity.low),
            sources=("circuit-laws", SHOP_RULE, SHEET),
            fault=kiloamps(near),
            capacity=kiloamps(capacity.low),
            way=_way(design),
        )


def opens_far_fault(design: Design) -> Iterator[Found]:
    """Open for sure on a short at the charger: weak battery, hot copper, lowest supply.

    I = U_low / (R_int,max + R_loop) ≥ the lowest sure-opening multiple of I_n [circuit-laws]
    """
    fault, stated = design.solved.fault, gates(design)
    if not stated or fault.far_A is None or fault.opens_far_s is not None:
        return
    needed = min(gate.multiple.value for gate in stated) * design.choice.rating_A
    yield about_part(
        design,
        "opening",
        found=whole_amps(fault.far_A),
        allowed=whole_amps(needed),
        sources=("circuit-laws", SHOP_RULE, SHEET),
        fault=whole_amps(fault.far_A),
        needed=whole_amps(needed),
    )


def withstand(design: Design) -> Iterator[Found]:
    """Stand the let-through of both faults.

    I² t ≤ k² S² at the near and at the far fault        [iec60364-4-43] 434.5.2
    """
    fault = design.solved.fault
    for end, ratio in (("near", fault.withstand_near), ("far", fault.withstand_far)):
        if ratio is not None and ratio > 1:
            yield about_part(
                design,
                f"withstand.{end}",
                found=share(ratio, 0),
                allowed=share(1, 0),
                sources=("iec60364-4-43", "iec60364-5-54", SHEET),
                end=say(f"rule.OC-08.{end}"),
                ratio=share(ratio, 0),
                area=chosen_area(design),
            )


def gates_stated(design: Design) -> Iterator[Found]:
    """Hold where no paper says when the part opens for sure. [fit-sheet]"""
    if not gates(design):
        yield about_part(
            design,
            "opening",
            verdict=Verdict.HOLD,
            found=say("rule.OC-12.none"),
            allowed=say("rule.OC-12.stated"),
            sources=(SHEET,),
        )


def _way(design: Design) -> Message:
    """A better part; a measurement only where there is none yet."""
    internal = design.fit.vehicle.battery.internal
    return say(f"rule.OC-05.{'part' if internal.basis.state is State.MEASURED else 'measure'}")


def _unknown_battery(design: Design) -> Found:
    return Found(
        verdict=Verdict.HOLD,
        place="vehicle.battery.internal",
        where=design.fit.vehicle.battery.internal.where,
        found=say("rule.OC-05.unknown"),
        allowed=kiloamps(part(design).breaking.low),
        sources=(SHOP_RULE,),
        values={
            "fuse": F1,
            "fault": say("rule.OC-05.unknown"),
            "capacity": kiloamps(part(design).breaking.low),
            "way": _way(design),
        },
    )
