"""A feed on a line that others share: the network's solution is what figures and rules see."""

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.optimize import fsolve

from baybook.checks import approve, judge
from baybook.design import Design
from baybook.finding import Verdict
from baybook.point import FactoryFuse
from baybook.sizing.choose import choose
from baybook.sizing.interval import loop
from baybook.sizing.shared import line_ends, tapped_line
from baybook.sizing.work_out import work_out
from shared_line import shared_fit
from sizing.test_spice import solve
from sizing.test_traces import reckon
from variants import point, quantity
from workbooks import example_fit

LINE = 30e-3 * 1.05 / (25 * 0.98)
AMPS, WATTS = 8 * 1.1, 60 * 1.05
CLOSE = 1e-3


@pytest.fixture(scope="module")
def fit(tmp_path_factory):
    return shared_fit(tmp_path_factory.mktemp("shared"))


@pytest.fixture(scope="module")
def design(fit):
    found = choose(fit, judge)
    assert isinstance(found, Design), found.findings
    return found


def with_load(fit, amperes, watts):
    line = fit.vehicle.points["positive-stud"].line
    socket, fridge = line.loads
    loads = (
        socket.model_copy(update={"current": quantity(socket.current, amperes)}),
        fridge.model_copy(update={"power": quantity(fridge.power, watts)}),
    )
    return point(fit, "positive-stud", line=line.model_copy(update={"loads": loads}))


def test_it_is_checked(design):
    assert approve(design)


@pytest.mark.parametrize("when", ["low", "typical"])
def test_scipy_finds_the_same(design, when):
    """Two nodes, two unknowns, written out again."""
    at, power = getattr(design.solved.feed, when), design.solved.feed.power_W

    def missing(volts):
        tap, end = volts
        feed = power / end
        return (
            at.supply_V - (feed + AMPS + WATTS / tap) * LINE - tap,
            tap - feed * at.loop_ohm - end,
        )

    tap, end = fsolve(missing, (at.supply_V, at.supply_V * 0.95), xtol=1e-12)
    assert at.source_volts == pytest.approx(tap, rel=1e-7)
    assert at.charger_V == pytest.approx(end, rel=1e-7)
    assert at.shared_amps == pytest.approx(power / end + AMPS + WATTS / tap, rel=1e-7)


def test_ngspice_finds_the_same(design, tmp_path):
    low, power = design.solved.feed.low, design.solved.feed.power_W
    text = f"""* a line that others share
VS s 0 {low.supply_V}
RL s t {LINE:.9g}
IO t 0 {AMPS}
BO t 0 I={WATTS} / max(v(t), 1)
RF t d {low.loop_ohm:.9g}
BL d 0 I={power} / max(v(d), 1)
.nodeset v(t)={low.supply_V} v(d)={low.supply_V}
.control
op
print v(d) i(VS) v(t)
quit
.endc
.end
"""
    end, current, tap = solve(text, tmp_path)
    assert end == pytest.approx(low.charger_V, rel=CLOSE)
    assert current == pytest.approx(low.shared_amps, rel=CLOSE)
    assert tap == pytest.approx(low.source_volts, rel=CLOSE)


def test_every_figure_is_worked_out_again_from_its_trace(design):
    names = {figure.name for figure in design.figures}
    for figure in design.figures:
        assert reckon(figure) == pytest.approx(figure.value, rel=1e-6), figure.name
    assert {"shared_current_low", "tap_voltage_low", "shared_drop_typ", "line_resistance"} <= names


def test_the_drop_counts_from_the_posts(design):
    low = design.solved.feed.low
    assert low.drop == pytest.approx(1 - low.charger_V / low.supply_V)
    assert design.figure("drop_low").value == pytest.approx(low.drop)
    assert design.figure("shared_drop_low").value == pytest.approx(low.supply_V - low.source_volts)


def test_the_far_fault_goes_through_the_line(fit, design):
    """Battery, line and our loop in series, copper hot, contacts counted."""
    fault, supply = design.solved.fault, fit.vehicle.supply.low.low
    own = replace(loop(design, light=False), tapped=None).at_most()
    assert fault.far_A == pytest.approx(supply / (fault.internal_high_ohm + LINE + own), rel=1e-9)
    assert design.figure("fault_far").low <= fault.far_A + 1e-9


def test_the_line_lies_between_its_measured_ends(fit):
    low, high = line_ends(fit, fit.vehicle.points["positive-stud"].line)
    assert high == pytest.approx(LINE)
    assert low == pytest.approx(30e-3 * 0.95 / (25 * 1.02))
    assert tapped_line(fit, light=True).current_A == 0, "others may be off"


def test_a_feed_of_its_own_has_no_such_figure():
    fit = example_fit("brunsall-tansy/j1")
    assert tapped_line(fit, light=False) is None
    names = {figure.name for figure in choose(fit, judge).figures}
    assert not {name for name in names if "shared" in name or "tap_" in name or "line" in name}


@given(amperes=st.floats(0, 60), watts=st.floats(0, 600), more=st.floats(0, 30))
def test_more_load_beside_it_is_never_better(fit, design, amperes, watts, more):
    """Fewer volts and more amperes at the charger, and no refusal goes away."""
    light, heavy = (
        work_out(with_load(fit, amperes + by, watts), design.choice) for by in (0.0, more)
    )
    low, lower = light.solved.feed.low, heavy.solved.feed.low
    if lower is not None:
        assert low is not None
        assert lower.charger_V <= low.charger_V + 1e-9
        assert lower.current_A >= low.current_A - 1e-9
        assert lower.shared_amps >= low.shared_amps - 1e-9
    assert refused(light) <= refused(heavy) | {"CA-01", "CA-02", "SU-12"}


def refused(design):
    return {f.code for f in judge(design) if f.verdict is Verdict.REFUSED}


@given(amperes=st.floats(0, 20), watts=st.floats(0, 200))
def test_any_point_between_lies_between_the_corners(fit, design, amperes, watts):
    """Others may draw anything up to their highest: no figure leaves its ends."""
    amperes, watts = min(amperes, AMPS), min(watts, WATTS)
    low = work_out(with_load(fit, amperes, watts), design.choice).solved.feed.low
    for name, value in (
        ("current_low", low.current_A),
        ("charger_voltage_low", low.charger_V),
        ("shared_current_low", low.shared_amps),
        ("tap_voltage_low", low.source_volts),
        ("drop_low", low.drop),
    ):
        figure = design.figure(name)
        assert figure.low - 1e-9 <= value <= figure.high + 1e-9, name


def test_others_on_a_fuse_of_the_vehicle_go_off_what_it_carries(fit):
    """20 A for good, 8.8 A and 63 W drawn by others: what is left does not carry 20 A."""
    like = fit.protections[1]
    fused = FactoryFuse(
        place="fuse box, place 9",
        rating=quantity(like.ratings[0], 25.0),
        continuous=quantity(like.ratings[0], 20.0),
        voltage=like.voltage,
        breaking=like.breaking,
        opens=like.opens,
    )
    found = choose(point(fit, "positive-stud", factory_fuse=fused), judge)
    carries = next(figure for figure in found.figures if figure.name == "fuse_carries")
    tap = next(figure for figure in found.figures if figure.name == "tap_voltage_low")
    assert carries.value == pytest.approx(20 - AMPS - WATTS / tap.value)
    assert "OC-01" in {finding.code for finding in found.findings}


@pytest.mark.parametrize(("carries", "refused_by"), [(33.9, "OC-21"), (34.0, None)])
def test_a_fuse_before_the_point_carries_both(fit, design, carries, refused_by):
    """I_B 20 A, others 8.8 A and 63 W at about 12.25 V, 13.94 A in all: 33.94 A."""
    like = fit.protections[1]
    first = FactoryFuse(
        place="fuse box, place 9",
        rating=quantity(like.ratings[0], 50.0),
        continuous=quantity(like.ratings[0], carries),
        voltage=like.voltage,
        breaking=like.breaking,
        opens=like.opens,
    )
    weighed = work_out(point(fit, "positive-stud", upstream=first), design.choice)
    assert design.choice.input_limit_A == 20
    assert ("OC-21" if "OC-21" in refused(weighed) else None) == refused_by
