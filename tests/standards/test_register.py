"""The register of sources: every id that is cited stands in it, and every entry is used."""

import ast
import io
import re
import tokenize
from pathlib import Path

import pytest

import baybook
from baybook.shipped import shipped
from baybook.standards import register
from baybook.standards.load import rows, tables
from baybook.standards.register import LANGUAGE, Read, register_words
from baybook.wording.catalogue import load_catalogue

PACKAGE = Path(baybook.__file__).parent
TOP = Path(__file__).parents[2]
FILES = sorted(PACKAGE.rglob("*.py"))
# an id is speaking: words joined by hyphens, or a body and a number (iec60228, fcs1362)
ID = r"[a-z]+[a-z0-9]*(?:-[a-z0-9]+)+|[a-z]{2,}\d{3,}[a-z]?"
CITED = re.compile(rf"\[({ID})\]")


def docstrings(tree):
    documented = (ast.Module, ast.ClassDef, ast.FunctionDef)
    for node in ast.walk(tree):
        if isinstance(node, documented):
            yield ast.get_docstring(node, clean=False) or ""


def comments(text):
    for token in tokenize.generate_tokens(io.StringIO(text).readline):
        if token.type == tokenize.COMMENT and not token.string.startswith("# type:"):
            yield token.string


def in_brackets(file):
    """Return the ids that docstrings and comments cite in brackets."""
    text = file.read_text("utf-8")
    prose = [*docstrings(ast.parse(text)), *comments(text)]
    return {name for part in prose for name in CITED.findall(part)}


def arguments(file):
    """Yield the literals of each `source=` or `sources=` of a call; a name counts as None."""
    for node in ast.walk(ast.parse(file.read_text("utf-8"))):
        if isinstance(node, ast.keyword) and node.arg in {"source", "sources"}:
            parts = node.value.elts if isinstance(node.value, ast.Tuple) else [node.value]
            yield {part.value if isinstance(part, ast.Constant) else None for part in parts}


def as_arguments(file):
    """Return the ids that calls pass as `source=` or `sources=`."""
    found = {name for given in arguments(file) for name in given}
    return {name for name in found if isinstance(name, str) and re.fullmatch(ID, name)}


def literals(file):
    tree = ast.parse(file.read_text("utf-8"))
    strings = {node.value for node in ast.walk(tree) if isinstance(node, ast.Constant)}
    return strings & set(register())


# Remembered, not read. Used by one rule that asks, and by nothing that decides.
PLAUSIBLE = {"iso8820_preferred": "preferred_A"}


def cited_in_tables():
    return {row["source"] for table in tables() for row in rows(table)}


@pytest.mark.parametrize("file", FILES, ids=lambda file: str(file.relative_to(PACKAGE)))
def test_what_is_cited_is_registered(file):
    assert in_brackets(file) | as_arguments(file) <= set(register())


def test_what_is_registered_is_cited_or_offered():
    cited = cited_in_tables()
    for file in FILES:
        cited |= in_brackets(file) | literals(file)
    offered = {name for name, source in register().items() if source.offers}
    assert set(register()) - cited - offered == set()


@pytest.mark.parametrize("source", register().values(), ids=lambda source: source.id)
def test_each_source_says_what_it_is(source):
    assert re.fullmatch(ID, source.id)
    assert source.title
    assert source.edition
    assert source.clause


def from_memory():
    return {name for name, source in register().items() if source.read is Read.FROM_MEMORY}


def test_no_table_that_decides_rests_on_memory():
    cited = {row["source"] for table in set(tables()) - set(PLAUSIBLE) for row in rows(table)}
    assert cited & from_memory() == set()


@pytest.mark.parametrize(("table", "name"), PLAUSIBLE.items())
def test_what_is_remembered_is_only_asked_about(table, name):
    assert {row["source"] for row in rows(table)} <= from_memory()
    users = [file for file in FILES if f".{name}" in file.read_text("utf-8")]
    assert [file.name for file in users] == ["published.py"]
    functions = re.split(r"\n(?=def )", users[0].read_text("utf-8"))
    (asking,) = (text for text in functions if f".{name}" in text)
    assert "Verdict.CAUTION" in asking
    assert not re.search(r"Verdict\.(HOLD|REFUSED)", asking)


@pytest.mark.parametrize("file", FILES, ids=lambda file: str(file.relative_to(PACKAGE)))
def test_no_rule_rests_on_memory_alone(file):
    for text in docstrings(ast.parse(file.read_text("utf-8"))):
        cited = set(CITED.findall(text))
        assert not cited or cited - from_memory(), text
    for given in arguments(file):
        assert not given or given - from_memory(), given


def test_citations_are_found_where_they_stand():
    text = '"""A law [iec60228] in [mm2] and [m], see [shop-rule]."""  # [din46200]\n'
    assert CITED.findall(text) == ["iec60228", "shop-rule", "din46200"]


def test_the_register_says_in_its_own_language_what_every_other_one_tells():
    own = register_words()
    assert own["source.edition.iso16750-4"] == "2023, lowest temperature -40 °C for every code"
    assert load_catalogue(shipped("templates"), LANGUAGE).words().items() >= own.items()
    for language in sorted(
        folder.parent.name for folder in shipped("templates").glob("*/page.yaml")
    ):
        words = load_catalogue(shipped("templates"), language).words()
        prefixes = ("source.title.", "source.edition.")
        assert {key for key in words if key.startswith(prefixes)} == set(own), language
