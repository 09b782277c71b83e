"""The check on finished prints, tried on prints of ours: it passes a whole one and finds a loss."""

from dataclasses import replace

import pytest

from baybook.publish.prints import render_prints
from baybook.publish.verify_prints import print_text, verify_prints
from prints import sample


@pytest.fixture(scope="module")
def made():
    entry = sample.entry(sample.GUIDE)
    return render_prints(sample.book(entry), {entry.fit: sample.DRAWN}, papers=("a4", "letter"))


def test_a_whole_print_lost_nothing(made):
    assert verify_prints(sample.book(sample.entry(sample.GUIDE)), made) == ()


def test_what_the_guide_says_more_than_the_print_is_named_with_fit_and_paper(made):
    more = replace(sample.GUIDE, cautions=(sample.s("Say something else."),))
    lost = verify_prints(sample.book(sample.entry(more)), made)
    assert [line.split(":")[0] for line in lost] == [
        "dunstrel-cobble/j9b, print a4",
        "dunstrel-cobble/j9b, print letter",
    ]


def test_a_written_hyphen_is_read_back_as_one():
    guide = replace(sample.GUIDE, what=sample.s("A DC-DC charger, " + "a DC-DC charger " * 20))
    entry = sample.entry(guide)
    pdf = render_prints(sample.book(entry), {}, papers=("a4",))[entry.fit]["a4"]
    assert print_text(pdf).replace("\r\n", "").count("DC-DC") == 21
