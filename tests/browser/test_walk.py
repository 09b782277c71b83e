"""One step at a time: for a phone in one hand, without losing a warning or a hold."""

import pytest

GUIDE = "guides/dunstrel-cobble/j9b/index.html"
PHONE = {"width": 360}


@pytest.fixture
def walk(visit):
    """Return a function that opens the guide and starts at a step."""

    def start(step=1, **options):
        page = visit(GUIDE, **(PHONE | options))
        page.evaluate(
            "n => [...document.querySelectorAll('.step .tick')].slice(0, n).map(t => t.click())",
            step - 1,
        )
        page.get_by_role("button", name="One step at a time").click()
        return page

    return start


def press(page, name):
    page.locator("#walk").get_by_role("button", name=name).click()


def lead_to(page, number):
    """Follow a link to a step."""
    page.goto(page.url.partition("#")[0] + f"#step-{number}")
    page.locator(f"#step-{number}.now").wait_for()


def shown(page):
    return [
        int(step.get_attribute("id").removeprefix("step-"))
        for step in page.locator(".step-item").locator("visible=true").all()
    ]


def with_the_first(page, what):
    """Return the number of the first step that has such a part."""
    return int(page.locator(f".step-item:has({what})").first.get_attribute("id").split("-")[1])


def test_done_ticks_the_step_and_shows_the_next_alone(walk):
    page = walk()
    assert shown(page) == [1]
    press(page, "Done")
    assert shown(page) == [2]
    assert page.locator("#walk [role=status]").inner_text().startswith("Step 2 of ")
    assert page.locator("#step-1 .tick").is_checked()
    press(page, "Back")
    assert shown(page) == [1]
    assert page.locator("#walk [data-do=back]").is_disabled()


def test_the_walk_starts_at_the_first_step_without_a_tick(walk):
    assert shown(walk(step=7)) == [7]


def test_a_step_that_was_passed_over_is_named(walk):
    page = walk()
    press(page, "Next")
    assert "Not ticked yet: step 1." in page.locator("#walk [role=status]").inner_text()
    assert not page.locator("#step-1 .tick").is_checked()


def test_a_warning_is_on_the_screen_with_its_step(walk):
    page = walk()
    number = with_the_first(page, ".panel")
    lead_to(page, number)
    assert shown(page) == [number]
    assert page.locator(f"#step-{number} .panel").first.is_visible()


def test_an_action_under_the_keys_is_shown_before_it_is_done(walk):
    page = walk()
    number = with_the_first(page, ".panel")
    page.set_viewport_size({"width": 360, "height": 480})
    lead_to(page, number)
    press(page, "Done")
    assert shown(page) == [number]
    assert not page.locator(f"#step-{number} .tick").is_checked()
    press(page, "Done")
    assert page.locator(f"#step-{number} .tick").is_checked()


def test_done_stops_at_a_hold(walk):
    page = walk()
    number = with_the_first(page, ".hold")
    lead_to(page, number)
    press(page, "Done")
    assert shown(page) == [number]
    assert page.locator(f"#step-{number} .tick").is_checked()
    assert page.locator(f"#step-{number} .hold").is_visible()


def test_a_link_to_a_reading_and_escape_lead_back_to_the_whole_guide(walk):
    page = walk()
    number = with_the_first(page, ".elsewhere a")
    lead_to(page, number)
    page.locator(f"#step-{number} .elsewhere a").click()
    page.wait_for_function("!document.body.classList.contains('walking')")
    assert page.locator("#kit").is_visible()
    page.get_by_role("button", name="One step at a time").click()
    page.keyboard.press("Escape")
    assert page.locator("#walk").is_hidden()
    assert len(shown(page)) > 50


def test_it_is_walked_with_the_keyboard_alone(walk):
    page = walk()
    assert page.evaluate("document.activeElement.className") == "action"
    for _ in range(12):
        page.keyboard.press("Tab")
        if page.evaluate("document.activeElement.dataset.do") == "done":
            break
    page.keyboard.press("Enter")
    assert shown(page) == [2]


def test_the_keys_fit_the_smallest_screen_and_a_thumb(walk):
    page = walk(width=320)
    assert page.evaluate("document.documentElement.scrollWidth") <= 320
    for key in page.locator("#walk .keys button").all():
        box = key.bounding_box()
        assert box["height"] >= 48
        assert box["width"] >= 48
        assert box["y"] + box["height"] <= 900


def test_the_print_of_the_page_is_whole_though_one_step_is_shown(walk):
    page = walk()
    page.emulate_media(media="print")
    assert len(shown(page)) > 50
    assert page.locator("#walk").is_hidden()
