"""What a reader chooses once: the language; and how large a drawing stands."""

from dataclasses import replace

import pytest

from baybook.book import Tongue
from baybook.publish.listing import listed
from baybook.publish.pages import entry_pages, in_folder, index_pages
from baybook.shipped import shipped
from baybook.wording.catalogue import load_catalogue
from publish import told
from serving import serving

TONGUES = (
    Tongue(language="en", folder="", name="English"),
    Tongue(language="de", folder="de/", name="Deutsch"),
)
GUIDE = "guides/dunstrel-cobble/j9b/index.html"


@pytest.fixture(scope="module")
def address(tmp_path_factory):
    """Serve a small site in two languages: its first pages, and one guide."""
    top = tmp_path_factory.mktemp("tongues")
    for tongue in TONGUES:
        book = replace(
            told.book(listed(told.guide())),
            language=tongue.language,
            tongues=TONGUES,
            words=load_catalogue(shipped("templates"), tongue.language).words(),
        )
        files = index_pages(book) | entry_pages(book, told.guide(), {told.FIT: told.VIEWS}, {})
        for name, content in in_folder(files, book).items():
            (top / name).parent.mkdir(parents=True, exist_ok=True)
            (top / name).write_bytes(content)
    with serving(top) as served:
        yield served.address


def test_the_first_page_opens_in_the_language_that_was_chosen(visit, address):
    page = visit(told.PAGE)
    page.get_by_role("link", name="Deutsch").click()
    page.wait_for_url(f"{address}de/{told.PAGE}")
    page.goto(f"{address}index.html?make=Dunstrel")
    page.wait_for_url(f"{address}de/index.html?make=Dunstrel")
    page.get_by_role("link", name="English").click()
    page.wait_for_url(f"{address}index.html")
    page.reload()
    assert page.evaluate("document.documentElement.lang") == "en"


def test_the_address_of_a_guide_says_its_language_whatever_was_chosen(visit, address):
    page = visit("index.html")
    page.get_by_role("link", name="Deutsch").click()
    page.wait_for_url(f"{address}de/index.html")
    page.goto(address + told.PAGE)
    page.wait_for_load_state()
    assert page.url == address + told.PAGE


@pytest.fixture
def drawn(browser, published):
    with serving(published) as served:
        page = browser.new_page(viewport={"width": 360, "height": 900}, bypass_csp=True)
        page.goto(served.address + GUIDE)
        yield page
        page.close()


@pytest.mark.parametrize("name", ["wiring", "route", "plan"])
def test_a_drawing_is_made_larger_and_moved_without_moving_the_page(drawn, name):
    svg = drawn.locator(f"#{name} figure svg").locator("visible=true")
    before = svg.bounding_box()
    drawn.locator(f"#zoom-{name}").check()
    after = svg.bounding_box()
    assert after["width"] >= 1.9 * min(before["width"], 328)
    assert after["height"] > 1.5 * before["height"]
    assert drawn.evaluate("document.documentElement.scrollWidth") <= 360
    frame = drawn.locator(f"#{name} figure")
    frame.focus()
    drawn.keyboard.press("ArrowRight")
    drawn.wait_for_function(f"document.querySelector('#{name} figure').scrollLeft > 0")
    drawn.emulate_media(media="print")
    assert svg.bounding_box()["width"] <= 360
