"""The same workbook, the same bytes: whatever the machine's clock, place, language and luck."""

import os
import shutil
import subprocess
import sys

import pytest
import yaml

from baybook.intake.read import read_workbook
from baybook.intake.texts import wanted
from workbooks import SHOP, TANSY, alone, copy_workbook, edit, leave_only

KEPT = {"brunsall-tansy", "tavlow-camber"}
PLACES = [
    {"PYTHONHASHSEED": "1", "TZ": "Pacific/Kiritimati", "LC_ALL": "C", "COLUMNS": "40"},
    {"PYTHONHASHSEED": "77", "TZ": "Pacific/Pago_Pago", "LC_ALL": "de_DE.UTF-8", "LANG": "de_DE"},
]


@pytest.fixture(scope="module")
def sites(tmp_path_factory):
    """Return a site made in each place, by name of file."""
    top = tmp_path_factory.mktemp("same")
    root = copy_workbook(top / "fits")
    edit(root, SHOP, "papers: [a4, letter]", "papers: [a4]")
    edit(root, SHOP, "languages: [en]", "languages: [en, de]")
    leave_only(root, *KEPT)
    alone(root / TANSY, "j1")
    _leave_leftovers_out(root)
    found = []
    for number, place in enumerate(PLACES):
        own = top / f"place {number}"
        shutil.copytree(root, own / "fits")
        command = [sys.executable, "-m", "baybook", "publish", "--no-cache", "--output", "_site"]
        command += ["--today", "2024-12-02", "--workbook", "fits"]
        subprocess.run(command, cwd=own, env=os.environ | place, check=True, capture_output=True)
        found.append(
            {
                path.relative_to(own).as_posix(): path.read_bytes()
                for part in ("_site", "fits/issued")
                for path in sorted((own / part).rglob("*"))
                if path.is_file()
            }
        )
    return found


def _leave_leftovers_out(root):
    """Keep of the translations what the two vehicles say; the rest would be refused."""

    book, problems = read_workbook(root)
    assert not problems
    said = wanted(book.fits)

    path = root / "texts" / "de.yaml"
    texts = yaml.safe_load(path.read_text("utf-8"))
    left = {text: texts[text] for text in texts if text in said}
    path.write_text(yaml.safe_dump(left, allow_unicode=True, width=10_000), "utf-8")


def test_two_places_make_the_same_files(sites):
    one, other = sites
    assert list(one) == list(other)
    assert [name for name in one if one[name] != other[name]] == []


def test_there_is_something_to_compare(sites):
    kinds = {name.rsplit(".", 1)[-1] for name in sites[0]}
    assert {"html", "pdf", "json"} <= kinds
    assert any(name.startswith("_site/de/") for name in sites[0])
    assert any(name.startswith("fits/issued/") for name in sites[0])
