"""Fingerprints: they follow what is said, not where it stands."""

import json
from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st

from baybook import checks
from baybook.finding import Amount, say
from baybook.plain import figures_fingerprint, fingerprint, plain, text_fingerprint
from baybook.quantity import Mark
from baybook.sizing.choose import choose
from workbooks import COBBLE, SHOP, example_fit, spoilt_fit

J9B = "dunstrel-cobble/j9b"


def figures(fit):
    design = choose(fit, checks.judge)
    return figures_fingerprint(checks.approve(design))


@pytest.fixture(scope="module")
def usual():
    return figures(example_fit(J9B))


def test_a_moved_line_changes_nothing(tmp_path, usual):
    moved = spoilt_fit(tmp_path, J9B, (COBBLE, "supply:\n", "# a remark\n\nsupply:\n"))
    assert figures(moved) == usual


@pytest.mark.parametrize(
    ("file", "old", "new"),
    [
        (COBBLE, "length: 3.9 m", "length: 3.91 m"),
        (COBBLE, "internal: {value: 4.2 m", "internal: {value: 4.3 m"),
        (COBBLE, "rest: {value: 12.7 V", "rest: {value: 12.8 V"),
        (SHOP, "end_allowance: 0.30 m", "end_allowance: 0.31 m"),
        (COBBLE, "torque: {value: 7.0 N·m", "torque: {value: 7.1 N·m"),
        (COBBLE, "by: bay\n    on: 2024-11-08\n    seen", "by: bay\n    on: 2024-11-09\n    seen"),
    ],
)
def test_any_figure_or_its_basis_changes_it(tmp_path, usual, file, old, new):
    assert figures(spoilt_fit(tmp_path, J9B, (file, old, new))) != usual


def test_marks_are_left_out_only_when_asked():
    mark = Mark("a.yaml", 3, 4)
    assert plain([mark]) == [{"file": "a.yaml", "line": 3, "column": 4, "path": ""}]
    assert plain([mark], marks=False) == []
    assert fingerprint([1.0, mark]) == fingerprint([1.0])


def test_what_has_no_plain_form_is_an_error():
    with pytest.raises(TypeError, match="no plain form for object"):
        plain(object())


@given(st.recursive(st.none() | st.booleans() | st.floats(allow_nan=False) | st.text(), st.lists))
def test_plain_is_json(node):
    assert json.loads(json.dumps(plain(node))) == plain(node)


def test_nouns_and_days_are_plain():
    told = plain({"day": date(2024, 11, 29), "said": say("x", a=Amount(1.0, "V", 1))})
    assert told["day"] == "2024-11-29"
    assert told["said"]["values"][0][1]["unit"] == "V"


def test_a_text_is_what_a_reader_sees():
    one = {"text": "4.5 N·m", "value": 4.5}
    assert text_fingerprint(one) == text_fingerprint({"text": "4.5 N·m", "value": 4.500000001})
    assert text_fingerprint(one) != text_fingerprint({"text": "4.6 N·m", "value": 4.5})
    assert text_fingerprint(["ab", "c"]) != text_fingerprint(["a", "bc"])


def test_the_careful_side_of_a_figure_is_not_a_figure():
    limit = Amount(0.2, "m", 0, "200 mm")
    assert fingerprint(limit.at_least()) == fingerprint(limit.at_most()) == fingerprint(limit)
    assert plain(limit.at_most())["side"] == "most"
