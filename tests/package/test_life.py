"""The life of a site: what stands at an address after the workbook changed.

The rules of the house: a readable fit that is refused, gone or back in draft never leaves its
old guide standing; what cannot be read leaves the site as it was; `issued/` is only added to.
"""

import json
import signal
import subprocess
import sys
import time
from datetime import date

import pytest

from baybook.desk.publishing import run_publish
from baybook.publish.history import HistoryError, add_issued
from workbooks import COBBLE, SHOP, copy_workbook, edit

FIRST, LATER = date(2024, 12, 2), date(2025, 6, 2)
GUIDE = "guides/dunstrel-cobble/j9b"
ISSUED = "issued/dunstrel-cobble/j9b"


@pytest.fixture
def shop(tmp_path):
    """Return a workbook of the pickup alone with j9 and j9b, printed on one paper."""
    book = copy_workbook(tmp_path / "fits")
    for other in (book / "vehicles").iterdir():
        if other.name != "dunstrel-cobble":
            (other / "vehicle.yaml").unlink()
            other.rmdir()
    text = (book / COBBLE).read_text("utf-8")
    (book / COBBLE).write_text(text.partition("\n  # 23 V would suit")[0] + "\n", "utf-8")
    edit(book, SHOP, "papers: [a4, letter]", "papers: [a4]")
    return book


def publish(book, *, today=FIRST, drafts=False):
    return run_publish(book, book.parent / "_site", drafts=drafts, today=today)


def page(book, address=GUIDE):
    return (book.parent / "_site" / address / "index.html").read_text("utf-8")


def tree(folder):
    return {p.relative_to(folder): p.read_bytes() for p in sorted(folder.rglob("*")) if p.is_file()}


def revisions(book, fit=ISSUED):
    return [json.loads(p.read_text("utf-8")) for p in sorted((book / fit).glob("*.json"))]


def refuse(book):
    """Ask for the size that hunts, without expecting the refusal."""
    text = (book / COBBLE).read_text("utf-8")
    head, tail = text.split("  - id: j9b", 1)
    asked = tail.replace("    checked:", "    asked:\n      area: 16 mm²\n    checked:", 1)
    (book / COBBLE).write_text(f"{head}  - id: j9b{asked}", "utf-8")


def test_a_second_publish_changes_nothing(shop):
    assert publish(shop) == 0
    site, issued = tree(shop.parent / "_site"), tree(shop / "issued")
    assert publish(shop, today=LATER) == 0
    assert tree(shop.parent / "_site") == site
    assert tree(shop / "issued") == issued


def test_a_changed_figure_is_a_new_revision_and_the_old_one_is_kept(shop):
    publish(shop)
    before = tree(shop / "issued")
    edit(shop, COBBLE, "length: 3.9 m", "length: 4.0 m")
    assert publish(shop, today=LATER) == 0
    after = revisions(shop)
    assert [issue["revision"]["number"] for issue in after] == [1, 2]
    assert after[0]["revision"]["figures"] != after[1]["revision"]["figures"]
    assert before.items() <= tree(shop / "issued").items()
    assert "revision 2" in page(shop)


def test_a_refused_fit_is_withdrawn_and_the_rest_is_published(shop, capsys):
    publish(shop)
    refuse(shop)
    assert publish(shop, today=LATER) == 1
    text = page(shop)
    assert "WITHDRAWN" in text
    assert "2025-06-02" in text
    assert "HOLD 4" not in text
    assert "Refused" in page(shop, "guides/dunstrel-cobble/j9")
    assert "CA-02" in capsys.readouterr().err
    assert revisions(shop)[-1]["kind"] == "withdrawal"
    issued = tree(shop / "issued")
    assert publish(shop, today=date(2025, 7, 1)) == 1
    assert tree(shop / "issued") == issued


def test_a_withdrawn_guide_may_come_back_as_the_next_revision(shop):
    publish(shop)
    text = (shop / COBBLE).read_text("utf-8")
    refuse(shop)
    publish(shop, today=LATER)
    (shop / COBBLE).write_text(text, "utf-8")
    assert publish(shop, today=LATER) == 0
    assert [issue["kind"] for issue in revisions(shop)] == ["guide", "withdrawal", "guide"]
    assert "WITHDRAWN" not in page(shop)


def test_a_renamed_fit_leaves_a_withdrawal_at_its_old_address(shop):
    publish(shop)
    edit(shop, COBBLE, "- id: j9b", "- id: j9c")
    assert publish(shop, today=LATER) == 0
    assert "WITHDRAWN" in page(shop)
    assert "HOLD 4" in page(shop, "guides/dunstrel-cobble/j9c")


def test_a_guide_without_its_required_approval_is_a_draft(shop):
    publish(shop)
    edit(shop, SHOP, "approval_required: false", "approval_required: true")
    assert publish(shop, today=LATER) == 0
    assert "WITHDRAWN" in page(shop)
    assert publish(shop, today=LATER, drafts=True) == 0
    text = page(shop)
    assert "DRAFT" in text
    assert "none is recorded" in text
    assert "noindex" in text


def test_a_kept_refusal_that_passes_is_an_error(shop, capsys):
    edit(shop, COBBLE, "    asked:\n      area: 16 mm²\n", "")
    assert publish(shop) == 1
    assert "KR-01" in capsys.readouterr().err
    assert not (shop.parent / "_site/guides/dunstrel-cobble/j9").exists()


def test_what_cannot_be_read_leaves_the_site_as_it_was(shop, capsys):
    publish(shop)
    site, issued = tree(shop.parent / "_site"), tree(shop / "issued")
    edit(shop, COBBLE, "length: 3.9 m", "length: 3,9 m")
    assert publish(shop, today=LATER) == 1
    assert tree(shop.parent / "_site") == site
    assert tree(shop / "issued") == issued
    assert "nothing was published; the site is as it was" in capsys.readouterr().err


@pytest.mark.parametrize("spoilt", ["", "{", '{"format": 9}', '{"format": 1}'])
def test_a_spoilt_revision_stops_with_its_name(shop, spoilt, capsys):
    publish(shop)
    site = tree(shop.parent / "_site")
    (shop / ISSUED / "0001.json").write_text(spoilt)
    assert publish(shop) == 1
    assert "0001.json" in capsys.readouterr().err
    assert tree(shop.parent / "_site") == site


def test_a_killed_publish_leaves_the_old_site_or_the_new_one(shop):
    publish(shop)
    old = tree(shop.parent / "_site")
    edit(shop, COBBLE, "length: 3.9 m", "length: 4.0 m")
    command = [sys.executable, "-m", "baybook", "publish", "--workbook", str(shop)]
    command += ["--output", str(shop.parent / "_site"), "--today", "2025-06-02"]
    for wait in (0.3, 1.0, 2.0, 3.0, 4.0):
        run = subprocess.Popen(command, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
        time.sleep(wait)
        run.send_signal(signal.SIGKILL)
        run.wait()
        now = tree(shop.parent / "_site")
        assert now == old or "revision 2" in page(shop)
    assert subprocess.run(command, capture_output=True, check=False).returncode == 0
    assert "revision 2" in page(shop)
    leftovers = {p.name for p in shop.parent.iterdir()} - {"fits", "_site"}
    assert leftovers == set()
    assert [issue["revision"]["number"] for issue in revisions(shop)] == [1, 2]


def test_an_output_inside_the_workbook_is_refused_before_any_work(shop, capsys):
    start = time.perf_counter()
    assert run_publish(shop, shop / "_site", drafts=False, today=FIRST) == 1
    assert time.perf_counter() - start < 1.0
    assert "name an output outside the workbook with --output" in capsys.readouterr().err


def test_an_output_that_cannot_be_written_is_one_message(shop, capsys):
    blocked = shop.parent / "blocked"
    blocked.write_text("a file")
    assert run_publish(shop, blocked / "_site", drafts=False, today=FIRST) == 1
    said = capsys.readouterr().err
    assert "nothing was published" in said
    assert "Traceback" not in said
    assert blocked.read_text() == "a file"


def _foreign(folder):
    (folder / "notes.txt").write_text("mine")


def _linked(folder):
    (folder / "0002.json").symlink_to(folder / "0001.json")


def _renumbered(folder):
    (folder / "0001.json").rename(folder / "0002.json")


@pytest.mark.parametrize(
    ("spoil", "said"),
    [
        (_foreign, "notes.txt: not a revision; issued/ holds VEHICLE/FIT/0001.json"),
        (_linked, "0002.json: a link; put the files themselves in its place"),
        (_renumbered, "0002.json: holds revision 1 under the name of 2"),
    ],
    ids=["foreign file", "link", "wrong number"],
)
def test_a_history_that_is_not_ours_is_told_by_name(shop, spoil, said, capsys):
    publish(shop)
    site = tree(shop.parent / "_site")
    spoil(shop / ISSUED)
    assert publish(shop) == 1
    assert said in capsys.readouterr().err
    assert tree(shop.parent / "_site") == site


def test_a_number_is_given_once(shop):
    publish(shop)
    name = "dunstrel-cobble/j9b/0001.json"
    same = (shop / "issued" / name).read_bytes()
    add_issued(shop, {name: same})
    with pytest.raises(HistoryError, match="another publish wrote it just now; publish again"):
        add_issued(shop, {name: b"{}"})
    assert (shop / "issued" / name).read_bytes() == same


def test_a_killed_publish_leaves_no_unfinished_revision_in_the_way(shop):
    publish(shop)
    (shop / ISSUED / "0002.part").write_bytes(b"{")
    edit(shop, COBBLE, "length: 3.9 m", "length: 4.0 m")
    assert publish(shop, today=LATER) == 0
    assert [issue["revision"]["number"] for issue in revisions(shop)] == [1, 2]
