"""The two corner cases are the extremes: no point between the tolerances lies outside them.

An example fit is given a tolerance on everything. Any fit whose facts are exact and lie within
those tolerances is worked out by itself; each of its figures must lie between the ends that the
first fit's figures state.
"""

import random
from dataclasses import replace
from functools import cache

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from baybook.checks import judge
from baybook.quantity import Basis, State
from baybook.sizing.choose import choose
from baybook.sizing.interval import corners, loop, near_fault
from baybook.sizing.shared import tapped_line
from baybook.sizing.traces import figures
from baybook.sizing.work_out import input_power_ends, step_of, work_out
from shared_line import shared_fit
from variants import charger, quantity, station, vehicle
from workbooks import example_fit

GUIDES = ("brunsall-tansy/j1", "ostrigg-drey/j3", "dunstrel-cobble/j9b")
ONE_WAY = (
    *("input_power", "loop_resistance", "loop_resistance_typ", "conductor_temperature"),
    *("positive_resistance_low", "return_resistance_low", "positive_resistance_typ"),
    *("return_resistance_typ", "current_low", "charger_voltage_low", "drop_low", "margin_low"),
    *("current_typ", "charger_voltage_typ", "drop_typ", "positive_drop_typ", "return_drop_typ"),
    *("fuse_drop_typ", "fault_near", "fault_far", "loop_resistance_hot", "ampacity"),
    *("idle_day", "idle_night", "cruise_day", "cruise_night"),
)
SLACK = 1e-9
MEASURED = Basis(state=State.MEASURED)


def wide(q, share=0.0, by=0.0):
    """Give a figure a tolerance, and let it count as measured."""
    spread = q.value * share + by
    return replace(q, low=q.value - spread, high=q.value + spread, basis=MEASURED)


def at(q, where):
    """Fix a figure between its ends: 0 is the low one, 1 the high one."""
    return quantity(q, q.low + where * (q.high - q.low))


def each(fit, change):
    """Return the fit with every fact of the input side changed by `change(fact, kind)`."""
    shop, own, sheet = fit.shop, fit.vehicle, fit.charger
    zones = {
        name: zone.model_copy(update={"temperature": change(zone.temperature, "degrees")})
        for name, zone in shop.zones.items()
    }
    joints = shop.joints.model_copy(
        update={
            name: change(getattr(shop.joints, name), "ohms")
            for name in ("positive", "protection", "negative")
        }
    )
    route = own.routes[fit.job.route]
    segments = tuple(
        s.model_copy(update={"length": change(s.length, "length")}) for s in route.segments
    )
    supplied = {
        name: change(getattr(own.supply, name), "volts") for name in ("low", "typical", "high")
    } | {
        name: change(value, "amps")
        for name in ("hot_idle", "hot_cruise", "base_day", "base_night")
        if (value := getattr(own.supply, name)) is not None
    }
    battery = own.battery.model_copy(update={"internal": change(own.battery.internal, "ohms")})
    sizes = tuple(
        s.model_copy(update={"resistance": change(s.resistance, "copper")}) for s in fit.cable.sizes
    )
    changed = vehicle(
        fit,
        routes={**own.routes, fit.job.route: route.model_copy(update={"segments": segments})},
        supply=own.supply.model_copy(update=supplied),
        battery=battery,
    )
    return replace(
        changed,
        shop=shop.model_copy(
            update={
                "zones": zones,
                "joints": joints,
                "lengths": shop.lengths.model_copy(
                    update={"segment_tolerance": quantity(shop.lengths.segment_tolerance, 0.0)}
                ),
            }
        ),
        cable=fit.cable.model_copy(update={"sizes": sizes}),
        charger=sheet.model_copy(
            update={
                "efficiency": change(sheet.efficiency, "share"),
                "cut_out": change(sheet.cut_out, "volts"),
                "cut_out_run": change(sheet.cut_out_run, "volts"),
            }
        ),
        station=fit.station.model_copy(
            update={"input_power": change(fit.station.input_power, "share")}
        ),
    )


TOLERANCES = {
    "degrees": {"by": 6.0},
    "ohms": {"share": 0.15},
    "length": {"share": 0.03},
    "volts": {"by": 0.1},
    "amps": {"share": 0.05},
    "copper": {"share": 0.04},
    "share": {"share": 0.02},
}


@cache
def outer(name):
    """Return the fit with a tolerance on everything, the choice, and its figures."""
    fit = example_fit(name)
    choice = choose(fit, judge).choice
    loose = each(fit, lambda q, kind: wide(q, **TOLERANCES[kind]))
    design = work_out(loose, choice)
    return loose, choice, {figure.name: figure for figure in figures(design, ())}


@settings(max_examples=120, deadline=None)
@given(st.sampled_from(GUIDES), st.integers(0, 10**9))
def test_no_point_within_lies_outside(name, seed):
    dice = random.Random(seed)  # noqa: S311
    loose, choice, between = outer(name)
    # corners of the box as often as its inside
    point = each(loose, lambda q, _: at(q, dice.choice([0.0, 1.0, dice.random(), dice.random()])))
    for figure in figures(work_out(point, choice), ()):
        if figure.name in ONE_WAY:
            ends = between[figure.name]
            slack = SLACK * (1 + abs(figure.value))
            assert ends.low - slack <= figure.value <= ends.high + slack, figure.name


@pytest.mark.parametrize("name", GUIDES)
def test_ends_are_told_apart_and_hold_the_value(name):
    _, _, between = outer(name)
    assert set(ONE_WAY) - set(between) <= {"idle_day", "idle_night", "cruise_day", "cruise_night"}
    for figure in between.values():
        slack = SLACK * (1 + abs(figure.value))
        assert figure.low - slack <= figure.value <= figure.high + slack, figure.name
    for figure in (between[name] for name in ONE_WAY if name in between):
        assert figure.low < figure.high, figure.name


@settings(max_examples=60, deadline=None)
@given(st.sampled_from(GUIDES), st.integers(0, 10**9))
def test_no_short_gives_more_or_less(name, seed):
    """Any supply between its ends, any battery, copper from -40 °C to its limit, any contacts."""
    dice = random.Random(seed)  # noqa: S311
    loose, choice, between = outer(name)
    supply, internal = loose.vehicle.supply, loose.vehicle.battery.internal
    design = work_out(loose, choice)
    U = dice.uniform(supply.low.low, supply.high.high)
    R_i = dice.uniform(internal.low, internal.high)
    heavy, light = (loop(design, light=end) for end in (False, True))
    metres, r20 = (
        dice.uniform(getattr(light, what), getattr(heavy, what))
        if what == "r20_ohm_per_m"
        else dice.uniform(*(sum(s.length_m for s in (*o.out, *o.back)) for o in (light, heavy)))
        for what in ("metres", "r20_ohm_per_m")
    )
    theta = dice.uniform(-40, loose.cable.conductor_max.value)
    contacts = dice.uniform(0, heavy.out_joints_ohm + heavy.back_joints_ohm)
    copper = metres * r20 * (1 + (theta - 20) / 254.5)
    assert between["fault_near"].low <= U / R_i <= between["fault_near"].high
    far = U / (R_i + copper + contacts)
    assert between["fault_far"].low <= far <= between["fault_far"].high


def test_no_heavy_corner_no_ends():
    loose, choice, _ = outer("dunstrel-cobble/j9b")
    design = work_out(loose, choice)
    assert corners(design, quantity(loose.vehicle.supply.low, 1.0)) is None
    sagging = work_out(
        vehicle(
            loose,
            supply=loose.vehicle.supply.model_copy(
                update={
                    "low": quantity(loose.vehicle.supply.low, 3.0),
                    "typical": wide(quantity(loose.vehicle.supply.typical, 6.6), by=3.0),
                }
            ),
        ),
        choice,
    )
    names = {figure.name for figure in figures(sagging, ())}
    assert not {"current_low", "current_typ", "idle_day"} & names


@pytest.mark.parametrize(("step_W", "least_W"), [(100.0, 100 / 0.93), (240.0, 190 / 0.93)])
def test_power_at_the_input_by_hand(step_W, least_W):
    """The least of step, charger and station over the efficiency that suits it."""
    fit = example_fit("brunsall-tansy/j1")
    efficiency = replace(fit.charger.efficiency, low=0.91, high=0.93)
    fit = charger(fit, efficiency=efficiency)
    fit = station(fit, input_power=replace(fit.station.input_power, low=190.0, high=205.0))
    most_W = min(step_W, 205) / 0.91
    assert input_power_ends(fit, step_W) == pytest.approx((least_W, most_W))


def test_a_power_step_is_found_by_its_watts():
    fit = example_fit("brunsall-tansy/j1")
    assert step_of(fit, float("150")).value == 150
    assert step_of(fit, 170.0) == fit.charger.output_power
    assert step_of(charger(fit, power=None), 150.0) == fit.charger.output_power


def test_a_short_behind_the_protection_by_hand(tmp_path):
    """12.3 V over 6 mΩ, 14.9 V over 4 mΩ; others' line stands before the weak end only."""
    plain, shared = (
        choose(fit, judge) for fit in (example_fit("brunsall-tansy/j1"), shared_fit(tmp_path))
    )
    low, high = plain.fit.vehicle.supply.low.low, plain.fit.vehicle.supply.high.high
    assert near_fault(plain, (0.004, 0.006)) == pytest.approx((low / 0.006, high / 0.004))
    line = tapped_line(shared.fit, light=False).ohm
    assert line > 0
    assert near_fault(shared, (0.004, 0.006)) == pytest.approx((low / (0.006 + line), high / 0.004))
