"""The lines of a kept revision are those of the standard library."""

import json

from hypothesis import given
from hypothesis import strategies as st

from baybook.publish.indented import indented

PLAIN = st.none() | st.booleans() | st.integers() | st.floats(allow_nan=False) | st.text()
TREES = st.recursive(
    PLAIN, lambda inner: st.lists(inner) | st.dictionaries(st.text(), inner), max_leaves=30
)


@given(TREES)
def test_it_writes_what_the_library_writes(tree):
    assert indented(tree) == json.dumps(tree, ensure_ascii=False, indent=1, sort_keys=True)
