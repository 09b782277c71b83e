"""`issued/`: only added to, read before anything is written, and never two contents of a number."""

import subprocess
import sys

import pytest

from baybook.publish.history import LARGEST, HistoryError, add_issued
from package.lives import ISSUED, LATER, publish, revisions, tree
from workbooks import COBBLE, edit


@pytest.mark.parametrize("spoilt", ["", "{", '{"format": 9}', '{"format": 1}'])
def test_a_spoilt_revision_stops_with_its_name(standing, spoilt, capsys):
    site = tree(standing.parent / "_site")
    (standing / ISSUED / "0001.json").write_text(spoilt)
    assert publish(standing) == 1
    assert "0001.json" in capsys.readouterr().err
    assert tree(standing.parent / "_site") == site


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


class Asked(dict):
    """Files of which the next may only be asked for when the one before is written."""

    def __init__(self, folder, files):
        super().__init__(files)
        self.folder, self.before = folder, []

    def __getitem__(self, name):
        assert all((self.folder / "issued" / one).is_file() for one in self.before)
        self.before.append(name)
        return super().__getitem__(name)

    def items(self):
        raise AssertionError("all at once")

    values = items


def test_revisions_are_written_one_after_another(tmp_path):
    files = Asked(tmp_path, {f"van/j{n}/0001.json": b"{}" for n in range(3)})
    add_issued(tmp_path, files)
    assert files.before == sorted(files)


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


def _swollen(folder):
    file = folder / "0001.json"
    file.write_bytes(file.read_bytes() + b" " * LARGEST)


@pytest.mark.parametrize(
    ("spoil", "said"),
    [
        (_swollen, "0001.json: more than 20,000,000 bytes; take issued/ back"),
        (_foreign, "notes.txt: not a revision; issued/ holds VEHICLE/FIT/0001.json"),
        (_linked, "0002.json: a link; put the files themselves in its place"),
        (_renumbered, "0002.json: holds revision 1 under the name of 2"),
    ],
    ids=["swollen file", "foreign file", "link", "wrong number"],
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
