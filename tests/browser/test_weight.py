"""What a phone loads for a guide: at most 100 kB, compressed as a host sends it, fonts with it.

Pictures come beside it, when they come near.
"""

import gzip

import pytest
import yaml

from baybook.pipeline import publish
from conftest import TODAY
from serving import serving
from tongues import TEXTS, translations, write_texts
from workbooks import COBBLE, SHOP, alone, copy_workbook, edit, leave_only

MOST = 100_000
PACKED = (".woff2", ".png", ".jpg", ".webp", ".pdf")  # a host sends these as they are


def size(path):
    content = path.read_bytes()
    return len(content) if path.suffix in PACKED else len(gzip.compress(content, 6, mtime=0))


def loaded(page, site, address, name):
    """Return what each file weighs that a guide loads, its pictures apart."""
    page.goto(address + name)
    page.evaluate("document.fonts.ready.then(() => true)")
    asked = page.evaluate("performance.getEntriesByType('resource').map(e => e.name)")
    files = {file.removeprefix(address).partition("?")[0] for file in asked}
    files.add(name)
    assert any(file.endswith(".woff2") for file in files)
    alone = (file for file in sorted(files) if file and not file.startswith("photos/"))
    return {file: size(site / file) for file in alone}


@pytest.fixture(scope="module")
def german(tmp_path_factory):
    """Return the site of the longest guide in both languages."""
    top = tmp_path_factory.mktemp("german")
    root = copy_workbook(top / "fits")
    edit(root, SHOP, "languages: [en]", "languages: [en, de]")
    edit(root, SHOP, "papers: [a4, letter]", "papers: [a4]")
    leave_only(root, "dunstrel-cobble")
    alone(root / COBBLE, "j9b")
    said = yaml.safe_load((root / TEXTS).read_text("utf-8"))
    write_texts(root, {text: said[text] for text in translations(root)})
    rendered = publish(root, top / "_site", today=TODAY)
    assert (rendered.problems, rendered.lost) == ((), ())
    return top / "_site"


@pytest.mark.parametrize("fit", ["dunstrel-cobble/j9b", "tavlow-camber/j8", "ostrigg-drey/j3"])
def test_a_guide_is_light(visit, published, address, fit):
    files = loaded(visit(width=360), published, address, f"guides/{fit}/index.html")
    assert sum(files.values()) <= MOST, files


def test_a_german_guide_is_light_too(browser, german):
    page = browser.new_page(viewport={"width": 360, "height": 900})
    with serving(german) as served:
        name = "de/guides/dunstrel-cobble/j9b/index.html"
        files = loaded(page, german, served.address, name)
    page.close()
    assert "ß" in (german / name).read_text("utf-8")
    assert sum(files.values()) <= MOST, files
