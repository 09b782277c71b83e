"""The form for another station, and the limits that typed readings are held against."""

import json
from dataclasses import asdict, replace

import pytest

import outlets
from baybook.equipment import OwnForm, ReasonLine, Said
from baybook.finding import Amount, Name
from baybook.publish.typed import as_typed, unit_typed
from baybook.wording.figures import tell_amount
from prints import sample
from publish import told
from publish.markup_reader import ids, read

OUTLET = replace(
    outlets.OUTLET, connector="half-a", mates=("half-a", "half-b"), counted_W=519.99999999999994
)
FORM = OwnForm(
    outlet=OUTLET,
    setting=Amount(41.0, "V", 1),
    plug=Name('Half <A> & "B"'),
    reasons=(
        ReasonLine(said=Said.HOLD, code="OV-09", text=sample.s("Nobody tried it.")),
        ReasonLine(said=Said.NO, code="OV-01", text=sample.s("Too many volts.")),
    ),
)


@pytest.fixture(scope="module")
def page():
    return told.page(sample.entry(replace(sample.GUIDE, own=FORM)))


def elements(page, tag):
    return [element for element in read(page).elements if element.tag == tag]


def test_the_script_gets_the_figures_to_the_last_digit(page):
    form = next(e for e in elements(page, "form") if e.attributes["id"] == "own")
    assert json.loads(form.attributes["data-outlet"]) == asdict(OUTLET) | {
        "mates": list(OUTLET.mates)
    }


def test_without_script_the_form_is_hidden_and_the_list_is_not(page):
    form = next(e for e in elements(page, "form") if e.attributes["id"] == "own")
    assert "hidden" in form.attributes
    plain = next(e for e in read(page).elements if e.attributes.get("id") == "own-plain")
    assert "hidden" not in plain.attributes
    assert told.WORDS["page.own.shop"] in page


def test_a_family_is_offered_once_and_there_is_always_another(page):
    options = [e.attributes["value"] for e in elements(page, "option")]
    assert options[:4] == ["", "half-a", "half-b", "-"]
    assert "Half &lt;A&gt; &amp; &#34;B&#34;" in page


def test_every_answer_is_hidden_until_it_is_given_refusals_first(page):
    lines = [e for e in read(page).elements if e.attributes.get("data-reason")]
    assert [e.attributes["data-reason"] for e in lines] == ["no OV-01", "entry", "hold OV-09"]
    verdicts = [e for e in read(page).elements if e.attributes.get("data-verdict")]
    assert len(verdicts) == 3
    assert all("hidden" in e.attributes for e in (*lines, *verdicts))


def test_a_guide_without_the_form_has_no_section_and_no_way_to_it():
    page = told.page(told.guide())
    assert "equipment" not in ids(read(page))
    assert "#equipment" not in page


# ------------------------------------------------------------------ limits of what is typed


@pytest.mark.parametrize(
    ("amount", "language", "typed"),
    [
        (Amount(13.3349, "V", 2), "en", "13.33"),
        (Amount(13.3349, "V", 2), "de", "13.33"),
        (Amount(-0.5, "V", 1), "de", "-0.5"),
        (Amount(0.0392, "A", 0, show="mA"), "en", "39"),
        (Amount(0.15, "m", 2, "15.0 cm"), "de", "15.0"),
        (Amount(4.2, "m", 2, "13 ft 9 in"), "en", None),
    ],
)
def test_a_limit_is_the_printed_figure(amount, language, typed):
    assert as_typed(tell_amount(amount, language), language) == typed


def test_no_limit_is_no_figure_and_two_units_are_no_unit():
    volts, milliamps = (
        tell_amount(amount, "en")
        for amount in (Amount(1.0, "V", 1), Amount(0.1, "A", 0, show="mA"))
    )
    assert as_typed(None, "en") is None
    assert unit_typed(None, None) is None
    assert unit_typed(volts, None) == unit_typed(None, volts) == unit_typed(volts, volts) == "V"
    assert unit_typed(volts, milliamps) is None


def test_rows_and_holds_carry_their_limits():
    page = told.page(told.guide())
    places = {
        e.attributes.get("id"): e.attributes
        for e in read(page).elements
        if "data-unit" in e.attributes
    }
    assert places["reading-R1"]["data-low"] == "12.1"
    assert places["reading-R1"]["data-high"] == "14.1"
    assert "data-low" not in places["reading-R3"]
    found = {e.attributes.get("id") for e in read(page).elements}
    assert {f"found-R{number}" for number in range(1, 6)} <= found
    assert None in places  # the field of a hold
