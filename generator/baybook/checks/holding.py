"""FX: what the fixings and the straps hold, against the load that the profile states."""

from __future__ import annotations

import math
from collections.abc import Iterator

from baybook.checks.found import SHEET, SHOP_RULE, Found
from baybook.design import Design
from baybook.finding import Amount, Name, Value, Verdict, say
from baybook.terms import Fastener


def _newtons(value: float) -> Amount:
    return Amount(value, "N", 0)


def fixing_holds(design: Design) -> Iterator[Found]:
    """Hold the charger in every direction of the profile, so many fixings lost.

    F / (n - n_lost) ≤ what one fixing may be pulled with; a self-tapping screw in sheet
    steel by its pull-out 0.85 t d F_u / 3        [aisi-s100], [shop-rule], [fit-sheet]
    """
    place, mount = design.solved.place, design.fit.vehicle.mounts[design.fit.job.mount]
    if place.held_N is None or math.isinf(place.fixing_N) or place.fixing_N <= place.held_N:
        return
    tapped = mount.fastener is Fastener.SELF_TAPPING
    bolted = mount.fastener is Fastener.THROUGH_BOLT
    yield Found(
        verdict=Verdict.REFUSED,
        place="circuit.mount.holds",
        where=mount.holds.where if mount.holds else design.fit.mark("fit.mount"),
        found=_newtons(place.fixing_N).at_least(),
        allowed=_newtons(place.held_N).at_most(),
        sources=(SHOP_RULE, "aisi-s100" if tapped else SHEET),
        values={
            "force": _newtons(place.fixing_N).at_least(),
            "held": _newtons(place.held_N).at_most(),
            "fixing": Name(mount.fixing),
            "basis": Name(design.fit.shop.restraint.basis),
            "way": say(f"rule.FX-11.{'thicker' if bolted else 'bolt'}"),
        },
    )


def holding_unknown(design: Design) -> Iterator[Found]:
    """Hold where nobody states what one fixing holds; never invent it. [shop-rule]"""
    mount = design.fit.vehicle.mounts[design.fit.job.mount]
    if design.solved.place.held_N is not None:
        return
    yield Found(
        verdict=Verdict.HOLD,
        place="circuit.mount.holds",
        where=mount.holds.where if mount.holds else design.fit.mark("fit.mount"),
        found=say("rule.FX-12.unknown"),
        allowed=_force(design),
        sources=(SHOP_RULE,),
        values={"fixing": Name(mount.fixing), "place": Name(mount.place), "force": _force(design)},
    )


def station_held(design: Design) -> Iterator[Found]:
    """Hold the station in every direction, one strap lost.

    F ≤ (n - 1) · what a strap may bear        [shop-rule], [fit-sheet]
    """
    kept, place = design.fit.job.station_place, design.solved.place
    if kept.straps is None or kept.strap_holds is None:
        return
    force = max(place.station_N, place.rearward[1], place.sideways[1], place.upward[1])
    left = max(kept.straps - 1, 0) * kept.strap_holds.low
    if force > left:
        yield Found(
            verdict=Verdict.REFUSED,
            place="circuit.station.holds",
            where=kept.strap_holds.where,
            found=_newtons(force).at_least(),
            allowed=_newtons(left).at_most(),
            sources=(SHOP_RULE, SHEET),
            values={
                "force": _newtons(force).at_least(),
                "held": _newtons(left).at_most(),
                "fixing": Name(kept.fixing),
                "basis": Name(design.fit.shop.restraint.basis),
            },
        )


def _force(design: Design) -> Value:
    force = design.solved.place.fixing_N
    return say("rule.FX-12.none_left") if math.isinf(force) else _newtons(force)
