"""How soon a phone shows something: nothing stands in the way of the first content but a little.

`python tests/bench/first_content.py SITE` measures it; here it is reckoned, so that no busy machine
decides. The phone's network is from memory: the slow one that browsers' own tools offer.
"""

import gzip
import re

import pytest

ROUND_TRIP_S = 0.15  # from memory
BITS_PER_SECOND = 1.6e6  # from memory
SETTING_UP = 4  # round trips: name, connection, its cipher, the page itself
AT_MOST_S = 1.5
PAGES = (
    "index.html",
    "guides/dunstrel-cobble/j9b/index.html",
    "guides/ostrigg-drey/j3/index.html",
    "guides/dunstrel-cobble/j9b/workings/index.html",
    "matrix.html",
    "manual/vehicle.html",
)


def packed(content):
    return len(gzip.compress(content, 6, mtime=0))


@pytest.mark.parametrize("name", PAGES)
def test_what_the_first_content_waits_for_is_soon_there(published, name):
    page = (published / name).read_bytes()
    text = page.decode("utf-8")
    sheets = re.findall(r'<link rel="stylesheet" href="([^"?]+)', text)
    assert len(sheets) == 1
    style = ((published / name).parent / sheets[0]).read_bytes()
    assert b"@import" not in style
    assert style.count(b"@font-face") == style.count(b"font-display:swap")
    waits = packed(page) + packed(style)
    takes_s = (SETTING_UP + 1) * ROUND_TRIP_S + waits * 8 / BITS_PER_SECOND
    assert takes_s <= AT_MOST_S


@pytest.mark.parametrize("name", PAGES)
def test_no_script_holds_up_the_page(published, name):
    text = (published / name).read_text("utf-8")
    for script in re.findall(r"<script\b[^>]*>", text):
        assert " defer" in script or 'type="application/ld+json"' in script
