"""Home: one finder, one list, and both work without script."""

import json

from baybook.publish.home import home_context
from publish import told
from publish.markup_reader import read

ALL = (told.guide(), told.refusal(), told.withdrawal())


def finder(*entries):
    return {
        choice["name"]: choice["options"] for choice in home_context(told.book(*entries))["finder"]
    }


def test_the_finder_asks_for_what_there_is():
    options = finder(*ALL)
    assert options["vehicle"] == ["Dunstrel Cobble"]
    assert options["charger"] == ["Wendric Sorrel 520"]
    assert options["station"] == ["Maunderby Loft 2000"]


def test_the_years_are_those_of_the_vehicles_and_the_newest_is_first():
    # 2024: the year of the newest revision; vehicles still built are offered up to it.
    assert finder(*ALL)["year"] == [2024, 2023, 2022, 2021, 2020, 2019]


def test_a_vehicle_still_built_has_no_last_year():
    def open_end(guide):
        guide["identity"]["last_year"] = None

    (group, *_) = home_context(told.book(told.changed(told.guide(), open_end)))["groups"]
    assert group["entries"][0].last == 9999


def test_guides_come_first_then_refusals_then_withdrawals():
    page = told.pages(*ALL)["index.html"].decode()
    assert page.index('id="guides"') < page.index('id="refused"') < page.index('id="withdrawn"')
    assert "Checked: caution. Not while standing." in page
    assert "Refused OV-01. Sorrel 520 to Loft 2000" in page


def test_without_script_the_form_leads_back_to_the_full_list():
    reader = read(told.pages(*ALL)["index.html"])
    (form,) = [e for e in reader.elements if e.tag == "form"]
    assert (form.attributes["method"], form.attributes["action"]) == ("get", "index.html")
    assert not [e for e in reader.elements if "hidden" in e.attributes]


def test_everything_about_an_entry_can_be_typed():
    (group, *_) = home_context(told.book(told.guide()))["groups"]
    for typed in ("Dunstrel Cobble", "V6/J9b", "Sorrel 520", "pickup", "Not while standing"):
        assert typed in group["entries"][0].search


def test_an_empty_book_says_so():
    assert "No guide is published yet." in told.pages()["index.html"].decode()


def test_the_list_as_data_leads_to_every_page_and_its_data():
    files = told.pages(*ALL)
    listed = json.loads(files["index.json"])["entries"]
    assert [line["kind"] for line in listed] == ["guide", "refusal", "withdrawal"]
    for line in listed:
        assert line["page"] in files
        assert json.loads(files[line["data"]])["fit"] == line["fit"]
