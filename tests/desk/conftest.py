"""One preview for the tests of each file."""

import pytest

from desk.previewed import preview, small
from workbooks import TANSY


@pytest.fixture(scope="module")
def served(tmp_path_factory):
    book = small(tmp_path_factory.mktemp("preview") / "fits")
    with preview(book) as server:
        yield book, server


@pytest.fixture(autouse=True)
def mended(request):
    """Leave the vehicle as it was, whatever a test did to it."""
    if "served" not in request.fixturenames:
        yield
        return
    book, _ = request.getfixturevalue("served")
    text = (book / TANSY).read_text("utf-8")
    yield
    (book / TANSY).write_text(text, "utf-8")
