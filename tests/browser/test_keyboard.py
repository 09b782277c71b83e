"""The whole way with the keyboard alone: find, is it mine, tick, read a value, unfold."""

import pytest

GUIDE = "guides/dunstrel-cobble/j9b/index.html"
FOCUSED = "document.activeElement"
# The ring is around what has the focus, or around the words beside it.
RINGED = f"""{FOCUSED} === document.body || [{FOCUSED}, {FOCUSED}.nextElementSibling].some(
    (part) => part && getComputedStyle(part).outlineStyle !== "none")"""


def tab_to(page, wanted, *, most=400):
    """Press Tab until an element that fits is in focus; each on the way shows that it is."""
    for _ in range(most):
        page.keyboard.press("Tab")
        assert page.evaluate(RINGED), page.evaluate(f"{FOCUSED}.outerHTML")
        if page.evaluate(f"{FOCUSED}.matches({wanted!r})"):
            return
    raise AssertionError(f"never came to {wanted}")


def test_a_guide_is_found_and_opened(visit):
    page = visit()
    tab_to(page, "input[type=search]")
    page.keyboard.type("cobble")
    page.keyboard.press("Enter")
    tab_to(page, "a[href*='dunstrel-cobble/j9b']")
    page.keyboard.press("Enter")
    page.wait_for_url("**/dunstrel-cobble/j9b/**")
    assert "Dunstrel Cobble" in page.locator("h1").inner_text()


def test_the_first_stop_leads_past_the_head(visit):
    page = visit(GUIDE)
    page.keyboard.press("Tab")
    assert page.evaluate(f"{FOCUSED}.matches('.skip')")
    assert page.locator(".skip").bounding_box()["x"] >= 0
    page.keyboard.press("Enter")
    assert page.url.endswith("#main")


def test_looks_are_answered(visit):
    page = visit(GUIDE)
    tab_to(page, "#applies-1-yes")
    page.keyboard.press("Space")
    assert page.locator("#applies-1-yes").is_checked()
    page.keyboard.press("ArrowRight")
    assert page.locator("#applies-1-no").is_checked()
    assert page.locator("#not-mine").is_visible()


def test_a_step_is_ticked_a_reading_judged_and_the_workings_opened(visit):
    page = visit(GUIDE)
    tab_to(page, "#step-1 .tick")
    page.keyboard.press("Space")
    assert page.locator("#step-1 .tick").is_checked()
    page.locator(".readings input.field").first.focus()
    page.keyboard.type("0")
    page.keyboard.press("Tab")
    assert page.locator(".readings .found:not(:empty)").count() == 1
    page.locator("#workings summary").focus()
    page.keyboard.press("Enter")
    assert page.locator("#workings details").first.get_attribute("open") is not None


@pytest.mark.parametrize("width", [360, 1280])
def test_every_stop_is_on_the_screen_in_the_order_of_the_page(visit, width):
    page = visit("guides/dunstrel-cobble/j9/index.html", width=width)
    before = -1
    for _ in range(200):
        page.keyboard.press("Tab")
        if page.evaluate(f"{FOCUSED} === document.body"):
            break
        place = page.evaluate(f"[...document.querySelectorAll('*')].indexOf({FOCUSED})")
        assert place > before
        before = place
        box = page.evaluate(f"(r => [r.left, r.right])({FOCUSED}.getBoundingClientRect())")
        assert 0 <= box[0] < box[1] <= width
