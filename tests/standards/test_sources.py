"""What the designs themselves cite: each id exists, and no safety margin rests on memory alone."""

import re
from functools import cache
from pathlib import Path

import pytest

from baybook.checks import approve, judge
from baybook.design import Refusal
from baybook.shipped import shipped
from baybook.sizing.choose import choose
from baybook.standards import register
from baybook.standards.register import Read
from baybook.wording.catalogue import load_catalogue
from workbooks import example, example_fit

TOP = Path(__file__).parents[2]
SHOP_RULE = "shop-rule"
FITS = [fit.id for fit in example().fits]
# figures that tell what a fit gives or costs; every other figure is taken for a safety margin
COMFORT = {
    "charge_time",
    "charge_time_hot",
    "cut",
    "mass_added",
    "output_power",
    "sleep_after",
    "standby_days",
    "standing_hours",
    "station_current",
    "station_power",
    "station_voltage",
}


@cache
def result(fit_id):
    found = choose(example_fit(fit_id), judge)
    return found if isinstance(found, Refusal) else approve(found)


def figures(fit_id):
    found = result(fit_id)
    return found.figures if isinstance(found, Refusal) else found.design.figures


def figure_name(name):
    """Return the name without the number of a conductor or a zone."""
    return re.sub(r"_(W\d+|\d+)$", "", name)


def rests_on(figure, named, seen=frozenset()):
    """Return all ids that a figure rests on, those of its inputs that are figures included."""
    ids = {source.replace(" ", "-") for source in figure.sources}
    for given in figure.inputs:
        if given.source:
            ids.add(given.source)
        if given.figure in named and given.figure not in seen:
            ids |= rests_on(named[given.figure], named, seen | {figure.name, given.figure})
    return ids


def from_memory():
    return {name for name, source in register().items() if source.read is Read.FROM_MEMORY}


@pytest.mark.parametrize("fit_id", FITS)
def test_each_figure_cites_what_is_registered(fit_id):
    for figure in figures(fit_id):
        assert figure.sources, figure.name
        assert rests_on(figure, {}) <= set(register()), figure.name


@pytest.mark.parametrize("fit_id", FITS)
def test_each_finding_cites_what_is_registered(fit_id):
    for finding in result(fit_id).findings:
        ids = {source.replace(" ", "-") for source in finding.sources}
        assert ids, finding.code
        assert ids <= set(register()), finding.code


@pytest.mark.parametrize("fit_id", FITS)
def test_no_safety_margin_rests_on_memory_alone(fit_id):
    named = {figure.name: figure for figure in figures(fit_id)}
    margins = [f for f in named.values() if figure_name(f.name) not in COMFORT]
    if not isinstance(result(fit_id), Refusal):
        assert len(margins) > 20
    for figure in margins:
        assert rests_on(figure, named) - from_memory(), figure.name
        for given in figure.inputs:
            assert given.source not in from_memory(), (figure.name, given.symbol)


@pytest.mark.parametrize("fit_id", FITS)
def test_no_refusal_and_no_hold_rests_on_memory_alone(fit_id):
    for finding in result(fit_id).findings:
        assert {source.replace(" ", "-") for source in finding.sources} - from_memory(), finding


def test_what_is_called_comfort_is_a_figure():
    words = load_catalogue(shipped("templates"), "en")
    assert [name for name in COMFORT if not words.has(f"figure.{name}")] == []


def test_the_workbook_cites_what_is_registered():
    cited = re.compile(r"\b(?:source|clip_rule|fuse_distance_rule): *([a-z][\w -]*[a-z0-9])")
    for file in (TOP / "fits").rglob("*.yaml"):
        for name in cited.findall(file.read_text("utf-8")):
            assert name.replace(" ", "-") in register(), f"{file.name}: {name}"


def test_the_sentences_cite_what_is_registered():
    in_brackets = re.compile(
        r"\[((?:[a-z]+[a-z0-9]*(?:-[a-z0-9]+)+)|[a-z]{2,}\d{3,}[a-z]?)\](?!\()"
    )
    for folder, pattern in (("templates", "*.yaml"), ("templates", "*.j2"), ("site", "*.md")):
        for file in (TOP / folder).rglob(pattern):
            cited = set(in_brackets.findall(file.read_text("utf-8")))
            assert cited <= set(register()), file


@pytest.mark.parametrize("source", register().values(), ids=lambda source: source.id)
def test_a_source_says_how_it_was_read(source):
    assert source.read in set(Read)
    if source.read is Read.FROM_MEMORY:
        assert source.note, "what confirms it, or what it must not be used for"
