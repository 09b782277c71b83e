"""Labels along a line: apart, and no leader through another's words."""

from itertools import combinations

from hypothesis import given
from hypothesis import strategies as st

from baybook.drawing.shelves import AIR, Tag, shelve, staircase

WIDTH = 400.0
TAGS = st.lists(
    st.builds(Tag, st.floats(0, 300, width=16), st.floats(5, 95, width=16)),
    min_size=1,
    max_size=12,
)


def faults(spots):
    for one, other in combinations(spots, 2):
        near, far = sorted((one, other), key=lambda spot: spot.shelf)
        if near.shelf == far.shelf and near.left < far.right and far.left < near.right:
            yield "overlap", one, other
        if near.shelf < far.shelf and near.left < far.tag.at < near.right:
            yield "leader through words", one, other


@given(tags=TAGS)
def test_shelves_keep_labels_apart(tags):
    spots = shelve(tags, WIDTH) or staircase(tags)
    assert [spot.tag for spot in spots] == tags
    assert not list(faults(spots))
    assert all(spot.left >= 0 and spot.right <= WIDTH for spot in spots)


@given(tags=TAGS)
def test_a_staircase_always_holds(tags):
    assert not list(faults(staircase(tags)))


def test_labels_with_room_share_one_shelf():
    tags = [Tag(50, 40), Tag(50 + 40 + AIR, 40), Tag(300, 60)]
    spots = shelve(tags, WIDTH)
    assert [spot.shelf for spot in spots] == [0, 0, 0]
    assert spots[0].left == 30


def test_no_room_is_said():
    assert shelve([Tag(200, 395)] * 6, WIDTH) is None
