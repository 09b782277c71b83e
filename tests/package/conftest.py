"""A workbook of one pickup, and the same with its site beside it."""

import shutil

import pytest

from package.lives import pickup, publish


@pytest.fixture
def shop(tmp_path):
    """Return a workbook of the pickup alone with j9 and j9b, printed on one paper."""
    return pickup(tmp_path / "fits")


@pytest.fixture(scope="session")
def once(tmp_path_factory):
    """Return the folder of that workbook and its site, published once for the worker."""
    top = tmp_path_factory.mktemp("once")
    assert publish(pickup(top / "fits")) == 0
    return top


@pytest.fixture
def standing(once, tmp_path):
    """Return a copy of the published workbook, its site beside it."""
    shutil.copytree(once, tmp_path / "copy")
    return tmp_path / "copy" / "fits"
