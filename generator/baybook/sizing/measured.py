"""A measured vehicle put back into the model: its resistances, its supply, its lengths."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

from baybook.design import Design
from baybook.finding import Amount, say
from baybook.fit import Fit
from baybook.quantity import Quantity
from baybook.record import Way
from baybook.sizing.work_out import with_route, with_supply

_SLACK = 1e-9  # of binary numbers


def measured_ways(design: Design, read: Mapping[str, float]) -> tuple[Way, ...]:
    """Return the resistance of positive, return and whole loop against the modelled ones. [ohm]

    R = dU / I, allowed from cold to loaded copper, widened by both meters:
    R_cold (1 - m_U) / (1 + m_I) to R (1 + m_U) / (1 - m_I)        [circuit-laws] [shop-rule]

    read  "current" [A], "positive" and "return" [V], any, by the names of the readings

    Leaves out: a current too small to divide by; then there is nothing to compare.
    """
    meter, current = design.fit.shop.meter, read["current"]
    if current <= 0:
        return ()
    over = (1 + meter.voltage.value) / (1 - meter.current.value)
    under = (1 - meter.voltage.value) / (1 + meter.current.value)
    cold = design.figure("loop_resistance_cold").value * under
    drops = {
        "positive": (read["positive"], 0.0, design.figure("positive_resistance_low").value),
        "return": (read["return"], 0.0, design.figure("return_resistance_low").value),
        "loop": (
            read["positive"] + read["return"],
            cold,
            design.figure("loop_resistance").value,
        ),
    }
    return tuple(
        Way(
            what=say(f"record.way.{name}"),
            measured=_ohms(drop / current),
            low=_ohms(low),
            high=_ohms(high * over),
            inside=low - _SLACK <= drop / current <= high * over + _SLACK,
        )
        for name, (drop, low, high) in drops.items()
    )


def _ohms(value: float) -> Amount:
    return Amount(value, "ohm", 2)


def as_measured(
    design: Design,
    volts: tuple[float | None, float | None],
    lengths: tuple[Quantity, ...] | None,
) -> Design:
    """Return the same fit with the supply and the lengths of this very vehicle.

    [vehicle-survey]

    volts    lowest and highest running voltage that was read, any, None for none [V]
    lengths  of the segments in their order, as many as the route has [m]
    """
    low, high = volts
    supply = design.fit.vehicle.supply
    update = {}
    if low is not None and low < supply.low.low:
        update["low"] = _plain(supply.low, low)
    if high is not None and high > supply.high.high:
        update["high"] = _plain(supply.high, high)
    if update:
        design = with_supply(design, _vehicle(design.fit, supply=supply.model_copy(update=update)))
    if lengths is not None:
        route = design.fit.vehicle.routes[design.fit.job.route]
        segments = tuple(
            segment.model_copy(update={"length": length})
            for segment, length in zip(route.segments, lengths, strict=True)
        )
        laid = route.model_copy(update={"segments": segments})
        routes = {**design.fit.vehicle.routes, design.fit.job.route: laid}
        design = with_route(design, _vehicle(design.fit, routes=routes))
    return design


def _plain(like: Quantity, volts: float) -> Quantity:
    return replace(like, value=volts, low=volts, high=volts, written="")


def _vehicle(fit: Fit, **update: object) -> Fit:
    return replace(fit, vehicle=fit.vehicle.model_copy(update=update))
