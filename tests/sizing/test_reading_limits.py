"""The limits of the readings: whatever the model can be, read with a meter in its tolerance."""

import random
from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from baybook.checks import judge
from baybook.sizing.choose import choose
from baybook.sizing.interval import loop
from baybook.sizing.source import constant_power
from workbooks import example_fit

FITS = (
    *("brunsall-tansy/j1", "ostrigg-drey/j3", "dunstrel-cobble/j9b", "pellmare-mirren/j5"),
    *("tessick-orlet/j7", "tavlow-camber/j8"),
)
DESIGNS = {name: choose(example_fit(name), judge) for name in FITS}


def limits(design, name):
    figures = {figure.name: figure.value for figure in design.figures}
    return figures.get(f"least_{name}", float("-inf")), figures.get(f"most_{name}", float("inf"))


def simulate(design, dice):
    """Return true values of a circuit inside all tolerances, and the resistances of its ways."""
    fit, light = design.fit, loop(design, light=True)
    supply = fit.vehicle.supply
    U = dice.uniform(supply.low.low, supply.high.high)
    most = design.figure("input_power").value
    P = dice.uniform(design.figure("input_power_least").value, most)
    share = dice.random()  # of warmth, length and contacts between cold and heavy
    R_pos = design.figure("positive_resistance_low").value
    R_back = design.figure("return_resistance_low").value
    cold = light.at_least() / (R_pos + R_back)
    R_pos, R_back = (R * (cold + share * (1 - cold)) for R in (R_pos, R_back))
    I, U_t = constant_power(U, R_pos + R_back, P)  # noqa: E741
    fuse = dice.uniform(0, fit.shop.joints.protection.high)
    return {
        "running": U,
        "current": I,
        "fuse": I * fuse,
        "positive": I * R_pos,
        "return": I * R_back,
        "input": U_t,
    }


@settings(max_examples=300, deadline=None)
@given(st.sampled_from(FITS), st.integers(0, 10**9))
def test_a_circuit_within_its_tolerances_is_never_called_out(name, seed):
    dice = random.Random(seed)  # noqa: S311
    design = DESIGNS[name]
    meter = design.fit.shop.meter
    for row, true in simulate(design, dice).items():
        off = meter.current.value if row == "current" else meter.voltage.value
        read = true * (1 + dice.choice([-off, off, dice.uniform(-off, off)]))
        least, most = limits(design, row)
        assert least - 1e-9 <= read <= most + 1e-9, row


@settings(max_examples=200, deadline=None)
@given(st.sampled_from(FITS), st.integers(0, 10**9))
def test_an_output_within_its_tolerances_is_never_called_out(name, seed):
    """But for what the station bears: the meter does not widen that."""
    dice = random.Random(seed)  # noqa: S311
    design, fit = DESIGNS[name], DESIGNS[name].fit
    tol, meter = fit.charger.output_tolerance.high, fit.shop.meter
    U = design.choice.set_V * (1 + dice.uniform(-tol, tol))
    off = meter.voltage.value
    least, most = limits(design, "open")
    assert least - 1e-9 <= U * (1 + dice.uniform(-off, off))
    rules = min(
        fit.station.window_max.low,
        fit.station.absolute.low * (1 - fit.shop.limits.absolute_margin.value.value),
    )
    assert min(U * (1 + off), rules) <= most + 1e-9
    if fit.second is not None:
        return
    full = design.solved.output.full_W
    draw = meter.draw.value
    I = min(full * dice.uniform(1 - draw, 1) / U, design.solved.output.most_A)  # noqa: E741
    least, most = limits(design, "output_current")
    assert least - 1e-9 <= I * (1 + dice.uniform(-meter.current.value, meter.current.value))
    assert I * (1 + meter.current.value) <= most + 1e-9
    at_station = U - I * design.solved.output.lead_ohm
    least, _ = limits(design, "output")
    assert least - 1e-9 <= at_station * (1 - off)
    least, most = limits(design, "display")
    display = meter.display.value
    assert least - 1e-9 <= at_station * I * (1 - display)
    assert at_station * I * (1 + display) <= most + 1e-9


@pytest.mark.parametrize("name", FITS)
def test_a_joint_beyond_the_limit_is_found(name):
    """At the lowest supply, full load, hot: one more milliohm than the meter hides is over."""
    design = DESIGNS[name]
    U, P = design.figure("supply_low").value, design.figure("input_power").value
    R = design.figure("positive_resistance_low").value
    back = design.figure("return_resistance_low").value
    hidden = design.fit.shop.meter.voltage.value
    added = 2.5 * hidden * R
    current, _ = constant_power(U, R + added + back, P)
    assert current * (R + added) * (1 - hidden) > limits(design, "positive")[1]


def test_limits_by_hand():
    """J1: 12.3 V (1 - 0.5 %); (11.5 + 0.2) V (1 - 0.5 %); 12.45 V (1 - 0.5 %); 3 mA · 1.02 + 5."""
    design = DESIGNS["brunsall-tansy/j1"]
    assert limits(design, "running")[0] == pytest.approx(12.2385)
    assert limits(design, "input")[0] == pytest.approx(11.6415)
    assert limits(design, "rest")[0] == pytest.approx(12.38775)
    assert limits(design, "stopped")[1] == pytest.approx(0.00806)
    assert limits(design, "case")[1] == pytest.approx(0.9 * 200 * (1 / 0.92 - 1) + 2)


def test_two_batteries_in_series_rest_at_twice_the_volts():
    least, most = limits(DESIGNS["ostrigg-drey/j3"], "rest")
    assert least == pytest.approx(2 * 12.45 * 0.995)
    assert most == pytest.approx(25.4 * 1.005)


def test_an_allowance_that_the_profile_leaves_out_counts_as_nothing():
    """What the profile allows is all that parts the limits with it from those without."""
    fit = example_fit("brunsall-tansy/j1")
    meter = fit.shop.meter.model_copy(update={"draw": None, "display": None})
    design = choose(replace(fit, shop=fit.shop.model_copy(update={"meter": meter})), judge)
    least = design.figure("output_power_least").value
    allowed = fit.shop.meter.draw.value
    with_it = DESIGNS[fit.id].figure("output_power_least").value
    assert least == pytest.approx(with_it / (1 - allowed))
    assert limits(design, "display")[1] == pytest.approx(
        limits(DESIGNS[fit.id], "display")[1] / (1 + fit.shop.meter.display.value)
    )
