"""ES: an estimate in a safety margin that has no factor makes the guide a draft."""

from __future__ import annotations

from collections.abc import Iterator

from baybook.checks.found import SHOP_RULE, Found
from baybook.design import Design
from baybook.finding import Amount, Name, Verdict, say
from baybook.quantity import Quantity, State
from baybook.terms import CueKind


def estimated_margin(design: Design) -> Iterator[Found]:
    """Mark the guide a draft for each estimate that a margin rests on. [shop-rule]

    The battery's internal resistance is not among them: it takes its factor.
    """
    for path, quantity in _in_margins(design):
        if quantity.basis.state is State.ESTIMATED:
            yield Found(
                verdict=Verdict.CAUTION,
                place=path,
                where=quantity.where,
                found=say("rule.ES-01.estimated", value=Amount.of(quantity)),
                allowed=say("rule.ES-01.measured"),
                sources=(SHOP_RULE,),
                values={"value": Amount.of(quantity), "path": Name(path)},
                draft=True,
            )


def _in_margins(design: Design) -> Iterator[tuple[str, Quantity]]:
    fit = design.fit
    supply, source = fit.vehicle.supply, fit.job.source
    mount = fit.vehicle.mounts[fit.job.mount]
    by_voltage = fit.vehicle.cues[fit.job.cue].kind is CueKind.VOLTAGE
    line = fit.vehicle.points[source.positive].line
    facts = {
        f"vehicle.points.{source.positive}.line.drop": line.drop if line else None,
        f"vehicle.points.{source.positive}.line.current": line.current if line else None,
        "vehicle.supply.low": supply.low,
        "vehicle.supply.high": supply.high,
        "vehicle.supply.rest": supply.rest if by_voltage else None,
        "vehicle.supply.hot_idle": supply.hot_idle,
        "vehicle.supply.hot_cruise": supply.hot_cruise,
        "vehicle.supply.base_day": supply.base_day,
        "vehicle.supply.base_night": supply.base_night,
        "vehicle.supply.allowance": supply.allowance,
        "fit.source.fuse_at": source.fuse_at,
        "fit.second.fuse_at": fit.job.second.fuse_at if fit.job.second else None,
        f"vehicle.mounts.{fit.job.mount}.panel": mount.panel,
        f"vehicle.mounts.{fit.job.mount}.free_depth": mount.free_depth,
    }
    for path, fact in facts.items():
        if isinstance(fact, Quantity):
            yield path, fact
    for number, segment in enumerate(fit.vehicle.routes[fit.job.route].segments):
        path = f"vehicle.routes.{fit.job.route}.segments.{number}"
        yield f"{path}.length", segment.length
        yield f"zones.{segment.zone}.temperature", fit.shop.zones[segment.zone].temperature
        for which, hazard in enumerate(segment.hazards):
            yield f"{path}.hazards.{which}.distance", hazard.distance
