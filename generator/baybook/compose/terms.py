"""How far the guide holds: for which vehicle, up to where, and on what it rests."""

from __future__ import annotations

from collections.abc import Iterator
from math import floor

from baybook.compose import limits, practice
from baybook.compose.work import Work, at
from baybook.finding import Amount, Listing, Message, Name, Value, say
from baybook.guide import Condition
from baybook.quantity import Basis, Quantity, State, Unknown


def applies(work: Work) -> tuple[Condition, ...]:
    """Return the looks that tell this vehicle from its sisters, with the answer that fits."""
    vehicle = work.fit.vehicle
    return (
        Condition(
            text=say("applies.name", make=Name(vehicle.make), model=Name(vehicle.model),
                     engine=Name(vehicle.engine)),
            answer=say("answer.yes"),
            photo=Name(vehicle.plate_photo) if vehicle.plate_photo else None,
        ),
        *(
            Condition(
                text=say("plain", text=Name(look.question)),
                answer=say(f"answer.{look.answer}"),
                photo=Name(look.photo) if look.photo else None,
            )
            for look in vehicle.applies
        ),
    )  # fmt: skip


def envelope(work: Work) -> tuple[Condition, ...]:
    """Return where this guide ends."""
    return tuple(Condition(text=text) for text in _envelope(work))


def _envelope(work: Work) -> Iterator[Message]:
    if work.has("envelope_length"):
        yield say(
            "envelope.length",
            length=limits.holds_up_to(work, "envelope_length").at_most(),
            route=Amount(work.stretches[-1].end_m, "m", 1).plain(),
        )
    if work.has("envelope_supply"):
        yield say("envelope.supply", supply=limits.holds_from(work, "envelope_supply"))
    if work.has("envelope_supply_high"):
        supply = limits.holds_up_to(work, "envelope_supply_high")
        yield say("envelope.supply-high", supply=supply)
    yield from _ambients(work)
    yield from _vehicle_side(work)
    charger, station = work.fit.charger, work.fit.station
    if work.has("charge_time_hot"):
        zone_of = work.fit.shop.zones[work.fit.vehicle.mounts[work.fit.job.mount].zone]
        yield say(
            "envelope.summer",
            zone=Name(zone_of.name),
            ambient=Amount(zone_of.temperature.high, "degC", 0).at_most(),
            hot=work.amount("charge_time_hot", digits=1),
            time=work.amount("charge_time", digits=1),
        )
    yield say(
        "envelope.parts",
        charger=Name(charger.name),
        charger_revision=Name(charger.sheet.revision),
        station=Name(station.name),
        station_revision=Name(station.sheet.revision),
    )
    yield say(
        "envelope.charge",
        low=Amount.of(station.charge_min).at_least(),
        high=Amount.of(station.charge_max).at_most(),
    )


def _ambients(work: Work) -> Iterator[Message]:
    """Where a rule ends it, the last ambient that passes; else the one that was counted with."""
    for zone, name, ambient in dict.fromkeys(
        (s.zone, s.zone_name, s.ambient_C) for s in work.stretches
    ):
        figure = f"envelope_ambient_{zone}"
        surveyed = Amount(ambient, "degC", 0).at_most()
        if work.has(figure):
            most = work.amount(figure, digits=0).at_most()
            yield say("envelope.zone", zone=Name(name), ambient=most, surveyed=surveyed)
        else:
            yield say("envelope.zone.surveyed", zone=Name(name), ambient=surveyed)


def _vehicle_side(work: Work) -> Iterator[Message]:
    """What battery and vehicle may come to."""
    if work.has("envelope_internal"):
        most = work.design.figure("envelope_internal").value
        yield say("envelope.internal", most=Amount(floor(most * 1e4 + 1e-6) / 1e4, "ohm", 1))
    if work.has("envelope_base"):
        yield say("envelope.base", most=limits.holds_up_to(work, "envelope_base"))


# --------------------------------------------------------------------------- assumptions


def assumptions(work: Work) -> tuple[Message, ...]:
    """Return what was taken and not read, each with its mark."""
    return (*_surveyed(work), *_profile(work), *_habits(work))


def _surveyed(work: Work) -> Iterator[Message]:
    vehicle = work.fit.vehicle
    for words, quantity in (
        ("assume.supply-low", vehicle.supply.low),
        ("assume.supply-high", vehicle.supply.high),
        ("assume.internal", vehicle.battery.internal),
    ):
        if isinstance(quantity, Quantity):
            yield say(words, value=Amount.of(quantity), basis=basis(quantity.basis))
        elif isinstance(quantity, Unknown):
            yield say(f"{words}.unknown", basis=basis(quantity.basis))
    point = vehicle.points[work.fit.job.source.positive]
    if point.line is not None:
        yield say(
            "assume.shared",
            point=at(work.joint("source+").letter),
            loads=Listing(tuple(Name(load.what) for load in point.line.loads)),
            drop=Amount.of(point.line.drop),
            current=Amount.of(point.line.current),
            basis=basis(point.line.drop.basis),
        )
    if (loop := work.fit.body_loop) is not None:
        yield say(
            "assume.body-loop",
            drop=Amount.of(loop.drop),
            current=Amount.of(loop.current),
            basis=basis(loop.drop.basis),
        )
    internal = vehicle.battery.internal
    if isinstance(internal, Quantity) and internal.basis.state is State.ESTIMATED:
        yield say("assume.internal.factors")


def _profile(work: Work) -> Iterator[Message]:
    """What the shop's profile and the charger's sheet say."""
    fit = work.fit
    vehicle, shop = fit.vehicle, fit.shop
    joints = shop.joints
    yield say(
        "assume.joints", positive=Amount.of(joints.positive), negative=Amount.of(joints.negative)
    )
    yield say("assume.lengths", tolerance=Amount.of(shop.lengths.segment_tolerance))
    yield say("assume.restraint", basis=Name(shop.restraint.basis))
    if vehicle.supply.hot_idle is not None:
        yield say(
            "assume.headroom",
            share=Amount.of(shop.limits.alternator_headroom.value, 0),
            idle=Amount.of(vehicle.supply.hot_idle),
            basis=basis(vehicle.supply.hot_idle.basis),
        )
    yield say(
        "assume.steady",
        charger=Name(fit.charger.name),
        efficiency=Amount.of(fit.charger.efficiency),
    )


def _habits(work: Work) -> Iterator[Message]:
    """Numbers of the trade, and what was looked for."""
    yield say(
        "assume.practice",
        sleep=practice.SLEEP_WAIT.amount,
        dead=practice.DEAD_BELOW.amount,
        stop=practice.STOP_PAST_PANEL.amount.at_most(),
        ring=practice.BRIGHT_RING.amount.at_least(),
        speed=practice.RUN_SPEED.amount,
    )
    restraints = work.fit.vehicle.restraints
    found = Listing(tuple(Name(text) for text in restraints.found))
    yield say("assume.restraints", found=found, by=Name(restraints.by))
    yield say("assume.body", body=at(work.ground.letter))


def basis(found: Basis) -> Message:
    """Say why a figure may be believed: its state, and the trail to it."""
    values: dict[str, Value] = {
        "by": Name(found.by or "\N{EN DASH}"),
        "on": Name(found.on.isoformat() if found.on else "\N{EN DASH}"),
        "seen": Name(found.seen),
        "document": Name(found.document),
        "method": Name(found.method),
    }
    if found.state is State.PAPER:
        return say("basis.paper", **values)
    if found.state is State.MEASURED:
        return say("basis.measured.seen" if found.seen else "basis.measured", **values)
    return say(f"basis.{found.state.value}", **values)
