"""Rules that must hold for every fit, tried over the examples with single facts moved."""

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from baybook.checks import approve, judge
from baybook.design import Design
from baybook.finding import Verdict
from baybook.sizing.choose import choose
from variants import load, route, supply
from workbooks import example_fit

GUIDES = ("brunsall-tansy/j1", "ostrigg-drey/j3", "dunstrel-cobble/j9b")
FEW = settings(max_examples=15)

fits = st.sampled_from(GUIDES).map(example_fit)
shorter = st.floats(0.2, 2.0)
loads = st.floats(60, 700)


@FEW
@given(fits, shorter, st.floats(1.0, 1.6))
def test_a_longer_run_never_takes_a_thinner_cable(fit, by, more):
    short, long = (choose(route(fit, n), judge) for n in (by, by * more))
    assume(isinstance(short, Design) and isinstance(long, Design))
    if short.choice.power_W == long.choice.power_W:
        assert long.choice.area_mm2 >= short.choice.area_mm2
    else:
        assert long.choice.power_W < short.choice.power_W


@FEW
@given(fits, loads, st.floats(1.0, 1.6))
def test_more_load_never_takes_a_smaller_fuse(fit, watts, more):
    light, heavy = (choose(load(fit, watts * n), judge) for n in (1, more))
    assume(isinstance(light, Design) and isinstance(heavy, Design))
    assert heavy.choice.rating_A >= light.choice.rating_A
    assert heavy.choice.area_mm2 >= light.choice.area_mm2


@FEW
@given(fits, loads, st.floats(1.0, 1.6))
def test_what_refuses_a_load_refuses_a_heavier_one(fit, watts, more):
    if not isinstance(choose(load(fit, watts), judge), Design):
        assert not isinstance(choose(load(fit, watts * more), judge), Design)


@FEW
@given(fits, shorter, loads, st.floats(-0.8, 0.0))
def test_every_approved_design_keeps_the_laws(fit, by, watts, lower):
    low = fit.vehicle.supply.low.value + lower
    design = choose(supply(load(route(fit, by), watts), low=low), judge)
    assume(isinstance(design, Design))
    checked = approve(design)
    solved, choice, limits = design.solved, design.choice, fit.shop.limits
    assert all(f.verdict is not Verdict.REFUSED for f in checked.findings)
    # I_B ≤ I_n ≤ I_T, and the fuse carries I_B hot
    assert choice.input_limit_A <= solved.fault.carries_A <= choice.rating_A
    assert choice.rating_A <= solved.feed.carries_A
    # no approved design hunts while driving, nor drops too much
    for point in (solved.feed.low, solved.feed.typical):
        assert point.charger_V - solved.feed.cut_out_V >= limits.cut_out_margin.value.value
        assert point.drop <= limits.input_drop.value.value
        assert point.hottest_C <= fit.cable.conductor_max.value
    assert solved.output.high_V < fit.station.absolute.value
    assert solved.fault.opens_far_s is not None
    assert max(solved.fault.withstand_near, solved.fault.withstand_far) <= 1


@FEW
@given(fits, shorter)
def test_a_lower_supply_never_draws_less(fit, by):
    design = choose(route(fit, by), judge)
    assume(isinstance(design, Design))
    feed = design.solved.feed
    assert feed.low.current_A >= feed.typical.current_A


@pytest.mark.parametrize("fit", GUIDES)
def test_the_same_fit_gives_the_same_design(fit):
    assert choose(example_fit(fit), judge) == choose(example_fit(fit), judge)
