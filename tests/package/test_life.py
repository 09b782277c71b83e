"""The life of a site: what stands at an address after the workbook changed.

The rules of the house: a readable fit that is refused, gone or back in draft never leaves its
old guide standing; what cannot be read leaves the site as it was; `issued/` is only added to.
"""

import json
import re
import shutil
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


def _pickup(folder):
    book = copy_workbook(folder)
    for other in book.glob("vehicles/*"):
        if other.name != "dunstrel-cobble":
            shutil.rmtree(other)
    text = (book / COBBLE).read_text("utf-8")
    (book / COBBLE).write_text(text.partition("\n  # 23 V would suit")[0] + "\n", "utf-8")
    edit(book, SHOP, "papers: [a4, letter]", "papers: [a4]")
    return book


@pytest.fixture
def shop(tmp_path):
    """Return a workbook of the pickup alone with j9 and j9b, printed on one paper."""
    return _pickup(tmp_path / "fits")


@pytest.fixture(scope="module")
def once(tmp_path_factory):
    """Return the folder of that workbook and its site, published once for the file."""
    top = tmp_path_factory.mktemp("once")
    book = _pickup(top / "fits")
    assert publish(book) == 0
    return top


@pytest.fixture
def standing(once, tmp_path):
    """Return a copy of the published workbook, its site beside it."""
    shutil.copytree(once, tmp_path / "copy")
    return tmp_path / "copy" / "fits"


def publish(book, *, today=FIRST, drafts=False):
    cache = book.parent / "cache"
    return run_publish(book, book.parent / "_site", drafts=drafts, today=today, cache=cache)


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


@pytest.mark.parametrize("spoilt", ["", "{", '{"format": 9}', '{"format": 1}'])
def test_a_spoilt_revision_stops_with_its_name(standing, spoilt, capsys):
    site = tree(standing.parent / "_site")
    (standing / ISSUED / "0001.json").write_text(spoilt)
    assert publish(standing) == 1
    assert "0001.json" in capsys.readouterr().err
    assert tree(standing.parent / "_site") == site


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


@pytest.mark.parametrize(
    ("spoil", "said"),
    [
        (
            lambda top: (top / "0003.json").write_bytes((top / "0001.json").read_bytes()),
            "name of 3",
        ),
        (lambda top: (top / "0001.json").write_text("[" * 100_000), "not a revision"),
        (lambda top: (top / "0001.json").write_bytes(b"\xff\xfe"), "not a revision"),
    ],
)
def test_issued_that_somebody_touched_stops_with_the_name_of_the_file(
    standing, spoil, said, capsys
):
    site = tree(standing.parent / "_site")
    spoil(standing / ISSUED)
    assert publish(standing) == 1
    err = capsys.readouterr().err
    assert said in err
    assert "issued/dunstrel-cobble/j9b" in err
    assert "Traceback" not in err
    assert tree(standing.parent / "_site") == site


def test_a_lost_revision_is_asked_for(standing, capsys):
    edit(standing, COBBLE, "length: 3.9 m", "length: 4.0 m")
    publish(standing, today=LATER)
    (standing / ISSUED / "0001.json").unlink()
    assert publish(standing, today=LATER) == 1
    assert "0001.json: missing, and 0002.json follows it" in capsys.readouterr().err


def test_no_two_contents_ever_have_one_number(standing, monkeypatch):
    """Killed between `issued/` and the swap, then edited: the next publish takes a new number."""
    old = tree(standing.parent / "_site")
    edit(standing, COBBLE, "length: 3.9 m", "length: 4.0 m")
    with monkeypatch.context() as killed:
        killed.setattr("baybook.publish.writer.swap", _killed)
        with pytest.raises(KeyboardInterrupt):
            publish(standing, today=LATER)
    assert tree(standing.parent / "_site") == old
    issued = tree(standing / "issued")
    edit(standing, COBBLE, "length: 4.0 m", "length: 4.1 m")
    assert publish(standing, today=LATER) == 0
    assert [issue["revision"]["number"] for issue in revisions(standing)] == [1, 2, 3]
    assert issued.items() <= tree(standing / "issued").items()


def _killed(*_):
    raise KeyboardInterrupt


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


def test_two_publishes_into_two_outputs_never_share_a_number(shop):
    command = [sys.executable, "-m", "baybook", "publish", "--workbook", str(shop)]
    command += ["--today", "2024-12-02", "--output"]
    runs = [
        subprocess.Popen([*command, str(shop.parent / name)], stderr=subprocess.PIPE, text=True)
        for name in ("one", "two")
    ]
    said = [run.communicate()[1] for run in runs]
    assert all(run.returncode in (0, 1) for run in runs)
    assert 0 in [run.returncode for run in runs]
    assert "Traceback" not in "".join(said)
    assert [issue["revision"]["number"] for issue in revisions(shop)] == [1]


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
def test_a_history_that_is_not_ours_is_told_by_name(standing, spoil, said, capsys):
    site = tree(standing.parent / "_site")
    spoil(standing / ISSUED)
    assert publish(standing) == 1
    assert said in capsys.readouterr().err
    assert tree(standing.parent / "_site") == site


def test_a_number_is_given_once(standing):
    name = "dunstrel-cobble/j9b/0001.json"
    same = (standing / "issued" / name).read_bytes()
    add_issued(standing, {name: same})
    with pytest.raises(HistoryError, match="another publish wrote it just now; publish again"):
        add_issued(standing, {name: b"{}"})
    assert (standing / "issued" / name).read_bytes() == same


def test_a_killed_publish_leaves_no_unfinished_revision_in_the_way(standing):
    (standing / ISSUED / "0002.part").write_bytes(b"{")
    edit(standing, COBBLE, "length: 3.9 m", "length: 4.0 m")
    assert publish(standing, today=LATER) == 0
    assert [issue["revision"]["number"] for issue in revisions(standing)] == [1, 2]


# ------------------------------------------------------------------ what was published before


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
    assert steps.search(old)[0] == steps.search(was)[0]
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
