"""A variant says only what differs; the base stays as it is, and every value knows its file."""

import shutil

import pytest

from baybook.intake.read import read_workbook
from intake.faults import faults, tell
from workbooks import COBBLE, copy_workbook, edit, example_fit

TOW = "vehicles/dunstrel-cobble-tow-pack/vehicle.yaml"


@pytest.fixture
def both():
    return example_fit("dunstrel-cobble/j9b"), example_fit("dunstrel-cobble-tow-pack/j9")


def test_what_is_written_replaces_and_the_rest_is_read_from_the_base(both):
    base, tow = both
    assert (base.vehicle.supply.rated.value, tow.vehicle.supply.rated.value) == (140, 180)
    assert tow.vehicle.supply.low == base.vehicle.supply.low
    assert tow.vehicle.mounts == base.vehicle.mounts
    assert set(tow.vehicle.routes) == {"chassis-right", "tray-right"}


def test_a_list_is_replaced_whole(both):
    base, tow = both
    assert [job.id for job in tow.vehicle.fits] == ["j9"]
    assert len(tow.vehicle.applies) == 4
    assert tow.vehicle.applies != base.vehicle.applies


def test_every_value_keeps_the_place_where_it_was_written(both):
    _, tow = both
    assert tow.vehicle.supply.rated.where.file.endswith(TOW)
    assert tow.vehicle.supply.low.where.file.endswith(COBBLE)
    assert tow.mark("vehicle.supply.rated").file.endswith(TOW)
    assert tow.mark("vehicle.supply.low").file.endswith(COBBLE)
    assert tow.mark("vehicle.battery.place").file.endswith(TOW)


def test_a_figure_takes_nothing_of_the_figure_that_it_replaces(both):
    _, tow = both
    assert tow.vehicle.supply.rated.basis.document.startswith("Dunstrel supplement")
    assert tow.vehicle.supply.hot_idle.basis.seen == "VIN ..5120"
    assert tow.vehicle.supply.low.basis.seen == "VIN ..4471"


def test_a_figure_of_a_variant_names_its_own_basis(tmp_path):
    root = copy_workbook(tmp_path / "fits")
    edit(root, TOW, "rated: {value: 180 A, basis: tow-manual}", "rated: 180 A")
    (fault,) = faults(root)
    assert fault.code == "DA-13"
    assert fault.where.file.endswith(TOW)


def test_a_base_that_is_not_there_is_told_with_the_nearest(tmp_path):
    root = copy_workbook(tmp_path / "fits")
    edit(root, TOW, "variant_of: dunstrel-cobble", "variant_of: dunstrel-coble")
    (fault,) = faults(root)
    assert fault.code == "DA-14"
    assert "dunstrel-cobble" in tell(fault.allowed)


def test_a_variant_of_a_variant_is_refused(tmp_path):
    root = copy_workbook(tmp_path / "fits")
    edit(root, COBBLE, "code: V6\n", "variant_of: brunsall-tansy\ncode: V6\n")
    edit(root, TOW, "variant_of: dunstrel-cobble", "variant_of: dunstrel-cobble")
    found = faults(root)
    assert any("variant" in f.way_out.id and f.where.file.endswith(TOW) for f in found)


def test_a_fault_of_the_base_is_told_once_and_at_the_base(tmp_path):
    root = copy_workbook(tmp_path / "fits")
    edit(root, COBBLE, "low: 13.2 V", "low: 13,2 V")
    (fault,) = faults(root)
    assert fault.where.file.endswith(COBBLE)


def test_the_base_does_not_change_when_a_variant_is_taken_away(tmp_path):
    root = copy_workbook(tmp_path / "fits")
    shutil.rmtree((root / TOW).parent)
    alone, _ = read_workbook(root)
    with_variant = example_fit("dunstrel-cobble/j9b")
    without = next(fit for fit in alone.fits if fit.id == with_variant.id)
    assert without.vehicle == with_variant.vehicle
