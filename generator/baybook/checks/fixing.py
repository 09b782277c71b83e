"""FX, RS: what is behind the panel, what holds the charger, and what could go off beside it."""

from __future__ import annotations

import math
from collections.abc import Iterator

from baybook.checks.found import PRACTICE, SHEET, SHOP_RULE, Found, millimetres, pieces
from baybook.design import Design
from baybook.finding import Name, Verdict, say
from baybook.fit import has_high_voltage
from baybook.quantity import Unknown
from baybook.route import Mount


def tip_protrusion(design: Design) -> Iterator[Found]:
    """Let no screw reach what is behind the panel.

    screw length - panel < free depth        [shop-rule]
    """
    mount, tip = _mount(design), design.solved.place.tip_m
    if not isinstance(mount.free_depth, Unknown) and tip >= mount.free_depth.low:
        yield Found(
            verdict=Verdict.REFUSED,
            place="circuit.mount.tip",
            where=mount.screw_length.where,
            found=millimetres(tip, 1).plain(),
            allowed=millimetres(mount.free_depth.low, 1).at_most(),
            sources=(SHOP_RULE,),
            values={
                "tip": millimetres(tip, 1).plain(),
                "depth": millimetres(mount.free_depth.low, 1).at_most(),
                "place": Name(mount.place),
                "behind": Name(mount.behind),
            },
        )


def depth_unknown(design: Design) -> Iterator[Found]:
    """Forbid drilling where nobody knows what is behind the panel. [shop-rule]"""
    mount = _mount(design)
    if isinstance(mount.free_depth, Unknown):
        yield Found(
            verdict=Verdict.REFUSED,
            place="circuit.mount.free_depth",
            where=mount.free_depth.where,
            found=say("rule.FX-02.unknown"),
            allowed=say("rule.FX-02.measured"),
            sources=(SHOP_RULE,),
            values={"place": Name(mount.place), "behind": Name(mount.behind)},
        )


def screws_forbidden(design: Design) -> Iterator[Found]:
    """Set no screw where the vehicle's maker forbids any.

    A traction battery is behind it, and a screw through its cover kills.        [fit-sheet]
    """
    mount = _mount(design)
    if mount.no_screws is not None:
        yield Found(
            verdict=Verdict.REFUSED,
            place="circuit.mount.place",
            where=design.fit.mark("fit.mount"),
            found=Name(mount.place),
            allowed=say("rule.FX-04.elsewhere"),
            sources=(SHEET,),
            values={"place": Name(mount.place), "why": Name(mount.no_screws)},
        )


def fixings_left(design: Design) -> Iterator[Found]:
    """Leave at least one fixing to hold when the shop's number of them is lost. [shop-rule]"""
    mount, lost = _mount(design), design.fit.shop.restraint.fixings_lost
    if math.isinf(design.solved.place.fixing_N):
        yield Found(
            verdict=Verdict.REFUSED,
            place="circuit.mount.fixings",
            where=design.fit.mark("fit.mount"),
            found=pieces(mount.fixings),
            allowed=pieces(lost + 1),
            sources=(SHOP_RULE,),
            values={"fixings": mount.fixings, "lost": lost, "place": Name(mount.place)},
        )


def restraints_listed(design: Design) -> Iterator[Found]:
    """Hold until somebody has looked for airbags and pretensioners on the way.

    `none found` and by whom is an answer; `unknown` or nothing is not.        [common-practice]
    """
    found = design.fit.vehicle.restraints.found
    if not found or "unknown" in found:
        yield Found(
            verdict=Verdict.HOLD,
            place="vehicle.restraints.found",
            where=design.fit.mark("vehicle.restraints.found"),
            found=say("rule.RS-01.unknown"),
            allowed=say("rule.RS-01.listed"),
            sources=(PRACTICE,),
        )


def restraint_wait(design: Design) -> Iterator[Found]:
    """Hold until the maker's wait after disconnection is known. [common-practice]"""
    wait = design.fit.vehicle.restraints.wait
    if isinstance(wait, Unknown):
        yield Found(
            verdict=Verdict.HOLD,
            place="vehicle.restraints.wait",
            where=wait.where,
            found=say("rule.RS-02.unknown"),
            allowed=say("rule.RS-02.maker"),
            sources=(PRACTICE,),
        )


def discharge_wait(design: Design) -> Iterator[Found]:
    """Hold until the discharge time of a high-voltage vehicle is known. [common-practice]"""
    fit = design.fit
    traction = fit.vehicle.high_voltage
    if not has_high_voltage(fit) or (traction and not isinstance(traction.wait, Unknown)):
        return
    yield Found(
        verdict=Verdict.HOLD,
        place="vehicle.high_voltage.wait",
        where=traction.wait.where if traction else fit.mark("vehicle.high_voltage"),
        found=say("rule.RS-03.unknown" if traction else "rule.RS-03.absent"),
        allowed=say("rule.RS-03.maker"),
        sources=(PRACTICE,),
    )


def _mount(design: Design) -> Mount:
    return design.fit.vehicle.mounts[design.fit.job.mount]
