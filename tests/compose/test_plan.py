"""The route on the vehicle's outline: as sketched, or not at all."""

from dataclasses import replace
from math import dist

import pytest

from baybook.checks import approve, judge
from baybook.compose.plan import plan_view
from baybook.compose.work import Work
from baybook.sizing.choose import choose
from workbooks import example_fit

GUIDES = (
    "brunsall-tansy/j1",
    "brunsall-tansy/j2",
    "ostrigg-drey/j3",
    "pellmare-mirren/j5",
    "tessick-orlet/j7",
    "tavlow-camber/j8",
    "dunstrel-cobble/j9b",
    "dunstrel-cobble-tow-pack/j9",
)


def work(name, change=lambda fit: fit):
    return Work(checked=approve(choose(change(example_fit(name)), judge)))


def label(mark):
    values = dict(mark.label.values)
    return getattr(values.get("what") or values.get("wall") or values.get("name"), "text", "")


@pytest.mark.parametrize("name", GUIDES)
def test_it_runs_from_the_source_to_the_charger(name):
    job = work(name)
    plan, fit = plan_view(job), job.fit
    source, mount = fit.vehicle.points[fit.job.source.positive], fit.vehicle.mounts[fit.job.mount]
    assert plan.path[0] == (source.sketch.along, source.sketch.across, source.sketch.up)
    assert plan.path[-1] == (mount.sketch.along, mount.sketch.across, mount.sketch.up)
    assert [mark.number for mark in plan.marks] == list(range(1, len(plan.marks) + 1))
    last = plan.marks[-1]
    assert (last.kind, label(last)) == ("charger", fit.charger.name)
    assert (last.along, last.across, last.up) == pytest.approx(plan.path[-1])


@pytest.mark.parametrize("name", GUIDES)
def test_every_hazard_and_hole_of_the_route_is_marked(name):
    job = work(name)
    marks = plan_view(job).marks
    hazards = [h.what for s in job.segments for h in s.hazards]
    holes = [s.passage.wall for s in job.segments if s.passage]
    assert sorted(label(m) for m in marks if m.kind == "hazard") == sorted(hazards)
    assert sorted(label(m) for m in marks if m.kind == "passage") == sorted(holes)
    assert sum(m.kind == "fuse" for m in marks) == 1
    assert sum(m.kind == "joint" for m in marks) == 2


@pytest.mark.parametrize("name", GUIDES)
def test_what_lies_on_the_way_lies_on_the_path(name):
    plan = plan_view(work(name))
    for mark in plan.marks:
        if mark.kind != "joint":
            here = (mark.along, mark.across, mark.up)
            between = min(
                dist(a, here) + dist(here, b) - dist(a, b)
                for a, b in zip(plan.path, plan.path[1:], strict=False)
            )
            assert between == pytest.approx(0, abs=1e-9), mark


def test_a_mark_halfway_along_a_segment_is_halfway_along_its_sketch():
    def straight(fit):
        vehicle = fit.vehicle
        route = vehicle.routes[fit.job.route]
        bay, sill, boot = route.segments
        corner = sill.sketch[0].model_copy(update={"along": 30, "across": 2, "up": 4})
        start = corner.model_copy(update={"along": 10})
        ends = corner.model_copy(update={"along": 40})
        near, far = sill.hazards
        moved = far.model_copy(update={"at": replace(far.at, value=1.85, low=1.85, high=1.85)})
        segments = (
            bay.model_copy(update={"sketch": (start,)}),
            sill.model_copy(update={"sketch": (ends,), "hazards": (near, moved)}),
            boot,
        )
        changed = {**vehicle.routes, fit.job.route: route.model_copy(update={"segments": segments})}
        return replace(fit, vehicle=vehicle.model_copy(update={"routes": changed}))

    # The sill runs from 0.7 m to 3.0 m, 1.85 m is its middle; sketched from 10 to 40.
    marks = plan_view(work("brunsall-tansy/j1", straight)).marks
    middle = next(m for m in marks if "curtain airbag" in label(m))
    assert (middle.along, middle.across, middle.up) == pytest.approx((25, 2, 4))


def test_without_a_sketch_there_is_no_plan():
    def bare(fit):
        points = {
            name: point.model_copy(update={"sketch": None})
            for name, point in fit.vehicle.points.items()
        }
        return replace(fit, vehicle=fit.vehicle.model_copy(update={"points": points}))

    assert plan_view(work("brunsall-tansy/j1", bare)) is None
