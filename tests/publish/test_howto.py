"""A guide as schema.org `HowTo`: its terms, what a machine would read aloud, no way out of it."""

import json
import re
from dataclasses import replace
from datetime import timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st
from jsonschema import Draft202012Validator
from pydantic import TypeAdapter

from baybook.book import Tongue
from baybook.publish.howto import howto, howto_block
from publish import told
from publish.markup_reader import ids, read

BLOCK = re.compile(r'<script type="application/ld\+json">(.*?)</script>', re.DOTALL)
# schema.org, from memory: the properties that each of these types may have, and what they hold.
TEXT = {"type": "string", "minLength": 1, "pattern": r"^\S(.*\S)?$"}
URL = {"type": "string", "pattern": r"^https://[^\s]+$"}


def thing(kind, required, /, **properties):
    return {
        "type": "object",
        "properties": {"@type": {"const": kind}, **properties},
        "required": ["@type", *required],
        "additionalProperties": False,
    }


ORGANIZATION = thing("Organization", ["name"], name=TEXT)
SUPPLY = thing("HowToSupply", ["name"], name=TEXT, requiredQuantity=TEXT)
TOOL = thing("HowToTool", ["name"], name=TEXT)
STEP = thing("HowToStep", ["text", "url"], text=TEXT, url=URL)
SECTION = thing(
    "HowToSection",
    ["name", "itemListElement"],
    name=TEXT,
    position={"type": "integer", "minimum": 1},
    itemListElement={"type": "array", "items": STEP, "minItems": 1},
)
HOWTO = thing(
    "HowTo",
    ["@context", "name", "description", "supply", "tool", "step"],
    **{"@context": {"const": "https://schema.org"}, "@id": URL},
    url=URL,
    name=TEXT,
    description=TEXT,
    inLanguage={"enum": ["en", "de"]},
    version=TEXT,
    dateModified={"type": "string", "pattern": r"^\d{4}-\d\d-\d\d$"},
    publisher=ORGANIZATION,
    totalTime={"type": "string", "pattern": r"^PT(\d+H)?(\d+M)?$"},
    supply={"type": "array", "items": SUPPLY},
    tool={"type": "array", "items": TOOL},
    step={"type": "array", "items": SECTION, "minItems": 1},
)


def block(page):
    (found,) = BLOCK.findall(page)
    return json.loads(found)


def steps(data):
    return [step for section in data["step"] for step in section["itemListElement"]]


def number(step):
    return int(step["url"].partition("#step-")[2])


@pytest.fixture(scope="module")
def page():
    return told.page(told.guide())


def test_a_released_guide_has_the_terms_of_schema_org(page):
    Draft202012Validator.check_schema(HOWTO)
    Draft202012Validator(HOWTO).validate(block(page))


def test_each_step_leads_to_its_place_on_the_page(page):
    data = block(page)
    places = ids(read(page))
    wanted = [s["number"] for c in told.guide().content["guide"]["chapters"] for s in c["steps"]]
    assert [number(step) for step in steps(data)] == wanted
    for step in steps(data):
        address, _, place = step["url"].partition("#")
        assert address == data["url"] == f"https://guides.example.invalid/{told.PAGE}"
        assert place in places


def test_a_step_is_never_said_without_its_warning_its_figure_and_its_hold(page):
    said = {number(step): step["text"] for step in steps(block(page))}
    assert said[4] == (
        "DANGER: Hazard crush. What crush does. How to avoid crush. "
        "WARNING: Hazard drill. What drill does. How to avoid drill. "
        "Do thing number 4 with care."
    )
    assert said[5] == "Do thing number 5 with care. HOLD 3: Behind every screw."
    assert "4.5\u00a0N·m" in said[7]


def test_the_cautions_stand_in_the_description_and_a_demonstration_says_so(page):
    said = block(page)["description"]
    assert said.startswith("Demonstration data. Every name and figure is invented.")
    assert "Local codes come first." in said
    assert "Checked: caution. Not while standing." in said
    real = block(told.page(told.guide(), demonstration=False))
    assert "Demonstration" not in json.dumps(real)


def test_kit_and_tools_are_those_of_the_guide(page):
    data = block(page)
    assert data["supply"] == [
        {"@type": "HowToSupply", "name": "Lug L25, stud M6", "requiredQuantity": "3"}
    ]
    assert [tool["name"] for tool in data["tool"]] == ["Torque wrench TW-1", "Meter DM-3"]


@given(st.integers(0, 10_000))
def test_the_time_is_the_guides_own_as_a_duration_of_iso_8601(minutes):
    entry = told.changed(told.guide(), lambda guide: guide.update(minutes=float(minutes)))
    time = howto(entry, told.book()).get("totalTime")
    if minutes:
        assert TypeAdapter(timedelta).validate_python(time) == timedelta(minutes=minutes)
    else:
        assert time is None


@pytest.mark.parametrize("entry", [told.guide(state="draft"), told.refusal(), told.withdrawal()])
def test_what_is_not_released_gives_no_instructions_to_machines(entry):
    assert BLOCK.findall(told.page(entry)) == []


def test_each_language_speaks_of_its_own_page():
    tongues = (
        Tongue(language="fr", folder="", name="F"),
        Tongue(language="en", folder="en/", name="E"),
    )
    data = json.loads(howto_block(told.guide(), replace(told.book(), tongues=tongues)))
    assert data["url"] == f"https://guides.example.invalid/en/{told.PAGE}"
    assert data["inLanguage"] == "en"


HOSTILE = st.text(st.sampled_from(list("</script>!-<&\u2028\u2029\"'\\ Aß{}[]")), min_size=1)


@given(HOSTILE)
def test_no_text_breaks_out_of_the_block_and_all_of_it_is_read_back(text):
    def spoil(guide):
        guide["what"]["text"] = text
        guide["chapters"][0]["steps"][0]["action"]["text"] = text

    made = str(howto_block(told.changed(told.guide(), spoil), told.book()))
    for sign in "<>&\u2028\u2029":
        assert sign not in made
    data = json.loads(made)
    assert text in data["description"]
    assert text in steps(data)[0]["text"]


def test_the_end_of_a_script_in_a_text_does_not_end_the_block():
    bad = "</script><script>alert(1)</script><!--<script>"
    entry = told.changed(told.guide(), lambda guide: guide["what"].update(text=bad))
    page = told.page(entry)
    assert page.count("</script>") == told.page(told.guide()).count("</script>")
    assert bad in block(page)["description"]
