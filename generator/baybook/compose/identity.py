"""What a guide, a refusal or a withdrawal is called: vehicle, pair, years, drive side."""

from __future__ import annotations

from baybook.finding import Message, Name, say
from baybook.fit import Fit
from baybook.guide import Identity


def identify(fit: Fit) -> Identity:
    """Return what stands in every head and list for this fit."""
    vehicle = fit.vehicle
    _, _, job = fit.id.rpartition("/")
    return Identity(
        fit=fit.id,
        code=f"{vehicle.code}/{job.upper()}",
        vehicle=Name(f"{vehicle.make} {vehicle.model}"),
        variant=_variant(fit),
        first_year=vehicle.years.first,
        last_year=vehicle.years.last,
        drive=_drive(vehicle.drive_sides),
        drive_sides=vehicle.drive_sides,
        make=Name(vehicle.make),
        model=Name(vehicle.model),
        engine=Name(vehicle.engine),
        charger=Name(fit.charger.name),
        station=Name(fit.station.name),
        battery=fit.second is not None,
        pair=say("identity.pair", charger=Name(fit.charger.name), station=Name(fit.station.name)),
        shop=Name(fit.shop.name),
        demonstration=fit.shop.demonstration,
    )


def _variant(fit: Fit) -> Message:
    vehicle = fit.vehicle
    engine, body = Name(vehicle.engine), Name(vehicle.body)
    first, last = vehicle.years.first, vehicle.years.last
    if last is None:
        return say("identity.variant.open", engine=engine, body=body, first=first)
    if last == first:
        return say("identity.variant.one", engine=engine, body=body, first=first)
    return say("identity.variant.closed", engine=engine, body=body, first=first, last=last)


def _drive(sides: tuple[str, ...]) -> Message:
    return say("identity.drive.both") if len(set(sides)) > 1 else say(f"identity.drive.{sides[0]}")
