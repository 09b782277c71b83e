"""Every published row is compared by some test, or left out for a reason that is written down."""

import ast
import csv
from fnmatch import fnmatchcase
from pathlib import Path

import pytest

HERE = Path(__file__).parent
TOP = HERE.parents[1]
REFERENCES = HERE.parent / "references"
SUBJECTS = sorted(path.stem for path in REFERENCES.glob("*.csv") if path.stem != "left_out")
# rows that a test takes from its page as partners of another row
PARTNERS = {"K-IACS-mass", "L-1", "L-3", "AC-EX2a", "AC-EX2b", "AC-EX2d"}
PARTNERS |= {"AC-T9-I-20-105", "AC-T9-I-22-105", "AC-T9-I-24-105"}
LEFT_OUT = tuple(csv.DictReader((REFERENCES / "left_out.csv").read_text("utf-8").splitlines()))
# worked examples of what the core does not do, or whose formula nobody has read
NOT_WORKED = {"PV-W1", "EN098"}
# the trade's custom has no document
UNSOURCED = ("common practice", "computed")


def marked():
    """Return (subject, patterns) of every `rows` marker in this folder."""
    for file in HERE.glob("test_*.py"):
        for node in ast.walk(ast.parse(file.read_text("utf-8"))):
            if isinstance(node, ast.Call) and ast.unparse(node.func) == "pytest.mark.rows":
                subject, *patterns = (ast.literal_eval(arg) for arg in node.args)
                yield subject, patterns


def compared(subject):
    """Return the patterns of rows of a subject that some test compares."""
    return [p for marker, given in marked() if marker == subject for p in given]


def left_out(subject):
    """Return the patterns of rows of a subject that are left out."""
    return [p for line in LEFT_OUT if line["subject"] == subject for p in line["rows"].split()]


def match(name, patterns):
    return any(fnmatchcase(name, pattern) for pattern in patterns)


@pytest.mark.parametrize("subject", SUBJECTS)
def test_each_row_is_compared_or_left_out_with_a_reason(subject, rows):
    used, out = compared(subject), left_out(subject)
    known = [*used, *out, *PARTNERS]
    assert [name for name in rows(subject) if not match(name, known)] == []


@pytest.mark.parametrize("subject", SUBJECTS)
def test_no_row_is_both_compared_and_left_out(subject, rows):
    used, out = compared(subject), left_out(subject)
    assert [name for name in rows(subject) if match(name, used) and match(name, out)] == []


@pytest.mark.parametrize("line", LEFT_OUT, ids=lambda line: line["rows"])
def test_what_is_left_out_stands_on_its_page(line, rows):
    assert line["subject"] in SUBJECTS
    for pattern in line["rows"].split():
        assert any(fnmatchcase(name, pattern) for name in rows(line["subject"])), pattern
    assert len(line["reason"].split()) >= 3, line
    assert not line["held_in"] or (TOP / line["held_in"]).is_file(), line


@pytest.mark.parametrize("subject", SUBJECTS)
def test_every_worked_example_and_every_trap_is_compared(subject, rows):
    used = [*compared(subject), *PARTNERS, *NOT_WORKED]
    must = {"worked", "worked_example", "trap"}
    pages = rows(subject).values()
    missed = [r.id for r in pages if r.cells.get("kind") in must and not match(r.id, used)]
    assert missed == []


@pytest.mark.parametrize("subject", SUBJECTS)
def test_each_row_names_its_source_and_how_it_was_read(subject, rows):
    for row in rows(subject).values():
        how = row.cells.get("how") or row.cells.get("how_obtained")
        assert how, row
        unsourced = how.startswith(UNSOURCED) or row.cells.get("kind") == "worked"
        assert row["source"] or unsourced or "from memory" in how, row
