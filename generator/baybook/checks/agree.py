"""AG: the finished circuit obeys the laws that it was worked out by.

The rules before look at numbers; this one looks at whether the numbers belong to the
circuit that will be drawn and cut.
"""

from __future__ import annotations

import math
from collections.abc import Iterator

from baybook.checks.found import Found
from baybook.circuit import Conductor
from baybook.design import Design
from baybook.finding import Amount, Name, Verdict

_CLOSE = 1e-6  # relative


def laws_hold(design: Design) -> Iterator[Found]:
    """Find loop voltage, power, cut lengths and sizes again in the circuit. [circuit-laws]"""
    for what, found, expected, unit in _claims(design):
        if not math.isclose(found, expected, rel_tol=_CLOSE, abs_tol=_CLOSE):
            yield Found(
                verdict=Verdict.REFUSED,
                place=f"circuit.{what}",
                where=design.fit.mark("fit"),
                found=Amount(found, unit, 3),
                allowed=Amount(expected, unit, 3),
                sources=("circuit-laws",),
                values={"what": Name(what)},
            )


def _claims(design: Design) -> Iterator[tuple[str, float, float, str]]:
    """Yield (place, value found, value expected, unit)."""
    feed, circuit = design.solved.feed, design.circuit
    for point in (feed.low, feed.typical):
        if point is not None:
            fall = point.source_volts - point.current_A * point.loop_ohm
            yield "input.U_t", point.charger_V, fall, "V"
            yield "input.P", point.charger_V * point.current_A, feed.power_W, "W"
    shown = {figure.name: figure.value for figure in design.figures}
    for conductor in circuit.conductors:
        legs = sum(leg.length_m for leg in conductor.legs)
        yield f"{conductor.tag}.cut", conductor.cut_m, legs, "m"
        if design.figures and conductor.tag:
            yield f"{conductor.tag}.cut", shown[f"cut_{conductor.tag}"], conductor.cut_m, "m"
    for conductor in _input(design):
        yield f"{conductor.tag}.area", conductor.area_mm2, design.choice.area_mm2, "mm2"
    yield "F1.I_n", circuit.protections[0].rating_A, design.choice.rating_A, "A"
    if design.figures:
        yield "charger.U_set", shown["set_voltage"], design.choice.set_V, "V"


def _input(design: Design) -> Iterator[Conductor]:
    uses = ("source", "feed", "return")
    return (c for c in design.circuit.conductors if c.use in uses)
