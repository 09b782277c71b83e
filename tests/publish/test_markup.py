"""Told values as HTML."""

import pytest
from hypothesis import given
from hypothesis import strategies as st
from markupsafe import Markup, escape

from baybook.publish.frame import is_link, report_link
from baybook.publish.markup import PageError, Words, drawing, formula, large, said

KINDS = ("text", "strong", "figure", "unit", "letter", "converted")


def told(*runs):
    return {"runs": [{"kind": kind, "text": text} for kind, text in runs], "text": ""}


@pytest.mark.parametrize(
    ("runs", "html"),
    [
        ([("text", "Clamp it")], "Clamp it"),
        ([("strong", "W2")], "<strong>W2</strong>"),
        ([("letter", "D")], '<span class="ring">D</span>'),
        ([("figure", "4.5"), ("unit", "N·m")], '<span class="q">4.5&nbsp;N·m</span>'),
        ([("figure", "3")], "3"),
        ([("figure", "3"), ("text", " lugs")], "3 lugs"),
        ([("text", "a < b & c")], "a &lt; b &amp; c"),
        ([("text", "Wrench TW-3, 13-pin")], 'Wrench <span class="q">TW-3</span>, 13-pin'),
    ],
)
def test_runs_in_a_sentence(runs, html):
    assert said(told(*runs)) == html


def test_figures_in_a_cell_of_their_own_are_large():
    assert large(told(("text", "up to "), ("figure", "29.5"), ("unit", "V"))) == (
        'up to <span class="value"><b>29.5</b>&nbsp;<span class="unit">V</span></span>'
    )
    assert large(told(("figure", "3"))) == '<span class="value"><b>3</b></span>'


def test_a_run_of_an_unknown_kind_raises():
    with pytest.raises(KeyError, match="blink"):
        said(told(("blink", "x")))


@given(st.lists(st.tuples(st.sampled_from(KINDS), st.text()), max_size=6))
def test_any_text_comes_back_as_it_was_and_adds_no_tag(runs):
    html = said(told(*runs))
    assert html.count("<") == html.count("<strong>") * 2 + html.count("<span") * 2
    wanted = "".join(text for _, text in runs)
    assert "".join(html.striptags().split()) == "".join(wanted.split())


def test_what_is_markup_is_never_taken_for_the_same_text_of_a_person():
    for tag in (Markup("<b>"), "<b>"):
        wanted = str(escape(tag))
        assert said(told(("text", tag))) == wanted
        assert said(told(("figure", tag), ("unit", tag))).count(wanted) == 2
        assert formula(tag) == wanted


@pytest.mark.parametrize(
    ("text", "html"),
    [
        ("I_B = P / U_low", "I<sub>B</sub> = P / U<sub>low</sub>"),
        ("no index", "no index"),
        ("<b>_x</b>", "&lt;b&gt;_x&lt;/b&gt;"),
    ],
)
def test_indices_are_set_low(text, html):
    assert formula(text) == html


WORDS = Words({"a": "Revision {number} of {on}", "b": "**Stop** at {{x}}", "c": "{what}"})


def test_words_take_text_numbers_and_told_values():
    assert WORDS("a", number=3, on="<b>") == "Revision 3 of &lt;b&gt;"
    assert WORDS("c", what=told(("letter", "K"))) == '<span class="ring">K</span>'
    assert WORDS("b") == "<strong>Stop</strong> at {x}"


def test_words_are_strict():
    with pytest.raises(PageError, match="`z`, which the catalogue has not"):
        WORDS("z")
    with pytest.raises(PageError, match=r"`a` asks for \{on\}"):
        WORDS("a", number=3)


def test_a_drawing_may_name_script_in_its_words_but_bring_none():
    opened = '<?xml version="1.0"?>\n<svg xmlns="http://www.w3.org/2000/svg">'
    assert drawing(opened + "<desc>data: style= on=</desc></svg>").startswith("<svg")
    with pytest.raises(PageError, match="onload"):
        drawing('<svg onload="x()"></svg>')


@pytest.mark.parametrize(
    ("address", "link"),
    [
        ("mailto:a@b.invalid", True),
        ("https://b.invalid/report", True),
        ("http://b.invalid", False),
        ("javascript:alert(1)", False),
        ("//b.invalid", False),
        ("a@b.invalid", False),
    ],
)
def test_only_mail_and_https_become_links(address, link):
    assert is_link(address) is link


def test_the_subject_of_a_report_is_quoted_once():
    assert (
        report_link("mailto:a@b.invalid", "V6 & J9b") == "mailto:a@b.invalid?subject=V6%20%26%20J9b"
    )
    assert report_link("mailto:a@b.invalid?cc=c", "x").endswith("?cc=c&subject=x")
    assert report_link("https://b.invalid", "x") == "https://b.invalid"
