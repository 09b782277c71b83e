"""Faults that hardly anybody makes: told once, with every word that their sentences ask for."""

from pathlib import Path

import pytest

from baybook.shipped import shipped
from baybook.wording.catalogue import load_catalogue
from baybook.wording.tell import tell
from intake.faults import faults
from workbooks import TANSY, copy_workbook, edit_first

CAMBER = "vehicles/tavlow-camber/vehicle.yaml"
DREY = "vehicles/ostrigg-drey/vehicle.yaml"
CATALOGUES = [load_catalogue(shipped("templates"), language) for language in ("en", "de")]
LOW, AREA, LENGTH = "low: 12.3 V", "output_area: 16 mm²", "output_length: 0.9 m"

THREAD = "thread: M6\n    torque: {value: 6.0"

SELDOM = [
    # file, what stands there, what is written, code, reason
    (TANSY, THREAD, THREAD.replace("M6", "M66"), "DA-11", "word"),
    (TANSY, THREAD, THREAD.replace("M6", "M6x1.5"), "DA-11", "word-any"),
    (TANSY, THREAD, THREAD.replace("M6", "6 mm"), "DA-11", "word-any"),
    (TANSY, "role: negative", "role: earth", "DA-11", "word-any"),
    (TANSY, LOW, 'low: ""', "DA-08", "blank"),
    (TANSY, LOW, "low: 12.3e999999 V", "DA-10", "exponent"),
    (TANSY, LOW, f"low: 12.3 V {'and more ' * 30}", "DA-10", "long"),
    (TANSY, LOW, "low: nan V", "DA-10", "not-a-number"),
    (TANSY, LOW, "low: 1 200 V", "DA-10", "thousands"),
    (TANSY, LOW, "low: 12.3 V ± -2 %", "DA-10", "tolerance"),
    (TANSY, LOW, "low: 123000 V", "DA-10", "range"),
    (CAMBER, AREA, "output_area: AWG 41", "DA-10", "gauge"),
    (CAMBER, LENGTH, "output_length: 2 ft 14 in", "DA-10", "inches"),
    (TANSY, "format: 1\n", "%YAML 1.1\n---\nformat: 1\n", "DA-04", "directive"),
    (TANSY, "\nmodel: Tansy\n", '\nmodel: Tansy\n"": 1\n', "DA-08", "key-blank"),
    (TANSY, "\nmodel: Tansy\n", "\nmodel: Tansy\n[a]: 1\n", "DA-09", "key-form"),
    (TANSY, "    by: bay\n    on: 2024-09-17\n", "", "DA-13", "trail-measured"),
    (
        DREY,
        "load test was made\n    by: writer\n",
        "load test was made\n",
        "DA-13",
        "trail-estimated",
    ),
    (CAMBER, "    second:\n", "    connector: vantle-a\n    second:\n", "DA-07", "load"),
]


@pytest.mark.parametrize("slip", SELDOM, ids=[slip[4] for slip in SELDOM])
def test_a_seldom_fault_is_told_in_every_language(tmp_path, slip):
    file, old, new, code, reason = slip
    root = copy_workbook(tmp_path / "fits")
    edit_first(root, file, old, new)
    (fault,) = faults(root)
    assert (fault.code, fault.where.file) == (code, f"fits/{file}")
    assert fault.way_out.id.removeprefix("data.").removeprefix("figure.") == f"{reason}.way_out"
    for words in CATALOGUES:
        assert tell(fault, words)


def test_a_file_that_may_not_be_read_is_told(tmp_path, monkeypatch):
    root = copy_workbook(tmp_path / "fits")
    right = Path.open

    def locked(path, *how, **more):
        if path.name == "vehicle.yaml" and path.parent.name == "brunsall-tansy":
            raise PermissionError(13, "Permission denied")
        return right(path, *how, **more)

    monkeypatch.setattr(Path, "open", locked)
    fault = next(fault for fault in faults(root) if fault.where.file == f"fits/{TANSY}")
    assert (fault.code, fault.way_out.id) == ("DA-01", "data.closed.way_out")


def test_a_station_with_a_second_fuse_is_told_by_name(tmp_path):
    root = copy_workbook(tmp_path / "fits")
    edit_first(root, CAMBER, "station: lfp-120 ", "station: tun-500 ")
    told = {fault.code: tell(fault, CATALOGUES[0]) for fault in faults(root)}
    assert set(told) == {"DA-06", "DA-07"}
    assert told["DA-07"]["allowed"]["text"] == "`connector:` for this load, and no `second:`"


def test_what_goes_with_a_load_that_nobody_knows_is_not_judged(tmp_path):
    root = copy_workbook(tmp_path / "fits")
    edit_first(root, CAMBER, "station: lfp-120 ", "station: lfp-1200 ")
    (fault,) = faults(root)
    assert (fault.code, fault.way_out.id) == ("DA-14", "data.id.way_out")
