"""Pulls on a hanging scale: the table's force for clamp and crimp, and what the scale shows."""

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from baybook.checks import judge
from baybook.sizing.choose import choose
from baybook.sizing.pull import scale_reading
from baybook.sizing.validity import OutOfRange
from baybook.terms import JointKind
from variants import charger, job, quantity
from workbooks import example_fit

J1 = "brunsall-tansy/j1"


def figures(fit):
    return {f.name: f for f in choose(fit, judge).figures}


@pytest.mark.parametrize(
    ("newtons", "shown"),
    [
        (60, 6.2),  # 6.118 kg
        (80, 8.2),  # 8.158 kg
        (100, 10.2),  # 10.197 kg
        (400.5, 40.9),  # 40.84 kg
    ],
)
def test_the_scale_shows_the_next_tenth(newtons, shown):
    assert scale_reading(newtons) == pytest.approx(shown, abs=1e-9)


@given(st.floats(10, 2000))
def test_who_reads_the_scale_pulls_hard_enough_and_not_much_harder(newtons):
    pulled = scale_reading(newtons) * 9.80665
    assert newtons - 1e-6 <= pulled < newtons + 0.1 * 9.80665 + 1e-6


def test_no_pull_is_no_reading():
    with pytest.raises(OutOfRange, match="pull 0 N: must be above 0 N"):
        scale_reading(0)


def screwed(fit):
    """The fit with screws at the charger's output too."""
    return charger(fit, output=fit.charger.output.model_copy(update={"kind": JointKind.CLAMP}))


def test_each_clamp_is_pulled_by_the_area_in_it():
    # IEC 60947-1, Table 5: 10 mm² 90 N, 4 mm² 60 N
    found = figures(screwed(example_fit(J1)))
    assert found["clamp_pull_input"].value == 90
    assert found["clamp_pull_output"].value == 60
    assert found["clamp_scale_output"].value == pytest.approx(6.2)
    assert found["clamp_pull_input"].sources == ("iec60947-1",)


def test_a_terminal_that_is_no_screw_clamp_has_no_pull():
    found = figures(example_fit(J1))
    assert "clamp_pull_output" not in found, "its output is push-in"
    assert "clamp_pull_input" in found


def test_an_area_that_the_table_does_not_list_has_no_pull():
    fit = screwed(example_fit(J1))
    own = quantity(fit.job.output_area, 3)
    size = fit.output_cable.sizes[0].model_copy(update={"area": own})
    lead = fit.output_cable.model_copy(update={"sizes": (size,)})
    assert "clamp_pull_output" not in figures(replace(job(fit, output_area=own), output_cable=lead))


def test_a_refused_design_has_no_joint_to_pull():
    refused = choose(example_fit("dunstrel-cobble/j9"), judge)
    assert not [f.name for f in refused.figures if f.name.startswith(("clamp_", "crimp_"))]


def test_a_sample_is_pulled_by_the_gauge_within_its_area():
    # UL 486A, commercial: 8 AWG 400.5 N; 10 mm² has the area of 8 AWG
    assert figures(example_fit(J1))["crimp_pull"].value == 400.5
    assert figures(example_fit(J1))["crimp_scale"].value == pytest.approx(40.9)
