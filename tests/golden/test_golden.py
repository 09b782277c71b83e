"""Two finished pages, word for word, and every figure of twelve fits.

A regression test: it says that something changed, not which one is right. Read the
difference, then run `python tests/golden/rewrite.py`.
"""

import difflib

import pytest

from golden.figures import FITS, golden
from golden.pages import FOLDER, produced


def require_same(name, now):
    kept = (FOLDER / name).read_text("utf-8")
    changes = difflib.unified_diff(
        kept.splitlines(), now.splitlines(), name, "now", lineterm="", n=0
    )
    assert now == kept, "\n".join(list(changes)[:60])


def test_pages_are_as_they_were_read(published):
    for name, page in produced(published).items():
        require_same(name, page)


@pytest.mark.parametrize("fit", FITS)
def test_figures_are_as_they_were_read(fit, tmp_path):
    require_same(*golden(fit, tmp_path))
