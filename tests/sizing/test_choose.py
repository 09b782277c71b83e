"""What is chosen, what is kept of what was weighed, and the way out."""

from dataclasses import replace
from itertools import product

import pytest

from baybook.checks import approve, judge
from baybook.design import Design, Refusal
from baybook.finding import Verdict
from baybook.sizing.choose import choose
from baybook.sizing.envelope import envelope
from baybook.sizing.work_out import work_out
from variants import asked, charger, job, load, quantity, route, station, supply
from workbooks import example_fit

J1, J3, J9, J9B = (
    "brunsall-tansy/j1",
    "ostrigg-drey/j3",
    "dunstrel-cobble/j9",
    "dunstrel-cobble/j9b",
)
GUIDES = (J1, J3, J9B)


def refused(findings):
    return {f.code for f in findings if f.verdict is Verdict.REFUSED}


@pytest.mark.parametrize("fit", GUIDES)
def test_every_size_that_was_weighed_is_kept(fit):
    design = choose(example_fit(fit), judge)
    assert [c.choice.area_mm2 for c in design.candidates] == [6, 10, 16, 25, 35]
    chosen = next(c for c in design.candidates if c.passes)
    assert chosen.choice == design.choice, "the smallest that passes"


@pytest.mark.parametrize("fit", GUIDES)
def test_no_smaller_size_passes_with_any_rating_of_any_family(fit):
    """Brute force: every size with every rating, not only those that choose looks at."""
    found = example_fit(fit)
    design = choose(found, judge)
    ratings = [
        (name, rating.value)
        for name, sheet in zip(found.job.protection, found.protections, strict=True)
        for rating in sheet.ratings
    ]
    sizes = [size.area.value for size in found.cable.sizes]
    passing = [
        (area, rating)
        for area, (family, rating) in product(sizes, ratings)
        if not refused(
            judge(
                work_out(
                    found,
                    replace(design.choice, area_mm2=area, family=family, rating_A=rating),
                )
            )
        )
    ]
    assert min(passing) == (design.choice.area_mm2, design.choice.rating_A)


@pytest.mark.parametrize("fit", GUIDES)
def test_settings_list_what_fits(fit):
    design = choose(example_fit(fit), judge)
    chosen = next(s for s in design.settings if s.set_V == design.choice.set_V)
    assert chosen.fits
    full = [s.set_V for s in design.settings if s.fits and s.power_W >= chosen.power_W]
    default = design.fit.charger.output_default.value
    assert design.choice.set_V in (default, min(full))


def test_an_asked_size_is_the_only_candidate():
    design = choose(asked(example_fit(J1), 10), judge)
    assert isinstance(design, Design)
    assert [c.choice.area_mm2 for c in design.candidates] == [10]
    wider = choose(asked(example_fit(J9B), 35), judge)
    assert isinstance(wider, Refusal)
    assert "CA-04" in refused(wider.findings)
    assert [c.choice.area_mm2 for c in wider.candidates] == [35], "nothing thicker is in stock"


def test_a_way_out_names_no_size_where_none_passes():
    refusal = choose(route(example_fit(J9), 3), judge)
    assert {f.way_out.id for f in refusal.findings} == {
        f"rule.{f.code}.way_out" for f in refusal.findings
    }
    assert [c.choice.area_mm2 for c in refusal.candidates] == [16, 25, 35]


def test_other_findings_keep_their_own_way_out():
    fit = supply(example_fit(J9), hot_cruise=100)
    refusal = choose(fit, judge)
    ways = {f.code: f.way_out.id for f in refusal.findings}
    assert ways["SU-04"] == "rule.SU-04.way_out"


def test_a_lower_step_is_taken_where_the_wanted_one_fails():
    design = choose(supply(example_fit(J1), allowance=15), judge)
    assert (design.choice.power_W, design.choice.input_limit_A) == (150, 15)
    assert choose(supply(example_fit(J1), allowance=10), judge).choice.power_W == 100


def test_refused_at_every_step_the_least_wrong_is_told():
    refusal = choose(supply(example_fit(J1), allowance=8), judge)
    assert refused(refusal.findings) == {"SU-02"}
    assert {f.found.value for f in refusal.findings} == {20}, "at the wanted step"


def test_without_a_setting_no_cable_is_weighed():
    fit = example_fit(J1)
    refusal = choose(station(fit, window_max=quantity(fit.station.window_max, 17)), judge)
    assert refusal.candidates == ()
    assert refused(refusal.findings) == {"OV-02"}
    assert refusal.figures


def test_no_working_point_still_shows_what_was_weighed():
    refusal = choose(load(route(example_fit(J9B), 9), 900), judge)
    assert "CA-03" in refused(refusal.findings)
    assert {c.current_A for c in refusal.candidates} == {None}
    assert "current_low" not in {f.name for f in refusal.figures}


def test_a_station_that_takes_less_gets_the_best_setting_it_can():
    fit = example_fit(J3)
    weak = station(fit, input_current=quantity(fit.station.input_current, 5))
    design = choose(weak, judge)
    assert design.choice.set_V == 58.0
    assert design.figure("set_voltage").formula == "U_set = U_best"
    assert design.solved.output.limit == "station current"


def test_order_of_families_decides_between_equal_ratings():
    fit = example_fit(J1)
    turned = replace(
        job(fit, protection=tuple(reversed(fit.job.protection))),
        protections=tuple(reversed(fit.protections)),
    )
    assert choose(fit, judge).choice.family == "tarrock-bf32"
    assert choose(turned, judge).choice.family == "tarrock-bf70h"


@pytest.mark.parametrize("fit", GUIDES)
def test_envelope_is_where_the_design_stops_passing(fit):
    design = choose(example_fit(fit), judge)
    length = sum(s.length.value for s in design.fit.vehicle.routes[design.fit.job.route].segments)
    longest = design.figure("envelope_length").value
    lowest = design.figure("envelope_supply").value

    def passes(changed):
        return not refused(judge(work_out(changed, design.choice)))

    assert longest >= length
    assert passes(route(design.fit, longest / length))
    assert not passes(route(design.fit, (longest + 0.1) / length))
    assert lowest <= design.fit.vehicle.supply.low.value
    assert passes(supply(design.fit, low=lowest))
    assert not passes(supply(design.fit, low=lowest - 0.01))


def test_an_envelope_has_an_end_though_nothing_refuses():
    design = choose(example_fit(J1), judge)
    found = {bound.name: bound for bound in envelope(design, lambda _design, _about="": ())}
    assert set(found) == {"length", "supply"}, "of the others nothing is said"
    assert found["length"].value > 50
    assert found["supply"].value > 0
    assert {bound.rule for bound in found.values()} == {""}


def test_a_choice_with_a_charger_that_takes_no_rating_is_refused():
    fit = example_fit(J9B)
    refusal = choose(charger(fit, upstream_max=quantity(fit.charger.upstream_max, 50)), judge)
    assert refused(refusal.findings) == {"OC-03"}


def test_approve_passes_what_was_chosen():
    for fit in GUIDES:
        checked = approve(choose(example_fit(fit), judge))
        assert refused(checked.findings) == set()
