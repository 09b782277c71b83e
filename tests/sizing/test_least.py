"""The least of many, asked for in the order of what each is at least."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from baybook.sizing.least import first_of_least


@given(st.lists(st.tuples(st.integers(0, 5), st.integers(0, 5)), min_size=1))
def test_it_is_the_first_of_the_least_and_few_are_asked(ranks):
    """Each rank is its bound and something more; whoever cannot be less is left alone."""
    asked = []

    def rank(at):
        asked.append(at)
        return sum(ranks[at])

    at = first_of_least([bound for bound, _ in ranks], rank)
    whole = [sum(one) for one in ranks]
    assert at == whole.index(min(whole))
    assert len(asked) == len(set(asked))
    assert all(ranks[one][0] <= min(whole) for one in asked)


def test_of_none_there_is_no_least():
    with pytest.raises(ValueError, match="none to choose from"):
        first_of_least([], lambda _: 0)
