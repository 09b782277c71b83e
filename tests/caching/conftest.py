"""A workbook of three vehicles, and a cache that knows them all."""

import re
import shutil
from contextlib import contextmanager

import pytest

from baybook import pipeline
from baybook.pipeline import render
from baybook.publish import site
from caching.publishes import ALL, JOBS
from conftest import TODAY
from workbooks import SHOP, alone, copy_workbook, edit, leave_only


@contextmanager
def without_mkdocs():
    """Leave MkDocs out: its pages depend on the tool and the frame alone."""
    page = lambda book: {"method/index.html": repr(site._frame(book)).encode()}  # noqa: E731
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(site, "written_site", page)
        patch.setattr(pipeline, "require_ways", lambda *_: None)  # links to them lead nowhere
        yield


@pytest.fixture(scope="module", autouse=True)
def _hand_written():
    """Here alone: a package has no end that a test elsewhere could rely on."""
    with without_mkdocs():
        yield


@pytest.fixture(scope="session")
def noted(tmp_path_factory):
    """Return a folder with a workbook of three vehicles, and a cache that knows them all."""
    top = tmp_path_factory.mktemp("noted")
    root = copy_workbook(top / "fits")
    edit(root, SHOP, "papers: [a4, letter]", "papers: []")
    _without_labels(root / SHOP)
    leave_only(root, *ALL)
    for name, job in JOBS.items():
        alone(root / name, job)
    with without_mkdocs():
        first = render(root, today=TODAY, cache=top / "cache", workers=1)
    assert (first.problems, first.lost) == ((), ())
    return top


def _without_labels(shop):
    text = re.sub(r"(?ms)^label_stock:$.*?(?=^\S|\Z)", "", shop.read_text("utf-8"))
    shop.write_text(text, "utf-8")


@pytest.fixture
def top(noted, tmp_path):
    shutil.copytree(noted, tmp_path / "copy")
    return tmp_path / "copy"
