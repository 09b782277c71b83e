"""The example fits with single facts moved, for rules that must hold for every input."""

from dataclasses import replace

from baybook.job import Asked
from baybook.quantity import Quantity


def quantity(like: Quantity, value: float) -> Quantity:
    """Return a quantity of the same unit and basis without a tolerance."""
    return replace(like, value=value, low=value, high=value, written=f"{value:g} {like.unit}")


def vehicle(fit, **update):
    return replace(fit, vehicle=fit.vehicle.model_copy(update=update))


def supply(fit, **volts_or_amps):
    old = fit.vehicle.supply
    update = {
        name: value if value is None else quantity(getattr(old, name) or old.base_day, value)
        for name, value in volts_or_amps.items()
    }
    return vehicle(fit, supply=old.model_copy(update=update))


def route(fit, by):
    """Return the fit with every segment `by` times as long."""
    old = fit.vehicle.routes[fit.job.route]
    segments = tuple(
        s.model_copy(update={"length": quantity(s.length, s.length.value * by)})
        for s in old.segments
    )
    longer = old.model_copy(update={"segments": segments})
    return vehicle(fit, routes={**fit.vehicle.routes, fit.job.route: longer})


def point(fit, name, **update):
    points = fit.vehicle.points
    return vehicle(fit, points={**points, name: points[name].model_copy(update=update)})


def job(fit, **update):
    return replace(fit, job=fit.job.model_copy(update=update))


def source(fit, **update):
    return job(fit, source=fit.job.source.model_copy(update=update))


def charger(fit, **update):
    return replace(fit, charger=fit.charger.model_copy(update=update))


def station(fit, **update):
    return replace(fit, station=fit.station.model_copy(update=update))


def load(fit, watts):
    """Return the fit with a charger and a station of so many watts, in one step.

    The input limit goes with the power, so that a bigger load is a bigger load everywhere.
    """
    lowest = fit.vehicle.supply.low.value
    sheet = fit.charger
    changed = charger(
        fit,
        power=None,
        output_power=quantity(sheet.output_power, watts),
        input_current=quantity(sheet.input_current, 1.15 * watts / sheet.efficiency.value / lowest),
    )
    return station(changed, input_power=quantity(fit.station.input_power, watts))


def asked(fit, area):
    one = next(size.area for size in fit.cable.sizes if size.area.value == area)
    return job(fit, asked=Asked(area=one))
