"""The route strip: true to scale, its labels apart."""

from xml.etree import ElementTree as ET

import pytest
from hypothesis import given, settings

from baybook.drawing.forms import FORMS
from baybook.drawing.measure import MissingGlyph
from baybook.drawing.route import draw_route, route_scene
from baybook.drawing.rows import DrawingError
from drawing import told
from drawing.geometry import route_faults, text_faults
from drawing.views import route_views

SAMPLES = {"route": told.route, "crowded": told.crowded_route}


@pytest.mark.parametrize("form", FORMS)
@pytest.mark.parametrize("sample", SAMPLES)
def test_nothing_lies_on_anything(sample, form):
    scene = route_scene(SAMPLES[sample](), form)
    assert not [*text_faults(scene), *route_faults(scene)]


@settings(max_examples=40)
@given(view=route_views())
def test_nothing_lies_on_anything_in_any_route(view):
    for form in FORMS:
        scene = route_scene(view, form)
        assert not [*text_faults(scene), *route_faults(scene)], form


@pytest.mark.parametrize(
    ("form", "begin", "end"), [("wide", "left", "right"), ("slim", "top", "bottom")]
)
def test_one_metre_is_the_same_everywhere(form, begin, end):
    """By hand: zones of 0.9, 3.9 and 0.8 m."""
    boxes = [block.box for block in route_scene(told.route(), form).strip.blocks]
    sizes = [getattr(box, end) - getattr(box, begin) for box in boxes]
    whole = sum(sizes)
    for size, metres in zip(sizes, (0.9, 3.9, 0.8), strict=True):
        assert size / whole == pytest.approx(metres / 5.6)


def test_marks_stand_at_their_distance():
    scene = route_scene(told.route(), "wide")
    left, right = scene.strip.blocks[0].box.left, scene.strip.blocks[-1].box.right
    metre = (right - left) / 5.6
    at = {fitting.kind: (fitting.x - left) / metre for fitting in scene.strip.fittings}
    assert at == pytest.approx({"strip-fuse": 0.15, "grommet": 0.9, "gland": 4.8})
    (sleeve,) = scene.strip.sleeves
    assert (sleeve.box.left - left) / metre == pytest.approx(2.1)
    assert (sleeve.box.right - left) / metre == pytest.approx(2.7)
    assert len(scene.strip.clips) == 18  # 5.6 / 0.3 = 18.7


def test_a_conduit_runs_from_its_beginning_over_the_positive_lead_only():
    view = told.route()
    view["marks"] = [told.strip_mark("conduit", 0.0, "conduit", length=0.42)]
    scene = route_scene(view, "wide")
    strip = scene.strip.blocks[0].box
    metre = (scene.strip.blocks[-1].box.right - strip.left) / 5.6
    (conduit,) = scene.strip.sleeves
    assert conduit.box.right - strip.left == pytest.approx(0.42 * metre)
    assert conduit.box.bottom < (strip.top + strip.bottom) / 2


@pytest.mark.parametrize("form", ["wide", "print"])
def test_a_usual_route_needs_at_most_three_shelves(form):
    scene = route_scene(told.route(), form)
    strip = scene.strip.blocks[0].box
    assert len({text.cell.top for text in scene.texts if text.cell.top > strip.bottom}) <= 3


def test_bytes_repeat_and_the_words_are_there():
    drawing = draw_route(told.route(), "wide", prefix="cobble/j9b")
    assert drawing == draw_route(told.route(), "wide", prefix="cobble/j9b")
    root = ET.fromstring(drawing.svg)  # noqa: S314 - drawn by us
    words = "".join(root.itertext()).replace("\N{NO-BREAK SPACE}", " ")
    for expected in ("W2 red, W3 black.", "Tray box 50 °C", "D, J 5.60 m", "Charger Sorrel 520"):
        assert expected in words
    assert drawing.title == "Route of the demonstration vehicle"


def test_bad_routes_are_refused():
    with pytest.raises(DrawingError, match="with a length"):
        draw_route(told.route() | {"length_m": 0.0}, "wide", prefix="x")
    with pytest.raises(MissingGlyph, match="'Σ'"):
        draw_route(told.route() | {"end_label": told.message("Σ")}, "wide", prefix="x")
