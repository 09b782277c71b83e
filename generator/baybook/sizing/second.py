"""A second battery as the load: what protects its own end, and the two faults it can feed.

Near: a dead short right behind its protection. Far: a short at the charger's output. The
charger is set by hand, so the highest of its settings counts as the battery's voltage.
"""

from __future__ import annotations

from collections.abc import Iterator

from baybook.circuit import Leg
from baybook.design import Choice
from baybook.fit import Fit
from baybook.part import GatePoint, ProtectionSheet
from baybook.quantity import Quantity, State, Unknown
from baybook.second import BatterySheet
from baybook.sizing.conductor import resistance_at
from baybook.sizing.lengths import round_up, total
from baybook.sizing.output import lead_ambient, lead_capacity, lead_size
from baybook.sizing.overload import Lain, hottest
from baybook.sizing.protection import (
    STRONGER,
    WEAKER,
    adiabatic_gates,
    continuous_factor,
    sure_opening,
)
from baybook.sizing.ratings import smallest_rating
from baybook.sizing.source import prospective_current
from baybook.sizing.withstand import k_factor, let_through_ratio, overload_ratio
from baybook.solved import Overload, Second


def second_options(fit: Fit) -> Iterator[tuple[str, float]]:
    """Yield what may protect the second battery's end as (id of the sheet, rating). [A]

    Of each family the smallest rating that carries the charger's output, in the order named;
    its largest where none does, for a rule to refuse. ("", 0) where there is nothing.
    [shop-rule], [fit-sheet]
    """
    choice = fit.job.second
    if fit.second is None or choice is None or not choice.protection:
        yield "", 0.0
        return
    for name, sheet in zip(choice.protection, fit.second_protections, strict=True):
        factor = continuous_factor(fit, sheet, lead_ambient(fit))
        ratings = [rating.value for rating in sheet.ratings]
        most_A = fit.charger.output_current.high
        carrying = smallest_rating(ratings, factor, most_A) if factor else None
        yield name, max(ratings) if carrying is None else carrying


def second_sheet(fit: Fit, family: str) -> ProtectionSheet:
    """Sheet of the protection at the second battery by its id.

    [fit-sheet]
    """
    names = fit.job.second.protection if fit.job.second else ()
    return fit.second_protections[names.index(family)]


def second_rating(fit: Fit, choice: Choice) -> Quantity:
    """Rating of the protection at the second battery, as its sheet writes it.

    [fit-sheet]
    """
    ratings = second_sheet(fit, choice.second_family).ratings
    return next(rating for rating in ratings if rating.value == choice.second_rating_A)


def second_gates(fit: Fit, family: str) -> tuple[GatePoint, ...]:
    """Sure-opening gates that count; empty without a protection.

    [fit-sheet], [iec60364-4-43]
    """
    return adiabatic_gates(second_sheet(fit, family).opens) if family else ()


def ends(fit: Fit) -> tuple[float, float, float]:
    """Cut lengths: charger to protection, protection to battery, and the return. [m]

    [vehicle-survey]
    """
    shop = fit.shop.lengths
    half, step = shop.end_allowance.value / 2, shop.cutting_step.value
    length = fit.job.output_length.high
    at_m = fit.job.second.fuse_at.high if fit.job.second else 0.0
    return (
        round_up(length - at_m + half, step),
        round_up(at_m + half, step),
        round_up(length + 2 * half, step),
    )


def second_legs(fit: Fit) -> tuple[tuple[Leg, ...], ...]:
    """The same three as legs, all in the zone of the mount.

    [vehicle-survey]
    """
    zone = fit.vehicle.mounts[fit.job.mount].zone
    return tuple(
        (Leg(zone=zone, length_m=length, ambient_C=lead_ambient(fit)),) for length in ends(fit)
    )


def battery_resistance(battery: BatterySheet) -> tuple[float, float] | None:
    """Low and high end of its internal resistance, None if unknown. [ohm]

    Measured or from a paper: the ends of its tolerance. Estimated: 0.7 and 1.5 times
    [shop-rule].
    """
    internal = battery.internal
    if isinstance(internal, Unknown):
        return None
    if internal.basis.state is State.ESTIMATED:
        return STRONGER * internal.value, WEAKER * internal.value
    return internal.low, internal.high


def highest(fit: Fit) -> Quantity:
    """The highest voltage that the second battery may stand at: the charger's highest setting.

    [fit-sheet]
    """
    return fit.charger.output_max


def solve_second(fit: Fit, choice: Choice) -> Second | None:
    """Work out both faults of the second battery; None for a station.

    Near: I = U_set,max / R_int,min.  Far: I = U_empty / (R_int,max + R_loop)  [circuit-laws]
    """
    if fit.second is None:
        return None
    internal = battery_resistance(fit.second)
    metres = sum(total(legs) for legs in second_legs(fit))
    size, cable = lead_size(fit), fit.output_cable
    hot = resistance_at(size.resistance.high, cable.conductor_max.value)
    loop = metres * hot + fit.shop.joints.protection.high
    near = prospective_current(highest(fit).high, internal[0]) if internal else None
    far = prospective_current(fit.second.empty.low, internal[1] + loop) if internal else None
    gates, I_n = second_gates(fit, choice.second_family), choice.second_rating_A
    opens_near, opens_far = _opens(gates, I_n, near), _opens(gates, I_n, far)
    k = k_factor(cable.conductor_max.value, cable.short_circuit.value)
    area = fit.job.output_area.value
    factor = _factor(fit, choice.second_family)
    carries = lead_capacity(fit)
    return Second(
        factor=factor,
        carries_A=None if factor is None else I_n * factor,
        near_A=near,
        far_A=far,
        far_ohm=loop,
        opens_near_s=opens_near,
        opens_far_s=opens_far,
        k=k,
        withstand=tuple(
            let_through_ratio(I, t, k, area)
            for I, t in ((near, opens_near), (far, opens_far))  # noqa: E741 - IEC letter
            if I is not None and t is not None
        ),
        overload=overload_ratio(I_n, carries) if carries and I_n else float("inf"),
    )


def second_overload(fit: Fit, choice: Choice) -> Overload | None:
    """Work out how warm the output cable gets under what the second protection may hold.

    [heat-balance] [iso8820-3]
    """
    if fit.second is None or not choice.second_family or not choice.second_rating_A:
        return None
    place = Lain(
        zone=fit.vehicle.mounts[fit.job.mount].zone,
        ambient_C=lead_ambient(fit),
        carries_A=lead_capacity(fit),
    )
    holds = second_sheet(fit, choice.second_family).holds
    return hottest(holds, choice.second_rating_A, (place,), fit.output_cable, lead_size(fit))


def _factor(fit: Fit, family: str) -> float | None:
    if not family:
        return None
    return continuous_factor(fit, second_sheet(fit, family), lead_ambient(fit))


def _opens(gates: tuple[GatePoint, ...], I_n: float, I: float | None) -> float | None:  # noqa: E741
    """Return the opening time, None where no fuse is fitted or the fault is not known."""
    return sure_opening(gates, I_n, I) if I_n and I is not None else None
