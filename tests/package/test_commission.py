"""Readings back: judged against the sheet, put through the rules again, kept as a record."""

import random
from datetime import date
from functools import cache

import pdfplumber
import pytest
import yaml
from click.testing import CliRunner
from hypothesis import given, settings
from hypothesis import strategies as st

from baybook.checks.commission import judge_readings
from baybook.cli import main
from baybook.decide import decide
from baybook.desk.commissioning import make_record
from baybook.finding import Amount
from baybook.intake.commission import unit_of
from baybook.record import AsBuilt, Serials
from baybook.sizing.interval import loop
from baybook.sizing.source import constant_power
from variants import quantity
from workbooks import EXAMPLE, example_fit

FITS = (
    *("brunsall-tansy/j1", "ostrigg-drey/j3", "dunstrel-cobble/j9b", "pellmare-mirren/j5"),
    *("tessick-orlet/j7", "tavlow-camber/j8"),
)
TODAY = date(2024, 12, 2)
GOOD = {"restarts": 5.0, "joints": 10.0, "case": 5.0, "noise": 0.0, "codes": 0.0}


@cache
def job(name):
    outcome = decide(example_fit(name), TODAY)
    return outcome, outcome.result.design, outcome.content


def middle(row):
    """Return what a good fit shows."""
    if row.name in GOOD:
        return GOOD[row.name]
    if row.predicted is not None:
        return row.predicted.value
    return (row.low or row.high).value


def read(guide, **changed):
    return {
        row.id: Amount(changed.get(row.name, middle(row)), unit_of(row), 3)
        for row in guide.readings
    }


def built(name, guide, **update):
    return AsBuilt(
        format="1",
        fit=name,
        figures=job(name)[0].figures,
        vin="77021234",
        on=date(2024, 12, 12),
        fitted_by="bay",
        checked_by="approver",
        tools=("DM-3", "CM-1", "TW-2"),
        serials=Serials(charger="C-1", station="S-1"),
        readings={row.id: "-" for row in guide.readings},
        deviations=(),
    ).model_copy(update=update)


def record(name, update=None, **changed):
    _, design, guide = job(name)
    return make_record(design, guide, built(name, guide, **(update or {})), read(guide, **changed))


def missed(found):
    return {one.row.name: one for one in found.readings if one.miss}


# --------------------------------------------------------------------------- what holds for all


def simulated(design, dice, added=0.0):
    """Return the readings at load of a circuit inside its tolerances, `added` ohm in the plus."""
    light, supply = loop(design, light=True), design.fit.vehicle.supply
    U = dice.uniform(supply.low.low, supply.high.high)
    P = dice.uniform(design.figure("input_power_least").value, design.figure("input_power").value)
    plus = design.figure("positive_resistance_low").value
    back = design.figure("return_resistance_low").value
    cold = light.at_least() / (plus + back)
    share = cold + dice.random() * (1 - cold)
    plus, back = plus * share + added, back * share
    current, at_charger = constant_power(U, plus + back, P)
    true = {
        "running": U,
        "current": current,
        "positive": current * plus,
        "return": current * back,
        "input": at_charger,
    }
    meter = design.fit.shop.meter
    off = dict.fromkeys(true, meter.voltage.value) | {"current": meter.current.value}
    return {n: v * (1 + dice.choice([-off[n], off[n], dice.uniform(-off[n], off[n])]))
            for n, v in true.items()}  # fmt: skip


@settings(max_examples=150, deadline=None)
@given(st.sampled_from(FITS), st.integers(0, 10**9))
def test_a_fit_within_its_tolerances_passes(name, seed):
    _, design, _ = job(name)
    found = record(name, **simulated(design, random.Random(seed)))  # noqa: S311
    assert not missed(found)
    assert all(way.inside for way in found.ways)
    assert found.outside == ()
    assert found.passed


@settings(max_examples=150, deadline=None)
@given(st.sampled_from(FITS), st.integers(0, 10**9))
def test_a_bad_joint_is_found_at_any_supply(name, seed):
    """By its resistance, also where the drop alone lies within its limit."""
    _, design, _ = job(name)
    limit = design.figure("positive_resistance_low").value
    meter = design.fit.shop.meter
    both = (1 + meter.voltage.value) / (1 - meter.current.value)
    cold = loop(design, light=True).at_least() / design.figure("loop_resistance").value
    added = limit * (both**2 * 1.001 - cold)  # over the limit, however cold, whatever the meter
    dice = random.Random(seed)  # noqa: S311
    found = record(name, **simulated(design, dice, added))
    assert next(way.what.id for way in found.ways if not way.inside) == "record.way.positive"
    assert not found.passed


# --------------------------------------------------------------------------- the branches


@pytest.mark.parametrize(
    ("changed", "row", "answer"),
    [
        ({"rest": 12.0}, "rest", "if.rest-low"),
        ({"rest": 13.2}, "rest", "if.rest-high"),
        ({"running": 11.8}, "running", "if.running-low.engine"),
        ({"running": 15.6}, "running", "if.running-high"),
        ({"open": 26.0}, "open", "tree.end.over"),
        ({"current": 9.0}, "current", "tree.end.demand"),
        ({"current": 22.0}, "current", "tree.end.more"),
        ({"current": 22.0, "output_current": 11.0}, "current", "if.output-current-high"),
        ({"positive": 0.5}, "positive", "if.positive-drop"),
        ({"positive": 0.5, "fuse": 0.3}, "positive", "if.fuse-drop"),
        ({"fuse": 0.1}, "fuse", "if.fuse-drop"),
        ({"return": 0.6}, "return", "if.return-drop"),
        ({"input": 11.0, "positive": 2.0}, "input", "if.positive-drop"),
        ({"input": 11.0}, "input", "tree.end.vehicle"),
        ({"input": 15.6}, "input", "tree.end.none"),
        ({"output": 22.0}, "output", "if.output-loaded-low"),
        ({"output": 22.0, "output_current": 5.0}, "output", "if.output-current-low"),
        ({"output": 25.0}, "output", "if.output-loaded-high"),
        ({"output_current": 5.0}, "output_current", "if.output-current-low"),
        ({"output_current": 11.0}, "output_current", "if.output-current-high"),
        ({"display": 100.0}, "display", "if.display-low"),
        ({"display": 300.0}, "display", "if.display-high"),
        ({"joints": 45.0}, "joints", "if.joints"),
        ({"case": 40.0}, "case", "if.case"),
        ({"idle": -60.0}, "idle", "if.idle"),
        ({"restarts": 3.0}, "restarts", "if.restarts"),
        ({"noise": 1.0}, "noise", "if.noise"),
        ({"codes": 2.0}, "codes", "if.codes"),
        ({"stopped": 0.4}, "stopped", "if.stopped.line"),
        ({"sleep": 0.2}, "sleep", "if.sleep-before"),
        ({"asleep": 0.2}, "asleep", "if.sleep-after"),
        ({"asleep": 0.2, "sleep": 0.2}, "asleep", "if.sleep-before"),
        ({"asleep": 0.005}, "asleep", "if.sleep-after-low"),
    ],
)
def test_a_pair_of_readings_picks_the_branch(changed, row, answer):
    _, _, guide = job(FITS[0])
    judged = {one.row.name: one for one in judge_readings(guide, read(guide, **changed))}
    assert judged[row].miss
    if row == "input" and answer == "tree.end.none":  # volts at the posts are in: on through all
        assert judged[row].ask is not None
        return
    assert judged[row].answer.id == answer


def test_a_question_to_a_person_is_named():
    _, _, guide = job(FITS[0])
    judged = {one.row.name: one for one in judge_readings(guide, read(guide, open=20.0))}
    lines = {line.number: line for line in guide.fault_tree}
    assert judged["open"].answer is None
    assert lines[judged["open"].ask].question.id == "tree.fed"


def test_a_current_of_nothing_gives_no_resistance():
    assert record(FITS[0], current=0.0).ways == ()


def test_a_vehicle_outside_the_envelope_is_told_so():
    assert {f.code for f in record("dunstrel-cobble/j9b", running=12.2).outside} >= {"CA-02"}
    _, design, _ = job("brunsall-tansy/j1")
    segments = design.fit.vehicle.routes[design.fit.job.route].segments
    longer = tuple(quantity(s.length, 2 * s.length.value) for s in segments)
    found = record("brunsall-tansy/j1", {"lengths": longer})
    assert "CA-01" in {f.code for f in found.outside}
    assert not found.passed
    same = record("brunsall-tansy/j1", {"lengths": tuple(s.length for s in segments)})
    assert same.passed


def test_a_tool_past_its_calibration_fails_the_record():
    found = record(FITS[0], {"on": date(2026, 12, 1)})
    assert any(tool.overdue for tool in found.tools)
    assert not found.passed


# --------------------------------------------------------------------------- the command


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
    for end in ("a4", "letter", "de.a4", "de.letter"):
        with pdfplumber.open(kept.with_suffix(f".{end}.pdf")) as pdf:
            assert len(pdf.pages) == 1
            text = pdf.pages[0].extract_text()
        assert "77021234" in text
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
