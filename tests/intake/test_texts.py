"""A shop's texts in its other languages: each has its line, each line has its text."""

import re

import pytest

from baybook.finding import Listing, Name
from baybook.fit import Workbook
from baybook.intake.texts import read_texts, texts_of, wanted
from baybook.quantity import in_words
from baybook.route import Segment
from baybook.sheet import ChargerSheet
from baybook.shop import Shop
from baybook.vehicle import Restraints, Vehicle
from tongues import TEXT, TEXTS, translations, workbook, write_texts
from workbooks import EXAMPLE, load


@pytest.fixture(scope="module")
def root(tmp_path_factory):
    return workbook(tmp_path_factory.mktemp("texts") / "fits")


def faults(root, text):
    (root / TEXTS).write_text(text, "utf-8")
    return read_texts(root, load(root))[1]


def test_every_text_in_its_place_is_read(root):
    write_texts(root, translations(root))
    texts, found = read_texts(root, load(root))
    assert found == ()
    assert texts == {"de": translations(root)}


def test_a_name_is_no_text():
    assert in_words(Vehicle) == {"body", "engine"}
    assert in_words(ChargerSheet) == {"approvals", "pairing"}
    assert in_words(Shop) == {"about"}
    assert in_words(Segment) == {"name", "access", "fixing"}
    assert in_words(Restraints) == {"found", "by"}  # one is a list of texts


def test_texts_of_sheets_shop_and_basis_are_found_with_their_places(root):
    (fit,) = load(root).fits
    paths = dict(texts_of(fit))
    assert {"shop.about", "fit.title"} <= set(paths)
    assert any(path.endswith("segments.0.name") for path in paths)
    assert {path.partition(".")[0] for path in paths} >= {"charger", "connector", "vehicle"}
    assert "20 min drive, overrun excluded, lowest and highest 10 s mean at the posts" in wanted(
        load(root).fits
    )
    for path in paths:
        assert fit.mark(path).line > 1


def test_each_text_without_a_line_is_told_once_at_its_place(root):
    texts = translations(root)
    lacking = {text: german for text, german in texts.items() if text not in (TEXT, "estate")}
    write_texts(root, lacking)
    found = {fault.place: fault for fault in read_texts(root, load(root))[1]}
    assert set(found) == {"vehicle.body", "vehicle.battery.access"}
    fault = found["vehicle.body"]
    assert (fault.code, fault.found) == ("DA-19", Name("estate"))
    lines = (root.parent / fault.where.file).read_text("utf-8").splitlines()
    assert lines[fault.where.line - 1][fault.where.column - 1 :] == "estate"
    assert dict(fault.allowed.values)["file"] == Name("fits/texts/de.yaml")


def test_a_leftover_is_named_with_the_text_it_may_belong_to(root):
    texts = translations(root)
    texts["Open the bonet"] = texts.pop(TEXT)
    path = write_texts(root, texts)
    missing, left = sorted(read_texts(root, load(root))[1], key=lambda fault: fault.code)
    assert (missing.code, missing.found) == ("DA-19", Name(TEXT))
    assert (left.code, left.place) == ("DA-20", "texts.Open the bonet")
    assert dict(left.allowed.values)["near"] == Listing((Name(TEXT),))
    lines = path.read_text("utf-8").splitlines()
    assert lines[left.where.line - 1].startswith('"Open the bonet"')


@pytest.mark.parametrize(
    ("text", "code", "line"),
    [
        ('"estate": "Kombi"\n"estate": "Kasten"\n', "DA-05", 2),
        ('"estate": ""\n', "DA-08", 1),
        ('"estate": [Kombi]\n', "DA-09", 1),
        ('"estate": *x\n', "DA-04", 1),
        ('"estate: "Kombi"\n', "DA-03", 1),
        ('"estate": "Kombi → Kasten"\n', "DA-17", 1),
    ],
)
def test_the_file_is_read_as_strictly_as_the_workbook(root, text, code, line):
    found = [fault for fault in faults(root, text) if fault.code != "DA-19"]
    assert [(fault.code, fault.where.line) for fault in found] == [(code, line)]
    assert found[0].where.file == "fits/texts/de.yaml"


def test_a_missing_file_is_one_fault(root):
    (root / TEXTS).unlink()
    (fault,) = read_texts(root, load(root))[1]
    assert (fault.code, fault.where.file) == ("DA-01", "fits/texts/de.yaml")


def test_the_example_has_every_text_in_german():
    book = load(EXAMPLE)
    shop = book.shop.model_copy(update={"languages": ("en", "de")})
    texts, found = read_texts(EXAMPLE, Workbook(shop=shop, fits=book.fits))
    assert [(fault.code, fault.found) for fault in found] == []
    for text, german in texts["de"].items():
        # A figure in a text may have another decimal mark, and no other digits.
        digits = (re.findall(r"\d+", part) for part in (text, german))
        assert sorted(next(digits)) == sorted(next(digits)), text
