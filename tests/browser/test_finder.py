"""The finder of a site of 300 made-up entries, "is it mine?" and units, as a reader uses them."""

import random
import string
from functools import cache
from urllib.parse import parse_qs, urlsplit

import pytest

from baybook.publish.listing import listed
from baybook.publish.pages import entry_pages, in_folder, index_pages
from publish import many, told
from serving import serving

FIT = "dunstrel-cobble/j9b"
PAGE = f"guides/{FIT}/index.html"


@pytest.fixture(scope="module")
def site(tmp_path_factory):
    """Return a folder with the lists of many entries, and one guide with another beside it."""
    top = tmp_path_factory.mktemp("many")
    entries = (*many.book(300).entries, told.guide(fit=FIT), told.refusal("dunstrel-cobble/j4"))
    book = told.book(*map(listed, entries))
    drawings = {FIT: told.VIEWS}
    files = dict(index_pages(book))
    files |= entry_pages(book, told.guide(fit=FIT), drawings, {}, siblings=book.entries[-2:])
    for name, content in in_folder(files, book).items():
        (top / name).parent.mkdir(parents=True, exist_ok=True)
        (top / name).write_bytes(content)
    return top


@pytest.fixture(scope="module")
def address(site):
    with serving(site) as served:
        yield served.address


def hits(page):
    page.wait_for_selector("#make option:nth-child(2)", state="attached")
    return page.locator("#hits > li a.name").all_inner_texts()


def test_every_line_of_the_lists_is_known_to_the_index(visit):
    page = visit("?text=e")
    hits(page)
    unknown = page.evaluate(
        """async () => {
          const told = finding.unpack(await (await fetch("finder.json")).json());
          const links = [...document.querySelectorAll("[data-lists] a.name")];
          return links.map((a) => a.getAttribute("href").split("/").slice(1, 3).join("/"))
            .filter((fit) => !told.delete(fit)).concat([...told.keys()]);
        }"""
    )
    assert unknown == []


@pytest.mark.parametrize(
    "asked",
    [
        "text=cobble",
        "text=cobbl",
        "text=coble",  # one letter left out
        "text=cobbel",  # two swapped
        "text=dunstrell+cobble",
        "text=D%C3%BCnstrel+cobble",  # folded
        "text=v6/j9b",
        "text=wendric+2021+cobble",  # a year in between
        "make=Dunstrel&model=Cobble",
        "make=Dunstrel&year=2023&charger=Wendric+Sorrel+520",
        "station=Maunderby+Loft+2000&engine=3.0+D&drive=left",
    ],
)
def test_the_pickup_is_found_by(visit, asked):
    page = visit(f"?{asked}")
    found = hits(page)
    assert found
    assert all("Dunstrel Cobble" in name for name in found)


@pytest.mark.parametrize(
    "asked",
    [
        "text=zzzzzz",
        "text=cobble+521",  # a number is never read as the next one
        "text=cobble+1999",
        "make=Dunstrel&year=2018",
        "make=Nobody",
    ],
)
def test_nothing_is_found_and_the_way_is_to_ask(visit, asked):
    page = visit(f"?{asked}")
    assert hits(page) == []
    assert page.get_by_role("link", name="Ask for a guide").is_visible()
    assert not page.locator("[data-lists]").first.is_visible()


def test_a_word_read_as_another_is_said(visit):
    page = visit("?text=cobbel")
    hits(page)
    assert "Nothing here is spelled cobbel; read as cobble." in page.locator("#count").inner_text()


def test_a_choice_narrows_the_others_and_stands_in_the_address(visit):
    page = visit()
    hits(page)
    page.select_option("#make", "Dunstrel")
    assert page.locator("#model option").all_inner_texts() == ["Any", "Cobble"]
    page.select_option("#model", "Cobble")
    page.fill("#text", "refused")
    asked = parse_qs(urlsplit(page.evaluate("location.href")).query)
    assert asked == {"make": ["Dunstrel"], "model": ["Cobble"], "text": ["refused"]}
    found = hits(page)
    page.reload()
    assert hits(page) == found
    assert len(found) == 1
    page.get_by_role("button", name="Clear").click()
    page.locator("[data-lists]").first.wait_for()  # the form is empty a moment after the click
    assert "?" not in page.evaluate("location.href")


def test_hits_of_one_model_say_what_differs(visit):
    page = visit("?make=Dunstrel")
    hits(page)
    differs = page.locator("#hits .differs").all_inner_texts()
    assert differs == ["Differs: code V6/J9B", "Differs: code V6/J4"]
    assert "Entries that fit: 2. Refused among them: 1." in page.locator("#count").inner_text()


def test_many_hits_come_in_portions(visit):
    page = visit("?drive=left")
    assert len(hits(page)) == 60
    page.get_by_role("button", name="Show all").click()
    assert len(hits(page)) > 60


def test_what_was_found_is_what_is_printed(visit):
    page = visit("?text=cobble")
    found = hits(page)
    page.emulate_media(media="print")
    shown = page.locator("main a.name").locator("visible=true").all_inner_texts()
    assert shown == found


def test_without_script_the_folded_lists_hold_everything(visit):
    page = visit("", java_script_enabled=False, width=360)
    assert not page.locator("#finder").is_visible()
    assert page.locator("#guides summary").first.is_visible()
    page.locator("#guides summary", has_text="Dunstrel").click()
    assert page.get_by_role("link", name="Dunstrel Cobble").first.is_visible()
    assert page.locator("[data-lists] a.name").count() == 302


def test_from_a_disk_the_lines_are_searched(browser, site):
    page = browser.new_context().new_page()
    page.goto(f"file://{site}/index.html?text=cobbel")
    page.wait_for_selector("#hits > li")
    assert all("Cobble" in name for name in page.locator("#hits a.name").all_inner_texts())
    assert not page.locator("#make").is_visible()
    page.context.close()


@pytest.mark.parametrize("width", [320, 360, 768, 1280])
def test_the_finder_does_not_scroll_sideways(visit, width):
    page = visit("?text=a", width=width)
    hits(page)
    assert page.evaluate("document.documentElement.scrollWidth") <= width


def by_definition(typed, word):
    """Return the least changes until `typed` is a word, and until it begins it."""

    @cache
    def least(i, j):
        if 0 in {i, j}:
            return i + j
        same = typed[i - 1] == word[j - 1]
        ways = [least(i - 1, j) + 1, least(i, j - 1) + 1, least(i - 1, j - 1) + (not same)]
        if typed[i - 2 : i] == word[j - 2 : j][::-1] and min(i, j) > 1:
            ways.append(least(i - 2, j - 2) + 1)
        return min(ways)

    every = [least(len(typed), j) for j in range(len(word) + 1)]
    return [every[-1], min(every)]


def test_the_distance_is_that_of_its_definition_over_thousands_of_words(visit):
    dice = random.Random(1)  # noqa: S311 - made-up words
    letters = string.ascii_lowercase[:4]
    pairs = [
        ["".join(dice.choices(letters, k=dice.randrange(1, 8))) for _ in range(2)]
        for _ in range(4000)
    ]
    found = visit().evaluate("(pairs) => pairs.map(([a, b]) => finding.distances(a, b))", pairs)
    assert found == [by_definition(*pair) for pair in pairs]


@pytest.mark.parametrize(
    ("word", "allowed"),
    [("tan", 0), ("tans", 1), ("dunstre", 1), ("dunstrel", 2), ("b2bcharger", 0), ("1100", 0)],
)
def test_how_many_letters_may_differ(visit, word, allowed):
    assert visit().evaluate("(word) => finding.allowed(word)", word) == allowed


def answer(page, at, value):
    page.locator(f'input[name="applies-{at}"][value="{value}"]').check()


def test_an_answer_that_differs_closes_the_guide_and_stays(visit):
    page = visit(PAGE)
    assert "Still open: 2 of 2" in page.locator("#mine").inner_text()
    answer(page, 1, "no")
    for _ in range(2):
        assert page.get_by_role("alert").inner_text().startswith("Not for this vehicle. Stop.")
        assert not page.locator("#steps, #kit, #others, #cautions").locator("visible=true").count()
        assert page.get_by_role("link", name="Ask for a guide").is_visible()
        near = page.locator("main a[href*='guides/']").locator("visible=true")
        assert near.count() == 0
        page.reload()
    page.get_by_role("button", name="Answer again").click()
    assert page.locator("#kit").is_visible()


def test_answers_that_agree_are_kept_and_open_nothing_that_was_closed(visit):
    page = visit(PAGE)
    answer(page, 1, "yes")
    answer(page, 2, "yes")
    page.reload()
    assert "All 2 answers agree" in page.locator("#mine").inner_text()
    assert page.locator("#kit").is_visible()


def test_the_looks_are_answered_by_keyboard(visit):
    page = visit(PAGE)
    page.locator('input[name="applies-1"]').first.focus()
    page.keyboard.press("ArrowRight")
    assert page.locator('input[name="applies-1"][value="no"]').is_checked()
    assert page.get_by_role("alert").is_visible()


def test_without_script_the_looks_and_the_way_to_ask_are_there(visit):
    page = visit(PAGE, java_script_enabled=False)
    assert page.locator(".check").count() == 2
    assert page.get_by_role("link", name="Ask for a guide").is_visible()
    assert page.locator("#kit").is_visible()


def test_the_other_unit_goes_and_the_control_value_stays_as_it_was(visit):
    page = visit(PAGE)
    control = page.locator(".value").all_inner_texts()
    second = page.locator(".value + .converted")
    assert second.first.is_visible()
    page.get_by_label("Show values in the other unit too").uncheck()
    for _ in range(2):
        assert second.locator("visible=true").count() == 0
        assert page.locator(".value").all_inner_texts() == control
        page.reload()


def test_without_script_both_units_stand_and_nothing_is_asked(visit):
    page = visit(PAGE, java_script_enabled=False)
    assert page.locator(".value + .converted").first.is_visible()
    assert not page.locator("#second-unit").is_visible()
