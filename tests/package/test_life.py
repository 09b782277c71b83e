"""The life of a site: what stands at an address after the workbook changed.

The rules of the house: a readable fit that is refused, gone or back in draft never leaves its
old guide standing; what cannot be read leaves the site as it was; `issued/` is only added to.
"""

import signal
import subprocess
import sys
import time
from datetime import date

from baybook.desk.publishing import run_publish
from package.lives import FIRST, LATER, page, publish, refuse, revisions, tree
from workbooks import COBBLE, SHOP, edit


def test_a_second_publish_changes_nothing(shop):
    assert publish(shop) == 0
    site, issued = tree(shop.parent / "_site"), tree(shop / "issued")
    assert publish(shop, today=LATER) == 0
    assert tree(shop.parent / "_site") == site
    assert tree(shop / "issued") == issued


def test_a_changed_figure_is_a_new_revision_and_the_old_one_is_kept(standing):
    before = tree(standing / "issued")
    edit(standing, COBBLE, "length: 3.9 m", "length: 4.0 m")
    assert publish(standing, today=LATER) == 0
    after = revisions(standing)
    assert [issue["revision"]["number"] for issue in after] == [1, 2]
    assert after[0]["revision"]["figures"] != after[1]["revision"]["figures"]
    assert before.items() <= tree(standing / "issued").items()
    assert "J9B, revision 2<" in page(standing)


def test_a_refused_fit_is_withdrawn_and_the_rest_is_published(standing, capsys):
    refuse(standing)
    assert publish(standing, today=LATER) == 1
    text = page(standing)
    assert "WITHDRAWN" in text
    assert "2025-06-02" in text
    assert "HOLD 4" not in text
    assert "Refused" in page(standing, "guides/dunstrel-cobble/j9")
    assert "CA-02" in capsys.readouterr().err
    assert revisions(standing)[-1]["kind"] == "withdrawal"
    issued = tree(standing / "issued")
    assert publish(standing, today=date(2025, 7, 1)) == 1
    assert tree(standing / "issued") == issued


def test_a_withdrawn_guide_may_come_back_as_the_next_revision(standing):
    text = (standing / COBBLE).read_text("utf-8")
    refuse(standing)
    publish(standing, today=LATER)
    (standing / COBBLE).write_text(text, "utf-8")
    assert publish(standing, today=LATER) == 0
    assert [issue["kind"] for issue in revisions(standing)] == ["guide", "withdrawal", "guide"]
    assert "WITHDRAWN" not in page(standing)


def test_a_renamed_fit_leaves_a_withdrawal_at_its_old_address(standing):
    file = standing / COBBLE
    file.write_text(file.read_text("utf-8").replace(": j9b\n", ": j9c\n"), "utf-8")
    assert publish(standing, today=LATER) == 0
    assert "WITHDRAWN" in page(standing)
    assert "HOLD 4" in page(standing, "guides/dunstrel-cobble/j9c")


def test_a_guide_without_its_required_approval_is_a_draft(standing):
    edit(standing, SHOP, "approval_required: false", "approval_required: true")
    assert publish(standing, today=LATER) == 0
    assert "WITHDRAWN" in page(standing)
    assert publish(standing, today=LATER, drafts=True) == 0
    text = page(standing)
    assert "DRAFT" in text
    assert "none is recorded" in text
    assert "noindex" in text


def test_a_draft_that_is_left_out_is_said_with_what_an_approval_needs(standing, capsys):
    edit(standing, SHOP, "approval_required: false", "approval_required: true")
    assert publish(standing, today=LATER) == 0
    (line,) = [text for text in capsys.readouterr().err.splitlines() if "a draft" in text]
    assert line.startswith("dunstrel-cobble/j9b: a draft, left out; --drafts publishes it: ")
    figures = line.rpartition(" ")[2]
    text = (standing / COBBLE).read_text("utf-8")
    head, tail = text.split("  - id: j9b", 1)
    approval = f"    approvals: [{{by: approver, on: 2025-06-01, figures: {figures}}}]\n"
    text = f"{head}  - id: j9b" + tail.replace("    checked:", f"{approval}    checked:", 1)
    (standing / COBBLE).write_text(text, "utf-8")
    assert publish(standing, today=LATER) == 0
    assert "a draft" not in capsys.readouterr().err
    assert "WITHDRAWN" not in page(standing)


def test_a_workbook_without_a_fit_says_so(standing, capsys):
    text = (standing / COBBLE).read_text("utf-8")
    (standing / COBBLE).write_text(text.split("\nfits:")[0] + "\nfits: []\n", "utf-8")
    assert publish(standing, today=LATER) == 0
    assert "the site has no guide" in capsys.readouterr().err
    assert "WITHDRAWN" in page(standing)


def test_a_kept_refusal_that_passes_is_an_error(shop, capsys):
    edit(shop, COBBLE, "    asked:\n      area: 16 mm²\n", "")
    assert publish(shop) == 1
    assert "KR-01" in capsys.readouterr().err
    assert not (shop.parent / "_site/guides/dunstrel-cobble/j9").exists()


def test_what_cannot_be_read_leaves_the_site_as_it_was(standing, capsys):
    site, issued = tree(standing.parent / "_site"), tree(standing / "issued")
    edit(standing, COBBLE, "length: 3.9 m", "length: 3,9 m")
    assert publish(standing, today=LATER) == 1
    assert tree(standing.parent / "_site") == site
    assert tree(standing / "issued") == issued
    assert "nothing was published; the site is as it was" in capsys.readouterr().err


def test_an_output_inside_the_workbook_is_refused_before_any_work(shop, capsys):
    start = time.perf_counter()
    assert run_publish(shop, shop / "_site", drafts=False, today=FIRST, cache=None) == 1
    assert time.perf_counter() - start < 1.0
    assert "name an output outside the workbook, such as --output" in capsys.readouterr().err


def test_an_output_that_cannot_be_written_is_one_message(shop, capsys):
    blocked = shop.parent / "blocked"
    blocked.write_text("a file")
    assert run_publish(shop, blocked / "_site", drafts=False, today=FIRST, cache=None) == 1
    said = capsys.readouterr().err
    assert "nothing was published" in said
    assert "Traceback" not in said
    assert blocked.read_text() == "a file"


def test_a_disk_without_room_is_one_message_and_keeps_all(standing):
    site, issued = tree(standing.parent / "_site"), tree(standing / "issued")
    edit(standing, COBBLE, "length: 3.9 m", "length: 4.0 m")
    for room in (20_000, 100_000):
        code = (
            "import resource, sys; from baybook.cli import main;"
            f"resource.setrlimit(resource.RLIMIT_FSIZE, ({room}, {room}));"
            "sys.argv[0] = 'baybook'; main()"
        )
        command = [sys.executable, "-c", code, "publish", "--workbook", str(standing)]
        command += ["--output", str(standing.parent / "_site"), "--today", "2025-06-02"]
        done = subprocess.run(command, capture_output=True, text=True, check=False)
        assert done.returncode == 1
        assert "nothing was published" in done.stderr
        assert "Traceback" not in done.stderr
        assert tree(standing.parent / "_site") == site
        assert tree(standing / "issued") == issued


def test_a_killed_publish_leaves_the_old_site_or_the_new_one(standing):
    old = tree(standing.parent / "_site")
    edit(standing, COBBLE, "length: 3.9 m", "length: 4.0 m")
    command = [sys.executable, "-m", "baybook", "publish", "--workbook", str(standing)]
    command += ["--output", str(standing.parent / "_site"), "--today", "2025-06-02"]
    for wait in (0.3, 1.5, 2.5, 3.2):
        run = subprocess.Popen(command, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
        time.sleep(wait)
        run.send_signal(signal.SIGKILL)
        run.wait()
        now = tree(standing.parent / "_site")
        assert now == old or "J9B, revision 2<" in page(standing)
    assert subprocess.run(command, capture_output=True, check=False).returncode == 0
    assert "J9B, revision 2<" in page(standing)
    leftovers = {p.name for p in standing.parent.iterdir()} - {"fits", "_site", "cache"}
    assert leftovers == set()
    assert [issue["revision"]["number"] for issue in revisions(standing)] == [1, 2]
