"""`baybook commission`: asked one by one or from a file, kept as a record and on one page."""

import re

import pdfplumber
import pytest
import yaml
from click.testing import CliRunner

from baybook.cli import main
from baybook.intake.commission import unit_of
from package.commissioned import FITS, job, middle
from workbooks import EXAMPLE


def written(row):
    value, unit = middle(row), unit_of(row)
    return f"{value:.4g}" if unit == "1" else f"{value:.4g} {unit}"


def readings_file(folder, name="brunsall-tansy/j1", **changed):
    outcome, _, guide = job(name)
    content = {
        "format": "1",
        "fit": name,
        "figures": outcome.figures,
        "vin": "77021234",
        "on": "2024-12-12",
        "fitted_by": "bay",
        "checked_by": "approver",
        "tools": ["DM-3", "CM-1", "TW-2"],
        "serials": {"charger": "C-1", "station": "S-1"},
        "readings": {row.id: written(row) for row in guide.readings},
        "deviations": ["clip 7 moved"],
    }
    ids = {row.name: row.id for row in guide.readings}
    for key, value in changed.items():
        if key in ids:
            content["readings"][ids[key]] = value
        else:
            content[key] = value
    path = folder / "readings.yaml"
    path.write_text(yaml.safe_dump(content, allow_unicode=True, sort_keys=False), "utf-8")
    return path


def call(*args, **more):
    return CliRunner().invoke(main, ["commission", *map(str, args), "--workbook", EXAMPLE], **more)


@pytest.mark.parametrize("name", FITS)
def test_the_record_is_written_and_printed_on_one_page(tmp_path, name):
    path = readings_file(tmp_path, name)
    done = call(name, path, "--output", tmp_path / "out")
    assert done.exit_code == 0, done.output
    (kept,) = (tmp_path / "out").glob("*.yaml")
    archive = yaml.safe_load(kept.read_text("utf-8"))
    assert archive["passed"] is True
    assert archive["serials"] == {"charger": "C-1", "station": "S-1"}
    assert archive["deviations"] == ["clip 7 moved"]
    identity = job(name)[2].identity
    for end in ("a4", "letter", "de.a4", "de.letter"):
        with pdfplumber.open(kept.with_suffix(f".{end}.pdf")) as pdf:
            assert len(pdf.pages) == 1
            text = pdf.pages[0].extract_text()
        assert "77021234" in text
        # Each device by its own name, as on the first sheet of its guide.
        for device, serial in ((identity.charger, "C-1"), (identity.station, "S-1")):
            named = rf"{re.escape(device.text)}( serial)?:? {serial}"
            assert re.search(named, re.sub(r"\s+", " ", text))
        assert ("FIN" in text) == end.startswith("de")
        assert "clip 7 moved" in text


def test_an_earlier_record_stays(tmp_path):
    path, out = readings_file(tmp_path), tmp_path / "out"
    for _ in range(2):
        assert call("brunsall-tansy/j1", path, "--output", out).exit_code == 0
    assert len(list(out.glob("*.yaml"))) == 2


def test_a_reading_that_is_out_ends_with_1_and_is_kept(tmp_path):
    path = readings_file(tmp_path, positive="0.5 V")
    done = call("brunsall-tansy/j1", path, "--output", tmp_path / "out")
    assert done.exit_code == 1
    assert "HIGH; question" in done.output
    (kept,) = (tmp_path / "out").glob("*.yaml")
    assert yaml.safe_load(kept.read_text("utf-8"))["passed"] is False


@pytest.mark.parametrize(
    ("changed", "code"),
    [
        ({"positive": "0,5 V"}, "DA-10"),
        ({"positive": "0.5 A"}, "DA-10"),
        ({"readings": {}}, "DA-06"),
        ({"readings": {"R77": "1 V"}}, "DA-07"),
        ({"fit": "ostrigg-drey/j3"}, "DA-15"),
        ({"figures": "000000000000"}, "DA-15"),
        ({"tools": ["DM-9"]}, "DA-14"),
        ({"lengths": ["1 m"]}, "DA-15"),
        ({"vin": ""}, "DA-08"),
        ({"extra": "1"}, "DA-07"),
    ],
)
def test_a_faulty_file_is_refused_with_its_place(tmp_path, changed, code):
    path = readings_file(tmp_path, **changed)
    done = call("brunsall-tansy/j1", path, "--output", tmp_path / "out")
    assert done.exit_code == 1
    assert f"refused {code}" in done.output, done.output
    assert "readings.yaml:" in done.output
    assert not (tmp_path / "out").exists()


def test_no_such_fit_and_a_refused_fit():
    assert call("nowhere/j1", "x.yaml").exit_code == 2
    done = call("dunstrel-cobble/j9", "x.yaml")
    assert done.exit_code == 1
    assert "has no guide" in done.output


def test_supply_and_lengths_are_asked_for_and_put_through_the_rules(tmp_path):
    _, design, guide = job("brunsall-tansy/j1")
    segments = design.fit.vehicle.routes[design.fit.job.route].segments
    answers = ["77021234", "bay", "approver", "DM-3 CM-1 TW-2", "C-1", "S-1"]
    answers += [*(written(row) for row in guide.readings)]
    laid = ["", "9.9 m", *[""] * (len(segments) - 2)]
    out = tmp_path / "out"
    asked = [*answers, "11,9 V", "11.9 V", "", "", *laid, ""]
    done = call("brunsall-tansy/j1", "--output", out, input="\n".join(asked) + "\n")
    kept = yaml.safe_load((out / "readings-1.yaml").read_text("utf-8"))
    assert kept["supply"] == {"low": "11.9 V"}
    first = segments[0].length.written
    assert kept["lengths"][:2] == [first, "9.9 m"]
    assert len(kept["lengths"]) == len(segments)
    assert "such as 14.2 V" in done.output
    assert "this vehicle lies outside what the guide holds for" in done.output
    assert "CA-01" in done.output
    assert done.exit_code == 1
    asked = [*answers, "", "", "", *[""] * len(segments), ""]
    call("brunsall-tansy/j1", "--output", out, input="\n".join(asked) + "\n")
    kept = yaml.safe_load((out / "readings-2.yaml").read_text("utf-8"))
    assert not {"supply", "lengths"} & set(kept)


def test_each_reading_is_asked_for_and_asked_again(tmp_path):
    _, _, guide = job("brunsall-tansy/j1")
    answers = ["77021234", "bay", "approver", "DM-3 CM-1 TW-2", "C-1", "S-1"]
    answers += ["14,2 V", *(written(row) for row in guide.readings), *[""] * 8]
    out = tmp_path / "out"
    done = call("brunsall-tansy/j1", "--output", out, input="\n".join(answers) + "\n")
    assert "is no figure in its unit" in done.output
    assert (out / "readings-1.yaml").is_file()
    assert "as built: " in done.output
