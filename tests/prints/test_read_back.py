"""The check on finished prints, tried on prints of ours: it passes a whole one and finds a loss."""

import re
from dataclasses import replace
from itertools import pairwise

import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from baybook.publish.prints import render_prints
from baybook.publish.verify_prints import mending, print_text, verify_prints
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


WORDS = ("schalterstellung", "stellungsschalter", "schalterstellungen", "ungsschalterstellung")


def by_one_pattern(text):
    """What putting together means, as one pattern: the earlier first, then the longer."""
    longest = sorted(WORDS, key=len, reverse=True)
    forms = ["(" + r"-?\s*".join(word) + r")(?![^\W\d_])" for word in longest]
    parted = re.compile("|".join(forms))
    return parted.sub(lambda match: longest[match.lastindex - 1], text)


@st.composite
def parted(draw):
    """A word with gaps in it, good ones and others, and what follows it."""
    word = draw(st.sampled_from(WORDS))
    cuts = sorted(draw(st.sets(st.integers(1, len(word) - 1), max_size=2)))
    pieces = [word[a:b] for a, b in pairwise([0, *cuts, len(word)])]
    gap = st.sampled_from(["-\r\n", " ", "\n", "-", "--", " -"])
    return "".join(draw(gap) + piece for piece in pieces) + draw(st.sampled_from(["", "x", "2"]))


@example("schalterstellung-\nen")
@given(st.lists(parted(), max_size=4).map("".join))
def test_parted_words_are_put_together_as_one_pattern_would(text):
    assert mending(["Die Schalterstellung", *WORDS])(text) == by_one_pattern(text)
