"""The protection in its place: what it carries, what it must break, when it opens.

Two faults are looked at. Near: a dead short right behind the protection, strong battery,
nothing else in the way; the part must break it. Far: a short at the charger, weak battery,
hot copper, joints counted; the part must still open, soon enough for the cable.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from baybook.design import Choice
from baybook.fit import Fit
from baybook.part import DeratingPoint, GatePoint, HoldPoint, ProtectionSheet
from baybook.point import Point
from baybook.quantity import Quantity, State, Unknown
from baybook.sizing.lengths import zone_at
from baybook.sizing.ratings import smallest_rating
from baybook.sizing.source import prospective_current
from baybook.sizing.validity import above, within
from baybook.sizing.withstand import k_factor, let_through_ratio, overload_ratio
from baybook.solved import Fault
from baybook.standards import load

# Read once on import, so that the functions below open no file.
_ADIABATIC_S = load().constants["adiabatic_limit"]
# An estimate in a safety margin: a battery may be this much stronger or weaker. [shop-rule]
STRONGER = 0.7
WEAKER = 1.5


@dataclass(frozen=True, slots=True, kw_only=True)
class Behind:
    """What stands behind the protection: the loop of a far fault and the cable."""

    loop_ohm: float  # joints counted, copper at theta_max
    area_mm2: float
    carries_A: float
    theta_max_C: float
    short_circuit_C: float
    others_A: float = 0.0  # that other loads draw through the same part


def options(fit: Fit, input_limit_A: float) -> Iterator[tuple[str, Quantity]]:
    """Yield what may protect the feed as (id of the sheet, rating), the smallest rating first.

    Of each family the smallest rating that carries the design current, I_n·k·d ≥ I_B; its
    largest where none does, for a rule to refuse. A vehicle maker's fused point is the
    only option where the feed starts at one: its id is "". [shop-rule], [fit-sheet]

    input_limit_A  I_B, above 0 [A]

    Raises:
        OutOfRange: an argument outside its range.
    """
    above(input_limit_A, 0, "design current", "A")
    fused = source_point(fit).factory_fuse
    if fused is not None:
        yield "", fused.rating
        return
    ambient_C = fuse_ambient(fit)
    found: list[tuple[str, Quantity]] = []
    too_small: list[tuple[str, Quantity]] = []
    for name, sheet in zip(fit.job.protection, fit.protections, strict=True):
        factor = continuous_factor(fit, sheet, ambient_C)
        by_amps = {rating.value: rating for rating in sheet.ratings}
        carrying = smallest_rating(tuple(by_amps), factor, input_limit_A) if factor else None
        if carrying is not None:
            found.append((name, by_amps[carrying]))
        too_small.append((name, by_amps[max(by_amps)]))
    yield from sorted(found or too_small, key=lambda option: option[1].value)


def derating_factor(points: Sequence[DeratingPoint], ambient_C: float) -> float | None:
    """Share of its rating that a part carries at an ambient, None beyond its table. [1]

    The row of the next hotter ambient, never a value between two rows [fit-sheet].

    points     rows of the sheet
    ambient_C  zone of the part, any [°C]
    """
    hotter = [p for p in points if p.ambient.value >= ambient_C]
    row = min(hotter, key=lambda point: point.ambient.value, default=None)
    return row.factor.low if row else None


def continuous_factor(fit: Fit, sheet: ProtectionSheet, ambient_C: float) -> float | None:
    """Factor k·d: continuous factor of the shop times the part's own derating. [1]

    [shop-rule], [fit-sheet]

    ambient_C  zone of the part, any [°C]
    """
    derating = derating_factor(sheet.derating, ambient_C)
    return None if derating is None else fit.shop.limits.continuous_factor.value.value * derating


def sure_opening(gates: Sequence[GatePoint], I_n: float, I: float) -> float | None:  # noqa: E741
    """Time within which the part opens for sure, None where its sheet promises nothing. [s]

    The gate of the highest multiple that the current reaches [fit-sheet].

    gates  (multiple of I_n, time) as the sheet states them
    I_n    rated current, above 0 [A]
    I      fault current, 0 or more [A]

    Raises:
        OutOfRange: an argument outside its range.
    """
    above(I_n, 0, "rated current", "A")
    within(I, 0, float("inf"), "fault current", "A")
    reached = [gate for gate in gates if gate.multiple.value * I_n <= I]
    return min((gate.within.value for gate in reached), default=None)


def internal_resistance(fit: Fit) -> tuple[float, float] | None:
    """Low and high end of the battery's internal resistance, None if unknown. [ohm]

    Measured, or from a paper: the ends of its tolerance. Estimated: 0.7 and 1.5 times
    [shop-rule].
    """
    internal = fit.vehicle.battery.internal
    if isinstance(internal, Unknown):
        return None
    if internal.basis.state is State.ESTIMATED:
        return STRONGER * internal.value, WEAKER * internal.value
    return internal.low, internal.high


def source_point(fit: Fit) -> Point:
    """The point of the vehicle that the feed starts at.

    [vehicle-survey]
    """
    return fit.vehicle.points[fit.job.source.positive]


def fuse_zone(fit: Fit) -> str:
    """Id of the zone that the protection lies in.

    [vehicle-survey]
    """
    if source_point(fit).factory_fuse is not None:
        return source_point(fit).zone
    segments = fit.vehicle.routes[fit.job.route].segments
    return zone_at(segments, fit.job.source.fuse_at.value)


def fuse_ambient(fit: Fit) -> float:
    """Temperature at the protection, the high end. [°C]

    [vehicle-survey], [shop-rule]
    """
    return fit.shop.zones[fuse_zone(fit)].temperature.high


def gates_of(fit: Fit, family: str) -> tuple[GatePoint, ...]:
    """Sure-opening gates of the protection that count, empty where its paper states none.

    Up to 5 s, as long as the heat of a fault stays in the copper [iec60364-4-43] 434.5.2.
    """
    fused = source_point(fit).factory_fuse
    return adiabatic_gates(fused.opens if fused else sheet_of(fit, family).opens)


def holds_of(fit: Fit, family: str) -> tuple[HoldPoint, ...]:
    """What the protection may hold, and for how long; empty where its paper states nothing.

    [fit-sheet]
    """
    fused = source_point(fit).factory_fuse
    return fused.holds if fused else sheet_of(fit, family).holds


def adiabatic_gates(stated: Sequence[GatePoint]) -> tuple[GatePoint, ...]:
    """Gates up to 5 s, as long as the heat of a fault stays in the copper [iec60364-4-43]."""
    return tuple(gate for gate in stated if 0 < gate.within.value <= _ADIABATIC_S)


def sheet_of(fit: Fit, family: str) -> ProtectionSheet:
    """Sheet of a protection by its id.

    [fit-sheet]
    """
    return fit.protections[fit.job.protection.index(family)]


def solve_fault(fit: Fit, choice: Choice, behind: Behind) -> Fault:
    """Work out both faults, and what the cable stands while the part opens.

    Near: I = U_high / R_int,min.  Far: I = U_low / (R_int,max + R_loop)  [circuit-laws]
    Withstand: I²t over k²S², k from theta_max to the short-circuit limit [iec60364-4-43]
    """
    supply, internal = fit.vehicle.supply, internal_resistance(fit)
    near = prospective_current(supply.high.high, internal[0]) if internal else None
    far = prospective_current(supply.low.low, internal[1] + behind.loop_ohm) if internal else None
    gates, I_n = gates_of(fit, choice.family), choice.rating_A
    opens_near = sure_opening(gates, I_n, near) if near is not None else None
    opens_far = sure_opening(gates, I_n, far) if far is not None else None
    k = _k(behind)
    factor, carried = _carried(fit, choice, behind.others_A)
    return Fault(
        zone=fuse_zone(fit),
        factor=factor,
        carries_A=carried,
        internal_low_ohm=internal[0] if internal else None,
        internal_high_ohm=internal[1] if internal else None,
        near_A=near,
        far_A=far,
        far_ohm=behind.loop_ohm,
        opens_near_s=opens_near,
        opens_far_s=opens_far,
        k=k,
        withstand_near=_withstand(near, opens_near, k, behind.area_mm2),
        withstand_far=_withstand(far, opens_far, k, behind.area_mm2),
        overload=overload_ratio(I_n, behind.carries_A) if behind.carries_A else float("inf"),
    )


def _carried(fit: Fit, choice: Choice, others_A: float) -> tuple[float | None, float | None]:
    """k·d, and what the part carries for the feed: others on the vehicle's fuse go off. [A]"""
    fused = source_point(fit).factory_fuse
    if fused is not None:
        return None, fused.continuous.low - others_A
    factor = continuous_factor(fit, sheet_of(fit, choice.family), fuse_ambient(fit))
    return factor, None if factor is None else choice.rating_A * factor


def _k(behind: Behind) -> float:
    """Return k, 0 for a cable that may not grow any warmer in a fault."""
    if behind.short_circuit_C <= behind.theta_max_C:
        return 0.0
    return k_factor(behind.theta_max_C, behind.short_circuit_C)


def _withstand(I: float | None, t_s: float | None, k: float, area_mm2: float) -> float | None:  # noqa: E741
    if I is None or t_s is None:
        return None
    return let_through_ratio(I, t_s, k, area_mm2) if k else float("inf")
