"""Two finished pages, word for word.

A regression test: it says that a page changed, not which one is right. Read the
difference, then run `python tests/golden/rewrite.py`.
"""

import difflib

from golden.pages import FOLDER, produced


def test_pages_are_as_they_were_read(published):
    for name, page in produced(published).items():
        kept = (FOLDER / name).read_text("utf-8")
        changes = difflib.unified_diff(
            kept.splitlines(), page.splitlines(), name, "now", lineterm="", n=0
        )
        assert page == kept, "\n".join(list(changes)[:60])
