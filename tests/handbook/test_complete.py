"""Every published row that we keep is compared by some test."""

import ast
from fnmatch import fnmatchcase
from pathlib import Path

import pytest

HERE = Path(__file__).parent
SUBJECTS = sorted(path.stem for path in (HERE.parent / "references").glob("*.csv"))
# rows that a test takes from its page as a partner of another row
PARTNERS = {"K-IACS-mass", "L-1", "L-3"}


def marked():
    """Return (subject, patterns) of every `rows` marker in this folder."""
    for file in HERE.glob("test_*.py"):
        for node in ast.walk(ast.parse(file.read_text("utf-8"))):
            if isinstance(node, ast.Call) and ast.unparse(node.func) == "pytest.mark.rows":
                subject, *patterns = (ast.literal_eval(arg) for arg in node.args)
                yield subject, patterns


@pytest.mark.parametrize("subject", SUBJECTS)
def test_each_row_is_used(subject, rows):
    patterns = [p for marker, given in marked() if marker == subject for p in given]
    unused = [
        name
        for name in rows(subject)
        if name not in PARTNERS and not any(fnmatchcase(name, p) for p in patterns)
    ]
    assert unused == []


@pytest.mark.parametrize("subject", SUBJECTS)
def test_each_row_names_its_source_and_how_it_was_read(subject, rows):
    for row in rows(subject).values():
        assert row["source"] or row["kind"] == "worked", row  # worked: arithmetic on other rows
        assert row.cells.get("how") or row.cells.get("how_obtained"), row
