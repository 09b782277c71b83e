"""What a person may write of a measured body: ids that exist, figures above nought."""

import pytest

from chassis import CHANGES
from intake.faults import faults, tell
from workbooks import TANSY, alone, copy_workbook, edit


@pytest.mark.parametrize(
    ("old", "new", "code"),
    [
        ("start: body-boot", "start: body-boots", "DA-14"),
        ("end: body-left", "end: body-lefts", "DA-14"),
        ("62 mV ± 5 %", "0 mV", "DA-15"),
        ("40 A ± 2 %", "0 A", "DA-15"),
        ("62 mV ± 5 %", "unknown", "DA-10"),
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
    assert "body_loops.0" in found.place
