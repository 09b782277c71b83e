"""RT: what the run passes, how tight it bends, where it is held, what edge it meets."""

from __future__ import annotations

from collections.abc import Iterator

from baybook.checks.cable import chosen_area, size_of
from baybook.checks.found import SHEET, SHOP_RULE, Found, millimetres
from baybook.checks.route import hazards
from baybook.design import Design
from baybook.finding import Amount, Name, Verdict, say, term
from baybook.standards import load
from baybook.standards.rule_sets import rule_sets
from baybook.terms import HazardKind, PassageKind

# Read once on import, so that the rules below open no file.
_SUPPORT_M = rule_sets().support_m
# What a chafed cable may set free.
_NEVER_UNJUDGED = frozenset({HazardKind.FUEL, HazardKind.BRAKE, HazardKind.HIGH_VOLTAGE})
# A cable in an opening nearer than this to an edge needs a grommet. [faa-ac43-13-1b] 11-115
_EDGE_M = load().constants["grommet_clearance"]


def hazard_distance(design: Design) -> Iterator[Found]:
    """Keep the profile's distance to fuel, brake lines, high voltage and what else it lists.

    Nearer than its least: refused. Nearer than clear: a caution, the run is clamped there.
    The exhaust has a rule of its own.        [shop-rule], or the source of the profile's row
    """
    rules = {rule.kind: rule for rule in design.fit.shop.spacing.hazards}
    for path, hazard in hazards(design):
        rule = rules.get(hazard.kind)
        if rule is None or hazard.kind is HazardKind.EXHAUST:
            continue
        clear = rule.clear or rule.least
        if hazard.distance.low >= clear.value:
            continue
        near = hazard.distance.low < rule.least.value
        yield Found(
            verdict=Verdict.REFUSED if near else Verdict.CAUTION,
            place=path,
            where=hazard.distance.where,
            found=Amount.of(hazard.distance, 0).plain(),
            allowed=Amount.of(rule.least if near else clear, 0).at_least(),
            sources=(rule.source.replace(" ", "-"),),
            values={
                "what": Name(hazard.what),
                "distance": Amount.of(hazard.distance, 0).plain(),
                "least": Amount.of(rule.least, 0).at_least(),
                "clear": Amount.of(clear, 0).at_least(),
                "way": say("rule.RT-11.farther", least=Amount.of(rule.least, 0).at_least())
                if near
                else say("rule.RT-11.clamp"),
            },
        )


def distance_stated(design: Design) -> Iterator[Found]:
    """Pass fuel, brake lines and high voltage only by a distance that the profile states.

    [shop-rule]
    """
    stated = {rule.kind for rule in design.fit.shop.spacing.hazards}
    for path, hazard in hazards(design):
        if hazard.kind in _NEVER_UNJUDGED - stated:
            yield Found(
                verdict=Verdict.REFUSED,
                place=path,
                where=hazard.distance.where,
                found=Amount.of(hazard.distance, 0).plain(),
                allowed=say("rule.RT-15.stated"),
                sources=(SHOP_RULE,),
                values={
                    "what": Name(hazard.what),
                    "distance": Amount.of(hazard.distance, 0).plain(),
                    "kind": term(hazard.kind),
                },
            )


def bend_radius(design: Design) -> Iterator[Found]:
    """Bend the cable no tighter than its sheet allows, a hinge loop included. [fit-sheet]"""
    least = size_of(design).bend_radius
    route = design.fit.vehicle.routes[design.fit.job.route]
    for number, segment in enumerate(route.segments):
        if segment.bend is not None and segment.bend.low < least.high:
            yield Found(
                verdict=Verdict.REFUSED,
                place=f"vehicle.routes.{design.fit.job.route}.segments.{number}.bend",
                where=segment.bend.where,
                found=Amount.of(segment.bend, 0).plain(),
                allowed=Amount.of(least, 0).at_least(),
                sources=(SHEET,),
                values={
                    "segment": Name(segment.name),
                    "bend": Amount.of(segment.bend, 0).plain(),
                    "least": Amount.of(least, 0).at_least(),
                    "area": chosen_area(design),
                },
            )


def loop_radius(design: Design) -> Iterator[Found]:
    """Say where a loop at a hinge was surveyed without the radius that it bends to. [fit-sheet]"""
    route = design.fit.vehicle.routes[design.fit.job.route]
    for number, segment in enumerate(route.segments):
        if segment.loop is not None and segment.bend is None:
            least = Amount.of(size_of(design).bend_radius, 0).at_least()
            yield Found(
                verdict=Verdict.CAUTION,
                place=f"vehicle.routes.{design.fit.job.route}.segments.{number}.loop",
                where=segment.loop.where,
                found=say("rule.RT-16.unknown"),
                allowed=least,
                sources=(SHEET,),
                values={"segment": Name(segment.name), "least": least},
            )


def clip_pitch(design: Design) -> Iterator[Found]:
    """Clip the run as close as the published rule asks that the profile names.

    [iso10133], [faa-ac43-13-1b], [abyc-e11]
    """
    spacing = design.fit.shop.spacing
    most = _SUPPORT_M.get(spacing.clip_rule or "")
    if most is not None and spacing.clip_pitch.value > most:
        yield Found(
            verdict=Verdict.REFUSED,
            place="shop.spacing.clip_pitch",
            where=spacing.clip_pitch.where,
            found=Amount.of(spacing.clip_pitch, 0).plain(),
            allowed=millimetres(most).at_most(),
            sources=(spacing.clip_rule or "",),
            values={
                "pitch": Amount.of(spacing.clip_pitch, 0).plain(),
                "most": millimetres(most).at_most(),
                "rule": Name(spacing.clip_rule or ""),
            },
        )


def hole_edge(design: Design) -> Iterator[Found]:
    """Put a grommet where the run comes near the edge of an opening.

    Nearer than 9.5 mm (3/8 in) to an edge without a part in the opening: refused.
    [faa-ac43-13-1b] 11-115
    """
    route = design.fit.vehicle.routes[design.fit.job.route]
    for number, segment in enumerate(route.segments):
        wall = segment.passage
        if wall is None or wall.form is not PassageKind.OPEN or wall.edge is None:
            continue
        if wall.edge.low < _EDGE_M:
            yield Found(
                verdict=Verdict.REFUSED,
                place=f"vehicle.routes.{design.fit.job.route}.segments.{number}.passage.edge",
                where=wall.edge.where,
                found=Amount.of(wall.edge, 1).plain(),
                allowed=say("rule.RT-14.edge", least=millimetres(_EDGE_M, 1).at_least()),
                sources=("faa-ac43-13-1b",),
                values={
                    "wall": Name(wall.wall),
                    "edge": Amount.of(wall.edge, 1).plain(),
                    "least": millimetres(_EDGE_M, 1).at_least(),
                },
            )
