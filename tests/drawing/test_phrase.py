"""Told messages as lines of a column."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from baybook.drawing.measure import BOLD, REGULAR
from baybook.drawing.phrase import NO_BREAK, plain, wrap
from drawing.told import message

LETTERS = st.sampled_from("abcdeghilmnoprstuwäöüßABDEGMSW0123456789-/.,()+−°²·Ω")
WORDS = st.lists(st.text(LETTERS, min_size=1, max_size=46), min_size=1, max_size=12)


def texts(told, room, size=10.0, weight=REGULAR):
    return [line.text.replace(NO_BREAK, " ") for line in wrap(told, room, size, weight)]


@given(words=WORDS, room=st.integers(30, 200), weight=st.sampled_from([REGULAR, BOLD]))
def test_no_line_is_wider_than_its_column_and_no_letter_is_lost(words, room, weight):
    lines = wrap(plain(" ".join(words)), room, 10.0, weight)
    assert all(line.width <= room for line in lines)
    kept = [c for line in lines for c in line.text if c not in f"- {NO_BREAK}"]
    assert kept == [c for word in words for c in word if c != "-"]


def test_a_figure_keeps_its_unit():
    assert texts(message("Cut 5.71_m (AWG 4)"), 42) == ["Cut", "5.71 m", "(AWG 4)"]


def test_a_size_in_gauge_is_one_name():
    lines = wrap(plain("Cut 5.04 m (AWG 8)"), 92.0, 11.0)
    assert [line.text for line in lines] == ["Cut 5.04 m", f"(AWG{NO_BREAK}8)"]


def test_a_sign_keeps_the_word_before_it():
    assert texts(message("Clamp IN −"), 36) == ["Clamp", "IN −"]


def test_a_long_word_is_parted_with_a_hyphen():
    lines = texts(message("Batteriepolklemme"), 50)
    assert len(lines) > 1
    assert all(line.endswith("-") for line in lines[:-1])
    assert "".join(line.rstrip("-") for line in lines) == "Batteriepolklemme"


def test_a_word_is_parted_behind_its_own_hyphen_first():
    assert texts(message("Ladegerät-Halterung"), 60)[0] == "Ladegerät-"


def test_strong_runs_are_bold_and_the_rest_keeps_its_weight():
    (line,) = wrap(message("**W2** red"), 200, 10.0)
    assert [(span.text, span.weight) for span in line.spans] == [
        ("W2", BOLD),
        (f"{NO_BREAK}red", REGULAR),
    ]


@pytest.mark.parametrize("room", [1.0, 0.0])
def test_a_column_narrower_than_a_character_still_ends(room):
    assert "".join(texts(message("AB"), room)) == "AB"
