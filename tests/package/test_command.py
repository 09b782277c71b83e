"""The command: help, exit status, messages, and how quickly it answers."""

import json
import os
import subprocess
import sys
from pathlib import Path

import pytest
from click.testing import CliRunner

from baybook.cli import main
from workbooks import copy_workbook, edit

COMMAND = [sys.executable, "-m", "baybook"]


def run(*args, cwd=None):
    return subprocess.run(
        [*COMMAND, *map(str, args)], cwd=cwd, capture_output=True, text=True, check=False
    )


@pytest.mark.parametrize("name", sorted(main.commands))
def test_every_command_explains_itself(name):
    done = CliRunner().invoke(main, [name, "--help"])
    assert done.exit_code == 0
    assert main.commands[name].help.splitlines()[0] in done.output


def test_help_is_as_quick_as_click_itself():
    """Start-up is imports: the help page loads click, and of ours no more than it shows."""
    ours = _modules("sys.argv = ['baybook', '--help']; import baybook.cli")
    own = {name for name in ours - _modules("import click") if name.startswith("baybook")}
    assert own == {"baybook", "baybook.cli"}
    assert len(ours - _modules("import click, datetime, pathlib, importlib.metadata")) < 20


def _modules(code):
    listing = f"import sys; {code}; print(*sys.modules)"
    done = subprocess.run([sys.executable, "-c", listing], check=True, capture_output=True)
    return set(done.stdout.decode().split())


def test_help_imports_nothing_heavy():
    code = "import sys, baybook.cli; print(*sys.modules)"
    done = subprocess.run([sys.executable, "-c", code], check=True, capture_output=True, text=True)
    heavy = {
        "pydantic",
        "yaml",
        "jinja2",
        "mkdocs",
        "typst",
        "rich",
        "babel",
        "graphviz",
        "fontTools",
    }
    assert not heavy & set(done.stdout.split())


# What a check has no use for: layout, prints, drawings, sites, networks, other processes.
NOT_FOR_CHECK = {
    "asyncio", "babel", "concurrent", "distributed", "fontTools", "graphviz", "http", "jinja2",
    "lxml", "markdown_it", "mkdocs", "multiprocessing", "pikepdf", "pint", "platformdirs",
    "pypdfium2", "pyphen", "rcssmin", "rich", "rjsmin", "segno", "ssl", "typst",
    "watchfiles", "xml",
}  # fmt: skip
ROOMS_NOT_FOR_CHECK = {"crew", "drawing", "making", "matrix", "notes", "pipeline", "publish"}


@pytest.mark.parametrize("form", ["text", "json", "sarif", "github"])
def test_check_of_a_fit_imports_nothing_heavy(tmp_path, form):
    book = copy_workbook(tmp_path / "fits")
    args = ["check", "dunstrel-cobble/j9b", "--workbook", str(book), "--format", form]
    code = "import atexit, sys; from baybook.cli import main; "
    code += f"atexit.register(lambda: print(*sys.modules, file=sys.stderr)); main({args})"
    done = subprocess.run([sys.executable, "-c", code], check=True, capture_output=True, text=True)
    loaded = done.stderr.splitlines()[-1].split()
    assert "baybook.desk.checking" in loaded
    assert not NOT_FOR_CHECK & {name.partition(".")[0] for name in loaded}
    ours = {name.split(".")[1] for name in loaded if name.startswith("baybook.")}
    assert not ROOMS_NOT_FOR_CHECK & ours


def test_nobody_looks_for_garbage_as_a_command_ends():
    code = "import atexit, gc; atexit.register(lambda: print(gc.get_freeze_count() > 0)); "
    code += "from baybook.cli import main; main(['schema', 'shop'])"
    done = subprocess.run([sys.executable, "-c", code], check=True, capture_output=True, text=True)
    assert done.stdout.endswith("True\n")


def test_no_workbook_is_a_wrong_call(tmp_path):
    done = run("check", cwd=tmp_path)
    assert done.returncode == 2
    assert "name the folder that holds shop.yaml with --workbook" in done.stderr


def test_the_workbook_is_found_here_above_and_in_fits(tmp_path):
    book = copy_workbook(tmp_path / "fits")
    for cwd in (book, book / "vehicles", tmp_path):
        assert run("check", cwd=cwd).returncode == 0, cwd


def test_check_says_a_verdict_for_each_fit(tmp_path):
    done = run("check", "--workbook", copy_workbook(tmp_path / "fits"))
    assert done.returncode == 0, done.stderr
    said = {line.split()[0]: " ".join(line.split()[1:]) for line in done.stdout.splitlines()[:-1]}
    verdicts = {fit.rsplit("/")[-1]: text for fit, text in said.items()}
    assert verdicts["j1"].startswith("caution")
    assert verdicts["j3"].startswith("hold")
    assert verdicts["j9b"].startswith("caution")
    assert verdicts["j4"].startswith("refused, kept")
    assert verdicts["j9"].startswith("refused, kept")


def test_check_json_is_one_object_with_the_whole_design(tmp_path):
    done = run("check", "--json", "--workbook", copy_workbook(tmp_path / "fits"))
    fits = {fit["fit"].rsplit("/")[-1]: fit for fit in json.loads(done.stdout)["fits"]}
    assert fits["j9b"]["figures"]["current_low"]["value"] == pytest.approx(43.8, abs=0.1)
    assert fits["j9b"]["figures"]["current_low"]["unit"] == "A"
    assert {"symbol", "value", "unit", "low", "high", "basis", "sources"} == set(
        fits["j9b"]["figures"]["current_low"]
    )
    assert fits["j9b"]["circuit"]["conductors"]
    assert fits["j9"]["circuit"] is None
    assert [c["choice"]["area_mm2"] for c in fits["j9b"]["candidates"]] == [6, 10, 16, 25, 35]


def test_a_misspelt_fit_lists_the_nearest(tmp_path):
    done = run("check", "dunstrel-coble/j9b", "--workbook", copy_workbook(tmp_path / "fits"))
    assert done.returncode == 2
    assert "j9b" in done.stderr.split("near it:")[1]


def test_a_spoilt_figure_is_one_message_with_its_place(tmp_path):
    book = copy_workbook(tmp_path / "fits")
    file = edit(book, "shop.yaml", "end_allowance: 0.30 m", "end_allowance: 0,30 m")
    done = run("check", "--workbook", book)
    assert done.returncode == 1
    line = 1 + Path(file).read_text().splitlines().index(
        next(text for text in Path(file).read_text().splitlines() if "0,30 m" in text)
    )
    assert f"fits/shop.yaml:{line}:" in done.stderr
    assert "refused DA-" in done.stderr
    assert "Traceback" not in done.stderr


def test_workings_follow_a_figure_to_its_inputs(tmp_path):
    book = copy_workbook(tmp_path / "fits")
    fit = next(
        line.split()[0]
        for line in run("check", "--workbook", book).stdout.splitlines()
        if "/j9b" in line
    )
    done = run("workings", fit, "current_low", "--workbook", book)
    assert done.returncode == 0, done.stderr
    assert "I = 43.8 A" in done.stdout
    wrong = run("workings", fit, "currant", "--workbook", book)
    assert wrong.returncode == 2
    assert "current_low" in wrong.stderr


def test_data_on_stdout_is_clean_without_a_terminal(tmp_path):
    book = copy_workbook(tmp_path / "fits")
    done = subprocess.run(
        [*COMMAND, "check", "--workbook", book], capture_output=True, check=False,
        env={**os.environ, "NO_COLOR": "", "TERM": "xterm-256color"},
    )  # fmt: skip
    assert b"\x1b" not in done.stdout + done.stderr
