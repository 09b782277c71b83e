"""The wiring drawing: nothing on top of anything, everything once, the same bytes."""

import re
from collections import Counter
from xml.etree import ElementTree as ET

import pytest
from hypothesis import given, settings

from baybook.drawing.forms import FORMS, PRINT
from baybook.drawing.layout import Layout
from baybook.drawing.marks import UnknownMark
from baybook.drawing.measure import MissingGlyph
from baybook.drawing.rows import DrawingError
from baybook.drawing.wiring import draw_forms, draw_wiring, scenes, sheets
from drawing import told
from drawing.geometry import text_faults, wiring_faults
from drawing.views import wiring_views

SAMPLES = {
    "pickup": told.pickup,
    "lorry": told.lorry,
    "long words": told.long_words,
    "long run": told.long_run,
}
SVG = "{http://www.w3.org/2000/svg}"


def draw(view, form):
    return draw_wiring(view, form, Layout(), prefix="cobble/j9b", words=told.WORDS)


def tree(drawing):
    return ET.fromstring(drawing.svg)  # noqa: S314 - drawn by us


def faults(view, form):
    for scene in scenes(view, form, Layout(), told.WORDS):
        yield from text_faults(scene)
        yield from wiring_faults(scene)


@pytest.mark.parametrize("form", FORMS)
@pytest.mark.parametrize("sample", SAMPLES)
def test_nothing_lies_on_anything(sample, form):
    assert not list(faults(SAMPLES[sample](), form))


@settings(max_examples=8, deadline=None)
@given(view=wiring_views())
def test_nothing_lies_on_anything_in_any_view(view):
    for form in FORMS:
        assert not list(faults(view, form)), form


def letters_of(view):
    return Counter(
        letter
        for rank in view["ranks"]
        for side in ("positive", "negative")
        if rank[side]
        for letter in rank[side]["letters"]
    )


def counted(drawings, attribute):
    return Counter(
        element.get(attribute)
        for drawing in drawings
        for element in tree(drawing).iter()
        if element.get(attribute)
    )


@pytest.mark.parametrize("form", FORMS)
@pytest.mark.parametrize("sample", SAMPLES)
def test_each_joint_and_conductor_stands_once(sample, form):
    """Over all sheets of a form together, also where a run goes on to the next sheet."""
    view = SAMPLES[sample]()
    drawings = draw(view, form)
    joints = counted(drawings, "data-joint")
    assert joints == letters_of(view)
    assert set(joints.values()) == {1}
    assert counted(drawings, "data-conductor") == Counter(["W1", "W2", "W3", "W4", "W5"])


@settings(max_examples=4, deadline=None)
@given(view=wiring_views())
def test_every_letter_stands_once_in_any_view(view):
    assert counted(draw(view, "print"), "data-joint") == letters_of(view)


def test_a_ring_holds_its_letter():
    for group in tree(draw(told.pickup(), "wide")[0]).iter(f"{SVG}g"):
        if letter := group.get("data-joint"):
            assert group.findtext(f"{SVG}text") == letter


def test_every_word_of_the_view_is_in_the_drawing():
    """The words of each line come back from the SVG in their order."""
    (drawing,) = draw(told.lorry(), "slim")
    found = " ".join("".join(text.itertext()) for text in tree(drawing).iter(f"{SVG}text"))
    found = found.replace("\N{NO-BREAK SPACE}", " ")
    for words in ("Leave 0.25 m of slack for the tilting cab", "B and C: M6, 6.5 N·m", "5.20 m"):
        assert words in found


def test_forms_have_their_widths_and_sizes():
    """Sizes of the look: 15 px on a page, 9 pt on paper; the phone's is told in forms.py."""
    view = told.pickup()
    assert draw(view, "wide")[0].width_pt == 532
    assert draw(view, "slim")[0].width_pt <= 328 * 72 / 96 + 2
    (sheet,) = draw(view, "print")
    assert sheet.width_pt <= 185 / 25.4 * 72
    assert sheet.height_pt <= 624
    assert min(size(sheet)) >= 9
    assert min(size(draw(view, "wide")[0])) >= 11.25
    assert min(size(draw(view, "slim")[0])) >= 10


def size(drawing):
    return [float(text.get("font-size")) for text in tree(drawing).iter(f"{SVG}text")]


def test_print_takes_the_largest_words_that_fit():
    assert sheets(told.pickup()["ranks"][:8], "print", told.WORDS)[0].form == PRINT[0]
    (table,) = sheets(told.lorry()["ranks"][:14], "print", told.WORDS)
    assert table.form.note < PRINT[0].note
    assert table.height <= PRINT[0].tallest


def test_a_print_that_is_too_tall_stands_in_two_halves_on_one_sheet():
    """Beside each other with a gutter in the column of 185 mm, words no smaller than 9 pt."""
    halves = draw(told.lorry(), "print")
    assert len(halves) == 2
    assert sum(half.width_pt for half in halves) + 4 / 25.4 * 72 <= 185 / 25.4 * 72
    assert all(half.height_pt <= 624 for half in halves)
    assert all(min(size(half)) >= 9 for half in halves)
    words = [
        " ".join("".join(text.itertext()) for text in tree(half).iter(f"{SVG}text"))
        for half in halves
    ]
    assert "Goes on at" in words[0]
    assert "From the" in words[1]
    assert "sheet" not in " ".join(words)


@pytest.mark.parametrize("count", [30, 40])
def test_a_print_that_is_too_tall_goes_over_more_sheets(count):
    drawings = draw(told.long_run(count), "print")
    assert len(drawings) >= 2
    assert all(drawing.height_pt <= 624 for drawing in drawings)
    assert all(min(size(drawing)) >= 9 for drawing in drawings)
    assert "Continued on the next sheet." in drawings[0].svg
    assert "Continued from the sheet before." in drawings[-1].svg
    assert "Continued on the next sheet." not in drawings[-1].svg


def test_zones_keep_their_shade_over_sheets():
    first, second = scenes(told.long_run(), "print", Layout(), told.WORDS)
    assert [zone.shaded for zone in first.zones] == [True, False]
    assert [zone.shaded for zone in second.zones] == [False, True]


def test_a_long_run_is_given_length():
    """30 pt a metre between the middles of two marks, by the look."""
    view = told.view(
        told.device("Source", ("W1 red", "W2 black")),
        told.pair(told.station("joint", "A"), None, ("W1 red", "W2 black"), length=3.0),
        told.pair(told.station("joint", "B"), None, ("W1 red", "W2 black"), length=0.1),
        told.pair(told.station("joint", "C"), None, ("W1 red", "W2 black")),
        told.device("Load", ("none", "none")),
    )
    (scene,) = scenes(view, "wide", Layout(), told.WORDS)
    a, b, c = [letter.y for letter in scene.letters]
    assert b - a == pytest.approx(90, abs=4)
    assert c - b < 40


def test_bytes_repeat_whichever_way_they_are_made():
    view = told.long_run()
    together = draw_forms(view, tuple(FORMS), Layout(), prefix="cobble/j9b", words=told.WORDS)
    for form in FORMS:
        assert draw(view, form) == together[form]


def test_ids_differ_between_drawings_and_every_reference_has_its_id():
    drawings = [drawing for form in FORMS for drawing in draw(told.long_run(), form)]
    ids = [i for drawing in drawings for i in re.findall(r' id="([^"]+)"', drawing.svg)]
    asked = [
        i
        for drawing in drawings
        for ref in re.findall(r'aria-labelledby="([^"]+)"', drawing.svg)
        for i in ref.split()
    ]
    assert len(ids) == len(set(ids)) == 2 * len(drawings)
    assert sorted(asked) == sorted(ids)
    assert all(re.fullmatch(r"[A-Za-z][A-Za-z0-9-]*", i) for i in ids)


def test_a_drawing_says_what_it_is():
    (drawing,) = draw(told.pickup(), "wide")
    root = tree(drawing)
    assert root.get("role") == "img"
    assert root.findtext(f"{SVG}title") == drawing.title == "Wiring of the demonstration vehicle"
    assert root.findtext(f"{SVG}desc") == "W1 red 25mm² from A to B."


def test_colours_are_the_page_s_on_screen_and_fixed_on_paper():
    assert "var(--wire-red, #C4302B)" in draw(told.pickup(), "wide")[0].svg
    paper = draw(told.pickup(), "print")[0].svg
    assert "var(" not in paper
    assert "#C4302B" in paper
    assert not re.search(r"<style|\sstyle=|<script|class=\"(?!drawing)", paper)


def test_hostile_text_is_only_text():
    view = told.pickup()
    view["ranks"][0]["device"] = told.message('</text><script>alert("x")</script>&')
    view["title"] = told.message('"><svg onload=x>')
    (drawing,) = draw(view, "wide")
    names = {element.tag.rpartition("}")[2] for element in tree(drawing).iter()}
    assert "script" not in names
    assert drawing.svg.count("<svg") == 1


def test_a_missing_glyph_is_refused():
    view = told.pickup()
    view["ranks"][3]["positive"]["lines"] = [told.message("θ 40")]
    with pytest.raises(MissingGlyph, match="'θ'"):
        draw(view, "wide")


def test_a_character_that_xml_lacks_is_refused():
    view = told.pickup()
    view["connections"] = [{"runs": [], "text": "W1\x00"}]
    with pytest.raises(MissingGlyph, match="U\\+0000"):
        draw(view, "wide")


def test_an_unknown_mark_is_refused():
    view = told.pickup()
    view["ranks"][5]["positive"]["mark"] = "relay"
    with pytest.raises(UnknownMark, match="no mark 'relay'"):
        draw(view, "wide")


def test_a_fuse_with_three_letters_is_refused():
    view = told.pickup()
    view["ranks"][3]["positive"]["letters"] = ["B", "C", "D"]
    with pytest.raises(UnknownMark, match="takes 2 letters"):
        draw(view, "wide")


def test_a_view_without_ranks_is_refused():
    with pytest.raises(DrawingError, match="without a rank"):
        draw(told.view(), "wide")


def test_a_figure_of_the_ruler_has_the_reader_s_own_unit_under_it():
    view = told.pickup()
    view["ranks"][5]["at"] = told.place("2.40_m", "7.9\N{NO-BREAK SPACE}ft")
    svg = draw(view, "print")[0].svg
    first, second = (
        re.search(rf'<text x="([\d.]+)" y="([\d.]+)"[^>]*>{text}<', svg)
        for text in ("2.40\N{NO-BREAK SPACE}m", "7.9\N{NO-BREAK SPACE}ft")
    )
    assert first[1] == second[1]
    assert 0 < float(second[2]) - float(first[2]) < 20


def test_a_ruler_that_leaves_no_room_is_refused():
    view = told.pickup()
    view["ranks"][1]["at"] = told.place("a hundred and twenty metres from the battery")
    with pytest.raises(DrawingError, match="no room for labels in the form slim"):
        draw(view, "slim")
