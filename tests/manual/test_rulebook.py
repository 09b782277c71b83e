"""The rules in the manual: all of them, and each example is what the tool says of that slip."""

import json
from dataclasses import replace

import pytest

from baybook.checks import RULES
from baybook.checks.release import walk
from baybook.compose.rulebook import FAMILIES, rulebook
from baybook.intake.problems import CODES
from baybook.rulebook import rule_address
from baybook.shipped import shipped
from baybook.telling import tell_rules
from baybook.wording.catalogue import load_catalogue
from compose.jobs import checked, guide
from manual.examples import FILE, as_text, examples
from publish import told
from publish.markup_reader import ids, read
from publish.test_pages import assert_clean

LANGUAGES = ("en", "de")
WITHOUT = {"AG-01"}


def entries():
    return {rule.code: rule for family in rulebook() for rule in family.rules}


def test_every_example_is_what_the_tool_says_of_that_slip():
    made = json.loads(as_text(examples()))
    kept = json.loads(FILE.read_text("utf-8"))
    for code, of_code in made["rules"].items():
        assert kept["rules"].get(code) == of_code, f"{code}: python tests/manual/examples.py"
    assert kept == made


def test_every_rule_is_there_with_an_example_and_a_source():
    known = entries()
    walk = {code for code in known if code.startswith("ST")}
    assert set(known) - walk == set(RULES) | set(CODES) | {"KR-01"}
    assert len(walk) >= 18
    for code, rule in known.items():
        assert bool(rule.examples) == (code not in WITHOUT | walk), code
        assert bool(rule.sources) == (code in walk | set(RULES) | {"KR-01"}), code
    assert {code[:2] for code in known} == set(FAMILIES)


def test_the_order_of_work_has_the_source_that_its_findings_name():
    whole = guide("brunsall-tansy/j1")
    faults = walk(checked("brunsall-tansy/j1"), replace(whole, chapters=whole.chapters[2:]))
    known = entries()
    assert faults
    for fault in faults:
        assert [f"source.title.{one}" for one in fault.sources] == [
            source.title.id for source in known[fault.code].sources
        ]


@pytest.mark.parametrize("language", LANGUAGES)
def test_every_sentence_of_every_rule_is_told(language):
    for family in tell_rules(load_catalogue(shipped("templates"), language)):
        for rule in family["rules"]:
            assert rule["what"]["text"].endswith(".")
            for part in ("why", "way_out"):
                assert rule[part]["text"], rule["code"]
            for one in rule["examples"]:
                assert one["finding"]["title"]["text"]


def test_pages_hold_every_rule_at_its_address():
    pages = told.pages()
    for code in entries():
        page, _, anchor = rule_address(code).partition("#")
        assert anchor in ids(read(pages[page])), code
        assert (
            f'href="{page.removeprefix("manual/")}#{code}"' in pages["manual/rules.html"].decode()
        )
    for address, page in pages.items():
        if address.startswith("manual/"):
            assert_clean(read(page))
            assert len(page) < 150_000, address


def test_a_finding_leads_to_its_rule():
    page = told.page(told.refusal())
    code = told.refusal().content["refusal"]["code"]
    assert f'href="../../../{rule_address(code)}"' in page
