"""The pull that a sample must stand: crimps, screw clamps, a battery in its tray."""

import re

import pytest

from baybook.sizing.pull import Grade, battery_pull, clamp_pull, crimp_pull_out
from baybook.sizing.validity import OutOfRange

LBF = 4.4482216152605  # N


@pytest.mark.rows("cables", "CR-UL-*")
def test_commercial_crimp(row):
    assert crimp_pull_out(row.number("awg"), Grade.COMMERCIAL) == row.value, row


@pytest.mark.rows("cables", "CR-MIL-*")
def test_military_crimp(row):
    assert crimp_pull_out(row.number("awg"), Grade.MILITARY) == row.value, row


def test_a_misprint_of_the_page_is_not_taken_over():
    # 2/0 stands as 1235 N beside 300 lb, and 300 lbf is 1334.5 N
    assert crimp_pull_out(-1, Grade.COMMERCIAL) == pytest.approx(300 * LBF, abs=1)


def test_a_crimp_that_was_not_read_in_this_grade_is_refused():
    with pytest.raises(OutOfRange, match="crimp, AWG and grade 8 military: no such cell was read"):
        crimp_pull_out(8, Grade.MILITARY)


@pytest.mark.rows("additional", "PULL-60947")
def test_pull_on_a_screw_clamp(row):
    pairs = re.findall(r"([\d.]+)(?: mm2)? (\d+)(?:;|$)", row["value"])
    assert len(pairs) == 7, row
    for area, force in pairs:
        assert clamp_pull(float(area)) == float(force), row


def test_a_clamp_of_another_size_is_refused():
    with pytest.raises(OutOfRange, match="screw clamp, mm² 35: no such cell was read"):
        clamp_pull(35)


@pytest.mark.rows("holding", "RR042", "RR044", "RR046")
def test_worked_pull_on_a_battery(row):
    mass = float(re.search(r"for a ([\d.]+) kg", row["item"])[1])
    assert battery_pull(mass) == row.printed, row


@pytest.mark.rows("holding", "RR040")
def test_pull_on_a_battery_is_the_lesser_of_two(row):
    assert row["value"] == "min(90 lbf, 2 x battery weight)", row
    assert battery_pull(5) == pytest.approx(2 * 5 * 9.80665), row
    assert battery_pull(500) == pytest.approx(90 * LBF, abs=0.005), row
