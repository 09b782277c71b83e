"""JSON as it is published: it says the same as Python's own, in one line, with its keys sorted."""

import json
from datetime import date
from math import isfinite

import pytest
from hypothesis import given
from hypothesis import strategies as st

from baybook.making import Hand, Shared
from baybook.pipeline import orders_of
from baybook.publish.compact import compact
from baybook.publish.store import PassingStore
from workbooks import copy_workbook

NUMBERS = st.integers(-(2**63), 2**63) | st.floats(allow_nan=False, allow_infinity=False)
SCALARS = st.none() | st.booleans() | NUMBERS | st.text()
TREES = st.recursive(
    SCALARS, lambda below: st.lists(below) | st.dictionaries(st.text(), below), max_leaves=20
)


@given(TREES)
def test_what_is_written_is_read_back_the_same(tree):
    written = compact(tree).decode()
    assert json.loads(written) == tree
    assert "\n" not in written


@given(st.dictionaries(st.text(), st.text()))
def test_keys_are_sorted_and_letters_stand_as_they_are(tree):
    ours = json.dumps(tree, ensure_ascii=False, sort_keys=True, separators=(",", ":"))
    assert compact(tree).decode() == ours


def test_what_is_no_json_is_refused():
    with pytest.raises(TypeError, match="object"):
        compact({"a": object()})


def numbers(node):
    """Yield every number of a JSON tree that is not whole."""
    if isinstance(node, float):
        yield node
    elif isinstance(node, dict | list | tuple):
        for below in node.values() if isinstance(node, dict) else node:
            yield from numbers(below)


def test_no_number_of_a_told_guide_is_without_end(tmp_path):
    """It would be published as null."""
    hand = Hand(copy_workbook(tmp_path / "fits"), PassingStore())
    hand.share(Shared(texts={}, drafts=False, today=date(2024, 12, 2), matrix=False))
    told = [fit for order in orders_of(hand.opened.slugs, {}) for fit in hand.tell(order)]
    found = [n for fit in told for entry in fit.entries for n in numbers(entry.content)]
    assert len(found) > 10_000
    assert all(map(isfinite, found))
