"""Lengths: what is cut is what is reckoned with."""

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from baybook.sizing.lengths import lay, long_end, round_up, route_length, short_end, total, zone_at
from baybook.sizing.validity import OutOfRange
from variants import quantity, route, source
from workbooks import example_fit


@pytest.mark.parametrize(
    ("length", "step", "cut"),
    [
        (5.712, 0.01, 5.72),
        (0.3, 0.01, 0.3),
        (0.1 + 0.2, 0.01, 0.3),
        (0, 0.01, 0),
        (1.001, 0.05, 1.05),
    ],
)
def test_round_up(length, step, cut):
    assert round_up(length, step) == pytest.approx(cut, abs=1e-12)


@given(st.floats(0, 50), st.sampled_from([0.005, 0.01, 0.05, 0.1]))
def test_never_rounds_down_nor_by_more_than_a_step(length, step):
    cut = round_up(length, step)
    assert length - 1e-9 <= cut < length + step + 1e-9


def test_the_short_end_by_hand():
    length = example_fit("brunsall-tansy/j1").vehicle.routes["left-sill"].segments[0].length
    assert short_end(quantity(length, 4.0), 0.02) == pytest.approx(3.92)
    assert short_end(replace(quantity(length, 4.0), low=3.8), 0.02) == 3.8


def test_own_tolerance_counts_before_the_profile():
    length = example_fit("brunsall-tansy/j1").vehicle.routes["left-sill"].segments[0].length
    plain = quantity(length, 4.0)
    assert long_end(plain, 0.02) == pytest.approx(4.08)
    own = type(length)(
        value=4.0,
        low=3.8,
        high=4.2,
        unit="m",
        written="4.0 m ± 5 %",
        basis=length.basis,
        where=length.where,
    )
    assert long_end(own, 0.02) == 4.2


@pytest.mark.parametrize(
    ("fit", "cut"),
    [
        # fuse distance + half of 0.30; rest of 1.02 × route + half; whole + 0.30; up to 10 mm
        ("brunsall-tansy/j1", (0.30, 3.98, 4.28)),  # 3.9 m
        ("ostrigg-drey/j3", (0.57, 5.04, 5.61)),  # 5.2 m, fuse at 0.42 m
        ("dunstrel-cobble/j9b", (0.30, 5.72, 6.02)),  # 5.6 m
    ],
)
def test_cut_lengths_by_hand(fit, cut):
    run = lay(example_fit(fit), protected=False)
    assert (total(run.source), total(run.feed), total(run.back)) == pytest.approx(cut)


def test_a_fuse_beyond_the_first_zone_splits_the_run_there():
    run = lay(example_fit("ostrigg-drey/j3"), protected=False)
    assert [leg.zone for leg in run.source] == ["lorry-battery-box", "under-body"]
    assert [leg.zone for leg in run.feed] == ["under-body", "load-bay"]


def test_a_fuse_beyond_the_whole_route_leaves_only_ends_behind():
    fit = source(route(example_fit("ostrigg-drey/j3"), 0.05), fuse_at=_metres(0.9))
    run = lay(fit, protected=False)
    assert len(run.feed) == 1
    assert run.feed[0].zone == "load-bay"
    assert total(run.feed) == pytest.approx(0.15, abs=0.011)


def test_a_fused_point_needs_no_run_before_a_fuse():
    run = lay(example_fit("brunsall-tansy/j1"), protected=True)
    assert run.source == ()
    assert total(run.feed) == total(run.back)


@given(st.floats(0.1, 5), st.floats(0.01, 0.9))
def test_both_ways_hold_the_same_allowance(by, fuse_at):
    fit = source(route(example_fit("dunstrel-cobble/j9b"), by), fuse_at=_metres(fuse_at))
    run = lay(fit, protected=False)
    whole = route_length(fit.vehicle.routes[fit.job.route].segments) * 1.02 + 0.30
    assert total(run.back) == pytest.approx(whole, abs=0.0101)
    if fuse_at < whole - 0.30:
        assert total((*run.source, *run.feed)) == pytest.approx(whole, abs=0.0201)
    assert all(leg.length_m >= -1e-9 for leg in (*run.source, *run.feed, *run.back))


def test_zone_at():
    segments = example_fit("ostrigg-drey/j3").vehicle.routes["frame-left"].segments
    assert zone_at(segments, 0.4) == "lorry-battery-box"
    assert zone_at(segments, 0.42) == "under-body"
    end = sum(segment.length.value for segment in segments)
    assert zone_at(segments, end) == "load-bay"
    assert zone_at(segments, sum(segment.length.high for segment in segments)) == "load-bay"
    longer = tuple(
        segment.model_copy(
            update={"length": replace(segment.length, high=1.05 * segment.length.value)}
        )
        for segment in segments
    )
    assert zone_at(longer, 1.04 * end) == "load-bay", "what the tape may have missed"
    with pytest.raises(OutOfRange, match=r"distance along the route 5\.512 m: allowed 0 to 5\.46"):
        zone_at(longer, 1.06 * end)
    with pytest.raises(OutOfRange, match=r"distance along the route 99 m: allowed 0 to"):
        zone_at(segments, 99)


def _metres(value):
    return quantity(example_fit("ostrigg-drey/j3").job.source.fuse_at, value)
