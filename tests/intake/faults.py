"""Faults of a workbook, told in the words of data.yaml, for the tests of intake."""

import string
from pathlib import Path

import yaml

from baybook.finding import Finding, Listing, Message, Name, Value, Verdict
from baybook.intake.read import read_workbook

SENTENCES: dict[str, str] = yaml.safe_load(
    (Path(__file__).parents[2] / "templates" / "en" / "data.yaml").read_text("utf-8")
)


def tell(value: Value) -> str:
    """Tell a value; a sentence that is missing, or a value that it names, is an error."""
    match value:
        case Name(text):
            return text
        case Listing(items):
            return ", ".join(tell(item) for item in items)
        case Message(name, values):
            told = {key: tell(item) for key, item in values}
            return string.Formatter().vformat(SENTENCES[name], (), told)
        case _:
            return str(value)


def faults(root: Path) -> tuple[Finding, ...]:
    """Read a workbook that has faults; each of them can be told in our own words."""
    workbook, findings = read_workbook(root)
    assert workbook is None
    assert findings
    for finding in findings:
        assert finding.verdict is Verdict.REFUSED
        for words in (finding.title, finding.found, finding.allowed, finding.why, finding.way_out):
            told = tell(words)
            assert told
            assert "pydantic" not in told
            assert "Input should" not in told
    return findings
