"""OC, SU: a fuse or a line of the vehicle's maker before ours, and what others draw there."""

from __future__ import annotations

from collections.abc import Iterator

from baybook.checks.found import SHEET, SHOP_RULE, Found, amps
from baybook.checks.part import F1, part
from baybook.design import Design
from baybook.finding import Amount, Listing, Name, Value, Verdict, say
from baybook.point import FactoryFuse, Point


def upstream_carries(design: Design) -> Iterator[Found]:
    """Let the fuse before ours carry the charger without limit of time.

    I_continuous(upstream) ≥ I_B + I_o; what the vehicle file names of other loads   [fit-sheet]
    """
    point, first = _upstream(design)
    wanted = design.choice.input_limit_A + _others(design)
    if first is not None and first.continuous.low < wanted:
        yield _found(
            design,
            point,
            Verdict.REFUSED,
            found=Amount.of(first.continuous, 0),
            allowed=amps(wanted),
            first=first,
        )


def shared_line(design: Design) -> Iterator[Found]:
    """Let the vehicle's own line carry the charger and what else hangs on it.

    I_B + I_o ≤ I_line, the current that its maker allows in it        [fit-sheet]
    """
    fit = design.fit
    point = fit.vehicle.points[fit.job.source.positive]
    wanted = design.choice.input_limit_A + _others(design)
    if point.line is None or wanted <= point.line.carries.low:
        return
    yield Found(
        verdict=Verdict.REFUSED,
        place="circuit.source.line",
        where=point.line.carries.where,
        found=amps(wanted),
        allowed=Amount.of(point.line.carries),
        sources=(SHEET, "circuit-laws"),
        values={
            "point": Name(point.what),
            "current": amps(design.choice.input_limit_A),
            "others": amps(_others(design)),
            "whole": amps(wanted),
            "carries": Amount.of(point.line.carries),
            "loads": Listing(tuple(Name(load.what) for load in point.line.loads)),
        },
    )


def _others(design: Design) -> float:
    """What others draw from the vehicle's own line, at its lowest voltage. [A]"""
    low = design.solved.feed.low
    return low.line.others_A if low is not None and low.line is not None else 0.0


def ours_opens_first(design: Design) -> Iterator[Found]:
    """Tell where a fault behind our part may open the vehicle's fuse before it, or with it.

    Selective is shown only if the upstream paper says that it holds the far fault longer
    than ours needs to open: m_up = I_far / I_n,up ≤ m_hold with t_hold > t_open.
    [shop-rule], gates and holds [fit-sheet]
    """
    point, first = _upstream(design)
    fault = design.solved.fault
    if first is None or fault.far_A is None or fault.opens_far_s is None or part(design).factory:
        return
    holds = [
        hold
        for hold in first.holds
        if hold.multiple.value * first.rating.low >= fault.far_A
        and (hold.up_to is None or hold.up_to.low > fault.opens_far_s)
    ]
    if not holds:
        yield _found(
            design,
            point,
            Verdict.CAUTION,
            found=Amount(fault.far_A, "A", 0),
            allowed=say("rule.OC-22.holds", time=Amount(fault.opens_far_s, "s", 2)),
            first=first,
        )


def _upstream(design: Design) -> tuple[Point, FactoryFuse | None]:
    point = design.fit.vehicle.points[design.fit.job.source.positive]
    return point, point.upstream


def _found(  # noqa: PLR0913 - what a finding about two parts is made of
    design: Design,
    point: Point,
    verdict: Verdict,
    *,
    found: Value,
    allowed: Value,
    first: FactoryFuse,
) -> Found:
    return Found(
        verdict=verdict,
        place="circuit.F1.upstream",
        where=first.rating.where,
        found=found,
        allowed=allowed,
        sources=(SHOP_RULE, SHEET),
        values={
            "fuse": F1,
            "first": Amount.of(first.rating, 0),
            "point": Name(point.what),
            "current": amps(design.choice.input_limit_A + _others(design)),
            "carries": Amount.of(first.continuous, 0),
        },
    )
