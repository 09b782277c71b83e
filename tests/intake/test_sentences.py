"""Every fault has its sentences, and no sentence is left over."""

import re
from pathlib import Path

import pytest

import baybook
from baybook.intake.problems import CODES
from intake.faults import SENTENCES

PACKAGE = Path(baybook.__file__).parent
SOURCES = [PACKAGE / "units" / "written.py", *sorted((PACKAGE / "intake").glob("*.py"))]
TEXT = "\n".join(path.read_text("utf-8") for path in SOURCES)
REASONS = {key.removeprefix("data.").rpartition(".")[0] for key in SENTENCES if "data." in key}


def test_every_code_has_a_title_and_a_why():
    titled = {key.split(".")[1] for key in SENTENCES if key.startswith("rule.")}
    assert titled == set(CODES)
    for code in CODES:
        assert {f"rule.{code}.title", f"rule.{code}.why"} <= set(SENTENCES)


def test_no_code_is_used_that_is_not_listed_and_none_is_listed_in_vain():
    assert set(re.findall(r"DA-\d\d", TEXT)) == set(CODES)


@pytest.mark.parametrize("reason", sorted(REASONS - {"found"}))
def test_no_sentence_is_left_over(reason):
    assert f'"{reason.removeprefix("figure.")}"' in TEXT or f'"{reason}"' in TEXT
    assert {f"data.{reason}.allowed", f"data.{reason}.way_out"} <= set(SENTENCES)


@pytest.mark.parametrize("sentence", SENTENCES.values())
def test_sentences_are_plain(sentence):
    assert not re.search(r"[→θηµΣ]|\bsafe\b", sentence)
    assert sentence == sentence.strip()
