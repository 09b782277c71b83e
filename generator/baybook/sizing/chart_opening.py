"""Opening of a protection against the withstand of its conductor, both over the current."""

# ruff: noqa: E741 - I is the letter of IEC for a current

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from baybook.chart import Chart, Curve, Place, Points
from baybook.design import Design
from baybook.finding import Amount, Message, Ref, say
from baybook.part import GatePoint, HoldPoint
from baybook.sizing.chart_axis import logarithmic, shown
from baybook.sizing.output import lead_size
from baybook.sizing.protection import sheet_of, source_point
from baybook.sizing.second import second_sheet
from baybook.sizing.validity import above
from baybook.sizing.withstand import k_factor
from baybook.sizing.work_out import size_of
from baybook.standards import load

# Read once on import, so that the functions below open no file.
_ADIABATIC_S = load().constants["adiabatic_limit"]
_LEFT, _RIGHT = 0.8, 1.4  # of the least and the greatest current: air beside them
_BELOW, _ABOVE = 0.4, 3.0  # of the shortest and the longest time
_SHORTEST_S = 0.01  # shown at least, where no gate is shorter


@dataclass(frozen=True, slots=True, kw_only=True)
class Guarded:
    """A protection, what its sheet promises, and the conductor behind it."""

    tag: str
    I_n: float
    opens: tuple[GatePoint, ...]
    holds: tuple[HoldPoint, ...]
    k: float  # 0: the cable may not grow any warmer in a fault
    area_mm2: float
    gauge: str  # as the cable's sheet calls the area
    near: tuple[float | None, float | None]  # current, and time until it opens [A, s]
    far: tuple[float | None, float | None]


def opening_charts(design: Design) -> Iterator[Chart]:
    """Yield a chart for each protection: that of the feed, then a second battery's own.

    opens: staircase through the gates of its sheet        [fit-sheet]
    withstand: t = k² S² / I², up to 5 s        [iec60364-4-43], 434.5.2
    """
    yield _chart(_first(design))
    second = _second(design)
    if second is not None:
        yield _chart(second)


def _first(design: Design) -> Guarded:
    fit, choice, fault = design.fit, design.choice, design.solved.fault
    stated = source_point(fit).factory_fuse or sheet_of(fit, choice.family)
    return Guarded(
        tag="F1",
        I_n=choice.rating_A,
        opens=stated.opens,
        holds=stated.holds,
        k=fault.k,
        area_mm2=choice.area_mm2,
        gauge=size_of(fit, choice.area_mm2).nearest_awg,
        near=(fault.near_A, fault.opens_near_s),
        far=(fault.far_A, fault.opens_far_s),
    )


def _second(design: Design) -> Guarded | None:
    fit, choice, second = design.fit, design.choice, design.solved.second
    if second is None or not choice.second_family:
        return None
    sheet, cable = second_sheet(fit, choice.second_family), fit.output_cable
    return Guarded(
        tag="F2",
        I_n=choice.second_rating_A,
        opens=sheet.opens,
        holds=sheet.holds,
        k=k_factor(cable.conductor_max.value, cable.short_circuit.value),
        area_mm2=fit.job.output_area.value,
        gauge=lead_size(fit).nearest_awg,
        near=(second.near_A, second.opens_near_s),
        far=(second.far_A, second.opens_far_s),
    )


def _chart(guarded: Guarded) -> Chart:
    x, y = _ends(guarded)
    device = Ref("device", guarded.tag)
    return Chart(
        id=f"opening-{guarded.tag}",
        title=say("chart.opening.title", device=device),
        x=logarithmic(say("chart.axis.current"), *x, "A"),
        y=logarithmic(say("chart.axis.time"), *y, "s"),
        places=tuple(_faults(guarded)),
        curves=tuple(_curves(guarded, x, y)),
        lines=tuple(_lines(guarded)),
    )


def _ends(guarded: Guarded) -> tuple[tuple[float, float], tuple[float, float]]:
    faults = [I for I, _ in (guarded.near, guarded.far) if I is not None]
    gates = [gate.multiple.value * guarded.I_n for gate in guarded.opens]
    times = [gate.within.value for gate in guarded.opens if gate.within.value > 0]
    held = [hold.up_to.value for hold in guarded.holds if hold.up_to is not None]
    stands = [_stood_current(guarded, _ADIABATIC_S)] if guarded.k else []
    currents = [guarded.I_n, *faults, *gates, *stands]
    x = _LEFT * min(currents), _RIGHT * max(currents)
    y = _BELOW * min([_SHORTEST_S, *times]), _ABOVE * max([_ADIABATIC_S, *times, *held])
    return x, y


def _stood_current(guarded: Guarded, t_s: float) -> float:
    """Current that the conductor stands for so long. [A]"""
    return guarded.k * guarded.area_mm2 / math.sqrt(t_s)


def stands_s(k: float, area_mm2: float, I: float) -> float:
    """Time for which a conductor stands a fault current, valid up to 5 s. [s]

    t = k² S² / I²        [iec60364-4-43], 434.5.2

    k         adiabatic factor, above 0 [A s^0.5 / mm2]
    area_mm2  conductor area, above 0 [mm2]
    I         fault current, above 0 [A]

    Raises:
        OutOfRange: an argument outside its range.
    """
    above(k, 0, "adiabatic factor", "A s^0.5/mm²")
    above(area_mm2, 0, "conductor area", "mm²")
    above(I, 0, "fault current", "A")
    return (k * area_mm2 / I) ** 2


def _curves(guarded: Guarded, x: tuple[float, float], y: tuple[float, float]) -> Iterator[Curve]:
    device = Ref("device", guarded.tag)
    if guarded.opens:
        yield Curve(
            label=say("chart.opening.opens", device=device),
            style="main",
            points=opening(guarded.opens, guarded.I_n, x[1], y[1]),
        )
    if guarded.holds:
        yield Curve(
            label=say("chart.opening.holds", device=device),
            style="limit",
            points=holding(guarded.holds, guarded.I_n, x[0], y[1]),
        )
    if guarded.k:
        last = min(x[1], _stood_current(guarded, y[0]))
        ends = (_stood_current(guarded, _ADIABATIC_S), last)
        yield Curve(
            label=say("chart.opening.stands", area=_area(guarded)),
            style="second",
            points=tuple((I, stands_s(guarded.k, guarded.area_mm2, I)) for I in ends),
        )


def opening(gates: Sequence[GatePoint], I_n: float, most_A: float, longest_s: float) -> Points:
    """Return the staircase over which a protection has opened for sure. [A, s]

    [fit-sheet]

    gates      of its sheet, at least one
    I_n        rated current, above 0 [A]
    most_A     where the staircase ends, above 0 [A]
    longest_s  where it comes from, above 0: below its first gate no opening is promised [s]
    """
    t_s = longest_s
    points: list[tuple[float, float]] = []
    for gate in sorted(gates, key=lambda gate: gate.multiple.value):
        I = gate.multiple.value * I_n
        points += [(I, t_s), (I, min(t_s, gate.within.value))]
        t_s = points[-1][1]
    return (*points, (most_A, t_s))


def holding(holds: Sequence[HoldPoint], I_n: float, least_A: float, longest_s: float) -> Points:
    """Return the staircase up to which a protection may carry a current. [A, s]

    [fit-sheet]

    holds      of its sheet, at least one
    I_n        rated current, above 0 [A]
    least_A    where the staircase begins, above 0, if it carries no current without limit [A]
    longest_s  what stands for time without limit, above 0 [s]
    """
    I = least_A
    points: list[tuple[float, float]] = []
    for hold in sorted(holds, key=lambda hold: hold.multiple.value):
        t_s = longest_s if hold.up_to is None else hold.up_to.value
        points += [(I, t_s), (hold.multiple.value * I_n, t_s)]
        I = points[-1][0]
    return tuple(points)


def _faults(guarded: Guarded) -> Iterator[Place]:
    for name, (I, opens_s) in (("far", guarded.far), ("near", guarded.near)):
        if I is not None:
            yield Place(
                label=_fault(f"chart.opening.{name}", guarded, I, opens_s),
                at=I,
                style="chosen",
                dots=() if opens_s is None else (opens_s,),
            )


def _fault(words: str, guarded: Guarded, I: float, opens_s: float | None) -> Message:
    current, device = Amount(I, "A", 0), Ref("device", guarded.tag)
    if opens_s is None:
        return say(f"{words}.never", current=current, device=device)
    return say(words, current=current, device=device, time=shown(opens_s, "s", 3))


def _lines(guarded: Guarded) -> Iterator[Message]:
    device = Ref("device", guarded.tag)
    for name, (I, opens_s) in (("far", guarded.far), ("near", guarded.near)):
        if I is None:
            continue
        yield _fault(f"chart.opening.says.{name}", guarded, I, opens_s)
        if guarded.k:
            stands = stands_s(guarded.k, guarded.area_mm2, I)
            yield _stood(guarded, stands)
    for gate in guarded.opens:
        yield say(
            "chart.opening.gate",
            device=device,
            current=shown(gate.multiple.value * guarded.I_n, "A", 1),
            time=Amount.of(gate.within),
        )
    for hold in guarded.holds:
        current = shown(hold.multiple.value * guarded.I_n, "A", 1)
        if hold.up_to is None:
            yield say("chart.opening.carries", device=device, current=current)
        else:
            yield say(
                "chart.opening.hold", device=device, current=current, time=Amount.of(hold.up_to)
            )
    yield say("chart.opening.adiabatic", time=Amount(_ADIABATIC_S, "s", 0))


def _area(guarded: Guarded) -> Amount:
    return Amount.area(guarded.area_mm2, guarded.gauge)


def _stood(guarded: Guarded, stands: float) -> Message:
    """Say how long the cable stands a fault, no longer than the law holds."""
    area = _area(guarded)
    if stands > _ADIABATIC_S:
        return say("chart.opening.stood.long", area=area, time=Amount(_ADIABATIC_S, "s", 0))
    return say("chart.opening.stood", area=area, time=Amount(stands, "s", 3))
