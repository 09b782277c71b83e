"""The plan's drawing: every mark inside its picture, no number over another, left stays left."""

import xml.etree.ElementTree as ET

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from baybook.drawing.phrase import plain
from baybook.drawing.plan import SQUARES_LONG, SQUARES_WIDE, draw_plan, plan_scene
from baybook.point import HEIGHTS

FORMS = ("wide", "slim", "print")
KINDS = ("joint", "fuse", "passage", "hazard", "charger")


def view(outline, places, name="wiper linkage"):
    marks = [
        {
            "kind": KINDS[number % len(KINDS)],
            "number": number + 1,
            "label": plain(f"{name} {number}"),
            "along": along,
            "across": across,
            "up": up,
        }
        for number, (along, across, up) in enumerate(places)
    ]
    return {
        "title": plain("Route on the vehicle"),
        "outline": outline,
        "drive_sides": ["left"],
        "path": [list(place) for place in places],
        "marks": marks,
        "above": plain("From above"),
        "beside": plain("From the left"),
        "nose": plain("The nose is at the left."),
        "text": plain("In the order of the run"),
    }


places = st.lists(
    st.tuples(st.integers(0, SQUARES_LONG), st.integers(0, SQUARES_WIDE), st.integers(0, 15)),
    min_size=2,
    max_size=14,
)
names = st.sampled_from(["pipe", "Unterbodenverkleidungsbefestigung", "a word and a word " * 12])


@settings(deadline=None, max_examples=40)
@given(st.sampled_from(sorted(HEIGHTS)), places, st.sampled_from(FORMS), names)
def test_nothing_overlaps_and_nothing_leaves_the_drawing(outline, where, form, name):
    scene = plan_scene(view(outline, where, name), form)
    for picture in scene.pictures:
        for number in picture.numbers:
            assert scene.radius - 1e-6 <= number.x <= scene.width - scene.radius + 1e-6
            assert number.y - scene.radius >= 0
            assert number.y + scene.radius <= picture.top
        spots = [(n.x, n.y) for n in picture.numbers]
        for at, (x, y) in enumerate(spots):
            for other_x, other_y in spots[at + 1 :]:
                apart = max(abs(x - other_x), abs(y - other_y))
                assert apart >= 2 * scene.radius - 1e-6, spots
    for one, other in zip(scene.texts, scene.texts[1:], strict=False):
        assert one.box.bottom <= other.box.bottom + 1e-6
    assert all(text.box.right <= scene.width + 1 for text in scene.texts)
    assert all(text.box.bottom <= scene.height + 1e-6 for text in scene.texts)


@pytest.mark.parametrize("outline", HEIGHTS)
@pytest.mark.parametrize("form", FORMS)
def test_it_is_well_formed_and_shows_both_sides(outline, form):
    drawing = draw_plan(view(outline, [(5, 5, 9), (20, 2, 4)]), form, prefix="v/j")
    tree = ET.fromstring(drawing.svg)  # noqa: S314 - our own drawing
    assert tree.attrib["role"] == "img"
    said = "".join(tree.itertext())
    assert "From above" in said
    assert "From the left" in said


def test_the_left_side_is_at_the_foot_and_the_ground_too():
    scene = plan_scene(view("van", [(10, 0, 0), (10, SQUARES_WIDE, HEIGHTS["van"])]), "print")
    above, beside = scene.pictures
    assert above.spikes[0].y - above.top == pytest.approx(SQUARES_WIDE * scene.square)
    assert above.spikes[1].y == pytest.approx(above.top)
    assert beside.spikes[0].y - beside.top == pytest.approx(HEIGHTS["van"] * scene.square)
    assert beside.spikes[1].y == pytest.approx(beside.top)
