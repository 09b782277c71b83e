"""ES-01 and PL: every fact that a margin rests on marks a draft if it was only estimated."""

from dataclasses import replace
from types import SimpleNamespace

import pytest

from baybook.quantity import Basis, State
from baybook.terms import CueKind
from checks.asking import design, found, solved
from variants import job, point, quantity, source, vehicle

J1, J8 = "brunsall-tansy/j1", "tavlow-camber/j8"
GUESS = Basis(state=State.ESTIMATED, by="writer")


def guessed(fact):
    return replace(fact, basis=GUESS)


def drafts(fit):
    return [(f.place, f.draft) for f in found("ES-01", replace(design(fit.id), fit=fit))]


def with_supply(fit, name):
    supply = fit.vehicle.supply
    fact = getattr(supply, name) or quantity(supply.base_day, 90.0)
    return vehicle(fit, supply=supply.model_copy(update={name: guessed(fact)}))


@pytest.mark.parametrize(
    "name",
    ["low", "high", "hot_idle", "hot_cruise", "base_day", "base_night", "allowance"],
)
def test_each_figure_of_the_supply_counts(name):
    fit = design(J1).fit
    assert drafts(fit) == []
    assert drafts(with_supply(fit, name)) == [(f"vehicle.supply.{name}", True)]


@pytest.mark.parametrize("kind", CueKind)
def test_volts_at_rest_count_only_where_they_start_the_charger(kind):
    fit = with_supply(design(J1).fit, "rest")
    cue = fit.vehicle.cues[fit.job.cue].model_copy(update={"kind": kind})
    fit = vehicle(fit, cues={**fit.vehicle.cues, fit.job.cue: cue})
    expected = [("vehicle.supply.rest", True)] if kind is CueKind.VOLTAGE else []
    assert drafts(fit) == expected


@pytest.mark.parametrize("name", ["panel", "free_depth"])
def test_each_depth_at_the_mount_counts(name):
    fit = design(J1).fit
    mount = fit.vehicle.mounts[fit.job.mount]
    changed = mount.model_copy(update={name: guessed(getattr(mount, name))})
    fit = vehicle(fit, mounts={**fit.vehicle.mounts, fit.job.mount: changed})
    assert drafts(fit) == [(f"vehicle.mounts.{fit.job.mount}.{name}", True)]


def test_the_places_of_both_fuses_count():
    fit = design(J8).fit
    one = source(fit, fuse_at=guessed(fit.job.source.fuse_at))
    assert drafts(one) == [("fit.source.fuse_at", True)]
    second = fit.job.second.model_copy(update={"fuse_at": guessed(fit.job.second.fuse_at)})
    assert drafts(job(fit, second=second)) == [("fit.second.fuse_at", True)]


def test_each_stretch_its_zone_and_its_hazards_count():
    fit = design(J1).fit
    laid = fit.vehicle.routes[fit.job.route]
    path = f"vehicle.routes.{fit.job.route}.segments"
    for number, segment in enumerate(laid.segments):
        others = [guessed(h.distance) for h in segment.hazards]
        hazards = tuple(
            hazard.model_copy(update={"distance": distance})
            for hazard, distance in zip(segment.hazards, others, strict=True)
        )
        update = {"length": guessed(segment.length), "hazards": hazards}
        segments = list(laid.segments)
        segments[number] = segment.model_copy(update=update)
        routes = {fit.job.route: laid.model_copy(update={"segments": tuple(segments)})}
        assert [place for place, _ in drafts(vehicle(fit, routes=routes))] == [
            f"{path}.{number}.length",
            *(f"{path}.{number}.hazards.{n}.distance" for n in range(len(hazards))),
        ]
        zone = fit.shop.zones[segment.zone]
        warm = zone.model_copy(update={"temperature": guessed(zone.temperature)})
        shop = fit.shop.model_copy(update={"zones": {**fit.shop.zones, segment.zone: warm}})
        places = {place for place, _ in drafts(replace(fit, shop=shop))}
        assert places == {f"zones.{segment.zone}.temperature"}


@pytest.mark.parametrize("name", ["drop", "current"])
def test_what_was_read_on_a_shared_line_counts(name):
    fit = design(J1).fit
    stud = fit.vehicle.points[fit.job.source.positive]
    read = {"drop": stud.torque, "current": stud.torque, name: guessed(stud.torque)}
    line = SimpleNamespace(**read)  # the rule asks only whose figures they are
    fit = point(fit, fit.job.source.positive, line=line)
    place = f"vehicle.points.{fit.job.source.positive}.line.{name}"
    assert drafts(fit) == [(place, True)]


@pytest.mark.parametrize(("left_kg", "refused"), [(0.5, False), (0.0, False), (-0.1, True)])
def test_half_a_kilogram_left_is_enough(left_kg, refused):
    one = solved(design(J1), "payload", left_kg=left_kg, added_kg=12.0)
    faults = found("PL-01", one)
    assert bool(faults) is refused
    assert not found("PL-02", one)
    if faults:
        assert faults[0].allowed.value == pytest.approx(11.9)
        assert faults[0].values["over"].value == pytest.approx(0.1)


def test_a_payload_that_nobody_knows_is_told():
    assert found("PL-02", solved(design(J1), "payload", left_kg=None))
