"""Every command of manual, README and DEVELOPERS is run, and answers what is shown."""

import os
import re
import shutil
import subprocess
import sys
from pathlib import Path

import pytest

from baybook.cli import main
from baybook.publish.written import written_folder, written_pages
from baybook.shipped import shipped
from manual.commands import TOP, blocks, commands, fits, run

LANGUAGES = ("en", "de")
CHECKOUT = ("generator", "templates", "site", "fits", "pyproject.toml", "README.md", "LICENSE")
_INLINE = re.compile(r"`baybook ([a-z]+)([^`\n]*)`")


def pages(language):
    folder = written_folder(language) / "pages"
    return {
        page.address: (folder / page.address.replace(".html", ".md")).read_text("utf-8")
        for page in written_pages(language)
        if page.address.startswith("manual/")
    }


def typed(language):
    return [command for text in pages(language).values() for command in commands(text)]


@pytest.fixture(scope="module")
def checkout(tmp_path_factory):
    """Return a folder as a reader has it: a fresh checkout."""
    folder = tmp_path_factory.mktemp("reader") / "baybook"
    folder.mkdir()
    unwanted = shutil.ignore_patterns("issued", "__pycache__", "*.egg-info")
    for name in CHECKOUT:
        if (TOP / name).is_dir():
            shutil.copytree(TOP / name, folder / name, ignore=unwanted)
        else:
            shutil.copy(TOP / name, folder / name)
    return folder


def test_every_command_of_the_manual_answers_as_shown(checkout):
    """Installed as the first page says, then page by page."""
    found = typed("en")
    env = {name: value for name, value in os.environ.items() if name != "PYTHONPATH"}
    answers = run(found, checkout, env)
    assert len(found) > 30
    for command, (status, answer) in zip(found, answers, strict=False):
        assert (status != 0) == command.refused, f"{command.typed}\n{answer}"
        if command.shown:
            assert fits(command.shown, answer), f"{command.typed}\n{command.shown}\n---\n{answer}"
    assert len(answers) == len(found)


def test_every_language_shows_the_same_commands():
    english, *others = (
        [block for text in pages(language).values() for block in blocks(text)]
        for language in LANGUAGES
    )
    for other in others:
        assert other == english


@pytest.mark.parametrize("language", LANGUAGES)
def test_a_command_named_in_a_sentence_is_there_with_its_options(language):
    named = [match for text in (*pages(language).values(), *papers()) for match in
             _INLINE.findall(text)]  # fmt: skip
    assert len(named) > 5
    for name, rest in named:
        assert name in main.commands, name
        known = {option for param in main.commands[name].params for option in param.opts}
        assert set(re.findall(r"(?<![\w-])--?[a-z][a-z-]*", rest)) <= known, f"{name}{rest}"


def papers():
    return [(TOP / name).read_text("utf-8") for name in ("README.md", "DEVELOPERS.md")]


def test_the_manual_installs_as_the_readme_does():
    install = next(text for mark, text in blocks(papers()[0]) if mark == "sh")
    ours = {command.typed for command in typed("en")}
    assert "python3 -m venv .venv" in install
    assert "python3 -m venv .venv" in ours
    assert ".venv/bin/pip install ." in install
    assert "pip install ." in ours
    assert install.rstrip().endswith(".venv/bin/baybook publish")
    assert any(command.startswith("baybook publish") for command in ours)


def test_each_other_command_of_the_papers_is_a_tool_that_is_here():
    """The suite cannot run itself; what it is told to run must be there and take its options."""
    readme, developers = papers()
    ran = re.findall(r"\.venv/bin/python (tests/\S+\.py)", developers)
    assert {"tests/bench/run.py", "tests/golden/rewrite.py"} <= set(ran)
    for script in ran:
        assert (TOP / script).is_file(), script
    for folder in re.findall(r"pytest (?:-\S+ (?:\d+ )?)*((?:tests/\w+ ?)+)", developers):
        for name in folder.split():
            assert (TOP / name).is_dir(), name
    assert "-m pytest -n auto" in readme
    done = subprocess.run(
        [sys.executable, "-m", "pytest", "--help"], capture_output=True, text=True, check=True
    )
    for option in ("--cov", "--cov-branch", "--cov-report", "--cov-fail-under", "-n"):
        assert option in developers + readme
        assert option in done.stdout


def test_the_pages_travel_in_the_wheel():
    for language in LANGUAGES:
        assert Path(written_folder(language)).is_relative_to(shipped("site"))


@pytest.mark.parametrize(
    ("shown", "answer", "same"),
    [
        ("a 1\n", "a 1\n", True),
        ("a 1\n", "a 2\n", False),
        ("a 1\n", "a 1\nb\n", False),
        ("a 1\n…\n", "a 1\nb\nc\n", True),
        ("…\nc\n", "a\nb\nc\n", True),
        ("…\nc\n", "a\nb\n", False),
        ("a … A\n", "a 18.2 A\n", True),
        ("a …\n", "b 18.2 A\n", False),
        ("a.c\n", "abc\n", False),
    ],
)
def test_an_answer_is_held_against_what_is_shown(shown, answer, same):
    assert fits(shown, answer) is same


def test_an_edit_changes_the_first_place_and_needs_it(tmp_path):
    (tmp_path / "in").mkdir()
    (tmp_path / "in" / "a.yaml").write_text("x: 1\nx: 1\n", "utf-8")
    page = "```diff\n--- a.yaml\n-x: 1\n+x: 2\n```\n\n```diff\n--- a.yaml\n-y: 1\n+y: 2\n```\n"
    (made, _), (lacking, why) = run(commands(page), tmp_path / "in", dict(os.environ))
    assert (made, lacking) == (0, 1)
    assert "'y: 1' does not stand in a.yaml" in why
    assert (tmp_path / "in" / "a.yaml").read_text("utf-8") == "x: 2\nx: 1\n"
