"""What no shop profile can say, and texts and numbers that no sheet has room for."""

import pytest

from intake.faults import faults, tell
from workbooks import COBBLE, SHOP, TANSY, copy_workbook, edit, edit_first

SORREL = "datasheets/charger/sorrel-520.yaml"
STEP = "output_step: 1 V"

# fmt: off
SLIPS = [
    # file, what stood there, what was written: code, place, found, what would be right
    (SHOP, "valid_months: 12", "valid_months: 0",
     "DA-15", "shop.valid_months", "0", "1 to 120 months"),
    (SHOP, "valid_months: 12", "valid_months: 99999",
     "DA-15", "shop.valid_months", "99999", "1 to 120 months"),
    (SHOP, "languages: [en]", "languages: []",
     "DA-08", "shop.languages", "nothing", "one entry"),
    (SHOP, "languages: [en]", "languages: [en, en]",
     "DA-05", "shop.languages.1", "en", "each entry once"),
    (SHOP, "papers: [a4, letter]", "papers: [a4, a4]",
     "DA-05", "shop.papers.1", "a4", "each entry once"),
    (SHOP, "address: https://guides", "address: javascript:alert(1)//guides",
     "DA-09", "shop.site.address", "javascript", "begins with https://"),
    (SHOP, "reports: mailto:reports", "reports: reports",
     "DA-09", "shop.site.reports", "reports@", "mailto: or https://"),
    (SHOP, "- role: writer", "- role: bay",
     "DA-05", "shop.people.2.role", "bay", "each entry once"),
    (SHOP, "id: TW-2", "id: TW-1", "DA-05", "shop.tools.1.id", "TW-1", "each entry once"),
    (SHOP, "torque_low: 1.0 N·m", "torque_low: 100 N·m",
     "DA-15", "shop.tools.0.torque_high", "10 N·m", "at least 100 N·m"),
    (SHOP, "    torque_low: 1.0 N·m\n", "",
     "DA-06", "shop.tools.0", "nothing", "torque_low:"),
    (SHOP, "clip_pitch: 300 mm", "clip_pitch: 0.3 mm",
     "DA-15", "shop.spacing.clip_pitch", "0.3 mm", "at least 20 mm"),
    (SHOP, "cutting_step: 10 mm", "cutting_step: 0.000001 mm",
     "DA-15", "shop.lengths.cutting_step", "0.000001 mm", "at least 1 mm"),
    (SHOP, "value: 60 V\n    source: shop rule", "value: 60 V\n    source: iso-0000",
     "DA-14", "shop.limits.touch_voltage.source", "iso-0000", "shop rule"),
    (SHOP, "id: a4-small", "id: a4",
     "DA-05", "shop.label_stock.1.id", "a4", "each entry once"),
    (SHOP, "width: 99 mm", "width: 59 mm",
     "DA-15", "shop.label_stock.0.width", "59 mm", "at least 60 mm"),
    (SHOP, "pitch_down: 38 mm", "pitch_down: 37 mm",
     "DA-15", "shop.label_stock.0.pitch_down", "37 mm", "at least 38 mm"),
    (SHOP, "rows: 7", "rows: 8",
     "DA-15", "shop.label_stock.0.rows", "319.5 mm", "within 297.0 mm"),
    (SHOP, "columns: 2", "columns: 0",
     "DA-15", "shop.label_stock.0.columns", "0", "1 to 40"),
    (SHOP, "left: 4 mm", "left: 9 mm",
     "DA-15", "shop.label_stock.2.columns", "216.9 mm", "within 215.9 mm"),
    (SHOP, "source: common-practice", "source: iso-0000",
     "DA-14", "shop.label_stock.0.source", "iso-0000", "shop rule"),
    (SORREL, STEP, "output_step: 0.000001 V",
     "DA-15", "charger.output_step", "0.000001 V", "at most 10000 settings"),
    (COBBLE, "drive_sides: [left, right]", "drive_sides: [left, left]",
     "DA-05", "vehicle.drive_sides.1", "left", "each entry once"),
    (COBBLE, "codes: [CA-01, CA-02]", "codes: []",
     "DA-08", "vehicle.fits.0.refused.codes", "nothing", "one entry"),
    (COBBLE, "code: V6", "code: v1", "DA-16", "vehicle.code", "v1", "brunsall-tansy"),
    (TANSY, "output_length: 1.2 m", "output_length: 0 m",
     "DA-15", "vehicle.fits.0.output_length", "0 m", "more than 0"),
    (TANSY, "by: approver", "by: stranger",
     "DA-14", "vehicle.fits.0.checked.by", "stranger", "approver"),
    (TANSY, "model: Tansy", "model: " + "Tansy " * 100,
     "DA-09", "vehicle.model", "Tansy Tansy", "at most 400"),
    (TANSY, "model: Tansy", "model: " + "x" * 200,
     "DA-09", "vehicle.model", "xxx", "no word of more than 100"),
    (TANSY, "low: 12.3 V", "low: " + "1" * 500 + " V",
     "DA-09", "vehicle.supply.low", "111", "at most 400"),
]
# fmt: on


@pytest.mark.parametrize("slip", SLIPS, ids=[f"{n}:{s[2][:30]}" for n, s in enumerate(SLIPS)])
def test_a_slip_is_told_once_and_where_it_is(tmp_path, slip):
    file, old, new, code, place, found, right = slip
    root = copy_workbook(tmp_path / "fits")
    edit_first(root, file, old, new)
    said = faults(root)
    assert [fault.code for fault in said] == [code]
    (fault,) = said
    assert fault.place == place or fault.where.file.endswith("dunstrel-cobble/vehicle.yaml")
    assert fault.where.line > 1
    assert found in tell(fault.found)
    assert right in tell(fault.allowed)


def test_a_language_without_sentences_is_told_where_it_is_asked_for(tmp_path, monkeypatch):
    templates = tmp_path / "templates"
    (templates / "en").mkdir(parents=True)
    (templates / "en" / "words.yaml").write_text("")
    monkeypatch.setattr("baybook.intake.profile.shipped", lambda _: templates)
    root = copy_workbook(tmp_path / "fits")
    edit(root, SHOP, "languages: [en]", "languages: [en, de]")
    (fault,) = faults(root)
    assert (fault.code, fault.place, tell(fault.found)) == ("DA-11", "shop.languages.1", "de")


@pytest.mark.parametrize("name", ["vehicles/loop", "datasheets/charger/loop.yaml"])
def test_links_that_lead_to_each_other_are_not_followed(tmp_path, name):
    root = copy_workbook(tmp_path / "fits")
    (root / name).symlink_to(root / name)
    (fault,) = faults(root)
    assert (fault.code, fault.way_out.id) == ("DA-01", "data.outside.way_out")


def test_a_file_among_the_vehicle_folders_is_called_a_file(tmp_path):
    root = copy_workbook(tmp_path / "fits")
    (root / "vehicles" / "notes.txt").write_text("buy clips")
    (fault,) = faults(root)
    assert (fault.code, fault.way_out.id) == ("DA-07", "data.vehicle-folder.way_out")


def test_a_sign_that_cannot_be_printed_is_told_once_with_its_key(tmp_path):
    root = copy_workbook(tmp_path / "fits")
    edit(root, COBBLE, "sleep: {value: 22 mA", "sleep: {value: 22 \u00b5A")
    (fault,) = faults(root)
    assert (fault.code, fault.place) == ("DA-17", "vehicle.supply.sleep.value")
