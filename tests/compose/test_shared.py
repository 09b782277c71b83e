"""A guide on a line that others share names them, and reads the vehicle as it then is."""

import pytest

from baybook.checks.release import release
from baybook.compose import compose
from compose.jobs import GUIDES, check, say_all
from compose.jobs import guide as example_guide
from shared_line import shared_fit


@pytest.fixture(scope="module")
def checked(tmp_path_factory):
    return check(shared_fit(tmp_path_factory.mktemp("shared")))


@pytest.fixture(scope="module")
def guide(checked):
    return compose(checked)


def test_it_is_released(checked, guide):
    assert release(checked, guide)


def test_drawing_and_assumptions_name_who_shares(guide):
    told = say_all(guide)
    station = next(
        rank["positive"]
        for rank in told["wiring"]["ranks"]
        if rank["positive"] and rank["positive"]["letters"] == ["A"]
    )
    lines = [line["text"] for line in station["lines"]]
    assert "Shared with trailer socket and fridge in the boot" in lines
    assert any("also feeds trailer socket" in line["text"] for line in told["assumptions"])


def test_the_line_to_the_point_is_the_vehicles_own(guide):
    runs = [rank.positive_run for rank in guide.wiring.ranks]
    assert runs[0].style == "existing"
    assert [run.conductor for run in runs[1:3]] == ["W1", "W1"]


def test_running_volts_may_be_lower_by_what_the_others_drop(checked, guide):
    row = next(row for row in guide.readings if row.id == "R1")
    plain = next(row for row in example_guide(GUIDES[0]).readings if row.id == "R1")
    figure = checked.design.figure
    drop = figure("others_current_low").value * figure("line_resistance").value
    rounded = 0.01  # each of both, downwards
    assert plain.low.value - row.low.value == pytest.approx(drop * 0.995, abs=rounded)
