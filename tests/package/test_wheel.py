"""The wheel, alone in a clean environment, publishes a workbook from an empty folder."""

import shutil
import subprocess
import sys
import zipfile
from pathlib import Path

import pytest

from workbooks import EXAMPLE

TOP = Path(__file__).parents[2]


@pytest.fixture(scope="module")
def wheel(tmp_path_factory):
    folder = tmp_path_factory.mktemp("dist")
    subprocess.run(
        [sys.executable, "-m", "build", "--wheel", "--outdir", folder, TOP],
        check=True, capture_output=True,
    )  # fmt: skip
    return next(folder.glob("*.whl"))


def test_wheel_carries_templates_fonts_standards_and_site(wheel):
    names = set(zipfile.ZipFile(wheel).namelist())
    assert "baybook/templates/fonts/OFL.txt" in names
    assert "baybook/site/mkdocs.yml" in names
    assert any(n.startswith("baybook/standards/") and n.endswith(".csv") for n in names)
    assert "baybook/standards/sources.yaml" in names
    assert not any(n.startswith(("tests/", "fits/")) for n in names)


def test_wheel_alone_publishes_from_an_empty_folder(wheel, tmp_path):
    subprocess.run([sys.executable, "-m", "venv", tmp_path / "env"], check=True)
    python = tmp_path / "env/bin/python"
    subprocess.run([python, "-m", "pip", "install", "-q", wheel], check=True, capture_output=True)
    empty = tmp_path / "empty"
    empty.mkdir()
    shutil.copytree(EXAMPLE, empty / "fits")
    done = subprocess.run(
        [tmp_path / "env/bin/baybook", "publish"],
        cwd=empty, capture_output=True, text=True, check=False,
    )  # fmt: skip
    assert done.returncode == 0, done.stderr
    assert (empty / "_site/index.html").is_file()
    prints = [len(list((empty / "_site" / at).rglob("*.pdf"))) for at in ("guides", "de/guides")]
    assert prints[0] == prints[1] > 0
