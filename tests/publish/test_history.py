"""What `issued/` keeps of a revision: its content as it is, in lines that a review can read."""

import json
from datetime import date

from hypothesis import given
from hypothesis import strategies as st

from baybook.book import Revision
from baybook.publish.history import Issue, issue_files

REVISION = Revision(
    number=1, on=date(2024, 12, 2), check_after=date(2025, 12, 2), figures="f" * 12, text="e" * 12
)
LEAVES = st.one_of(
    st.none(),
    st.booleans(),
    st.integers(-(2**63), 2**63),  # no told number is longer
    # Very large and small ones are told with another exponent: 1e16 for 1e+16.
    st.floats(-1e15, 1e15).filter(lambda number: number == 0 or abs(number) > 1e-4),
    st.text(),
)
TREES = st.recursive(
    LEAVES, lambda inner: st.lists(inner) | st.dictionaries(st.text(), inner), max_leaves=20
)


@given(st.dictionaries(st.text(), TREES))
def test_a_revision_is_kept_as_the_standard_library_would_write_it(content):
    issue = Issue(
        fit="van/j1",
        kind="guide",
        state="released",
        revision=REVISION,
        language="en",
        content=content,
    )
    (kept,) = issue_files([issue], {}).values()
    whole = json.loads(kept)
    assert whole["content"] == content
    assert kept.decode() == json.dumps(whole, ensure_ascii=False, indent=1, sort_keys=True) + "\n"
