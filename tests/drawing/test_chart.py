"""Charts: points where they belong, words apart, every line beside its words."""

import math
from xml.etree import ElementTree as ET

import pytest
from hypothesis import given, settings

from baybook.drawing.chart import chart_scene, draw_chart
from baybook.drawing.forms import FORMS
from baybook.drawing.primitives import Cell
from baybook.drawing.rows import DrawingError
from baybook.drawing.scale import scale
from drawing.charts import axis, chart, chart_views, curve, example_charts, place
from drawing.geometry import inside, overlap, text_faults

SVG = "{http://www.w3.org/2000/svg}"


def faults(scene):
    """Words on words, off the sheet or in the frame; a leader over words; lines off the frame."""
    yield from text_faults(scene)
    for text in scene.texts:
        if overlap(text.box, scene.frame):
            yield f"{text.line.text!r} stands among the lines"
        if any(overlap(text.box, box) for box in level(scene.leaders)):
            yield f"a leader crosses {text.line.text!r}"
    for what, box in lines_of(scene):
        if not inside(box, scene.frame):
            yield f"{what} leaves the frame at {box}"


def level(leaders):
    for leader in leaders:
        left, right = sorted((leader.x1, leader.x2))
        top, bottom = sorted((leader.y1, leader.y2))
        if left == right or top == bottom:
            yield Cell(left - 0.5, top - 0.5, right + 0.5, bottom + 0.5)


def lines_of(scene):
    yield from (("a band", area.box) for area in scene.areas)
    for stroke in scene.hatch:
        yield "the hatch", Cell(stroke.x1, stroke.y2, stroke.x2, stroke.y1)
    for path in scene.curves:
        # Written with two decimals.
        for x, y in points(path.d):
            yield "a curve", Cell(x + 0.005, y + 0.005, x - 0.005, y - 0.005)


def points(d):
    return [tuple(float(part) for part in pair.split()) for pair in d.removeprefix("M").split("L")]


@pytest.mark.parametrize("form", FORMS)
def test_nothing_lies_on_anything_in_any_chart_of_the_example(form):
    found = {name: [*faults(chart_scene(told, form))] for name, told in example_charts().items()}
    assert len({name.rpartition("/")[0] for name in found}) == 15
    assert not {name: wrong for name, wrong in found.items() if wrong}


@settings(max_examples=60)
@given(view=chart_views())
def test_nothing_lies_on_anything_in_any_chart(view):
    for form in FORMS:
        assert not [*faults(chart_scene(view, form))], form


@pytest.mark.parametrize("form", FORMS)
def test_every_line_is_named(form):
    for name, told in example_charts().items():
        drawn = ET.fromstring(draw_chart(told, form, prefix="x").svg)  # noqa: S314 - drawn by us
        texts = [" ".join("".join(t.itertext()).split()) for t in drawn.iter(f"{SVG}text")]
        shown = "".join("".join(texts).replace("-", "").split())
        for item in (*told["curves"], *told["places"]):
            words = "".join(item["label"]["text"].replace("-", "").split())
            first = words[:9]
            assert first in shown, (name, form, item["label"]["text"])


def test_a_logarithmic_scale_gives_each_decade_the_same_room():
    along = scale(axis(0.01, 1000.0, log=True), 0.0, 500.0)
    for number, value in enumerate((0.01, 0.1, 1.0, 10.0, 100.0, 1000.0)):
        assert along.at(value) == pytest.approx(100.0 * number)
    assert along.at(2.0) == pytest.approx(200.0 + 100.0 * math.log10(2.0))


def test_a_linear_scale_may_run_upwards():
    up = scale(axis(10.0, 20.0), 300.0, 100.0)
    assert [up.at(value) for value in (10.0, 15.0, 20.0)] == [300.0, 200.0, 100.0]


def test_points_and_dots_stand_at_their_values():
    view = chart(
        axis(0.0, 10.0), axis(0.0, 100.0), curve((0.0, 0.0), (10.0, 50.0)),
        places=(place(5.0, "chosen", dots=(25.0,)),),
    )  # fmt: skip
    scene = chart_scene(view, "wide")
    frame = scene.frame
    middle = (frame.top + frame.bottom) / 2
    (path,) = scene.curves
    first, last = points(path.d)
    assert first == pytest.approx((frame.left, frame.bottom), abs=0.01)
    assert last == pytest.approx((frame.right, middle), abs=0.01)
    (dot,) = scene.dots
    assert dot == pytest.approx(((frame.left + frame.right) / 2, (frame.bottom + middle) / 2))


def test_curves_are_told_apart_without_colour():
    """No two curves of one chart have the same dashes, but the limits of power."""
    view = next(told for name, told in example_charts().items() if name.endswith("opening-F1"))
    drawn = ET.fromstring(draw_chart(view, "wide", prefix="x").svg)  # noqa: S314 - drawn by us
    inks = {path.get("stroke") for path in drawn.iter(f"{SVG}path")}
    assert inks == {"var(--ink, #111111)", "var(--hair, #8A9096)"}
    styles = [one["style"] for one in view["curves"]]
    assert len(set(styles)) == len(styles)


def test_the_words_are_the_text_equivalent_and_bytes_repeat():
    view = example_charts()["brunsall-tansy/j1/voltage"]
    drawing = draw_chart(view, "print", prefix="a/b")
    assert drawing == draw_chart(view, "print", prefix="a/b")
    root = ET.fromstring(drawing.svg)  # noqa: S314 - drawn by us
    assert root.find(f"{SVG}desc").text == "\n".join(line["text"] for line in view["lines"])
    assert root.find(f"{SVG}title").text == "Voltage along the run"


def test_what_cannot_be_drawn_is_refused():
    line = curve((0.0, 0.0), (1.0, 1.0))
    with pytest.raises(DrawingError, match="no length along x"):
        draw_chart(chart(axis(1.0, 1.0), axis(0.0, 1.0), line), "wide", prefix="x")
    with pytest.raises(DrawingError, match="no length along y"):
        draw_chart(chart(axis(0.0, 1.0), axis(0.0, 1.0, log=True), line), "wide", prefix="x")
    odd = curve((0.0, 0.0), style="wavy")
    with pytest.raises(DrawingError, match="no 'wavy' among its curves"):
        draw_chart(chart(axis(0.0, 1.0), axis(0.0, 1.0), odd), "wide", prefix="x")
