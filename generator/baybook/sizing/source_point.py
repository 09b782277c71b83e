"""The fit as its source and its load really are: one battery of a pair, two chargers as one.

Both are worked out with the same sums as any other fit, so that a refusal shows figures that
belong to what was asked for.
"""

from __future__ import annotations

from dataclasses import replace

from baybook.fit import Fit
from baybook.quantity import Quantity
from baybook.sheet import ChargerSheet
from baybook.sizing.validity import above, within

_VOLTS = ("nominal", "low", "typical", "high", "rest")
_BY_UNITS = ("output_power", "standby", "mass", "input_current")
_PARALLEL = ("output_current",)
_SERIES = ("output_min", "output_max", "output_step", "output_default", "overshoot")


def as_asked(fit: Fit) -> Fit:
    """Return the fit with the supply at its tap, and with a pair of chargers as one.

    [circuit-laws]
    """
    return _paired(_at_tap(fit))


def _at_tap(fit: Fit) -> Fit:
    """Between batteries in series the volts are those of one of them. [circuit-laws]"""
    vehicle = fit.vehicle
    units = vehicle.battery.units
    if not vehicle.points[fit.job.source.positive].tap or units < 2:  # noqa: PLR2004
        return fit
    parts = {name: times(getattr(vehicle.supply, name), 1 / units) for name in _VOLTS}
    supply = vehicle.supply.model_copy(update=parts)
    return replace(fit, vehicle=vehicle.model_copy(update={"supply": supply}))


def _paired(fit: Fit) -> Fit:
    """Add up what adds up: amperes in parallel, volts in series, watts in both. [circuit-laws]"""
    units = fit.job.charger_units
    if units == 1:
        return fit
    return replace(fit, charger=pair(fit.charger, units, series=fit.job.pairing == "series"))


def pair(charger: ChargerSheet, units: int, *, series: bool) -> ChargerSheet:
    """Return one sheet for several like chargers on one feed.

    [circuit-laws]

    units   how many, 2 or more
    series  their outputs in series; else in parallel

    Raises:
        OutOfRange: an argument outside its range.
    """
    within(units, 2, float("inf"), "chargers")
    grown = (*_BY_UNITS, *(_SERIES if series else _PARALLEL))
    parts: dict[str, object] = {name: times(getattr(charger, name), units) for name in grown}
    if charger.power is not None:
        steps = tuple(
            step.model_copy(
                update={
                    "power": times(step.power, units),
                    "input_limit": times(step.input_limit, units),
                }
            )
            for step in charger.power.steps
        )
        parts["power"] = charger.power.model_copy(update={"steps": steps})
    return charger.model_copy(update={**parts, "name": f"{units} × {charger.name}"})


def times(quantity: Quantity, factor: float) -> Quantity:
    """Return a multiple of a figure; what is printed is the figure as it stands now.

    [circuit-laws]

    factor  above 0 [1]

    Raises:
        OutOfRange: an argument outside its range.
    """
    above(factor, 0, "factor")
    value = quantity.value * factor
    return replace(
        quantity,
        value=value,
        low=quantity.low * factor,
        high=quantity.high * factor,
        written=f"{value:.6g} {quantity.unit}",
    )
