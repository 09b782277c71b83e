"""What was published before stays readable, under a banner, or shows nothing but its data."""

import json
import re
import shutil

import pytest

from package.lives import GUIDE, ISSUED, LATER, page, publish
from workbooks import COBBLE, edit

OLD = f"{GUIDE}/r1"


@pytest.fixture(scope="module")
def changed(once, tmp_path_factory):
    """Return that workbook after one length was changed and it was published again."""
    top = tmp_path_factory.mktemp("changed") / "copy"
    shutil.copytree(once, top)
    edit(top / "fits", COBBLE, "length: 3.9 m", "length: 4.0 m")
    assert publish(top / "fits", today=LATER) == 0
    return top / "fits"


def test_an_old_revision_stays_readable_under_a_banner(changed, once):
    old, was = page(changed, OLD), page(once / "fits")
    assert "OLD REVISION. STOP." in old
    assert "OLD REVISION" not in page(changed)
    assert 'href="../../../../guides/dunstrel-cobble/j9b/index.html">Open what stands now' in old
    steps = re.compile(r'(?s)<div id="steps">.*?<section id="readings">')
    deeper = steps.search(old)[0].replace("../../../../photos/", "../../../photos/")
    assert deeper == steps.search(was)[0]
    assert steps.search(old)[0] != steps.search(page(changed))[0]
    told = json.loads((changed.parent / "_site" / OLD / "guide.json").read_text("utf-8"))
    assert told["revision"]["number"] == 1


def test_an_old_revision_is_found_from_the_new_one_and_by_no_robot(changed):
    assert 'data-revision="1" href="../../../guides/dunstrel-cobble/j9b/r1/index.html"' in page(
        changed
    )
    old = page(changed, OLD)
    assert '<meta name="robots" content="noindex">' in old
    assert 'rel="canonical" href="https://guides.example.invalid/guides/dunstrel-cobble/j9b/' in old


def test_an_old_revision_is_dropped_with_no_warning_missing(changed, tmp_path, monkeypatch):
    """One that would come out without a torque shows nothing but its data."""
    shutil.copytree(changed.parent, tmp_path / "copy")
    book = tmp_path / "copy" / "fits"
    monkeypatch.setattr("baybook.superseded.verify_entries", lambda *_: ("a torque",))
    edit(book, COBBLE, "length: 4.0 m", "length: 4.1 m")
    assert publish(book, today=LATER) == 0
    for address in (OLD, f"{GUIDE}/r2"):
        old = page(book, address)
        assert "OLD REVISION. STOP." in old
        assert "This version of the tool cannot show that revision whole" in old
        assert 'id="steps"' not in old
        assert (book.parent / "_site" / address / "guide.json").is_file()


@pytest.mark.parametrize("lacks", ["steps", "torques", "identity.variant", "boxes"])
def test_an_old_revision_of_another_shape_stops_nothing(changed, tmp_path, lacks):
    shutil.copytree(changed.parent, tmp_path / "copy")
    book = tmp_path / "copy" / "fits"
    file = book / ISSUED / "0001.json"
    issue = json.loads(file.read_text("utf-8"))
    node = issue["content"]["guide"]
    *way, last = lacks.split(".")
    for key in way:
        node = node[key]
    node.pop(last, None)
    file.write_text(json.dumps(issue), "utf-8")
    assert publish(book, today=LATER) == 0
    assert "OLD REVISION. STOP." in page(book, OLD)
