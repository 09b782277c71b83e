"""Files and folders: what is not text, not there, or not inside the workbook."""

import os
import shutil

import pytest

from baybook.intake.source import LARGEST
from intake.faults import faults, tell
from workbooks import EXAMPLE, SHOP, TANSY, copy_workbook

CHARGER = "datasheets/charger/sorrel-240.yaml"


@pytest.fixture
def root(tmp_path):
    return copy_workbook(tmp_path / "fits")


def reasons(root):
    return [(fault.code, fault.where.file, fault.way_out.id) for fault in faults(root)]


def test_a_folder_that_is_no_workbook(tmp_path):
    found = reasons(tmp_path)
    name = tmp_path.name
    assert found == [
        ("DA-01", f"{name}/datasheets", "data.no-folder.way_out"),
        ("DA-01", f"{name}/shop.yaml", "data.no-such-file.way_out"),
        ("DA-01", f"{name}/vehicles", "data.no-folder.way_out"),
    ]


def test_a_vehicle_folder_without_its_file(root):
    (root / TANSY).unlink()
    assert reasons(root) == [("DA-01", f"fits/{TANSY}", "data.no-such-file.way_out")]


@pytest.mark.parametrize("name", [SHOP, TANSY])
def test_a_link_that_leads_out_is_not_followed(root, tmp_path, name):
    outside = tmp_path / "outside.yaml"
    (root / name).rename(outside)
    (root / name).symlink_to(outside)
    assert reasons(root) == [("DA-01", f"fits/{name}", "data.outside.way_out")]


def test_a_folder_that_leads_out_is_not_followed(root):
    shutil.rmtree(root / "vehicles")
    (root / "vehicles").symlink_to(EXAMPLE / "vehicles")
    assert reasons(root) == [("DA-01", "fits/vehicles", "data.outside.way_out")]


def test_a_vehicle_folder_that_leads_out_is_not_followed(root):
    shutil.rmtree((root / TANSY).parent)
    (root / TANSY).parent.symlink_to(EXAMPLE / "vehicles" / "brunsall-tansy")
    assert reasons(root) == [("DA-01", f"fits/{TANSY}", "data.outside.way_out")]


def test_a_pipe_is_not_waited_for(root):
    (root / SHOP).unlink()
    os.mkfifo(root / SHOP)
    assert reasons(root) == [("DA-01", "fits/shop.yaml", "data.no-file.way_out")]


def test_a_folder_in_place_of_a_file(root):
    (root / SHOP).unlink()
    (root / SHOP).mkdir()
    assert reasons(root) == [("DA-01", "fits/shop.yaml", "data.no-file.way_out")]


def test_a_file_beyond_all_measure(root):
    with (root / SHOP).open("ab") as stream:
        stream.write(b"#" * LARGEST)
    assert reasons(root) == [("DA-01", "fits/shop.yaml", "data.large.way_out")]


def test_a_file_that_is_not_utf_8_is_told_with_its_place(root):
    raw = (root / SHOP).read_bytes().replace(b"name: Engine bay", b"name: \xc2\xb2 Ger\xe4teraum")
    (root / SHOP).write_bytes(raw)
    line = raw[: raw.index(b"\xe4")].count(b"\n") + 1
    (fault,) = faults(root)
    assert (fault.code, fault.where.line, fault.where.column) == ("DA-02", line, 16)


@pytest.mark.parametrize("encoding", ["utf-16", "utf-16-le", "utf-16-be"])
def test_utf_16_is_named_as_such(root, encoding):
    (root / TANSY).write_bytes((root / TANSY).read_text("utf-8").encode(encoding))
    (fault,) = faults(root)
    assert (fault.code, fault.where.file, tell(fault.found)) == ("DA-02", f"fits/{TANSY}", "UTF-16")
    assert "UTF-8" in tell(fault.allowed)


def test_a_byte_order_mark_and_line_ends_of_another_system_do_no_harm(root):
    text = (root / TANSY).read_text("utf-8")
    (root / TANSY).write_bytes(b"\xef\xbb\xbf" + text.replace("\n", "\r\n").encode())
    (root / CHARGER).write_text((root / CHARGER).read_text("utf-8") + "mas: 1 kg\n")
    (fault,) = faults(root)
    assert fault.where.file == f"fits/{CHARGER}"


def test_an_empty_file(root):
    (root / TANSY).write_text("# nothing yet\n")
    assert reasons(root) == [("DA-09", f"fits/{TANSY}", "data.no-mapping.way_out")]


def test_a_sheet_with_another_ending_is_not_passed_over(root):
    (root / CHARGER).rename(root / "datasheets" / "charger" / "sorrel-240.yml")
    found = faults(root)
    assert ("DA-07", "sorrel-240.yaml") in [(f.code, tell(f.allowed)) for f in found]


def test_a_folder_of_sheets_that_is_misspelt(root):
    (root / "datasheets" / "charger").rename(root / "datasheets" / "chargers")
    fault = next(fault for fault in faults(root) if fault.code == "DA-07")
    assert tell(fault.allowed).startswith("charger")


@pytest.mark.parametrize("name", ["Brunsall Tansy", "tansy_2", "tänsy", "-tansy"])
def test_a_vehicle_folder_that_is_no_address(root, name):
    (root / TANSY).parent.rename(root / "vehicles" / name)
    (fault,) = faults(root)
    assert (fault.code, tell(fault.found)) == ("DA-16", name)


def test_hidden_files_are_the_editors(root):
    (root / "datasheets" / "charger" / ".sorrel-240.yaml.swp").write_bytes(b"\x00\xff")
    (root / "vehicles" / ".cache").mkdir()
    (root / CHARGER).write_text((root / CHARGER).read_text("utf-8") + "mas: 1 kg\n")
    assert len(faults(root)) == 1
