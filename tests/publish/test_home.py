"""Home: the lists, which need no script, and the way to the finder's index."""

import json
import re

from baybook.publish.home import LONG, home_context
from publish import many, told
from publish.markup_reader import read

ALL = (told.guide(), told.refusal(), told.withdrawal())


def lists(page):
    return page[page.index('id="guides"') : page.index('id="marks"')]


def test_guides_come_first_then_refusals_then_withdrawals():
    page = told.pages(*ALL)["index.html"].decode()
    assert page.index('id="guides"') < page.index('id="refused"') < page.index('id="withdrawn"')
    assert "Checked: caution. Not while standing." in page
    assert "Refused OV-01. Sorrel 520 to Loft 2000" in page


def test_without_script_the_lists_stand_open_and_the_finder_is_not_there():
    reader = read(told.pages(*ALL)["index.html"])
    (form,) = [e for e in reader.elements if e.tag == "form"]
    assert "hidden" in form.attributes
    hidden = {e.attributes.get("id") for e in reader.elements if "hidden" in e.attributes}
    assert hidden == {"finder", "found", "none", "more"}


def test_a_list_of_few_is_not_folded():
    assert "<details" not in told.pages(*ALL)["index.html"].decode()


def test_a_long_list_is_folded_by_makes_and_loses_nothing():
    book = many.book(3 * LONG)
    groups = {group["id"]: group for group in home_context(book)["groups"]}
    makes = groups["guides"]["makes"]
    assert len(makes) > 1
    assert [make for make, _ in makes] == sorted({make for make, _ in makes})
    folded = [item.address for _, own in makes for item in own]
    assert sorted(folded) == sorted(item.address for item in groups["guides"]["entries"])
    page = told.pages_of(book)["index.html"].decode()
    assert page.count("<summary>") >= len(makes)
    for item in groups["guides"]["entries"]:
        assert page.count(f'href="{item.address}"') == 1


def test_the_finder_is_led_to_its_index():
    files = told.pages(*ALL)
    ((name, _),) = re.findall(
        r'data-index="(finder\.json)\?([0-9a-f]{8})"', files["index.html"].decode()
    )
    assert json.loads(files[name])["language"] == "en"


def test_the_index_has_another_address_when_it_says_something_else():
    def address(*entries):
        return re.search(r'data-index="([^"]+)"', told.pages(*entries)["index.html"].decode())[1]

    assert address(*ALL) != address(told.guide())
    assert address(*ALL) == address(*ALL)


def test_who_finds_nothing_is_led_to_ask_for_a_guide_never_to_a_near_one():
    page = told.pages(*ALL)["index.html"].decode()
    none = page[page.index('id="none"') : page.index('id="hits"')]
    assert "mailto:reports@example.invalid?subject=A%20guide%20is%20wanted" in none
    assert "Never use the guide of another vehicle" in none


def test_an_empty_book_says_so():
    assert "No guide is published yet." in told.pages()["index.html"].decode()


def test_the_list_as_data_leads_to_every_page_and_its_data():
    files = told.pages(*ALL)
    listed = json.loads(files["index.json"])["entries"]
    assert [line["kind"] for line in listed] == ["guide", "refusal", "withdrawal"]
    for line in listed:
        assert line["page"] in files
        assert json.loads(files[line["data"]])["fit"] == line["fit"]
