"""What a tired person does to a workbook, and where and how each slip is told."""

import re

import pytest

from intake.faults import faults, tell
from refused.slips import DEVICES, LEFT_OUT, PUNCTUATION, SLIPS, SORREL
from workbooks import COBBLE, SHOP, TANSY, copy_workbook, edit, edit_first


def _named(slips):
    return [f"{number}:{slip[2].strip()[:30]}" for number, slip in enumerate(slips)]


@pytest.mark.parametrize("slip", SLIPS, ids=_named(SLIPS))
def test_a_slip_is_told_once_and_where_it_is(tmp_path, slip):
    file, old, new, code, place, found, right = slip
    root = copy_workbook(tmp_path / "fits")
    line = (root / file).read_text("utf-8").split(old)[0].count("\n") + 1
    edit_first(root, file, old, new)
    (fault,) = faults(root)
    assert fault.code == code
    assert fault.where.file == f"fits/{file}"
    assert -2 <= fault.where.line - line <= 2
    assert place in fault.place
    assert found in tell(fault.found)
    assert right in tell(fault.allowed)


@pytest.mark.parametrize("slip", LEFT_OUT, ids=[slip[4] for slip in LEFT_OUT])
def test_what_was_left_out_or_swapped_is_named(tmp_path, slip):
    file, old, new, code, place = slip
    root = copy_workbook(tmp_path / "fits")
    edit_first(root, file, old, new)
    found = faults(root)
    assert {fault.where.file for fault in found} == {f"fits/{file}"}
    assert any(fault.code == code and place in fault.place for fault in found)


@pytest.mark.parametrize(("file", "old", "new", "reason"), PUNCTUATION, ids=_named(PUNCTUATION))
def test_broken_punctuation_is_told_in_plain_words(tmp_path, file, old, new, reason):
    root = copy_workbook(tmp_path / "fits")
    line = (root / file).read_text("utf-8").split(old)[0].count("\n") + 1
    edit_first(root, file, old, new)
    (fault,) = faults(root)
    assert fault.code == "DA-03"
    assert fault.way_out.id == f"data.{reason}.way_out"
    assert 0 <= fault.where.line - line <= 1


@pytest.mark.parametrize(("file", "old", "new", "reason"), DEVICES, ids=_named(DEVICES))
def test_what_hides_a_value_is_refused(tmp_path, file, old, new, reason):
    root = copy_workbook(tmp_path / "fits")
    edit_first(root, file, old, new)
    fault = next(found for found in faults(root) if found.code == "DA-04")
    assert fault.way_out.id == f"data.{reason}.way_out"


def test_a_bomb_of_aliases_is_told_and_not_unfolded(tmp_path):
    root = copy_workbook(tmp_path / "fits")
    rows = [f"a{n}: &a{n} [{', '.join([f'*a{n - 1}'] * 9)}]" for n in range(1, 9)]
    bomb = "a0: &a0 boom\n" + "\n".join(rows) + "\n"
    edit(root, SHOP, "format: 1\n", "format: 1\n" + bomb)
    assert {fault.code for fault in faults(root)} == {"DA-04", "DA-07"}


@pytest.mark.parametrize(
    ("extra", "reason"),
    [("deep: " + "[" * 50 + "]" * 50, "deep"), ("many: [" + "a, " * 50_001 + "a]", "many")],
    ids=["deep", "many"],
)
def test_a_file_beyond_all_measure_is_refused(tmp_path, extra, reason):
    root = copy_workbook(tmp_path / "fits")
    edit(root, SHOP, "format: 1\n", f"format: 1\n{extra}\n")
    (fault,) = faults(root)
    assert (fault.code, fault.way_out.id) == ("DA-04", f"data.{reason}.way_out")


def test_all_faults_of_all_files_come_at_once_in_order(tmp_path):
    root = copy_workbook(tmp_path / "fits")
    edit(root, SHOP, "valid_months: 12", "valid_months: a year")
    edit(root, SORREL, "cut_out: 12.4 V", "cut_out: 12,4 V")
    edit(root, SORREL, "mass: 2.3 kg", "mas: 2.3 kg")
    edit(root, COBBLE, "low: 13.2 V", "low: 13.2")
    edit(root, COBBLE, "sensor: yes", "sensor: perhaps")
    edit(root, TANSY, "code: V1", "code: [V1")
    found = [(fault.where.file, fault.where.line, fault.code) for fault in faults(root)]
    assert [code for _, _, code in found] == ["DA-10", "DA-07", "DA-12", "DA-03", "DA-10", "DA-11"]
    assert found == sorted(found)


def test_a_sheet_that_cannot_be_read_is_not_called_missing_as_well(tmp_path):
    root = copy_workbook(tmp_path / "fits")
    edit(root, "datasheets/charger/sorrel-240.yaml", "cut_out: 12.7 V", "cut_out: 12,7 V")
    (fault,) = faults(root)
    assert fault.code == "DA-10"


def test_a_missing_key_beside_other_faults_is_told(tmp_path):
    root = copy_workbook(tmp_path / "fits")
    edit(root, TANSY, "  chemistry: AGM\n", "  colour: grey\n")
    codes = [(fault.code, fault.place) for fault in faults(root)]
    assert ("DA-06", "vehicle.battery.chemistry") in codes
    assert ("DA-07", "vehicle.battery.colour") in codes


def test_a_lost_id_is_told_beside_other_faults_of_its_file(tmp_path):
    root = copy_workbook(tmp_path / "fits")
    edit(root, TANSY, "low: 12.3 V", "low: 12,3 V")
    edit_first(root, TANSY, "charger: sorrel-240", "charger: sorel-240")
    edit_first(root, TANSY, "[tarrock-bf32, ", "[tarock-bf32, ")
    found = [(fault.code, tell(fault.found)) for fault in faults(root)]
    assert found == [("DA-10", "12,3 V"), ("DA-14", "sorel-240"), ("DA-14", "tarock-bf32")]


def test_a_route_without_a_segment_is_told_once_and_nothing_that_follows_from_it(tmp_path):
    root = copy_workbook(tmp_path / "fits")
    text = (root / COBBLE).read_text("utf-8")
    empty = re.sub(r"(?ms)^    segments:\n.*?(?=^\S|^  \S)", "    segments: []\n", text, count=1)
    (root / COBBLE).write_text(empty, "utf-8")
    (fault,) = faults(root)
    assert (fault.code, fault.place) == ("DA-08", "vehicle.routes.chassis-right.segments")


def test_of_sizes_none_is_called_nearest_by_its_spelling(tmp_path):
    root = copy_workbook(tmp_path / "fits")
    other = "screw: socket 5/16 in\n  kind: screw clamp\n"
    edit_first(root, SORREL, "kind: screw clamp\n", other)
    (fault,) = faults(root)
    near = dict(fault.way_out.values)["near"].items
    assert len(near) == 6
    assert all(item.text.startswith("socket ") for item in near)
