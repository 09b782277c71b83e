"""What was read on the vehicle, put back into the model: by hand."""

from types import SimpleNamespace

import pytest

from baybook.checks import judge
from baybook.sizing.choose import choose
from baybook.sizing.measured import as_measured, measured_ways
from variants import quantity
from workbooks import example_fit

MILLIOHMS = {
    "positive_resistance_low": 0.020,
    "return_resistance_low": 0.010,
    "loop_resistance": 0.030,
    "loop_resistance_cold": 0.025,
}


def modelled():
    """A design of 20 and 10 milliohm, 25 cold; meters off by 1 % of volts, 2 % of amperes."""
    meter = SimpleNamespace(
        voltage=SimpleNamespace(value=0.01), current=SimpleNamespace(value=0.02)
    )
    return SimpleNamespace(
        fit=SimpleNamespace(shop=SimpleNamespace(meter=meter)),
        figure=lambda name: SimpleNamespace(value=MILLIOHMS[name]),
    )


def ways(current, positive, back):
    found = measured_ways(modelled(), {"current": current, "positive": positive, "return": back})
    return {way.what.id.removeprefix("record.way."): way for way in found}


def test_resistances_and_their_bounds_by_hand():
    found = ways(10.0, 0.19, 0.09)
    measured = {name: way.measured.value for name, way in found.items()}
    assert measured == pytest.approx({"positive": 0.019, "return": 0.009, "loop": 0.028})
    # x 1.01 / 0.98 above; the loop alone has a cold end, 25 milliohm x 0.99 / 1.02 = 24.26
    highs = {name: way.high.value for name, way in found.items()}
    expected = {"positive": 0.020612, "return": 0.010306, "loop": 0.030918}
    assert highs == pytest.approx(expected, abs=1e-6)
    lows = {name: way.low.value for name, way in found.items()}
    assert lows == pytest.approx({"positive": 0.0, "return": 0.0, "loop": 0.024265}, abs=1e-6)
    assert all(way.inside for way in found.values())


@pytest.mark.parametrize(
    ("positive", "back", "outside"),
    [
        (0.2061, 0.10, set()),
        (0.2062, 0.10, {"positive"}),
        (0.15, 0.1031, {"return"}),
        (0.2070, 0.1031, {"positive", "return", "loop"}),  # 31.01 milliohm over 30.92
        (0.15, 0.0926, {"loop"}),  # 24.26 milliohm under 24.265: a clamp that reads too much
        (0.15, 0.0927, set()),
    ],
)
def test_the_loop_has_two_ends_and_a_way_one(positive, back, outside):
    assert {name for name, way in ways(10.0, positive, back).items() if not way.inside} == outside


@pytest.mark.parametrize("current", [0.0, -1.0])
def test_no_current_is_not_divided_by(current):
    assert ways(current, 0.19, 0.09) == {}


def design():
    return choose(example_fit("brunsall-tansy/j1"), judge)


def test_what_was_read_widens_the_supply_and_never_narrows_it():
    here = design()
    supply = here.fit.vehicle.supply
    low, high = supply.low.low, supply.high.high
    assert as_measured(here, (None, None), None) is here
    assert as_measured(here, (low, high), None) is here
    assert as_measured(here, (low + 0.1, high - 0.1), None) is here
    sunk = as_measured(here, (low - 0.1, None), None).fit.vehicle.supply
    assert (sunk.low.value, sunk.low.low, sunk.low.high) == (low - 0.1,) * 3
    assert sunk.high is supply.high
    risen = as_measured(here, (None, high + 0.1), None).fit.vehicle.supply
    assert (risen.high.value, risen.high.low, risen.high.high) == (high + 0.1,) * 3
    assert risen.low is supply.low


def test_a_lower_supply_draws_more_current():
    here = design()
    sunk = as_measured(here, (here.fit.vehicle.supply.low.low - 0.2, None), None)
    assert sunk.solved.feed.low.current_A > here.solved.feed.low.current_A


def test_lengths_replace_those_of_the_survey_in_their_order():
    here = design()
    segments = here.fit.vehicle.routes[here.fit.job.route].segments
    longer = tuple(quantity(s.length, s.length.value + 0.1) for s in segments)
    moved = as_measured(here, (None, None), longer)
    laid = moved.fit.vehicle.routes[here.fit.job.route].segments
    assert [s.length for s in laid] == list(longer)
    assert moved.solved.fault.far_ohm > here.solved.fault.far_ohm
