"""Inside the envelope every rule passes, one step outside one refuses: all rules, anew."""

from dataclasses import replace
from functools import cache

import pytest
from hypothesis import given
from hypothesis import strategies as st

from baybook.checks import judge
from baybook.finding import Verdict
from baybook.quantity import State
from baybook.sizing.choose import choose
from baybook.sizing.envelope import envelope
from baybook.sizing.validity import OutOfRange
from baybook.sizing.work_out import with_route, with_setting, work_out
from variants import quantity, route, supply, vehicle
from workbooks import example_fit

J1, J3, J9B, J8 = (
    "brunsall-tansy/j1",
    "ostrigg-drey/j3",
    "dunstrel-cobble/j9b",
    "tavlow-camber/j8",
)
GUIDES = (J1, J3, J9B, J8)
STEPS = {
    "length": 0.1,
    "supply": -0.01,
    "supply_high": 0.01,
    "ambient": 1.0,
    "internal": 0.0001,
    "base": 0.1,
}


@cache
def chosen(name):
    return choose(example_fit(name), judge)


CASES = [(name, at) for name in GUIDES for at in range(len(chosen(name).bounds))]


def start(design, bound):
    fit = design.fit
    if bound.name == "length":
        return sum(s.length.value for s in fit.vehicle.routes[fit.job.route].segments)
    if bound.name == "ambient":
        return fit.shop.zones[bound.zone].temperature.high
    if bound.name == "internal":
        internal = fit.vehicle.battery.internal
        return internal.value * 1.5 if internal.basis.state is State.ESTIMATED else internal.high
    surveyed = {"supply": "low", "supply_high": "high", "base": "base_night"}[bound.name]
    return getattr(fit.vehicle.supply, surveyed).high


def moved(fit, bound, to):
    """Return the fit with one survey figure at this value; written without envelope's help."""
    if bound.name == "length":
        length = sum(s.length.value for s in fit.vehicle.routes[fit.job.route].segments)
        return route(fit, to / length)
    if bound.name == "ambient":
        zone = fit.shop.zones[bound.zone]
        warm = zone.model_copy(update={"temperature": quantity(zone.temperature, to)})
        zones = {**fit.shop.zones, bound.zone: warm}
        return replace(fit, shop=fit.shop.model_copy(update={"zones": zones}))
    if bound.name == "internal":
        battery = fit.vehicle.battery
        factor = 1.5 if battery.internal.basis.state is State.ESTIMATED else 1.0
        # Only the weak end is moved: the strong one has an end of its own, the new battery's.
        high = replace(battery.internal, value=to / factor, high=to)
        return vehicle(fit, battery=battery.model_copy(update={"internal": high}))
    surveyed = {"supply": "low", "supply_high": "high", "base": "base_night"}[bound.name]
    return supply(fit, **{surveyed: to})


def refused(design, bound, to):
    found = judge(work_out(moved(design.fit, bound, to), design.choice))
    return {finding.code for finding in found if finding.verdict is Verdict.REFUSED}


@pytest.mark.parametrize(("name", "at"), CASES)
def test_the_last_step_passes_and_the_next_is_refused_by_the_rule_it_names(name, at):
    design = chosen(name)
    bound = design.bounds[at]
    assert refused(design, bound, bound.value) == set()
    assert bound.rule in refused(design, bound, bound.value + STEPS[bound.name])


@given(st.sampled_from(CASES), st.floats(0, 1))
def test_inside_every_rule_passes(case, share):
    design = chosen(case[0])
    bound = design.bounds[case[1]]
    begin = start(design, bound)
    assert refused(design, bound, begin + share * (bound.value - begin)) == set()


@given(st.sampled_from(CASES), st.integers(1, 30))
def test_outside_a_rule_refuses(case, steps):
    design = chosen(case[0])
    bound = design.bounds[case[1]]
    assert refused(design, bound, bound.value + steps * STEPS[bound.name])


def test_the_pickup_by_hand():
    """V6: charger's 16.2 V; fuse's table ends at 70 °C; 0.9 · 122 A - 43.8 A; stops at 70 °C."""
    ends = {(b.name, b.zone): (b.value, b.rule) for b in chosen(J9B).bounds}
    assert ends["supply_high", ""] == (16.2, "SU-01")
    assert ends["ambient", "engine-bay"] == (70.0, "OC-01")
    assert ends["ambient", "tray-box"] == (69.0, "HT-01")
    assert ends["base", ""] == (66.0, "SU-04")
    assert 0.9 * 122 - chosen(J9B).solved.feed.low.current_A == pytest.approx(66.0, abs=0.05)


def test_the_supply_never_sags_below_nothing():
    """Where no rule refuses, the steps end above 0 V."""
    weak = work_out(supply(chosen(J3).fit, low=10.0), chosen(J3).choice)
    (end,) = (one for one in envelope(weak, lambda *_: ()) if one.name == "supply")
    assert (end.value, end.rule) == (pytest.approx(0.01), "")


@pytest.mark.parametrize("weighed", [True, False])
@pytest.mark.parametrize("name", [J1, "tessick-orlet/j7"])
def test_a_longer_route_alone_is_the_input_side_worked_out_anew(name, weighed):
    design = chosen(name)
    fit = design.fit if weighed else vehicle(design.fit, masses=None)
    longer = route(fit, 1.5)
    quick, anew = with_route(design, longer), work_out(longer, design.choice)
    assert quick.solved.feed.low == anew.solved.feed.low
    assert quick.solved.fault == anew.solved.fault
    assert quick.solved.payload.left_kg == anew.solved.payload.left_kg
    cut = {wire.tag: wire.cut_m for wire in quick.circuit.conductors}
    same = anew if weighed else design  # no rule looks at the pieces where no mass is known
    assert cut == {wire.tag: wire.cut_m for wire in same.circuit.conductors}


def test_no_setting_is_below_nothing():
    design = chosen(J1)
    for volts in (0.0, -0.5):
        with pytest.raises(OutOfRange, match="set voltage"):
            with_setting(design, volts, design.solved.output)
