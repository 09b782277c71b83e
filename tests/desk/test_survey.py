"""`baybook survey`: two sides of paper, and a box for every field that a vehicle file has."""

import io
from typing import get_args

import pdfplumber
import pytest
from click.testing import CliRunner

from baybook.cli import main
from baybook.desk.fields import fields_of, nouns_below
from baybook.desk.report import catalogue
from baybook.desk.sheet_order import AT_THE_DESK, SIDES, nouns_surveyed, parts
from baybook.desk.survey import survey_data, survey_pdf
from baybook.job import Job
from baybook.point import GridPoint
from baybook.vehicle import Vehicle

OUTLINES = get_args(Vehicle.model_fields["outline"].annotation)
WORDS = catalogue()
PREFIX = "survey.how."
HEAD = 6.5  # pt, the heads of columns


def on_the_sheet():
    data = survey_data("van", WORDS)
    placed = [part for side in data["sides"] for band in side for part in band]
    return [field["key"] for part in placed for field in part["fields"]]


def in_the_file():
    """Every leaf of a vehicle file, found by the nouns alone."""
    below_jobs = set(nouns_below(Job))
    keys = set()
    for noun in nouns_below(Vehicle):
        if noun not in below_jobs:
            keys |= {field.key for field in fields_of(noun) if not field.group}
    return keys - AT_THE_DESK


def test_a_field_is_in_the_file_if_and_only_if_it_is_on_the_sheet():
    assert set(on_the_sheet()) == in_the_file()


def test_each_field_stands_once():
    keys = on_the_sheet()
    assert len(keys) == len(set(keys))


def test_each_field_says_how_it_is_found_out_and_no_sentence_is_left_over():
    told = {key.removeprefix(PREFIX) for key in WORDS.sentences if key.startswith(PREFIX)}
    assert told == in_the_file()


def test_a_noun_without_a_part_is_noticed():
    assert {noun for part in parts() for noun in part.nouns} == set(nouns_surveyed())
    titles = {key for key in WORDS.sentences if key.startswith("survey.part.")}
    assert titles == {f"survey.part.{part.id}" for part in parts()}
    assert len(SIDES) == 2


@pytest.mark.parametrize("paper", ["a4", "letter"])
def test_the_german_sheet_has_two_sides_too(paper):
    with pdfplumber.open(io.BytesIO(survey_pdf("lorry", paper, "de"))) as pdf:
        assert len(pdf.pages) == 2
        assert "Hochvolt" in pdf.pages[0].extract_text()


@pytest.mark.parametrize("paper", ["a4", "letter"])
@pytest.mark.parametrize("outline", OUTLINES)
def test_the_sheet_has_two_sides_whatever_the_body_and_the_paper(outline, paper):
    with pdfplumber.open(io.BytesIO(survey_pdf(outline, paper))) as pdf:
        assert len(pdf.pages) == 2
        first, second = (" ".join(page.extract_text().split()) for page in pdf.pages)
        assert "hot idle" in first
        assert f"From above, {outline}" in second
        for mark in ("P18", "Surveyed by", "Segments of the route", "no screws"):
            assert mark in second
        # nothing runs off the paper or into its unprinted edge (5 mm)
        for page in pdf.pages:
            assert max(char["bottom"] for char in page.chars) < page.height - 14
            assert max(char["x1"] for char in page.chars) < page.width - 14


@pytest.mark.parametrize("language", ["en", "de"])
@pytest.mark.parametrize("paper", ["a4", "letter"])
def test_no_head_of_a_column_runs_over_its_line(paper, language):
    looked = 0
    with pdfplumber.open(io.BytesIO(survey_pdf("van", paper, language))) as pdf:
        for page in pdf.pages:
            # the upright lines of tables: drawn edge by edge
            upright = [edge for edge in page.edges if edge["orientation"] == "v"]
            for word in page.extract_words(extra_attrs=["size"], keep_blank_chars=False):
                if round(word["size"], 1) != HEAD:
                    continue
                looked += 1
                middle = (word["top"] + word["bottom"]) / 2
                over = [
                    edge
                    for edge in upright
                    if edge["top"] <= middle <= edge["bottom"]
                    and word["x0"] + 0.2 < edge["x0"] < word["x1"] - 0.2
                ]
                assert not over, word["text"]
    assert looked > 100


def test_every_label_is_on_the_paper():
    with pdfplumber.open(io.BytesIO(survey_pdf("lorry", "letter"))) as pdf:
        text = " ".join(" ".join(page.extract_text().split()) for page in pdf.pages)
    missing = [
        key
        for key in on_the_sheet()
        if not all(word in text for word in key.partition(".")[2].split("_"))
    ]
    assert missing == []


def test_the_grid_is_as_a_grid_point_counts():
    words = {field.name: field.description for field in fields_of(GridPoint)}
    data = survey_pdf("van", "a4")
    assert data != survey_pdf("van", "a4", "de")
    with pdfplumber.open(io.BytesIO(data)) as pdf:
        text = pdf.pages[1].extract_text()
    assert "48 squares" in words["along"]
    assert "20 squares" in words["across"]
    assert text.count("0 4 8 12 16 20 24 28 32 36 40 44 48") == 2


def test_the_same_call_gives_the_same_bytes():
    assert survey_pdf("van", "a4") == survey_pdf("van", "a4")


def test_the_command_writes_where_it_is_told(tmp_path):
    done = CliRunner().invoke(main, ["survey", "--outline", "hatch", "-o", str(tmp_path / "s.pdf")])
    assert (done.exit_code, done.stdout.strip()) == (0, str(tmp_path / "s.pdf"))
    assert (tmp_path / "s.pdf").read_bytes().startswith(b"%PDF-")
    lost = CliRunner().invoke(main, ["survey", "-o", str(tmp_path / "no" / "s.pdf")])
    assert lost.exit_code == 2
    assert "cannot be written" in lost.stderr
    assert CliRunner().invoke(main, ["survey", "--outline", "boat"]).exit_code == 2


def test_the_outlines_offered_are_those_of_the_file():
    survey = main.commands["survey"]
    (option,) = (one for one in survey.params if one.name == "outline")
    assert tuple(option.type.choices) == OUTLINES
