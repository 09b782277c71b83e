"""OC, SB: how warm a cable gets under what its protection may hold for minutes."""

from __future__ import annotations

from collections.abc import Iterator

from baybook.checks.found import SHEET, Found, degrees, share, whole_amps
from baybook.checks.part import F1
from baybook.design import Design
from baybook.finding import Amount, Name, Ref, Value, Verdict, say
from baybook.solved import Overload


def cable_stays_cool(design: Design) -> Iterator[Found]:
    """Keep the input cable within its limit under what its protection may hold.

    theta(t) ≤ theta_overload of the sheet, else theta_max, at every hold that is stated
    [heat-balance], holds [fit-sheet], without one 1.35 I_n without end [iso8820-3]
    """
    yield from _too_hot(
        design,
        design.solved.overload,
        (F1, design.choice.rating_A),
        ("circuit.F1.overload_temperature", "fit.protection"),
        design.fit.cable.name,
    )


def second_stays_cool(design: Design) -> Iterator[Found]:
    """Keep the output cable within its limit under what the second protection may hold.

    As for the input cable        [heat-balance], [fit-sheet], [iso8820-3]
    """
    yield from _too_hot(
        design,
        design.solved.second_overload,
        (Ref("device", "F2"), design.choice.second_rating_A),
        ("circuit.F2.overload_temperature", "fit.second"),
        design.fit.output_cable.name,
    )


def _too_hot(
    design: Design,
    overload: Overload | None,
    part: tuple[Ref, float],
    at: tuple[str, str],
    cable: str,
) -> Iterator[Found]:
    if overload is None or overload.hottest_C <= overload.allowed_C:
        return
    fuse, rating_A = part
    yield Found(
        verdict=Verdict.REFUSED,
        place=at[0],
        where=design.fit.mark(at[1]),
        found=degrees(overload.hottest_C),
        allowed=degrees(overload.allowed_C).at_most(),
        sources=("heat-balance", "iso8820-3", SHEET),
        values={
            "fuse": fuse,
            "rating": whole_amps(rating_A),
            "multiple": share(overload.multiple, 0),
            "held": _for_how_long(overload),
            "hottest": degrees(overload.hottest_C),
            "limit": degrees(overload.allowed_C).at_most(),
            "cable": Name(cable),
            "zone": Name(design.fit.shop.zones[overload.zone].name),
        },
    )


def _for_how_long(overload: Overload) -> Value:
    if overload.up_to_s is None:
        return say("rule.OC-25.endless")
    return say("rule.OC-25.up_to", time=Amount(overload.up_to_s, "s", 0))
