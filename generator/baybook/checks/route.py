"""RT, HT: what the run passes, what it goes through, and how warm the charger gets."""

from __future__ import annotations

from collections.abc import Iterator

from baybook.checks.cable import size_of, takes
from baybook.checks.found import SHEET, Found, degrees, share, watts
from baybook.design import Design
from baybook.finding import Amount, Name, Value, Verdict, say
from baybook.quantity import Quantity, Unknown
from baybook.route import Hazard, Passage
from baybook.terms import HazardKind, PassageKind

_CLEAN = 9  # decimals; less than a micrometre is an artefact of binary numbers


def exhaust_distance(design: Design) -> Iterator[Found]:
    """Keep the shop's distance to the exhaust; nearer only behind a heat sleeve.

    [shop-rule], the profile names its source
    """
    spacing = design.fit.shop.spacing
    for path, hazard in hazards(design):
        if hazard.kind is HazardKind.EXHAUST and hazard.distance.low < spacing.exhaust.value:
            shielded = _shielded(design, hazard)
            yield Found(
                verdict=Verdict.CAUTION if shielded else Verdict.REFUSED,
                place=path,
                where=hazard.distance.where,
                found=Amount.of(hazard.distance, 0).plain(),
                allowed=Amount.of(spacing.exhaust, 0).at_least(),
                sources=(spacing.source.replace(" ", "-"),),
                values={
                    "what": Name(hazard.what),
                    "distance": Amount.of(hazard.distance, 0).plain(),
                    "limit": Amount.of(spacing.exhaust, 0).at_least(),
                    "way": say(f"rule.RT-01.{'keep' if shielded else 'shield'}"),
                },
            )


def hole(design: Design) -> Iterator[Found]:
    """Use an existing hole only if its size is known and a passage is made for it.

    Unknown: hold until it is measured. No part for it: refused.        [fit-sheet]
    """
    diameter = size_of(design).diameter.value
    for path, wall in _passages(design):
        if isinstance(wall.hole, Unknown):
            asked: Value = say("rule.RT-02.unknown")
            yield _hole(design, path, wall, asked, Verdict.HOLD)
        elif isinstance(wall.hole, Quantity):
            sizes = design.fit.passages[wall.family].sizes
            right = [listed for listed in sizes if takes(listed, wall, diameter, design.fit.in_run)]
            low, high = round(wall.hole.low, _CLEAN), round(wall.hole.high, _CLEAN)
            if right and not any(low <= round(s.hole.value, _CLEAN) <= high for s in right):
                found = Amount.of(wall.hole, 1)
                yield _hole(design, path, wall, found, Verdict.REFUSED)


def derating(design: Design) -> Iterator[Found]:
    """Say what the charger still gives in its zone; refuse a zone in which it stops.

    P = P_out (1 - s (theta - theta_full))        [fit-sheet]
    """
    fit, place = design.fit, design.solved.place
    if place.derated >= 1:
        return
    zone = fit.shop.zones[fit.vehicle.mounts[fit.job.mount].zone]
    full = min(fit.charger.output_power.value, design.solved.output.power_W)
    yield Found(
        verdict=Verdict.CAUTION if place.derated > 0 else Verdict.REFUSED,
        place="circuit.charger.temperature",
        where=fit.mark("fit.mount"),
        found=degrees(zone.temperature.high).plain(),
        allowed=Amount.of(fit.charger.derating.full_to, 0).at_most(),
        sources=(SHEET,),
        values={
            "zone": Name(zone.name),
            "ambient": degrees(zone.temperature.high).plain(),
            "full_to": Amount.of(fit.charger.derating.full_to, 0).at_most(),
            "stop": Amount.of(fit.charger.derating.stop, 0).at_most(),
            "power": watts(min(full, fit.charger.output_power.value * place.derated)),
            "full": watts(full),
            "share": share(place.derated, 0),
            "charger": Name(fit.charger.name),
        },
    )


def hazards(design: Design) -> Iterator[tuple[str, Hazard]]:
    """Yield each hazard of the route with its path in the fit.

    [vehicle-survey]
    """
    segments = design.fit.vehicle.routes[design.fit.job.route].segments
    for number, segment in enumerate(segments):
        for which, hazard in enumerate(segment.hazards):
            route = f"vehicle.routes.{design.fit.job.route}"
            yield f"{route}.segments.{number}.hazards.{which}", hazard


def _passages(design: Design) -> Iterator[tuple[str, Passage]]:
    segments = design.fit.vehicle.routes[design.fit.job.route].segments
    for number, segment in enumerate(segments):
        wall = segment.passage
        if wall is not None and wall.form is not PassageKind.OPEN:
            yield f"vehicle.routes.{design.fit.job.route}.segments.{number}.passage", wall


def _shielded(design: Design, hazard: Hazard) -> bool:
    sheet = design.fit.sundries.get(hazard.shield or "")
    return sheet is not None and sheet.use == "heat sleeve"


def _hole(design: Design, path: str, wall: Passage, found: Value, verdict: Verdict) -> Found:
    family = design.fit.passages[wall.family]
    return Found(
        verdict=verdict,
        place=f"{path}.hole",
        where=wall.hole.where if wall.hole else design.fit.mark(path),
        found=found,
        allowed=say("rule.RT-02.made_for", family=Name(family.name)),
        sources=(SHEET,),
        values={"wall": Name(wall.wall), "hole": found, "family": Name(family.name)},
        hold=path.rpartition(".segments.")[2].partition(".")[0],
    )
