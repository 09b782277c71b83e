"""The pull that a sample must stand: crimps, screw clamps."""

import re

import pytest

from baybook.sizing.pull import Grade, clamp_pull, crimp_pull_out
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
