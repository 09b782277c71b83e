"""Charts: every point is one that the figures and the rules know as well."""

# ruff: noqa: E741 - I is the letter of IEC for a current

import itertools
import math
from dataclasses import replace
from functools import cache

import pytest
from hypothesis import given
from hypothesis import strategies as st

from baybook import checks
from baybook.design import Design
from baybook.finding import say
from baybook.sizing.chart_axis import linear, logarithmic
from baybook.sizing.chart_opening import holding, opening, stands_s
from baybook.sizing.chart_voltage import profile, run_pieces
from baybook.sizing.choose import choose
from baybook.sizing.protection import gates_of, sure_opening
from baybook.sizing.withstand import let_through_ratio
from baybook.sizing.work_out import work_out
from chassis import chassis_fit
from shared_line import shared_fit
from variants import quantity, source, vehicle
from workbooks import example, example_fit

TITLE = say("chart.axis.current")


@cache
def designs():
    found = (choose(fit, checks.judge) for fit in example().fits)
    return tuple(one for one in found if isinstance(one, Design))


def each(chart_id):
    for design in designs():
        for chart in design.charts:
            if chart.id == chart_id:
                yield design, chart


def styled(items, style):
    return next(item for item in items if item.style == style)


def test_the_run_ends_at_the_voltage_of_the_charger():
    pairs = list(each("voltage"))
    assert len(pairs) == len(designs())
    for design, chart in pairs:
        for style, name in (("main", "low"), ("second", "typ")):
            curve = styled(chart.curves, style)
            end = design.figure(f"charger_voltage_{name}").value
            assert curve.points[0] == (0.0, design.figure(f"supply_{name}").value)
            assert curve.points[-1][1] == pytest.approx(end, abs=1e-9)


def test_voltage_only_falls_along_the_run():
    for _, chart in each("voltage"):
        for curve in chart.curves[:2]:
            volts = [U for _, U in curve.points]
            assert volts == sorted(volts, reverse=True)


def test_the_step_at_the_fuse_is_its_own_drop_and_that_of_its_joints():
    """By hand for J1: (0.7 + 2 · 0.6 / 4) mΩ of the profile's 1.3 mΩ."""
    design, chart = next(each("voltage"))
    assert design.fit.id == "brunsall-tansy/j1"
    low = design.solved.feed.low
    (before, after) = styled(chart.curves, "main").points[2:4]
    assert before[0] == after[0] == pytest.approx(0.30)  # 0.15 m and half of the allowance
    assert before[1] - after[1] == pytest.approx(low.current_A * 0.0010)


def test_power_at_the_setting_is_the_figure():
    for design, chart in each("power"):
        chosen = styled(chart.places, "chosen")
        given_power = styled(chart.curves, "main").points
        assert chosen.at == design.choice.set_V
        assert chosen.dots == (design.solved.output.power_W,)
        assert between(given_power, chosen.at) == pytest.approx(chosen.dots[0])
        band = styled(chart.bands, "tolerance")
        ends = design.figure("output_low").value, design.figure("output_high").value
        assert (band.low, band.high) == pytest.approx(ends)


def test_power_given_is_the_least_of_all_limits():
    for _, chart in each("power"):
        points = styled(chart.curves, "main").points
        limits = [c.points for c in chart.curves if c.style in {"limit", "bound"}]
        for part in range(11):
            U = points[0][0] + part / 10 * (points[-1][0] - points[0][0])
            assert between(points, U) == pytest.approx(min(between(line, U) for line in limits))


def between(points, x):
    for (x1, y1), (x2, y2) in itertools.pairwise(points):
        if x1 <= x <= x2:
            return y1 if x1 == x2 else y1 + (x - x1) / (x2 - x1) * (y2 - y1)
    return points[-1][1]


def test_opening_and_withstand_are_those_of_the_rules():
    for design, chart in each("opening-F1"):
        fault, area = design.solved.fault, design.choice.area_mm2
        dots = [(place.at, *place.dots) for place in chart.places]
        assert dots == [
            (fault.far_A, fault.opens_far_s), (fault.near_A, fault.opens_near_s)
        ]  # fmt: skip
        for I, t in styled(chart.curves, "second").points:
            if t <= 5:
                assert let_through_ratio(I, t, fault.k, area) == pytest.approx(1.0)


def test_a_second_battery_has_a_chart_of_its_own():
    ((design, chart),) = each("opening-F2")
    second = design.solved.second
    assert [place.at for place in chart.places] == [second.far_A, second.near_A]
    assert len(list(each("opening-F1"))) == len(designs())


@given(st.floats(1.0, 10000.0))
def test_the_staircase_is_what_the_gates_promise(I):
    design = designs()[0]
    gates = gates_of(design.fit, design.choice.family)
    points = opening(gates, design.choice.rating_A, 20000.0, 1e6)
    reached = [t for at, t in points if at <= I]
    promised = sure_opening(gates, design.choice.rating_A, I)
    assert (reached[-1] if reached else None) == promised


def test_what_a_fuse_carries_without_limit_reaches_the_top():
    design = designs()[0]
    sheet = design.fit.protections[0]
    assert holding(sheet.holds, 30.0, 1.0, 1e6) == (
        (1.0, 1e6), (30.0, 1e6), (30.0, 600.0), (40.5, 600.0)
    )  # fmt: skip


def test_a_cable_stands_a_fault_by_hand():
    """(135 · 10 / 1350)² = 1 s."""
    assert stands_s(135.0, 10.0, 1350.0) == pytest.approx(1.0)
    assert stands_s(135.0, 10.0, 2700.0) == pytest.approx(0.25)


@given(st.floats(-1e4, 1e4), st.floats(0.01, 1e4))
def test_linear_figures_are_round_rising_and_inside(low, span):
    ticks = [tick.value for tick in linear(TITLE, low, low + span, "V").ticks]
    assert 2 <= len(ticks) <= 7
    assert ticks == sorted(set(ticks))
    assert all(low - 1e-6 * span <= tick <= low + span * (1 + 1e-6) for tick in ticks)


@given(st.floats(-3.0, 4.0), st.floats(1.0, 7.0))
def test_logarithmic_figures_are_rising_and_inside(low, decades):
    ends = 10**low, 10 ** (low + decades)
    ticks = [tick.value for tick in logarithmic(TITLE, *ends, "A").ticks]
    assert ticks
    assert ticks == sorted(set(ticks))
    assert all(ends[0] <= tick <= ends[1] for tick in ticks)
    assert {round(tick / 10 ** math.floor(math.log10(tick) + 1e-9)) for tick in ticks} <= {1, 2, 5}


def ends(design):
    (chart,) = (one for one in design.charts if one.id == "voltage")
    for style, name in (("main", "low"), ("second", "typ")):
        points = styled(chart.curves, style).points
        yield points[0][1], design.figure(f"supply_{name}").value
        yield points[-1][1], design.figure(f"charger_voltage_{name}").value


def test_through_the_body_the_run_ends_at_the_charger_s_voltage_too(tmp_path):
    for drawn, worked in ends(choose(chassis_fit(tmp_path), checks.judge)):
        assert drawn == pytest.approx(worked, abs=1e-9)


def test_behind_a_line_that_others_share_too(tmp_path):
    design = choose(shared_fit(tmp_path), checks.judge)
    assert design.solved.feed.low.line is not None
    for drawn, worked in ends(design):
        assert drawn == pytest.approx(worked, abs=1e-9)


@pytest.mark.parametrize("at", [0.0, 0.7, 2.0])
def test_every_contact_of_the_loop_stands_somewhere_along_the_run(at):
    """A fuse at either end of the run too, where no allowance is left on the other side of it."""
    fit = example_fit("ostrigg-drey/j3")
    choice = choose(fit, checks.judge).choice
    lengths, laid = fit.shop.lengths, fit.vehicle.routes[fit.job.route]
    none = quantity(lengths.end_allowance, 0.0)
    bare = lengths.model_copy(update={"end_allowance": none, "segment_tolerance": none})
    stretch = laid.segments[0].model_copy(update={"length": quantity(none, 2.0)})
    straight = {fit.job.route: laid.model_copy(update={"segments": (stretch,)})}
    fit = vehicle(replace(fit, shop=fit.shop.model_copy(update={"lengths": bare})), routes=straight)
    design = work_out(source(fit, fuse_at=quantity(fit.job.source.fuse_at, at)), choice)
    pieces, joints = tuple(run_pieces(design)), fit.shop.joints
    contacts = sum(piece.contact_ohm for piece in pieces)
    assert contacts == pytest.approx(joints.positive.high + joints.negative.high)
    (fuse,) = (n for n, piece in enumerate(pieces) if piece.contact_ohm == pytest.approx(0.001))
    assert sum(piece.out_m for piece in pieces[:fuse]) == pytest.approx(at)
    drawn = profile(design, design.solved.feed.low, pieces)
    assert drawn[-1][1] == pytest.approx(design.solved.feed.low.charger_V)
