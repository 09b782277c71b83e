"""What a phone loads for a guide: at most 100 kB, compressed as a host sends it, fonts with it.

Pictures come beside it, when they come near.
"""

import gzip

import pytest

MOST = 100_000
PACKED = (".woff2", ".png", ".jpg", ".webp", ".pdf")  # a host sends these as they are


def size(path):
    content = path.read_bytes()
    return len(content) if path.suffix in PACKED else len(gzip.compress(content, 6, mtime=0))


@pytest.mark.parametrize("fit", ["dunstrel-cobble/j9b", "tavlow-camber/j8", "ostrigg-drey/j3"])
def test_a_guide_is_light(visit, published, address, fit):
    page = visit(f"guides/{fit}/index.html", width=360)
    page.evaluate("document.fonts.ready.then(() => true)")
    asked = page.evaluate("performance.getEntriesByType('resource').map(e => e.name)")
    files = {name.removeprefix(address).partition("?")[0] for name in asked}
    files.add(f"guides/{fit}/index.html")
    assert any(name.endswith(".woff2") for name in files)
    page_alone = (name for name in sorted(files) if name and not name.startswith("photos/"))
    loaded = {name: size(published / name) for name in page_alone}
    assert sum(loaded.values()) <= MOST, loaded
