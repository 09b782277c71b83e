"""What was made before is used again only where the same would be made: byte for byte.

Each test changes one thing and compares a publish with the cache to one without; and it asks
which vehicles were made, so that nothing is made in vain.
"""

import os
import re
import shutil
from datetime import date
from pathlib import Path

import pytest

from baybook import notes, pipeline, unchanged
from baybook.desk.publishing import run_publish
from baybook.pipeline import publish, render
from baybook.publish import site
from baybook.publish.store import Store
from conftest import TODAY
from workbooks import COBBLE, SHOP, TANSY, alone, copy_workbook, edit, edit_first, leave_only

JOBS = {TANSY: "j1", COBBLE: "j9"}
ALL = {"brunsall-tansy", "dunstrel-cobble", "dunstrel-cobble-tow-pack"}


@pytest.fixture(scope="module", autouse=True)
def _hand_written():
    """Leave MkDocs out: its pages depend on the tool and the frame alone."""
    page = lambda book: {"method/index.html": repr(site._frame(book)).encode()}  # noqa: E731
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(site, "written_site", page)
        patch.setattr(pipeline, "require_ways", lambda *_: None)  # links to them lead nowhere
        yield


@pytest.fixture(scope="module")
def noted(tmp_path_factory):
    """Return a folder with a workbook of three vehicles, and a cache that knows them all."""
    top = tmp_path_factory.mktemp("noted")
    root = copy_workbook(top / "fits")
    edit(root, SHOP, "papers: [a4, letter]", "papers: []")
    _without_labels(root / SHOP)
    leave_only(root, *ALL)
    for name, job in JOBS.items():
        alone(root / name, job)
    first = render(root, today=TODAY, cache=top / "cache", workers=1)
    assert (first.problems, first.lost) == ((), ())
    return top


def _without_labels(shop):
    text = re.sub(r"(?ms)^label_stock:$.*?(?=^\S|\Z)", "", shop.read_text("utf-8"))
    shop.write_text(text, "utf-8")


@pytest.fixture
def top(noted, tmp_path):
    shutil.copytree(noted, tmp_path / "copy")
    return tmp_path / "copy"


def made(root, *, today=TODAY, drafts=False, cache=None, workers=1):
    """Return a publish with the cache, after comparing it to one without; and what it made."""
    ticks = []
    again = render(
        root,
        today=today,
        drafts=drafts,
        cache=cache or root.parent / "cache",
        workers=workers,
        progress=lambda *tick: ticks.append(tick),
    )
    anew = render(root, today=today, drafts=drafts, workers=1)
    assert again.problems == anew.problems
    assert again.lost == anew.lost
    assert again.reports == anew.reports
    assert again.until == anew.until
    assert dict(again.issued) == dict(anew.issued)
    assert dict(again.files) == dict(anew.files)
    return sum(stage == "make" for stage, *_ in ticks)


def test_what_did_not_change_is_not_made_again(top):
    assert made(top / "fits") == 0


@pytest.mark.parametrize(
    ("name", "old", "new", "vehicles"),
    [
        (TANSY, "# ", "# now ", 1),
        ("datasheets/sundry/osmick-h.yaml", "# ", "# now ", 2),
        ("datasheets/charger/sorrel-240.yaml", "# ", "# now ", 3),  # their lines of the matrix
        ("datasheets/cable/cordrow-f105.yaml", "# ", "# now ", 3),
        (COBBLE, "# ", "# now ", 2),  # and its variant
        (SHOP, "# ", "# now ", 3),
    ],
)
def test_a_change_concerns_the_vehicles_that_were_made_of_it(top, name, old, new, vehicles):
    edit_first(top / "fits", name, old, new)
    assert made(top / "fits") == vehicles
    assert made(top / "fits") == 0


OWN, BASE = "vehicles/brunsall-tansy/photos/", "vehicles/dunstrel-cobble/photos/"


@pytest.mark.parametrize(("folder", "vehicles"), [(OWN, 1), (BASE, 2)], ids=["own", "the base's"])
def test_a_picture_that_changes_is_made_again_with_what_shows_it(top, folder, vehicles):
    root = top / "fits"
    first = render(root, today=TODAY, cache=top / "cache", workers=1)
    file = root / folder / "positive-clamp.png"
    file.write_bytes((root / BASE / "box-wall.png").read_bytes())
    assert made(root) == vehicles
    assert made(root) == 0
    again = render(root, today=TODAY, cache=top / "cache", workers=1)
    assert set(again.files) != set(first.files)


def test_a_picture_that_comes_or_goes_is_noticed(top):
    root = top / "fits"
    folder = root / OWN
    shutil.copy(folder / "sensor.jpg", folder / "another.jpg")  # nothing names it
    assert made(root) == 1
    (folder / "another.jpg").unlink()
    made(root)
    (folder / "sensor.jpg").rename(folder / "probe.jpg")
    made(root)  # as without a cache: told as missing, and nothing is made
    edit(root, TANSY, "    file: sensor.jpg\n", "    file: probe.jpg\n")
    made(root)
    assert made(root) == 0


def test_only_lines_of_the_matrix_are_made_of_a_sheet_that_a_vehicle_does_not_name(
    top, monkeypatch
):
    edit_first(top / "fits", "datasheets/charger/sorrel-240.yaml", "# ", "# now ")
    asked = []
    recall = notes.Notes.recall

    def watched(self, orders, texts):
        done, left = recall(self, orders, texts)
        asked.extend((order.slug, order.pages) for order in left)
        return done, left

    monkeypatch.setattr(notes.Notes, "recall", watched)
    render(top / "fits", today=TODAY, cache=top / "cache", workers=1)
    assert dict(asked) == {slug: slug == "brunsall-tansy" for slug in ALL}


def test_a_figure_that_changes_in_a_sheet_reaches_the_pages(top):
    name = "datasheets/charger/sorrel-240.yaml"
    before = (top / "fits" / name).read_text("utf-8")
    edit_first(top / "fits", name, "efficiency: 0.", "efficiency: 0.8 # 0.")
    assert (top / "fits" / name).read_text("utf-8") != before
    assert made(top / "fits") == 3


def test_a_vehicle_that_goes_or_comes_changes_the_lists_only(top):
    shutil.move(top / "fits" / "vehicles" / "brunsall-tansy", top / "away")
    assert made(top / "fits") == 0
    shutil.move(top / "away", top / "fits" / "vehicles" / "brunsall-tansy")
    assert made(top / "fits") == 0


def test_a_sheet_that_is_broken_stops_a_publish_that_could_do_without(top):
    (top / "fits" / "datasheets/sundry/osmick-c.yaml").write_text("brand: [", "utf-8")
    assert made(top / "fits") == 0


def test_a_sheet_that_is_gone_or_could_be_meant_is_noticed(top):
    root = top / "fits"
    shutil.copy(root / "datasheets/battery/lfp-120.yaml", root / "datasheets/battery/tun-500.yaml")
    made(root)
    (root / "datasheets/battery/tun-500.yaml").unlink()
    (root / "datasheets/protection/tarrock-bf32.yaml").unlink()
    made(root)


def test_another_tool_another_language_another_way_to_ask_make_everything(top, monkeypatch):
    assert made(top / "fits", drafts=True) == 3
    for module in (notes, site, unchanged):
        monkeypatch.setattr(module, "tool_digest", lambda: "another")
    assert made(top / "fits") == 3


def test_a_translation_that_changes_makes_what_says_it(top):
    root = top / "fits"
    edit(root, SHOP, "languages: [en]", "languages: [en, de]")
    wanted = {}
    for name in sorted(ALL):
        fits = notes_on(root, name)
        wanted |= fits
    lines = [f"{yaml_text(text)}: {yaml_text(text)}" for text in wanted]
    (root / "texts" / "de.yaml").write_text("\n".join(lines) + "\n", "utf-8")
    assert made(root) == 3
    assert made(root) == 0
    others = {text for name in ALL - {"brunsall-tansy"} for text in notes_on(root, name)}
    own = next(text for text in notes_on(root, "brunsall-tansy") if text not in others)
    old = f"{yaml_text(own)}: {yaml_text(own)}"
    edit(root, "texts/de.yaml", old, f"{yaml_text(own)}: {yaml_text('anders')}")
    assert made(root) == 1


def notes_on(root, slug):
    from baybook.making import Hand  # noqa: PLC0415 - this test alone
    from baybook.publish.store import PassingStore  # noqa: PLC0415

    return Hand(root, PassingStore()).glance(slug).wanted


def yaml_text(text):
    return '"' + text.replace("\\", "\\\\").replace('"', '\\"') + '"'


def test_what_was_published_since_is_asked_for(top):
    root, site_ = top / "fits", top / "site"
    published = publish(root, site_, today=TODAY, cache=top / "cache")
    assert len(published.issued) == 3
    assert made(root) == 0  # the revisions stand now, and are the ones that were made
    (revision,) = (root / "issued" / "brunsall-tansy" / "j1").iterdir()
    revision.write_text(revision.read_text("utf-8").replace('"text": "', '"text": "0', 1), "utf-8")
    assert made(root) == 1


def test_a_licence_that_lapses_makes_a_new_day(top):
    root, lapses = top / "fits", date(2026, 1, 20)
    assert render(root, today=TODAY, cache=top / "cache").until == lapses
    assert made(root, today=lapses) == 0
    assert made(root, today=date(2026, 1, 21)) == 3
    edit(root, SHOP, f"    until: {lapses} ", "    until: 2024-12-02 ")
    assert render(root, today=date(2024, 12, 2)).until == date(2024, 12, 2)


def test_a_file_that_changes_while_it_is_read_is_not_noted(top, monkeypatch):
    """A note must not say of the new file what was made of the old one."""
    root = top / "fits"
    edit_first(root, TANSY, "# ", "# now ")
    whole, looks = notes.inventory, []

    def late(workbook):
        looks.append(1)
        if len(looks) == 2:
            edit_first(root, TANSY, "# now ", "# later ")
        return whole(workbook)

    monkeypatch.setattr(notes, "inventory", late)
    render(root, today=TODAY, cache=top / "cache", workers=1)
    edit_first(root, TANSY, "# later ", "# now ")
    assert made(root) == 1


# ------------------------------------------------------------------ what is spoilt in the cache


def blobs(top, kind="blobs"):
    return sorted(path for path in (top / "cache" / kind).rglob("*") if path.is_file())


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


# ------------------------------------------------------------------ nothing to do


def stood(top):
    stats = {path: path.stat() for path in (top / "site").rglob("*")}
    return {path: (stat.st_ino, stat.st_mtime_ns) for path, stat in stats.items()}


def command(top, **changes):
    asked = {"drafts": False, "today": TODAY, "cache": top / "cache"} | changes
    return run_publish(top / "fits", top / "site", **asked)


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
    read = []
    whole = Store.read

    def watched(self, name):
        content = whole(self, name)
        if content and not content.startswith(b"RIFF"):  # pictures are weighed for the copy kept
            read.append(name)
        return content

    monkeypatch.setattr(Store, "read", watched)
    assert command(top) == 0
    assert len(read) < 5  # a comment changes no page; what did change is no more than its lists


def test_the_cache_may_lie_anywhere_but_nothing_else_is_written(top, tmp_path):
    before = sorted(Path(tmp_path).rglob("*"))
    assert command(top, cache=None) == 0
    new = {path.relative_to(top).parts[0] for path in set(tmp_path.rglob("*")) - set(before)}
    assert new == {"site", "fits"}
    assert {p.parts[len(top.parts)] for p in (top / "fits").rglob("*")} == {"fits"}
