"""A publish that has nothing to do does nothing, and finds what was changed or spoilt since."""

import os
import shutil
from pathlib import Path

import pytest

from baybook.pipeline import publish, render
from baybook.publish.store import Store
from caching.publishes import blobs, command, made, stood
from conftest import TODAY
from workbooks import TANSY, edit_first


@pytest.mark.parametrize("spoil", [b"", b"<html>", None])
def test_spoilt_files_are_found_and_made_again(top, spoil):
    for path in blobs(top):
        path.write_bytes(path.read_bytes()[:-1] + b"?" if spoil is None else spoil)
    rendered = publish(top / "fits", top / "site", today=TODAY, cache=top / "cache")
    there = {p: (top / "site" / p).read_bytes() for p in rendered.files}
    assert there == dict(render(top / "fits", today=TODAY, workers=1).files)


@pytest.mark.parametrize("cut", [0, 30, -1])
def test_half_written_notes_are_no_notes(top, cut):
    for path in blobs(top, "notes"):
        path.write_bytes(path.read_bytes()[:cut])
    assert made(top / "fits") == 3


def test_a_note_of_another_vehicle_is_none(top):
    notes_ = blobs(top, "notes")
    told = [path.read_bytes() for path in notes_]
    for path, of_next in zip(notes_, [*told[1:], told[0]], strict=True):
        path.write_bytes(of_next)
    assert made(top / "fits") == 3


def test_a_publish_with_nothing_to_do_does_nothing(top, capsys, monkeypatch):
    assert command(top) == 0
    said = capsys.readouterr().out
    before = stood(top)
    monkeypatch.setattr("baybook.pipeline.publish", None)
    assert command(top) == 0
    assert capsys.readouterr().out == said.replace("published", "nothing changed:")
    assert stood(top) == before


@pytest.mark.parametrize(
    "change",
    [
        lambda top: (top / "site" / "index.html").unlink(),
        lambda top: (top / "site" / "index.html").write_text("mine", "utf-8"),
        lambda top: os.utime(top / "site" / "index.html", (1, 1)),
        lambda top: shutil.rmtree(top / "site"),
        lambda top: edit_first(top / "fits", TANSY, "# ", "# now "),
        lambda top: next((top / "fits/issued").rglob("0001.json")).unlink(),
    ],
    ids=["a page gone", "a page changed", "a page touched", "no site", "a fit", "a revision gone"],
)
def test_a_publish_mends_what_was_changed_since(top, change):
    assert command(top) == 0
    change(top)
    assert command(top) == 0
    whole = render(top / "fits", today=TODAY, workers=1)
    there = {p: (top / "site" / p).read_bytes() for p in whole.files}
    assert there == dict(whole.files)
    assert not whole.issued


def test_what_stays_is_taken_over_without_being_read(top, monkeypatch):
    assert command(top) == 0
    edit_first(top / "fits", TANSY, "# ", "# now ")
    read, pictures, shared = [], [], []
    of_kind = {b"RIFF": pictures, b"[{": shared}  # what listed entries share is no file of the site
    whole = Store.read

    def watched(self, name):
        content = whole(self, name)
        kinds = [names for start, names in of_kind.items() if content.startswith(start)]
        (kinds[0] if kinds else read).append(name)
        return content

    monkeypatch.setattr(Store, "read", watched)
    assert command(top) == 0
    assert len(read) < 5  # a comment changes no page; what did change is no more than its lists
    assert shared
    assert len(shared) == len(set(shared))  # however many vehicles share it
    # The copy for the bay is weighed with its pictures: those of the vehicle that is made, once.
    assert len(pictures) == len(list((top / "site/photos/brunsall-tansy").iterdir()))


def test_the_cache_may_lie_anywhere_but_nothing_else_is_written(top, tmp_path):
    before = sorted(Path(tmp_path).rglob("*"))
    assert command(top, cache=None) == 0
    new = {path.relative_to(top).parts[0] for path in set(tmp_path.rglob("*")) - set(before)}
    assert new == {"site", "fits"}
    assert {p.parts[len(top.parts)] for p in (top / "fits").rglob("*")} == {"fits"}
