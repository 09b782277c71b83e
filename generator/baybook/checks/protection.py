"""OC: overcurrent protection, its rating and its place."""

from __future__ import annotations

from collections.abc import Iterator

from baybook.checks.cable import chosen_area
from baybook.checks.found import (
    PRACTICE,
    SHEET,
    SHOP_RULE,
    Found,
    amps,
    degrees,
    millimetres,
    share,
)
from baybook.checks.part import about_part, part, sheet
from baybook.design import Design
from baybook.finding import Amount, Name, Ref, Value, Verdict, say
from baybook.shop import Limits
from baybook.standards import load
from baybook.standards.rule_sets import rule_sets

# Read once on import, so that the rules below open no file.
_HIGHEST_SUPPLY_V = load().highest_supply_V
_DISTANCES = rule_sets().distance


def carries_design_current(design: Design) -> Iterator[Found]:
    """Carry the design current without limit of time, hot.

    I_n k d ≥ I_B; a vehicle maker's stated continuous current stands for I_n k d
    [iec60364-4-43], k [shop-rule], d [fit-sheet]
    """
    fault, I_B = design.solved.fault, design.choice.input_limit_A
    if fault.carries_A is not None and fault.carries_A >= I_B:
        return
    ambient = design.fit.shop.zones[fault.zone].temperature.high
    unknown = fault.carries_A is None
    carried: Value = say("rule.OC-01.unknown") if unknown else amps(fault.carries_A or 0.0)
    yield about_part(
        design,
        "I_n",
        found=carried,
        allowed=amps(I_B),
        sources=("iec60364-4-43", SHOP_RULE, SHEET),
        carries=carried,
        current=amps(I_B),
        ambient=degrees(ambient),
    )


def protects_cable(design: Design) -> Iterator[Found]:
    """Keep the rating within what the cable carries in the worst zone.

    I_n ≤ I_T        [iec60364-4-43] 433.1
    """
    feed, I_n = design.solved.feed, design.choice.rating_A
    if I_n > feed.carries_A > 0:
        yield about_part(
            design,
            "I_n",
            found=Amount(I_n, "A", 0),
            allowed=amps(feed.carries_A),
            sources=("iec60364-4-43",),
            conductor=Ref("conductor", _in_zone(design, feed.zone)),
            carries=amps(feed.carries_A),
            area=chosen_area(design),
            zone=Name(design.fit.shop.zones[feed.zone].name),
        )


def charger_upstream(design: Design) -> Iterator[Found]:
    """Keep the rating within what the charger's maker allows before it. [fit-sheet]"""
    most = design.fit.charger.upstream_max
    if design.choice.rating_A > most.low:
        yield about_part(
            design,
            "I_n",
            found=Amount(design.choice.rating_A, "A", 0),
            allowed=Amount.of(most, 0),
            sources=(SHEET,),
            most=Amount.of(most, 0),
            charger=Name(design.fit.charger.name),
        )


def voltage_class(design: Design) -> Iterator[Found]:
    """Rate the part strictly above the highest voltage of the supply class.

    U_n > 16 V in a 12 V system, > 32 V in a 24 V system        [iso16750-2]
    """
    nominal = design.fit.vehicle.supply.nominal.value
    highest, rated = _HIGHEST_SUPPLY_V.get(nominal), part(design).voltage
    if highest is not None and rated.low <= highest:
        yield about_part(
            design,
            "U_n",
            found=Amount.of(rated, 0),
            allowed=say("rule.OC-04.above", highest=Amount(highest, "V", 0)),
            sources=("iso16750-2", SHEET),
            rated=Amount.of(rated, 0),
            highest=Amount(highest, "V", 0),
            nominal=Amount(nominal, "V", 0),
        )


def distance(design: Design) -> Iterator[Found]:
    """Protect the conductor close to its source.

    Up to the shop's distance, or that of the published rule its profile names; farther only
    in conduit and signed, as a hold; else refused.        [shop-rule], [cfr183-455]
    """
    fit, source, limits = design.fit, design.fit.job.source, design.fit.shop.limits
    at, plain, most, named = source.fuse_at.high, *distances(limits)
    if part(design).factory or at <= plain:
        return
    signed = source.signed in {person.role for person in fit.shop.people}
    in_conduit = source.conduit and fit.job.conduit is not None and signed and at <= most
    yield about_part(
        design,
        "distance",
        verdict=Verdict.HOLD if in_conduit else Verdict.REFUSED,
        found=millimetres(at).plain(),
        allowed=millimetres(plain).at_most(),
        sources=(named,),
        distance=millimetres(at).plain(),
        limit=millimetres(plain).at_most(),
        most=millimetres(most).at_most(),
        signed=Name(source.signed or "-"),
        way=_nearer(
            millimetres(plain).at_most(),
            "sign" if in_conduit else "near" if at > most else "conduit",
        ),
    )


def _nearer(limit: Value, how: str) -> Value:
    return say(f"rule.OC-07.{how}", limit=limit)


def distances(limits: Limits) -> tuple[float, float, str]:
    """Return the distance, the distance in conduit, and the source of both. [m, m]

    [cfr183-455], [as-nzs3001-2], [shop-rule]
    """
    rule = _DISTANCES.get(limits.fuse_distance_rule or "")
    if rule is not None:
        return rule.plain_m, rule.enclosed_m, limits.fuse_distance_rule or ""
    own, enclosed = limits.fuse_distance, limits.fuse_distance_conduit
    return own.value.value, enclosed.value.value, own.source.replace(" ", "-")


def overload(design: Design) -> Iterator[Found]:
    """Let no overload stand that the cable does not stand.

    1.35 I_n ≤ 1.45 I_T        [iec60364-4-43] 433.1, [iso8820-3]
    """
    ratio = design.solved.fault.overload
    if ratio > 1 and design.solved.feed.carries_A > 0:
        yield about_part(
            design,
            "overload",
            found=share(ratio, 0),
            allowed=share(1, 0),
            sources=("iec60364-4-43", "iso8820-3"),
            ratio=share(ratio, 0),
        )


def stud_takes_lug(design: Design) -> Iterator[Found]:
    """Fit the lug of the cable size on the stud of the part. [fit-sheet]"""
    own = sheet(design)
    sizes = {size.area.value: size.studs for size in design.fit.lugs.sizes}
    studs = sizes.get(design.choice.area_mm2, ())
    if own is not None and studs and own.thread not in studs:
        yield about_part(
            design,
            "stud",
            found=Name(own.thread),
            allowed=Name(", ".join(studs)),
            sources=(SHEET,),
            thread=Name(own.thread),
            lugs=Name(design.fit.lugs.name),
            area=chosen_area(design),
        )


def automatic_reset(design: Design) -> Iterator[Found]:
    """Never take a part that closes again by itself onto a fault. [common-practice]"""
    own = sheet(design)
    if own is not None and own.reset == "automatic":
        yield about_part(
            design,
            "reset",
            found=say("rule.OC-11.automatic"),
            allowed=say("rule.OC-11.manual"),
            sources=(PRACTICE,),
        )


def _in_zone(design: Design, zone: str) -> str:
    """Return the tag of the first conductor that lies in a zone."""
    return next(
        conductor.tag
        for conductor in design.circuit.conductors
        if any(leg.zone == zone for leg in conductor.legs)
    )
