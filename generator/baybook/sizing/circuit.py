"""The one explicit circuit that diagram, tables, readings and fault checks are views of."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from baybook.circuit import Circuit, Conductor, Device, Joint, Leg, Protection
from baybook.design import Choice
from baybook.fit import Fit
from baybook.part import CableSheet, CableSize
from baybook.sizing.fittings import fittings, shrink_size, stretches, sundry_size
from baybook.sizing.joints import Tags, joints, tags
from baybook.sizing.laying import most_unprotected_length
from baybook.sizing.lengths import Run, round_up, total
from baybook.sizing.output import lead_ambient, lead_size
from baybook.sizing.protection import sheet_of, source_point
from baybook.sizing.second import second_legs, second_sheet
from baybook.standards.rule_sets import rule_sets
from baybook.terms import YesNoUnknown

EXISTING = "existing"
BODY = "body"


def build(fit: Fit, choice: Choice, size: CableSize, run: Run) -> Circuit:
    """Join everything that was chosen to one radial circuit.

    [shop-rule], [vehicle-survey]

    size  of the input cable
    run   the cut pieces of the input side
    """
    placed = joints(fit, choice.family, size, choice.second_family)
    at = {joint.role: joint for joint in placed}
    clip = sundry_size(fit.clips, size.diameter.value)
    shrink = shrink_size(fit, size)
    return Circuit(
        joints=placed,
        conductors=tuple(_conductors(fit, size, run, at)),
        protections=(_protection(fit, choice, at), *_second_protection(fit, choice, at)),
        devices=tuple(_devices(fit)),
        fittings=fittings(fit, size),
        stretches=stretches(fit),
        shrink=shrink.id if shrink else "",
        clip=clip.id if clip else "",
    )


def with_station(circuit: Circuit, fit: Fit) -> Circuit:
    """Return the circuit with the station of this fit: but for its plug, only its name is in it.

    [shop-rule]
    """
    device = circuit.devices[-1]
    if device.name == fit.station.name:
        return circuit
    return replace(circuit, devices=(*circuit.devices[:-1], replace(device, name=fit.station.name)))


def with_run(circuit: Circuit, fit: Fit, size: CableSize, run: Run) -> Circuit:
    """Return the circuit with its input cable cut to other lengths; what it joins stays.

    [shop-rule]

    size  of the input cable
    run   the cut pieces of the input side
    """
    at = {joint.role: joint for joint in circuit.joints}
    return replace(circuit, conductors=tuple(_conductors(fit, size, run, at)))


def allowed_distance(fit: Fit, *, conduit: bool) -> float:
    """Longest run from a source to its protection. [m]

    [cfr183-455], [as-nzs3001-2], [shop-rule]
    """
    limits = fit.shop.limits
    rule = limits.fuse_distance_rule or ""
    if rule in rule_sets().distance:
        return most_unprotected_length(rule, enclosed=conduit)
    allowed = limits.fuse_distance_conduit if conduit else limits.fuse_distance
    return allowed.value.value


def _conductors(fit: Fit, size: CableSize, run: Run, at: dict[str, Joint]) -> Iterator[Conductor]:
    named = tags(protected=not run.source, second=fit.second is not None)
    yield from _input(fit, size, run, at, named)
    if fit.second is not None:
        yield from _to_second(fit, at, named)
    else:
        yield from _to_station(fit, at, named)
    if "body" in at:
        yield _existing(at["return"], at["body"], use=BODY)
        yield _existing(at["body"], at["source-"])
    elif "source-" in at:
        yield _existing(at["return"], at["source-"])


def _to_second(fit: Fit, at: dict[str, Joint], named: Tags) -> Iterator[Conductor]:
    """The output of a charger to a second battery: two pieces out, one back."""
    near, far, back = second_legs(fit)
    cable, size = fit.output_cable, lead_size(fit)
    if "load-in" in at:
        yield _piece(named.out, "output+", (at["out+"], at["load-in"]), "red", cable, size, near)
        ends = (at["load-out"], at["load+"])
        yield _piece(named.out_far, "output+far", ends, "red", cable, size, far)
    else:
        yield _piece(named.out, "output+", (at["out+"], at["load+"]), "red", cable, size, back)
    yield _piece(named.out_back, "output-", (at["load-"], at["out-"]), "black", cable, size, back)


def _to_station(fit: Fit, at: dict[str, Joint], named: Tags) -> Iterator[Conductor]:
    lead, length = lead_size(fit), fit.job.output_length.high
    cut = round_up(length, fit.shop.lengths.cutting_step.value)
    zone = fit.vehicle.mounts[fit.job.mount].zone
    legs = (Leg(zone=zone, length_m=cut, ambient_C=lead_ambient(fit)),)
    cable = fit.output_cable
    yield _piece(named.out, "output+", (at["out+"], at["plug+"]), "red", cable, lead, legs)
    yield _piece(named.out_back, "output-", (at["plug-"], at["out-"]), "black", cable, lead, legs)


def _input(
    fit: Fit, size: CableSize, run: Run, at: dict[str, Joint], named: Tags
) -> Iterator[Conductor]:
    start = at["source+"]
    if run.source:
        ends = (start, at["fuse-in"])
        yield _piece(named.source, "source", ends, "red", fit.cable, size, run.source)
        start = at["fuse-out"]
    yield _piece(named.feed, "feed", (start, at["in+"]), "red", fit.cable, size, run.feed)
    ends = (at["in-"], at["return"])
    yield _piece(named.back, "return", ends, "black", fit.cable, size, run.back)


def _piece(  # noqa: PLR0913, PLR0917 - a conductor is all of this
    tag: str,
    use: str,
    ends: tuple[Joint, Joint],
    colour: str,
    cable: CableSheet,
    size: CableSize,
    legs: tuple[Leg, ...],
) -> Conductor:
    return Conductor(
        tag=tag,
        use=use,
        start=ends[0].letter,
        end=ends[1].letter,
        colour=colour,
        area_mm2=size.area.value,
        awg=size.nearest_awg,
        family=cable.name,
        cut_m=total(legs),
        legs=legs,
        existing=False,
    )


def _existing(start: Joint, end: Joint, use: str = EXISTING) -> Conductor:
    """The vehicle's own lead from the return point to the battery, or its body; it is not cut."""
    return Conductor(
        tag="",
        use=use,
        start=start.letter,
        end=end.letter,
        colour="",
        area_mm2=0.0,
        awg="",
        family="",
        cut_m=0.0,
        legs=(),
        existing=True,
    )


def _protection(fit: Fit, choice: Choice, at: dict[str, Joint]) -> Protection:
    fused = source_point(fit).factory_fuse
    if fused is not None:
        return Protection(
            tag="F1",
            family=source_point(fit).what,
            form="fuse",
            rating_A=fused.rating.value,
            rating_written=fused.rating.written,
            voltage=fused.voltage,
            breaking=fused.breaking,
            start=at["battery+"].letter,
            end=at["source+"].letter,
            at_m=0.0,
            limit_m=allowed_distance(fit, conduit=fit.job.source.conduit),
            conduit=False,
            factory=True,
            place=fused.place,
        )
    sheet = sheet_of(fit, choice.family)
    written = next(r.written for r in sheet.ratings if r.value == choice.rating_A)
    return Protection(
        tag="F1",
        family=sheet.name,
        form=sheet.form,
        rating_A=choice.rating_A,
        rating_written=written,
        voltage=sheet.voltage,
        breaking=sheet.breaking,
        start=at["fuse-in"].letter,
        end=at["fuse-out"].letter,
        at_m=fit.job.source.fuse_at.value,
        limit_m=allowed_distance(fit, conduit=fit.job.source.conduit),
        conduit=fit.job.source.conduit,
        factory=False,
    )


def _second_protection(fit: Fit, choice: Choice, at: dict[str, Joint]) -> Iterator[Protection]:
    if not choice.second_family or fit.job.second is None:
        return
    sheet = second_sheet(fit, choice.second_family)
    rating = choice.second_rating_A
    yield Protection(
        tag="F2",
        family=sheet.name,
        form=sheet.form,
        rating_A=rating,
        rating_written=next(r.written for r in sheet.ratings if r.value == rating),
        voltage=sheet.voltage,
        breaking=sheet.breaking,
        start=at["load-in"].letter,
        end=at["load-out"].letter,
        at_m=fit.job.second.fuse_at.value,
        limit_m=allowed_distance(fit, conduit=False),
        conduit=False,
        factory=False,
    )


def _devices(fit: Fit) -> Iterator[Device]:
    vehicle, mount = fit.vehicle, fit.vehicle.mounts[fit.job.mount]
    battery = vehicle.battery
    place = battery.place
    yield _device("battery", "battery", battery.chemistry, place, battery.zone, existing=True)
    if battery.sensor is not YesNoUnknown.NO:
        yield _device("sensor", "sensor", "", place, battery.zone, existing=True)
    if vehicle.isolator is not None:
        place = vehicle.isolator.place
        yield _device("isolator", "isolator", "", place, battery.zone, existing=True)
    charger, station = fit.charger.name, fit.station.name
    yield _device("charger", "charger", charger, mount.place, mount.zone, existing=False)
    place = fit.job.station_place.place
    yield _device("station", "station", station, place, mount.zone, existing=False)


def _device(  # noqa: PLR0913 - a device is all of this
    name: str, kind: str, title: str, place: str, zone: str, *, existing: bool
) -> Device:
    return Device(id=name, kind=kind, name=title, place=place, zone=zone, existing=existing)
