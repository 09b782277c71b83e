"""Every sentence gets each word that it asks for, also where no test comes by."""

import ast
import re
from pathlib import Path

import baybook
from baybook.shipped import shipped
from baybook.wording.catalogue import load_catalogue

PACKAGE = Path(baybook.__file__).parent
WORDS = load_catalogue(shipped("templates"), "en")
BY_WRAPPER = frozenset({"near"})  # `_fault` in intake/references.py adds it


def _calls():
    for path in sorted(PACKAGE.rglob("*.py")):
        for node in ast.walk(ast.parse(path.read_text("utf-8"))):
            if isinstance(node, ast.Call) and (asked := _asked(node)):
                given = {word.arg for word in node.keywords}
                if None not in given:  # `**values`: seen only where it runs
                    yield f"{path.relative_to(PACKAGE)}:{node.lineno}", asked, given


def _asked(call):
    """Return the sentences that a call names outright."""
    name = getattr(call.func, "id", getattr(call.func, "attr", ""))
    texts = [a.value for a in call.args if isinstance(a, ast.Constant) and isinstance(a.value, str)]
    if name == "say":
        return [text for text in texts[:1] if WORDS.has(text)]
    if name in {"problem", "_fault"}:
        ids = [f"data.{text}.{part}" for text in texts for part in ("allowed", "way_out")]
        return [one for one in ids if WORDS.has(one)]
    return []


def _wanted(sentence):
    return set(re.findall(r"\{(\w+)", WORDS.sentence(sentence, 2)))


def test_no_call_forgets_a_word():
    calls = list(_calls())
    assert len(calls) > 700
    short = [
        f"{at} `{one}`: {sorted(lacking)}"
        for at, asked, given in calls
        for one in asked
        if (lacking := _wanted(one) - given - BY_WRAPPER)
    ]
    assert not short
