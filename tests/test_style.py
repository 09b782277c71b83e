"""Formatter, linter and type checker are part of the suite: one command runs everything."""

import subprocess
import sys
from pathlib import Path

import pytest

TOP = Path(__file__).parents[1]


@pytest.mark.parametrize(
    "command",
    [
        ["ruff", "check", "--no-cache", "generator", "tests"],
        ["ruff", "format", "--no-cache", "--check", "generator", "tests"],
        ["mypy", "--no-incremental"],
    ],
    ids=lambda command: " ".join(command[:2]),
)
def test_clean(command):
    done = subprocess.run(
        [sys.executable, "-m", *command], cwd=TOP, capture_output=True, text=True, check=False
    )
    assert done.returncode == 0, done.stdout + done.stderr
