"""`baybook migrate`, with an older format invented here: there has been only one."""

import re

import pytest
from click.testing import CliRunner

from baybook.cli import main
from baybook.desk.migrate import MIGRATIONS, Migration, MigrationError, migrated
from baybook.intake.document import FORMAT
from baybook.intake.read import read_workbook
from workbooks import EXAMPLE, SHOP, TANSY, copy_workbook, edit

FUSE = "datasheets/protection/tarrock-bf70h.yaml"


def _renamed(kind, text):
    """In format 0b, `supply:` was `feed:`."""
    return re.sub(r"(?m)^feed:", "supply:", text) if kind == "vehicle" else text


def _no_bodies(_kind, text):
    """In format 0a, a vehicle had no `body:`; its outline says it."""
    outline = re.search(r"(?m)^outline: (\w+)", text)
    return re.sub(r"(?m)^(model: .*)$", rf"\1\nbody: {outline[1]}", text) if outline else text


OLDER = {
    "0a": Migration(to="0b", change=_no_bodies),
    "0b": Migration(to=FORMAT, change=_renamed),
}


@pytest.fixture
def root(tmp_path, monkeypatch):
    for old, step in OLDER.items():
        monkeypatch.setitem(MIGRATIONS, old, step)
    root = copy_workbook(tmp_path / "fits")
    edit(root, TANSY, "format: 1\n", "format: 0a # as it was\n")
    edit(root, TANSY, "\nsupply:\n", "\nfeed:\n")
    edit(root, TANSY, "body: estate\n", "")
    edit(root, FUSE, "format: 1\n", "format: '0b'\n")
    return root


def call(root, *args):
    return CliRunner().invoke(main, ["migrate", "--workbook", str(root), *args])


def test_old_files_go_step_by_step_and_then_are_read(root):
    assert {fault.code for fault in read_workbook(root)[1]} == {"DA-11"}
    done = call(root)
    assert done.exit_code == 0
    assert done.stdout.splitlines() == [
        str(root / FUSE), str(root / TANSY), "2 brought up to format 1"
    ]  # fmt: skip
    assert read_workbook(root)[1] == ()
    assert "format: 1 # as it was" in (root / TANSY).read_text("utf-8")
    assert "every file" in call(root).stdout


def test_a_dry_run_writes_nothing(root):
    before = (root / TANSY).read_bytes()
    assert "2 to bring" in call(root, "--dry-run").stdout
    assert (root / TANSY).read_bytes() == before


@pytest.mark.parametrize("old", ["2", "0"])
def test_one_file_of_a_format_that_nobody_knows_and_none_is_written(root, old):
    edit(root, SHOP, "format: 1\n", f"format: {old}\n")
    before = (root / TANSY).read_bytes()
    done = call(root)
    assert done.exit_code == 1
    assert f"shop.yaml: format {old} is not known; known: 0a, 0b, 1" in done.stderr
    assert "nothing written" in done.stderr
    assert (root / TANSY).read_bytes() == before


def test_a_file_without_a_format_or_that_no_one_can_read_is_named(root):
    edit(root, SHOP, "format: 1\n", "")
    (root / FUSE).write_bytes(b"\xff\xfe")
    done = call(root)
    assert done.exit_code == 1
    assert "no line `format:`" in done.stderr
    assert "cannot be read" in done.stderr


def test_a_migration_that_breaks_a_file_or_goes_in_a_ring_is_stopped():
    broken = {"0": Migration(to="1", change=lambda _kind, text: text + "\n\t[")}
    with pytest.raises(MigrationError, match="unreadable"):
        migrated("format: 0\n", "shop", broken)
    ring = {old: Migration(to=to, change=lambda _k, text: text) for old, to in ("ab", "ba")}
    with pytest.raises(MigrationError, match="not known"):
        migrated("format: a\n", "shop", ring)


FILES = sorted(path for path in EXAMPLE.rglob("*.yaml") if "texts" not in path.parts)


@pytest.mark.parametrize("path", FILES, ids=lambda path: path.stem)
def test_what_is_up_to_date_stays_as_it_is(path):
    text = path.read_text("utf-8")
    if "issued" not in path.parts:
        assert migrated(text, "shop") == text


def test_each_migration_that_ships_leads_to_today():
    for old in MIGRATIONS:
        assert migrated(f"format: {old}\n", "shop").startswith(f"format: {FORMAT}")
