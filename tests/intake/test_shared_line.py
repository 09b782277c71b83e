"""What a person may write of a line that others share."""

import pytest

from intake.faults import faults, tell
from shared_line import CHANGES
from workbooks import TANSY, alone, copy_workbook, edit

LOAD = "          current: {value: 8 A ± 10 %, basis: clamp}\n"


@pytest.mark.parametrize(
    ("old", "new", "code"),
    [
        ("30 mV ± 5 %", "0 mV", "DA-15"),
        ("25 A ± 2 %", "0 A", "DA-15"),
        (LOAD, "", "DA-06"),
    ],
)
def test_each_is_one_clear_message(tmp_path, old, new, code):
    root = copy_workbook(tmp_path / "fits")
    alone(root / TANSY, "j1")
    for name, was, text in CHANGES:
        edit(root, name, was, text)
    edit(root, TANSY, old, new)
    (found,) = faults(root)
    assert found.code == code, tell(found.title)
    assert "positive-stud.line" in found.place


def test_a_line_with_nobody_on_it_is_no_shared_line(tmp_path):
    root = copy_workbook(tmp_path / "fits")
    alone(root / TANSY, "j1")
    for name, was, text in CHANGES:
        head, _, _ = text.partition("      loads:\n")
        edit(root, name, was, head + "      loads: []\n")
    (found,) = faults(root)
    assert "positive-stud.line.loads" in found.place
