"""Parts of the run follow the diameter of the cable."""

from dataclasses import replace

import pytest

from baybook.sizing.fittings import (
    clip_count,
    fittings,
    passage_size,
    shrink_size,
    stretches,
    sundry_size,
)
from baybook.sizing.validity import OutOfRange
from variants import job
from workbooks import example_fit


def wall(fit):
    segments = fit.vehicle.routes[fit.job.route].segments
    return next(s.passage for s in segments if s.passage)


@pytest.mark.parametrize(
    ("diameter_mm", "gland"),
    [(5.4, "G12"), (6.8, "G16"), (8.1, "G16"), (10.0, "G20"), (11.4, "G25")],
)
def test_gland_by_cable(diameter_mm, gland):
    fit = example_fit("dunstrel-cobble/j9b")
    assert passage_size(fit, wall(fit), diameter_mm / 1000).id == gland


def test_no_gland_for_a_cable_that_none_takes():
    fit = example_fit("dunstrel-cobble/j9b")
    assert passage_size(fit, wall(fit), 0.020) is None


def test_a_grommet_must_be_made_for_the_hole():
    fit = example_fit("brunsall-tansy/j1")
    assert passage_size(fit, wall(fit), 0.0068).id == "GM22"
    assert passage_size(fit, wall(fit), 0.0114) is None, "GM30 takes it, but the hole is 22 mm"


@pytest.mark.parametrize(("mm", "clip"), [(5.4, "P6"), (10.0, "P10"), (11.4, "P12"), (13, None)])
def test_clip_by_cable(mm, clip):
    found = sundry_size(example_fit("dunstrel-cobble/j9b").clips, mm / 1000)
    assert (found and found.id) == clip


@pytest.mark.parametrize(
    ("area", "shrink"),
    [(6, "S6"), (10, "S9"), (16, "S9"), (25, "S12"), (35, "S12")],  # over 5.5 to 11.2 mm of barrel
)
def test_heat_shrink_goes_over_the_barrel_and_shrinks_onto_the_cable(area, shrink):
    fit = example_fit("brunsall-tansy/j1")
    size = next(size for size in fit.cable.sizes if size.area.value == area)
    assert shrink_size(fit, size).id == shrink
    thick = size.model_copy(update={"diameter": replace(size.diameter, value=0.013)})
    assert shrink_size(fit, thick).id == "S18"
    assert shrink_size(replace(fit, shrink=None), size) is None


def test_a_stretch_is_not_shorter_than_nothing():
    with pytest.raises(OutOfRange, match=r"length -0\.5 m: allowed 0"):
        clip_count(-0.5, 0.3)


@pytest.mark.parametrize(
    ("length", "clips"),
    [(0.9, 6), (3.9, 26), (0.8, 6), (0.0, 0), (0.3, 2), (0.301, 4)],  # every 300 mm, both runs
)
def test_clips(length, clips):
    assert clip_count(length, 0.3) == clips


def test_what_stands_on_the_run_in_its_order():
    cobble, drey = example_fit("dunstrel-cobble/j9b"), example_fit("ostrigg-drey/j3")
    assert [(f.kind, f.part, f.at_m) for f in fittings(cobble, cobble.cable.sizes[3])] == [
        ("sleeve", "H12", 2.4),
        ("gland", "G20", pytest.approx(4.8)),
    ]
    assert [(f.kind, f.part, f.at_m) for f in fittings(drey, drey.cable.sizes[1])] == [
        ("conduit", "C9", 0.0),
        ("loop", "", pytest.approx(3.3)),
        ("grommet", "GM30", pytest.approx(3.6)),
    ]


def test_only_a_new_hole_has_a_diameter_to_drill():
    cobble, tansy = example_fit("dunstrel-cobble/j9b"), example_fit("brunsall-tansy/j1")
    gland = fittings(cobble, cobble.cable.sizes[3])[-1]
    grommet = fittings(tansy, tansy.cable.sizes[1])[-1]
    assert (gland.new_hole, gland.hole_m) == (True, pytest.approx(0.0205))
    assert (grommet.new_hole, grommet.hole_m) == (False, None)


def test_parts_that_nothing_takes_have_no_name():
    drey, cobble = example_fit("ostrigg-drey/j3"), example_fit("dunstrel-cobble/j9b")
    fat = cobble.cable.sizes[3].model_copy(
        update={"diameter": cobble.cable.sizes[3].bend_radius}  # 40 mm: nothing goes round it
    )
    assert {f.part for f in fittings(cobble, fat)} == {""}
    assert {f.part for f in fittings(drey, fat)} == {""}


def test_a_sleeve_without_a_length_has_none():
    fit = example_fit("dunstrel-cobble/j9b")
    route = fit.vehicle.routes[fit.job.route]
    chassis = route.segments[1]
    hazards = tuple(h.model_copy(update={"shield_length": None}) for h in chassis.hazards)
    bare = chassis.model_copy(update={"hazards": hazards})
    segments = (route.segments[0], bare, *route.segments[2:])
    routes = {**fit.vehicle.routes, fit.job.route: route.model_copy(update={"segments": segments})}
    changed = fit.vehicle.model_copy(update={"routes": routes})
    sleeve = fittings(replace(fit, vehicle=changed), fit.cable.sizes[3])[0]
    assert (sleeve.kind, sleeve.length_m) == ("sleeve", 0.0)


def test_no_conduit_named_no_conduit_fitted():
    fit = job(example_fit("ostrigg-drey/j3"), conduit=None)
    assert "conduit" not in {f.kind for f in fittings(fit, fit.cable.sizes[1])}


def test_stretches_lie_end_to_end():
    fit = example_fit("ostrigg-drey/j3")
    found = stretches(fit)
    assert [s.end_m for s in found[:-1]] == [s.start_m for s in found[1:]]
    assert found[-1].end_m == pytest.approx(5.2)
    assert found[0].zone_name == "Battery box"
