"""A return through the body: the measured drop counts everywhere a return conductor's does."""

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from baybook.checks import approve, judge
from baybook.design import CheckedDesign, Design
from baybook.sizing.body import body_ends, loop_resistance
from baybook.sizing.capacity import around
from baybook.sizing.choose import choose
from baybook.sizing.validity import OutOfRange
from baybook.sizing.work_out import work_out
from chassis import chassis_fit
from sizing.test_spice import solve
from sizing.test_traces import reckon
from variants import quantity, source, vehicle
from workbooks import example_fit

HIGH = 62e-3 * 1.05 / (40 * 0.98)  # most drop over least current
LOW = 62e-3 * 0.95 / (40 * 1.02)
CLOSE = 1e-3


@pytest.fixture(scope="module")
def fit(tmp_path_factory):
    return chassis_fit(tmp_path_factory.mktemp("chassis"))


@pytest.fixture(scope="module")
def design(fit):
    found = choose(fit, judge)
    assert isinstance(found, Design), found.findings
    return found


def with_loop(fit, drop_V, current_A):
    loop = fit.vehicle.body_loops[0]
    changed = loop.model_copy(
        update={"drop": quantity(loop.drop, drop_V), "current": quantity(loop.current, current_A)}
    )
    return vehicle(fit, body_loops=(changed,))


def test_the_body_is_allowed_and_measured(design):
    checked = approve(design)
    assert isinstance(checked, CheckedDesign)
    assert "NE-05" not in {finding.code for finding in checked.findings}


def test_the_body_takes_the_return_near_the_charger_and_a_conductor_at_the_source(fit, design):
    end = sum(segment.length.value for segment in fit.vehicle.routes[fit.job.route].segments)
    assert design.circuit.joint("return").at_m == pytest.approx(end)
    assert choose(example_fit(fit.id), judge).circuit.joint("return").at_m == 0.0


def test_resistance_is_the_measured_drop_over_the_measured_current(fit, design):
    assert body_ends(fit) == pytest.approx((LOW, HIGH))
    figure = design.figure("body_resistance")
    assert figure.value == pytest.approx(HIGH)
    assert (figure.low, figure.high) == pytest.approx((LOW, HIGH))
    assert all(entry.where.file.endswith("vehicle.yaml") for entry in figure.inputs)


def test_without_a_tolerance_the_meter_counts(fit):
    """0.5 % in volts, 2 % in amperes."""
    low, high = body_ends(with_loop(fit, 62e-3, 40.0))
    assert high == pytest.approx(62e-3 * 1.005 / (40 / 1.02))
    assert low == pytest.approx(62e-3 / 1.005 / (40 * 1.02))


@pytest.mark.parametrize("tolerance", [True, False])
def test_every_figure_is_worked_out_again_from_its_trace(fit, tolerance):
    found = choose(fit if tolerance else with_loop(fit, 62e-3, 40.0), judge)
    for figure in found.figures:
        assert reckon(figure) == pytest.approx(figure.value, rel=1e-9), figure.name
        assert figure.low <= figure.value * (1 + 1e-12) or figure.value < 0


def test_the_lead_to_the_body_is_short_and_the_route_holds_one_conductor(design):
    """0.4 m + 2 % + 0.30 m for the ends, cut to the next 10 mm."""
    back = design.circuit.conductor("return")
    assert back.cut_m == pytest.approx(0.71)
    assert back.area_mm2 == design.circuit.conductor("feed").area_mm2
    assert [s.clips for s in design.circuit.stretches] == [3, 8, 3]
    (wall,) = (f for f in design.circuit.fittings if f.kind == "gland")
    assert wall.count == 1
    circuit = design.circuit
    ends = {joint.role: joint for joint in circuit.joints}
    assert ends["return"].at_m == pytest.approx(3.9)
    body = circuit.conductor("body")
    assert (body.start, body.end) == (ends["return"].letter, ends["body"].letter)
    lead = circuit.conductor("existing")
    assert (lead.start, lead.end) == (ends["body"].letter, ends["source-"].letter)


def test_the_rest_of_the_loop_is_that_of_the_same_cable(fit, design):
    """Joints of 0.6 mOhm, 0.71 m of cable as warm as the trace says, the body."""
    low = design.solved.feed.low
    theta = design.figure("temperature_low_load-bay").value
    size = next(s for s in fit.cable.sizes if s.area.value == design.choice.area_mm2)
    copper = 0.71 * size.resistance.value * (1 + (theta - 20) / 254.5)
    assert low.return_ohm == pytest.approx(0.6e-3 + copper + HIGH, rel=1e-6)


def test_ngspice_finds_the_same_current_and_far_fault(design, tmp_path):
    low, fault = design.solved.feed.low, design.solved.fault
    cut = {c.use: c.cut_m for c in design.circuit.conductors}
    text = f"""* return by the body
VS s 0 {low.supply_V}
RP s d {low.positive_ohm:.9g}
RW j k {low.return_ohm - HIGH:.9g}
RB k 0 {HIGH:.9g}
BL d j I={design.solved.feed.power_W} / max(v(d,j), 1)
.nodeset v(d)={low.supply_V} v(j)=0
.control
op
print v(d,j) i(VS) v(k)
quit
.endc
.end
"""
    volts, current, body = solve(text, tmp_path)
    assert volts == pytest.approx(low.charger_V, rel=CLOSE)
    assert current == pytest.approx(low.current_A, rel=CLOSE)
    assert body == pytest.approx(low.current_A * HIGH, rel=CLOSE)
    r20 = next(
        s.resistance.value for s in design.fit.cable.sizes if s.area.value == design.choice.area_mm2
    )
    hot = r20 * (cut["source"] + cut["feed"] + cut["return"]) * (1 + 85 / 254.5)
    text = f"""* far fault through the body
VS s 0 {low.supply_V}
RI s a {fault.internal_high_ohm:.9g}
RW a k {hot + 1.9e-3:.9g}
RB k 0 {HIGH:.9g}
.control
op
print v(k) i(VS) v(a)
quit
.endc
.end
"""
    _, current, _ = solve(text, tmp_path)
    assert current == pytest.approx(fault.far_A, rel=CLOSE)


def test_the_sensor_rule_still_holds(fit):
    found = choose(source(fit, negative="negative-post"), judge)
    assert {"NE-01", "NE-05"} <= {finding.code for finding in found.findings}


def test_a_conductor_knows_nothing_of_the_body():
    fit = example_fit("brunsall-tansy/j1")
    assert body_ends(fit) == (0.0, 0.0)
    names = {figure.name for figure in choose(fit, judge).figures}
    assert not any("body" in name for name in names)


@pytest.mark.parametrize(("drop", "current"), [((0, 1), (1, 2)), ((1, 2), (0, 1))])
def test_nought_is_no_measurement(drop, current):
    with pytest.raises(OutOfRange):
        loop_resistance(drop, current)


@given(drop=st.floats(1e-3, 1.0), worse=st.floats(1.0, 2.0))
def test_a_worse_body_is_never_better(fit, design, drop, worse):
    """More resistance: no more volts at the charger, no less current, no more fault current."""
    good, bad = (
        work_out(with_loop(fit, drop * by, 40.0), design.choice).solved for by in (1.0, worse)
    )
    assert bad.fault.far_A <= good.fault.far_A
    if bad.feed.low is None:
        return
    assert good.feed.low is not None
    assert bad.feed.low.charger_V <= good.feed.low.charger_V + 1e-9
    assert bad.feed.low.current_A >= good.feed.low.current_A - 1e-9


def test_a_body_measured_with_little_current_serves_a_low_power_step(fit):
    """19.6 A for sure: the step of 200 W may draw 20.0 A, the one of 150 W does."""
    loop = fit.vehicle.body_loops[0]
    current = replace(loop.current, value=20.0, low=19.6, high=20.4)
    small = vehicle(fit, body_loops=(loop.model_copy(update={"current": current}),))
    found = choose(small, judge)
    assert isinstance(found, Design)
    assert found.choice.power_W < choose(fit, judge).choice.power_W
    assert found.choice.input_limit_A <= 19.6


def test_a_zone_without_a_return_is_known_by_its_name(fit):
    zones = {segment.zone for segment in fit.vehicle.routes[fit.job.route].segments}
    own = {zone: around(fit, "".join(list(zone)), 40.0).bundled for zone in zones}
    assert own == {zone: around(fit, zone, 40.0).bundled for zone in zones}
    assert min(own.values()) == 1, "the positive alone"
