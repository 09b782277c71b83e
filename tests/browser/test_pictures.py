"""The pictures of a guide in a browser: they load when they come near, and move nothing."""

from io import BytesIO

import pytest
from PIL import Image

GUIDE = "guides/brunsall-tansy/j1/"
IMAGES = "[...document.images].filter(one => one.currentSrc || one.src)"


def seen(page):
    """Scroll every picture into view, and wait for it."""
    for image in page.locator(".picture img").all():
        image.scroll_into_view_if_needed()
        image.evaluate("one => one.decode()")
    return page.evaluate(
        f"{IMAGES}.map(one => [one.naturalWidth, one.clientWidth, one.currentSrc])"
    )


@pytest.mark.parametrize("width", [360, 768, 1280])
def test_a_picture_stands_between_the_question_and_its_answers(visit, width):
    page = visit(f"{GUIDE}index.html", width=width)
    looks = page.locator(".check:has(img)").all()
    assert len(looks) >= 3
    for look in looks:
        question, picture, answer = (
            look.locator(part).first.bounding_box() for part in ("legend", "img", "label")
        )
        assert question["y"] + question["height"] <= picture["y"]
        assert picture["y"] + picture["height"] <= answer["y"]


@pytest.mark.parametrize("width", [320, 360, 1280])
def test_every_picture_loads_and_nothing_scrolls_sideways(visit, width):
    page = visit(f"{GUIDE}index.html", width=width)
    found = seen(page)
    assert len(found) == 8  # of the plate, four looks and three steps
    for natural, shown, _ in found:
        assert natural > 0
        assert 0 < shown <= min(320, width - 32)
    assert page.evaluate("document.documentElement.scrollWidth") <= width


def test_a_screen_of_more_dots_takes_a_larger_picture(visit):
    taken = {}
    for dots in (1, 2, 3):
        page = visit(f"{GUIDE}index.html", width=360, device_scale_factor=dots)
        taken[dots] = {source.rpartition("-")[2] for _, _, source in seen(page)}
    assert taken == {1: {"320.webp"}, 2: {"640.webp"}, 3: {"960.webp"}}


def test_what_is_far_down_is_not_loaded_until_it_comes_near(visit):
    page = visit(f"{GUIDE}index.html", width=360)
    page.wait_for_load_state("networkidle")
    last = page.locator(".picture img").last
    assert not last.evaluate("one => one.complete && one.naturalWidth > 0")
    seen(page)
    assert last.evaluate("one => one.naturalWidth") > 0


def test_a_picture_takes_its_place_before_it_is_there(visit):
    page = visit(f"{GUIDE}index.html", width=360)
    last = page.locator(".picture img").last
    before = last.bounding_box()["height"]
    seen(page)
    assert abs(last.bounding_box()["height"] - before) < 1
    assert before == pytest.approx(240, abs=1)


def test_a_picture_leads_to_its_largest_size(visit):
    page = visit(f"{GUIDE}index.html")
    link = page.locator("#vehicle .picture a").first
    assert link.get_attribute("href").endswith("-960.webp")
    assert page.get_by_role("link", name="The negative clamp from above").first.is_visible()
    got = page.request.get(link.evaluate("one => one.href"))
    assert Image.open(BytesIO(got.body())).width == 960
