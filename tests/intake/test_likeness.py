"""A fit that is like another: the same as written out whole, and wrong ones are told."""

import pytest

from baybook.intake.read import read_workbook
from workbooks import MIRREN, copy_workbook, edit, load

ENTRY = """
  - id: j7
    like: j5
    title: Sorrel 240 to Loft 310, boot right
    basis: plan
    station: loft-310
    station_place:
      place: boot floor, left
    checked: {on: 2024-11-19, by: approver}
"""


def with_entry(folder, entry=ENTRY):
    book = copy_workbook(folder / "fits")
    path = book / MIRREN
    path.write_text(path.read_text("utf-8").rstrip() + "\n" + entry, "utf-8")
    return book


def fit(book, name):
    return next(fit for fit in load(book).fits if fit.id == f"pellmare-mirren/{name}")


def test_only_what_differs_differs(tmp_path):
    book = with_entry(tmp_path)
    old, new = fit(book, "j5"), fit(book, "j7")
    own = {
        "id": "j7",
        "title": "Sorrel 240 to Loft 310, boot right",
        "station": "loft-310",
        "checked": new.job.checked,
        "station_place": old.job.station_place.model_copy(update={"place": "boot floor, left"}),
    }
    assert new.job == old.job.model_copy(update=own)
    assert new.station.name == "Loft 310"


def test_it_is_the_same_as_written_out_whole(tmp_path):
    like = fit(with_entry(tmp_path), "j7")
    text = (tmp_path / "fits" / MIRREN).read_text("utf-8")
    j5 = text[text.index("  - id: j5") : text.index("  # like:")]
    whole = (
        j5.replace("id: j5", "id: j7")
        .replace("Tun 500", "Loft 310")
        .replace("tun-500", "loft-310")
        .replace("boot floor, against the right side", "boot floor, left")
        .replace("2024-11-18", "2024-11-19")
    )
    written = fit(with_entry(tmp_path / "whole", "\n" + whole.rstrip() + "\n"), "j7")
    for part in ("charger", "station", "connector", "cable", "protections"):
        assert getattr(like, part) == getattr(written, part)
    dump = {"source", "output_area", "output_length", "station_place"}  # places differ by line
    assert like.job.model_dump(exclude=dump) == written.job.model_dump(exclude=dump)
    assert like.job.output_area.written == written.job.output_area.written


def test_each_value_keeps_the_place_where_it_was_written(tmp_path):
    book = with_entry(tmp_path)
    lines = (book / MIRREN).read_text("utf-8").splitlines()
    new = fit(book, "j7")
    assert lines[new.mark("fit.station").line - 1].strip() == "station: loft-310"
    assert lines[new.mark("fit.mount").line - 1].strip() == "mount: boot-bracket"
    assert new.mark("fit.mount").line < new.mark("fit.station").line


def test_a_refusal_and_who_checked_it_do_not_go_with_it(tmp_path):
    book = copy_workbook(tmp_path / "fits")
    path = book / MIRREN
    text = path.read_text("utf-8").replace("    like: j5\n", "")
    j5 = text[text.index("    source:") : text.index("    connector: barrel")]
    text = text.replace("    connector: vantle-a\n", j5 + "    connector: vantle-a\n"
                        "    station_place: {place: boot, fixing: straps}\n")  # fmt: skip
    entry = ENTRY.replace("like: j5", "like: j6").replace("j7", "j8")
    path.write_text(text.rstrip() + "\n" + entry, "utf-8")
    assert fit(book, "j6").job.refused is not None
    assert fit(book, "j8").job.refused is None
    edit(book, MIRREN, "    checked: {on: 2024-11-19, by: approver}\n", "")
    found, problems = read_workbook(book)
    assert found is None
    assert [(one.code, one.place) for one in problems] == [("DA-06", "vehicle.fits.2.checked")]


@pytest.mark.parametrize("named", ["j99", "j6", "j7", "[j5]"])
def test_what_it_is_like_must_be_written_out_whole(tmp_path, named):
    book = with_entry(tmp_path, ENTRY.replace("like: j5", f"like: {named}"))
    found, problems = read_workbook(book)
    assert found is None
    told = [one for one in problems if one.place == "vehicle.fits.2.like"]
    assert [(one.code, one.allowed.id) for one in told] == [("DA-14", "data.like.allowed")]
    assert "like:" in (book / MIRREN).read_text("utf-8").splitlines()[told[0].where.line - 1]
