"""The writer: the old site whole or the new one whole, and nothing that is not ours is touched."""

import signal
import subprocess
import sys
import textwrap
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from baybook.publish import swap as swapping
from baybook.publish import writer
from baybook.publish.writer import MARKER, WriterError, publish_tree

OLD = {"index.html": b"old", "a/same.html": b"same", "a/b/gone.pdf": b"gone"}
NEW = {"index.html": b"new", "a/same.html": b"same", "c/more.html": b"more"}


def tree(folder: Path) -> dict[str, bytes]:
    return {
        file.relative_to(folder).as_posix(): file.read_bytes()
        for file in folder.rglob("*")
        if file.is_file() and file.name != MARKER
    }


def leftovers(folder: Path) -> list[str]:
    return [path.name for path in folder.iterdir() if "baybook" in path.name]


@pytest.fixture
def output(tmp_path):
    publish_tree(OLD, tmp_path / "_site")
    return tmp_path / "_site"


# ------------------------------------------------------------------ what it writes


def test_the_output_holds_exactly_the_files(output):
    assert tree(output) == OLD
    publish_tree(NEW, output)
    assert tree(output) == NEW
    assert leftovers(output.parent) == []


def test_an_empty_folder_is_taken(tmp_path):
    (tmp_path / "_site").mkdir()
    publish_tree(NEW, tmp_path / "_site")
    assert tree(tmp_path / "_site") == NEW


def test_unchanged_files_are_linked_and_changed_ones_are_new(output):
    same = (output / "a/same.html").stat()
    changed = (output / "index.html").stat()
    done = publish_tree(NEW, output)
    assert (output / "a/same.html").stat().st_ino == same.st_ino
    assert (output / "index.html").stat().st_ino != changed.st_ino
    assert (done.new, done.kept, done.gone) == (2, 1, 1)


def test_a_link_that_somebody_put_there_is_not_taken_over(output, tmp_path):
    (tmp_path / "elsewhere").write_bytes(b"same")
    (output / "a/same.html").unlink()
    (output / "a/same.html").symlink_to(tmp_path / "elsewhere")
    publish_tree(NEW, output)
    assert not (output / "a/same.html").is_symlink()
    assert (tmp_path / "elsewhere").read_bytes() == b"same"


def test_an_output_that_is_a_link_keeps_being_one(tmp_path):
    publish_tree(OLD, tmp_path / "real")
    (tmp_path / "_site").symlink_to(tmp_path / "real")
    publish_tree(NEW, tmp_path / "_site")
    assert (tmp_path / "_site").is_symlink()
    assert tree(tmp_path / "real") == NEW


PART = st.text(st.sampled_from("ab-.é "), min_size=1, max_size=4).filter(
    lambda p: p not in {".", ".."}
)
ADDRESS = st.lists(PART, min_size=1, max_size=3).map("/".join)


def parted(files):
    """Drop a file that another one needs as its folder."""
    folders = {"/".join(a.split("/")[:n]) for a in files for n in range(1, a.count("/") + 1)}
    return {address: content for address, content in files.items() if address not in folders}


@given(
    old=st.dictionaries(ADDRESS, st.binary(max_size=8), max_size=6).map(parted),
    new=st.dictionaries(ADDRESS, st.binary(max_size=8), max_size=6).map(parted),
)
def test_any_site_gives_way_to_any_other(tmp_path_factory, old, new):
    output = tmp_path_factory.mktemp("any") / "_site"
    publish_tree(old, output)
    publish_tree(new, output)
    assert tree(output) == new
    assert leftovers(output.parent) == []


# ------------------------------------------------------------------ what it refuses


@pytest.mark.parametrize(
    "address",
    [
        "../up",
        "a/../../up",
        "/etc/x",
        "a//b",
        "./a",
        "",
        ".",
        "a\\b",
        "C:x",
        "a\0b",
        ".baybook",
        ".Baybook/x",
        "a/",
    ],
)
def test_no_address_leaves_the_output(output, address):
    with pytest.raises(WriterError, match="no address inside a site"):
        publish_tree({"index.html": b"new", address: b"x"}, output)
    assert tree(output) == OLD


def test_a_folder_of_somebody_else_is_refused(tmp_path):
    (tmp_path / "_site").mkdir()
    (tmp_path / "_site/thesis.odt").write_bytes(b"mine")
    with pytest.raises(WriterError, match="was not made by baybook"):
        publish_tree(NEW, tmp_path / "_site")
    assert tree(tmp_path / "_site") == {"thesis.odt": b"mine"}


def test_a_foreign_file_in_our_output_is_refused_by_name(output):
    (output / "CNAME").write_bytes(b"mine")
    with pytest.raises(WriterError, match="holds CNAME, not made by baybook; move it out first"):
        publish_tree(NEW, output)
    assert tree(output) == OLD | {"CNAME": b"mine"}


def test_a_marker_alone_does_not_make_a_folder_ours(tmp_path):
    (tmp_path / "_site").mkdir()
    (tmp_path / "_site" / MARKER).write_text("something else\n")
    with pytest.raises(WriterError, match="was not made by baybook"):
        publish_tree(NEW, tmp_path / "_site")


def test_a_file_in_the_place_of_the_output_is_refused(tmp_path):
    (tmp_path / "_site").write_bytes(b"mine")
    with pytest.raises(WriterError, match="is a file"):
        publish_tree(NEW, tmp_path / "_site")


@pytest.mark.parametrize(("output", "workbook"), [("w/_site", "w"), ("o", "o/w"), ("x", "x")])
def test_output_and_workbook_never_lie_in_each_other(tmp_path, output, workbook):
    (tmp_path / workbook).mkdir(parents=True)
    with pytest.raises(WriterError, match="lie in each other"):
        publish_tree(NEW, tmp_path / output, workbook=tmp_path / workbook)


def test_a_linked_way_into_the_workbook_is_seen(tmp_path):
    (tmp_path / "w").mkdir()
    (tmp_path / "link").symlink_to(tmp_path / "w")
    with pytest.raises(WriterError, match="lie in each other"):
        publish_tree(NEW, tmp_path / "link" / "_site", workbook=tmp_path / "w")


def test_a_disk_that_says_no_gives_one_sentence(output, monkeypatch):
    def full(*_):
        raise OSError(28, "No space left on device", "index.html")

    monkeypatch.setattr(writer, "_place", full)
    with pytest.raises(WriterError, match="cannot be written: No space left on device"):
        publish_tree(NEW, output)
    assert tree(output) == OLD
    assert leftovers(output.parent) == []


# ------------------------------------------------------------------ killed, at any point

KILLED = """
    import os, signal, sys
    from pathlib import Path
    from baybook.publish import swap, writer

    def die(*_, **__):
        os.kill(os.getpid(), signal.SIGKILL)

    def after(calls, real):
        def counted(*given):
            calls.append(1)
            if len(calls) == {number}:
                die()
            return real(*given)
        return counted

    {point}
    writer.publish_tree({files!r}, Path({output!r}))
"""
POINTS = {
    "staging 1": "writer._place = after([], writer._place)",
    "staging 2": "writer._place = after([1], writer._place)",
    "before the swap": "writer.swap = die",
    "after the swap": "real = writer.swap; writer.swap = lambda *a: (real(*a), die())",
    "between two renames": (
        "swap.exchange = lambda *_: False; real = Path.rename\n"
        "    Path.rename = lambda s, t: (real(s, t), str(t).endswith('previous') and die())"
    ),
    "while the old site goes": "writer.shutil.rmtree = die",
}


@pytest.mark.parametrize("point", POINTS)
def test_a_killed_publish_leaves_the_old_site_or_the_new_one(output, point):
    code = KILLED.format(number=2, point=POINTS[point], files=NEW, output=str(output))
    done = subprocess.run([sys.executable, "-c", textwrap.dedent(code)], check=False)
    assert done.returncode == -signal.SIGKILL

    if point == "between two renames":
        # For a moment there is no folder; the next run of anything puts the old one back.
        swapping.recover(output, output.with_name("._site.baybook-previous"))
    assert tree(output) in (OLD, NEW)
    assert tree(output) == (NEW if point in {"after the swap", "while the old site goes"} else OLD)

    publish_tree(NEW | {"late.html": b"late"}, output)
    assert tree(output) == NEW | {"late.html": b"late"}
    assert leftovers(output.parent) == []


def test_the_two_renames_do_the_same_where_there_is_no_exchange(output, monkeypatch):
    monkeypatch.setattr(swapping, "exchange", lambda *_: False)
    publish_tree(NEW, output)
    assert tree(output) == NEW
    assert leftovers(output.parent) == []


def test_a_second_rename_that_fails_puts_the_old_site_back(output, monkeypatch):
    monkeypatch.setattr(swapping, "exchange", lambda *_: False)
    real = Path.rename

    def failing(self, target):
        if self.name.endswith("staging"):
            raise OSError(5, "Input/output error", str(self))
        return real(self, target)

    monkeypatch.setattr(Path, "rename", failing)
    with pytest.raises(WriterError, match="Input/output error"):
        publish_tree(NEW, output)
    assert tree(output) == OLD


def test_this_machine_exchanges_in_one_step(tmp_path):
    (tmp_path / "a").mkdir()
    (tmp_path / "b").mkdir()
    (tmp_path / "a/x").write_bytes(b"")
    assert swapping.exchange(tmp_path / "a", tmp_path / "b")
    assert (tmp_path / "b/x").exists()


def test_two_publishes_do_not_meet(output):
    code = f"""
        from pathlib import Path
        from baybook.publish import writer
        with writer._lock(Path({str(output.parent)!r})):
            print("locked", flush=True)
            input()
    """
    command = [sys.executable, "-c", textwrap.dedent(code)]
    with subprocess.Popen(
        command, stdin=subprocess.PIPE, stdout=subprocess.PIPE, text=True
    ) as other:
        assert other.stdout.readline() == "locked\n"
        with pytest.raises(WriterError, match="another publish is writing"):
            publish_tree(NEW, output)
        assert tree(output) == OLD
        other.communicate("\n")
    publish_tree(NEW, output)
    assert tree(output) == NEW


def test_a_leftover_that_is_not_ours_is_not_taken_away(output):
    foreign = output.with_name("._site.baybook-staging")
    foreign.mkdir()
    (foreign / "mine.txt").write_bytes(b"mine")
    with pytest.raises(WriterError, match="in the way"):
        publish_tree(NEW, output)
    assert (foreign / "mine.txt").read_bytes() == b"mine"
    assert tree(output) == OLD
