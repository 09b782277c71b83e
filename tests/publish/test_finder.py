"""The finder's index: it lists every entry, says of it what it is, and stays small."""

import gzip
import json
from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from baybook.publish.finder import MARKS, SIDES, finder_json, fits_of, folder_name
from publish import many, told

LIMIT = 9000  # bytes, compressed, for each 1,000 entries


def index(*entries):
    return json.loads(finder_json(told.book(*entries)))


def weight(book):
    return len(gzip.compress(finder_json(book), 9, mtime=0))


def named(entry, **identity):
    """Return an entry whose identity says something else."""

    def change(content):
        for key, value in identity.items():
            text = isinstance(value, str) and key != "code"
            content["identity"][key] = {"text": value, "runs": []} if text else value

    return told.changed(entry, change)


def test_a_thousand_entries_weigh_little():
    none, thousand, two = (weight(many.book(count)) for count in (0, 1000, 2000))
    assert thousand - none <= LIMIT
    assert two - thousand <= LIMIT


def test_every_entry_is_listed_once():
    book = many.book(300)
    assert sorted(fits_of(json.loads(finder_json(book)))) == sorted(e.fit for e in book.entries)


def test_an_entry_is_said_in_full():
    found = index(named(told.guide(fit="dunstrel-cobble-tow-pack/j9b"), drive_sides=["left"]))
    vehicles, fits = found["vehicles"], found["fits"]
    assert vehicles["slug"] == ["-tow-pack"]
    assert found["makes"][vehicles["make"][0]] == "Dunstrel"
    assert vehicles["model"] == ["Cobble"]
    assert found["engines"][vehicles["engine"][0]] == "3.0 D"
    assert (vehicles["first"], vehicles["last"]) == ([2019], [4])
    assert SIDES[vehicles["sides"][0]] == "left"
    assert vehicles["code"] == ["V6"]
    assert found["jobs"][fits["job"][0]] == "j9b"
    assert found["chargers"][fits["charger"][0]] == "Wendric Sorrel 520"
    assert found["stations"][fits["station"][0]] == "Maunderby Loft 2000"
    assert MARKS[fits["mark"][0]] == "caution"


def test_a_vehicle_still_made_has_no_last_year():
    assert index(named(told.guide(), last_year=None))["vehicles"]["last"] == [-1]


def test_both_sides_are_one_value():
    found = index(named(told.guide(), drive_sides=["left", "right"]))
    assert SIDES[found["vehicles"]["sides"][0]] == "both"


@pytest.mark.parametrize(
    ("entry", "mark"), [(told.refusal(), "refused"), (told.withdrawal(), "withdrawn")]
)
def test_what_is_refused_or_withdrawn_is_listed_as_such(entry, mark):
    assert MARKS[index(entry)["fits"]["mark"][0]] == mark


def test_an_entry_that_names_its_vehicle_as_it_was_stands_beside_the_others():
    old = named(told.withdrawal("dunstrel-cobble/j2"), first_year=2018)
    new = told.guide(fit="dunstrel-cobble/j1")
    found = index(new, old)
    assert sorted(found["vehicles"]["first"]) == [2018, 2019]
    assert sorted(fits_of(found)) == ["dunstrel-cobble/j1", "dunstrel-cobble/j2"]


def test_the_same_entries_in_any_order_give_the_same_bytes():
    entries = many.book(60).entries
    assert finder_json(told.book(*entries)) == finder_json(told.book(*reversed(entries)))


NAMES = st.text(st.characters(exclude_categories=["Cs"]), min_size=1, max_size=12)
SLUG = st.from_regex(r"[a-z0-9]+(-[a-z0-9]+){0,3}", fullmatch=True)


GUIDE, EMPTY = told.guide(), told.book()


@settings(max_examples=300)
@given(slug=SLUG, make=NAMES, model=NAMES)
def test_whatever_a_vehicle_is_called_its_folder_is_found_again(slug, make, model):
    entry = named(replace(GUIDE, fit=f"{slug}/j1"), make=make, model=model)
    found = json.loads(finder_json(replace(EMPTY, entries=(entry,))))
    assert list(fits_of(found)) == [f"{slug}/j1"]


def test_a_folder_name_is_plain():
    assert folder_name("Dünstrel", "Cobble 2+2") == "dunstrel-cobble-2-2"
