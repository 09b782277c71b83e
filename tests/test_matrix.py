"""Every vehicle with every charger and station: the verdicts of `decide`, in any executor."""

import csv
import io
import json
import re
import sys
from concurrent.futures import ProcessPoolExecutor, ThreadPoolExecutor
from dataclasses import replace
from datetime import date
from multiprocessing import get_context
from pathlib import Path

import jsonschema
import pytest
from click.testing import CliRunner
from distributed import Client, LocalCluster

from baybook.checks import approve, judge
from baybook.cli import main
from baybook.decide import decide
from baybook.design import Refusal
from baybook.desk.matrix import _FORMS, _reasons
from baybook.finding import Verdict
from baybook.matrix import MOST_LINES, Sheets, lines, paired, pairings, readable, tasks
from baybook.pairing import Limit, Standing, Taken
from baybook.shipped import shipped
from baybook.sizing.choose import choose
from baybook.wording.catalogue import load_catalogue
from baybook.wording.tell import tell
from bench.pairings import generated
from variants import quantity
from workbooks import EXAMPLE, example, example_fit

TODAY = date(2025, 1, 1)
SCHEMA = json.loads((Path(__file__).parent / "schema" / "matrix.json").read_text("utf-8"))


@pytest.fixture(scope="module")
def rows():
    return tuple(pairings(tasks(example()), Sheets.of(example())))


def run(*args, columns=120):
    runner = CliRunner(env={"COLUMNS": str(columns)})
    return runner.invoke(main, ["matrix", *args, "--workbook", str(EXAMPLE)])


def fit_of(row, book):
    pattern = next(fit for fit in book.fits if fit.id == row.pattern)
    if row.written:
        return pattern
    return paired(pattern, row.charger, row.station, Sheets.of(book))[0]


def deciding(findings, verdict):
    return tuple(dict.fromkeys(f.code for f in findings if f.verdict is verdict is not Verdict.OK))


def test_each_vehicle_meets_each_charger_and_each_station_once(rows):
    book = example()
    vehicles = {fit.slug for fit in book.fits}
    asked = [(v, c, s) for v in sorted(vehicles) for c in book.chargers for s in book.stations]
    assert [(row.vehicle, row.charger, row.station) for row in rows] == asked


def test_the_verdict_is_that_of_decide_for_every_pairing_of_the_example(rows):
    for row in rows:
        if row.verdict is Standing.UNKNOWN:
            continue
        outcome = decide(fit_of(row, example()), TODAY)
        assert outcome.verdict.value == row.verdict.value, row
        assert deciding(outcome.findings, outcome.verdict) == row.codes, row
        if isinstance(outcome.result, Refusal):
            assert row.set_V is row.power_W is row.limit is None
        else:
            design = outcome.result.design
            assert row.set_V == design.choice.set_V
            assert row.power_W == design.solved.output.power_W


def test_the_verdict_is_that_of_the_rules_for_generated_pairings():
    book = generated(3, 6, 5)
    found = tuple(pairings(tasks(book), Sheets.of(book)))
    assert {row.verdict for row in found} >= {Standing.REFUSED, Standing.HOLD}
    for row in found:
        result = choose(fit_of(row, book), judge)
        result = result if isinstance(result, Refusal) else approve(result)
        verdict = Verdict.REFUSED if isinstance(result, Refusal) else result.verdict
        assert (row.verdict.value, row.codes) == (verdict.value, deciding(result.findings, verdict))


def test_a_written_pairing_is_judged_as_its_fit_and_not_as_another(rows):
    by_fit = {row.pattern: row for row in rows if row.written}
    assert by_fit["brunsall-tansy/j1"].verdict is Standing.CAUTION
    assert by_fit["pellmare-mirren/j6"].codes == ("SU-02",)
    assert "dunstrel-cobble/j10" not in by_fit  # two chargers: another thing than one of each
    assert all(not row.taken for row in rows if row.written)


def test_a_battery_as_load_says_nothing_of_a_station(rows):
    camper = [row for row in rows if row.vehicle == "tavlow-camber"]
    assert {row.verdict for row in camper} == {Standing.UNKNOWN}
    assert {row.why.id for row in camper} == {"matrix.unknown.battery"}
    assert all(row.set_V is None and not row.codes for row in camper)


def with_charger(**changes):
    """Return the example with one more charger, the small one but for the changes."""
    book = example()
    sheet = book.chargers["sorrel-240"].model_copy(update=changes)
    return replace(book, chargers={**book.chargers, "other": sheet})


def row_for(book, vehicle, charger, station):
    wanted = (vehicle, charger, station)
    found = pairings(tasks(book), Sheets.of(book))
    return next(row for row in found if (row.vehicle, row.charger, row.station) == wanted)


def test_a_charger_without_signal_input_is_not_started_by_a_line():
    fit = example_fit("pellmare-mirren/j5")
    assert "voltage" not in {cue.kind.value for cue in fit.vehicle.cues.values()}
    row = row_for(with_charger(cue=None), "pellmare-mirren", "other", "tun-500")
    assert (row.verdict, row.why.id) == (Standing.UNKNOWN, "matrix.unknown.cue")


def test_a_charger_without_signal_input_takes_the_voltage_cue_of_the_vehicle():
    row = row_for(with_charger(cue=None), "brunsall-tansy", "other", "tun-500")
    assert Taken.CUE in row.taken
    assert (row.verdict, row.codes[0]) == (Standing.REFUSED, "CU-02")


def test_what_was_written_for_another_pairing_is_named():
    row = row_for(with_charger(), "brunsall-tansy", "other", "tun-500")
    assert row.taken == (Taken.FIXINGS, Taken.OUTPUT_LEAD)
    swapped = row_for(example(), "pellmare-mirren", "sorrel-240", "loft-2000")
    assert swapped.taken == (Taken.STATION_PLACE, Taken.CONNECTOR)


def test_the_limit_is_the_one_that_would_have_to_be_wider():
    assert (
        row_for(example(), "brunsall-tansy", "sorrel-240", "tun-500").limit is Limit.STATION_POWER
    )
    assert row_for(example(), "tessick-orlet", "sorrel-240", "tun-1100").limit is Limit.FUSE
    assert row_for(example(), "dunstrel-cobble", "sorrel-520", "loft-2000").limit is (
        Limit.CHARGER_POWER
    )


def test_a_pattern_can_be_named():
    named = tasks(example(), ("brunsall-tansy/j2",))
    assert next(t for t in named if t.pattern.slug == "brunsall-tansy").pattern.id.endswith("/j2")
    with_pattern = run("brunsall-tansy/j2", "--format", "csv").stdout
    assert "brunsall-tansy,brace-24-700,loft-310,refused" in with_pattern
    assert ",brunsall-tansy/j2,false," in with_pattern


def test_a_refusal_of_the_pattern_does_not_go_with_it():
    tow = example_fit("dunstrel-cobble/j9")  # asks for a size, and is kept as a refusal
    fit, _ = paired(tow, "sorrel-240", "loft-310", Sheets.of(example()))
    assert fit.job.refused is None
    assert fit.job.asked.area is None


def text(form, executor=None):
    book = example()
    one = replace(book, stations=dict(list(book.stations.items())[:2]))
    told = _FORMS[form](pairings(tasks(one), Sheets.of(one), executor), one, _reasons())
    return "".join(told)


@pytest.fixture(scope="module")
def alone():
    return text("json")


def test_threads_give_the_same_bytes(alone):
    with ThreadPoolExecutor(3) as pool:
        assert text("json", pool) == alone


@pytest.mark.parametrize("workers", [1, 2])
def test_processes_give_the_same_bytes(alone, workers):
    with ProcessPoolExecutor(workers, mp_context=get_context("spawn")) as pool:
        assert text("json", pool) == alone


def test_a_cluster_gives_the_same_bytes(alone):
    with (
        LocalCluster(n_workers=2, threads_per_worker=1, dashboard_address=None) as cluster,
        Client(cluster) as client,
    ):
        assert text("json", client.get_executor()) == alone


def test_json_follows_its_schema():
    told = json.loads(run("--format", "json").stdout)
    jsonschema.validate(told, SCHEMA)
    assert len(told["pairings"]) == 7 * 4 * 4
    assert told["demonstration"] is True


def test_csv_says_the_same_as_json():
    told = json.loads(run("--format", "json").stdout)["pairings"]
    lines = list(csv.DictReader(io.StringIO(run("--format", "csv").stdout)))
    assert len(lines) == len(told)
    for line, row in zip(lines, told, strict=True):
        assert list(line) == list(row)
        assert line["codes"].split() == row["codes"]
        assert line["set_V"] == ("" if row["set_V"] is None else str(row["set_V"]))
        assert line["written"] == str(row["written"]).lower()
        assert (line["verdict"], line["reason"]) == (row["verdict"], row["reason"])


def test_a_variant_of_a_vehicle_is_told_from_its_base():
    words = load_catalogue(shipped("templates"), "en")
    named = {line.slug: tell(line.vehicle, words)["text"] for line in lines(example())}
    assert named["dunstrel-cobble"] == "Dunstrel Cobble 3.0 D pickup, 2019 to 2023"
    assert named["dunstrel-cobble-tow-pack"].startswith("Dunstrel Cobble 3.0 D with tow pack")
    assert len(set(named.values())) == len(named)


@pytest.mark.parametrize("columns", [50, 99, 100, 160])
def test_no_line_is_wider_than_the_terminal(columns):
    said = run(columns=columns).stdout
    assert max(map(len, said.splitlines())) <= columns
    assert "112 pairings: " in said


def test_a_wide_terminal_has_a_pairing_a_line_and_a_narrow_one_two():
    assert re.search(r"sorrel-240 +tun-500 +caution +24.0 V +200 W +station power", run().stdout)
    narrow = run(columns=60).stdout
    assert "  sorrel-240 + tun-500\n    caution  24.0 V   200 W  station power" in narrow


@pytest.mark.parametrize(
    ("args", "said"),
    [
        (("--workers", "0"), "0 is not in the range x>=1"),
        (("--workers", "2", "--cluster", "tcp://127.0.0.1:1"), "exclude each other"),
        (("--format", "xml"), "'xml' is not one of"),
        (("brunsall-tansy/j99",), "no fit `brunsall-tansy/j99`"),
        (("brunsall-tansy/j1", "brunsall-tansy/j2"), "one pattern a vehicle"),
        (("--cluster", "nowhere"), "no cluster answers at nowhere"),
    ],
)
def test_a_wrong_call_says_what_is_wrong(args, said, monkeypatch):
    monkeypatch.setattr("baybook.desk.matrix._PATIENCE_S", 1)
    found = run(*args)
    assert found.exit_code == 2
    assert said in found.output
    assert "Traceback" not in found.output


def test_without_the_extra_a_cluster_says_how_to_get_it(monkeypatch):
    monkeypatch.setitem(sys.modules, "distributed", None)
    found = run("--cluster", "tcp://127.0.0.1:8786")
    assert (found.exit_code, "pip install 'baybook[cluster]'" in found.output) == (2, True)


def test_a_page_is_not_made_of_more_than_a_person_reads():
    book = example()
    each = len(book.chargers) * len(book.stations)
    assert readable(MOST_LINES // each, book)
    assert not readable(MOST_LINES // each + 1, book)
    assert not readable(0, book)


def test_a_figure_outside_the_rules_makes_its_pairings_unknown_and_no_other():
    nought = quantity(example().chargers["sorrel-240"].output_min, 0.0)
    book = with_charger(output_min=nought)
    task = next(one for one in tasks(book) if one.pattern.slug == "brunsall-tansy")
    found = tuple(pairings((task,), Sheets.of(book)))
    unknown = {row.charger for row in found if row.verdict is Standing.UNKNOWN}
    assert unknown == {"other"}
    assert {row.why.id for row in found if row.charger == "other"} == {"matrix.unknown.range"}
