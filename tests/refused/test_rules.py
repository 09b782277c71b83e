"""Every rule has a bad fit, and the bad fit is caught by that rule, in words."""

import string

import pytest

from baybook.checks import RULES, approve, judge
from baybook.design import Refusal
from baybook.finding import Listing, Message, Verdict
from baybook.shipped import shipped
from baybook.sizing.choose import choose
from baybook.standards import register
from baybook.standards.register import Read
from baybook.wording.catalogue import load_catalogue
from refused.cases import CASES, WITHOUT_FIT
from silenced import silenced
from workbooks import spoilt_fit


@pytest.fixture(scope="module")
def catalogue():
    return load_catalogue(shipped("templates"), "en")


def outcome(case, folder):
    found = choose(spoilt_fit(folder, case.fit, *case.changes), judge)
    return found if isinstance(found, Refusal) else approve(found)


def messages(value):
    """Yield a message and all messages among its values."""
    if isinstance(value, Listing):
        for item in value.items:
            yield from messages(item)
    if isinstance(value, Message):
        yield value
        for _, inner in value.values:
            yield from messages(inner)


@pytest.mark.parametrize("case", CASES, ids=str)
def test_bad_fit_is_found(case, tmp_path, catalogue):
    result = outcome(case, tmp_path)
    found = [f for f in result.findings if f.code == case.code]
    assert found, [(f.code, f.verdict.value) for f in result.findings]
    assert {f.verdict for f in found} == {case.verdict}
    assert isinstance(result, Refusal) is (case.verdict is Verdict.REFUSED)
    for finding in found:
        assert finding.where.file.endswith(".yaml")
        assert finding.where.line > 1, "points at a line of the workbook, not at its head"
        assert bool(finding.hold) is (finding.verdict is Verdict.HOLD)
        assert grounds(finding), "rests on memory alone"
        said(finding, catalogue)


def grounds(finding):
    """Return what a finding rests on that somebody has read; each of its ids is registered."""
    cited = [register()[source.replace(" ", "-")] for source in finding.sources]
    return [source for source in cited if source.read is not Read.FROM_MEMORY]


def said(finding, catalogue):
    """Every sentence of the rule is in the catalogue and finds its values."""
    ids = ["title", "why", "way_out"]
    if finding.verdict is not Verdict.REFUSED:
        ids += ["reason", "short"]
    sentences = [Message(f"rule.{finding.code}.{name}", finding.title.values) for name in ids]
    parts = [finding.way_out, finding.found, finding.allowed, *sentences]
    for message in (inner for part in parts for inner in messages(part)):
        text = catalogue.sentence(message.id)
        wanted = {name for _, name, _, _ in string.Formatter().parse(text) if name}
        assert wanted <= {name for name, _ in message.values}, message.id


@pytest.mark.parametrize("case", CASES[::8], ids=str)
def test_without_its_rule_a_bad_fit_is_not_found(case, tmp_path):
    """So many in each run; `tests/bench/rules_off.py` goes through all."""
    with silenced(case.code):
        assert case.code not in {f.code for f in outcome(case, tmp_path).findings}


def test_each_rule_has_a_bad_fit():
    assert {case.code for case in CASES} | WITHOUT_FIT == set(RULES)


def test_each_rule_says_what_it_checks_and_why():
    for code, rule in RULES.items():
        assert rule.__doc__, code
        assert "[" in rule.__doc__, f"{code} names no source"


def test_no_sentence_belongs_to_a_rule_that_is_gone(catalogue):
    """Codes of the data rules (DA) are intake's, those of the walk (WK, ST) the second gate's."""
    ours = {code[:2] for code in RULES} | {"KR"}
    told = {
        message_id.split(".")[1]
        for message_id in catalogue.sentences
        if message_id.startswith("rule.") and message_id[5:7] in ours
    }
    assert told == set(RULES) | {"KR-01", "CA"}
