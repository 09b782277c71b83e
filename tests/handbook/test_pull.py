"""The pull that a joint must stand: crimps and screw clamps."""

import re

import pytest

from baybook.sizing.pull import clamp_pull, crimp_pull_out
from baybook.sizing.validity import OutOfRange
from baybook.standards.handbook import handbook

LBF = 4.4482216152605  # N
COMMERCIAL = sorted(handbook().crimp_N)  # thickest first: 2/0 is -1


@pytest.mark.rows("cables", "CR-UL-*")
def test_commercial_crimp(row):
    assert crimp_pull_out(row.number("awg")) == row.value, row


@pytest.mark.rows("cables", "CR-MIL-*")
def test_a_military_crimp_stands_more(row):
    # than the commercial one of its size, or of the next thinner size that was read
    nearest = min(gauge for gauge in COMMERCIAL if gauge >= row.number("awg"))
    assert crimp_pull_out(nearest) < row.value, row


def test_a_misprint_of_the_page_is_not_taken_over():
    # 2/0 stands as 1235 N beside 300 lb, and 300 lbf is 1334.5 N
    assert crimp_pull_out(-1) == pytest.approx(300 * LBF, abs=1)


def test_a_crimp_that_was_not_read_is_refused():
    with pytest.raises(OutOfRange, match="crimp, AWG 6: no such cell was read"):
        crimp_pull_out(6)


@pytest.mark.rows("additional", "PULL-60947")
def test_pull_on_a_screw_clamp(row):
    pairs = re.findall(r"([\d.]+)(?: mm2)? (\d+)(?:;|$)", row["value"])
    assert len(pairs) == 7, row
    for area, force in pairs:
        assert clamp_pull(float(area)) == float(force), row


def test_a_clamp_of_another_size_is_refused():
    with pytest.raises(OutOfRange, match="screw clamp, mm² 35: no such cell was read"):
        clamp_pull(35)
