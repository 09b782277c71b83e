"""What the manual says of a workbook from a stranger is so."""

import re
import tempfile
from datetime import date
from pathlib import Path

import pytest

from audited import audited
from baybook.desk.checking import run_check
from baybook.desk.publishing import run_publish
from baybook.intake.source import LARGEST
from baybook.intake.tree import DEEPEST, LONGEST_TEXT, MOST_NODES
from baybook.publish import history
from baybook.publish.frame import symbol
from baybook.publish.markup import PageError
from baybook.publish.written import written_folder
from workbooks import SHOP, TANSY, alone, copy_workbook, edit, leave_only

TODAY = date(2024, 12, 2)


@pytest.fixture
def book(tmp_path):
    root = copy_workbook(tmp_path / "fits")
    leave_only(root, "brunsall-tansy")
    alone(root / TANSY, "j1")
    edit(root, SHOP, "papers: [a4, letter]", "papers: [a4]")
    return root


@pytest.mark.parametrize(("language", "mark"), [("en", ","), ("de", ".")])
def test_the_limits_of_a_file_are_those_of_the_reader(language, mark):
    page = (written_folder(language) / "pages" / "manual" / "stranger.md").read_text("utf-8")
    told = {int(figure.replace(mark, "")) for figure in re.findall(r"\b\d[\d.,]*\b", page)}
    assert told == {LARGEST, MOST_NODES, DEEPEST, LONGEST_TEXT, history.LARGEST}


def test_a_check_writes_nothing_and_calls_nobody(book, capsys):
    with audited() as asked:
        assert run_check(book, (), today=TODAY, form="json") == 0
    assert '"brunsall-tansy/j1"' in capsys.readouterr().out
    assert any(file.endswith(TANSY) for file in asked.read)
    assert (asked.written, asked.called) == ([], [])


def test_a_publish_writes_where_the_manual_says_and_calls_nobody(book, tmp_path, monkeypatch):
    passing = tmp_path / "passing"
    passing.mkdir()
    monkeypatch.setattr(tempfile, "tempdir", str(passing))
    output = tmp_path / "out" / "_site"
    with audited() as asked:
        assert run_publish(book, output, drafts=False, today=TODAY, cache=tmp_path / "cache") == 0
    allowed = (output.parent, book / "issued", tmp_path / "cache", passing, Path("/dev"))
    strange = [
        name
        for name in map(Path, asked.written)
        if not name.name.isdigit()  # a pipe to a process of ours
        and not any(name.is_relative_to(place) for place in allowed)
    ]
    assert strange == []
    assert asked.called == []


@pytest.mark.parametrize("name", ["../fonts/x", "/etc/x", "../assets/icon", "hold.svg", ""])
def test_a_symbol_is_one_of_ours_and_no_path(name):
    with pytest.raises(PageError, match="which there is not"):
        symbol(name)
