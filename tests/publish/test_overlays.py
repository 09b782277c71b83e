"""What templates of a shop's own leave out is found after rendering, and nothing is published."""

import hashlib
import shutil
from dataclasses import replace
from datetime import date
from pathlib import Path

import pytest
from click.testing import CliRunner

from baybook.cli import main
from baybook.making import Hand, Order, Shared
from baybook.publish.overlaid import read_overlay
from baybook.publish.site import SiteError
from baybook.publish.store import PassingStore
from publish.overlays import HOLD, OVERLAYS, READINGS, TORQUE, WARNING, lay_over
from workbooks import SHOP, TANSY, alone, copy_workbook, edit, leave_only

SLUG = "brunsall-tansy"
PAGE = f"guides/{SLUG}/j1/index.html: "
PAPER = f"{SLUG}/j1, print a4: "
SHARED = Shared(texts={}, drafts=False, today=date(2024, 12, 2), matrix=False)


@pytest.fixture(scope="module")
def book(tmp_path_factory):
    """Return the example with one fit, printed on one paper."""
    root = copy_workbook(tmp_path_factory.mktemp("overlaid") / "fits")
    leave_only(root, SLUG)
    alone(root / TANSY, "j1")
    edit(root, SHOP, "papers: [a4, letter]", "papers: [a4]")
    return root


def lost(book, templates=None):
    hand = Hand(book, PassingStore())
    hand.share(replace(SHARED, overlay=read_overlay(templates)))
    return hand.make(Order(slug=SLUG, issued={})).lost


@pytest.mark.parametrize("overlay", OVERLAYS, ids=str)
def test_what_an_overlay_drops_is_named_with_its_page_and_print(overlay, book, tmp_path):
    found = lost(book, lay_over(tmp_path, overlay.page, overlay.paper))
    on_page = [what.removeprefix(PAGE) for what in found if what.startswith(PAGE)]
    on_paper = [what.removeprefix(PAPER) for what in found if what.startswith(PAPER)]
    assert len(on_page) + len(on_paper) == len(found)
    assert on_page[0].startswith(overlay.lost)
    assert on_paper[0].startswith(overlay.lost_on_paper or overlay.lost)


def test_templates_laid_over_with_nothing_dropped_lose_nothing(book, tmp_path):
    own = lay_over(tmp_path, (READINGS, '<tr class="stop">', '<tr class="stop own">'))
    assert lost(book, own) == ()


def test_a_us_reader_s_other_units_stand_between_and_nothing_is_lost(book, tmp_path):
    root = Path(shutil.copytree(book, tmp_path / "fits"))
    edit(root, SHOP, "\nlanguages:", "\nunits: us\nlanguages:")
    assert lost(root) == ()


@pytest.mark.parametrize(
    ("change", "place"),
    [
        ((READINGS, "{{ m.hold(line.hold) }}", ""), "hold-5"),
        ((READINGS, "in guide.fault_tree %}", "in guide.fault_tree[1:] %}"), "tree-1"),
    ],
)  # fmt: skip
def test_what_a_page_leads_to_and_an_overlay_drops_is_a_broken_link(change, place, book, tmp_path):
    with pytest.raises(SiteError, match=f"has no `{place}`"):
        lost(book, lay_over(tmp_path, change))


@pytest.fixture(scope="module")
def site(book):
    """Return the folder of the site as it was before any overlay."""
    folder = book.parent / "_site"
    assert publish(book, folder).exit_code == 0
    return folder


def publish(book, folder, templates=None):
    call = ["publish", "--workbook", str(book), "--output", str(folder)]
    own = ["--templates", str(templates)] if templates else []
    return CliRunner().invoke(main, [*call, *own])


def state(*folders):
    return {
        file: hashlib.sha256(file.read_bytes()).hexdigest()
        for folder in folders
        for file in folder.rglob("*")
        if file.is_file()
    }


@pytest.mark.parametrize("surface", ["page", "paper"])
def test_nothing_is_published_and_the_old_site_stands(surface, book, site, tmp_path, monkeypatch):
    where = PAGE if surface == "page" else PAPER
    edits = [getattr(overlay, surface) for overlay in (WARNING, TORQUE, HOLD)]
    own = lay_over(tmp_path / "own", *edits)
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path / "cache"))
    before = state(book, site)
    answer = publish(book, site, own)
    assert answer.exit_code == 1
    assert state(book, site) == before
    said = answer.stderr.splitlines()
    for overlay in (WARNING, TORQUE, HOLD):
        what = (surface == "paper" and overlay.lost_on_paper) or overlay.lost
        assert any(
            line.startswith(f"lost on the way to the reader: {where}{what}") for line in said
        )
    assert said[-1] == "nothing was published; the site is as it was"
