"""A workbook of somebody who means harm: what is written in it is read, and never runs."""

import re
from itertools import cycle

import pikepdf
import pytest

from baybook.pipeline import publish
from conftest import TODAY
from serving import serving
from tongues import translations, write_texts
from workbooks import SHOP, TANSY, alone, copy_workbook, edit, leave_only

EVIL = (
    "<script>window.pwned=1</script>",
    '<img src=x onerror="window.pwned=1">',
    '"><svg onload=window.pwned=1>',
    "</title></style></textarea><script>window.pwned=1</script>",
    "{{ 7*7 }}{% raw %}",
    '#eval("1") \\#set page(fill: red) $x$',
    "javascript:window.pwned=1",
    "[x](javascript:window.pwned=1) ![x](http://evil.invalid/x.png)",
    '\\N \\l \\G "];evil[label="x',
    "&lt;script&gt;&amp;#x3c;",
    "{name} {0} {{joint}} %s %(x)s",
    "--> ]]> <!-- ]]></svg>",
)
NAMES = (
    (SHOP, "name: Fenlow & Sprake Vehicle Fitting"),
    (TANSY, "make: Brunsall"),
    (TANSY, "model: Tansy"),
    ("datasheets/charger/sorrel-240.yaml", "name: Sorrel 240"),
)


@pytest.fixture(scope="module")
def site(tmp_path_factory):
    """Return a published site with something evil before every text and in some names."""
    top = tmp_path_factory.mktemp("hostile")
    root = copy_workbook(top / "fits")
    edit(root, SHOP, "languages: [en]", "languages: [en, de]")
    edit(root, SHOP, "papers: [a4, letter]", "papers: [a4]")
    shop = (root / SHOP).read_text("utf-8").partition("label_stock:")[0]  # no room for so much
    (root / SHOP).write_text(shop + "label_stock: []\n", "utf-8")
    leave_only(root, "brunsall-tansy")
    alone(root / TANSY, "j1")
    for file, name in NAMES:
        key, _, text = name.partition(": ")
        edit(root, file, name, f"""{key}: '{text} <script>window.pwned=1</script>'""")
    texts = zip(cycle(EVIL), translations(root), strict=False)
    write_texts(root, {text: f"{evil} {text}" for evil, text in texts})
    rendered = publish(root, top / "_site", today=TODAY)
    assert (rendered.problems, rendered.lost) == ((), ())
    return top / "_site"


@pytest.fixture(scope="module")
def served(site):
    with serving(site) as served:
        yield served.address


def test_nothing_that_is_written_runs_or_asks_outside(site, served, browser):
    pages = sorted(path.relative_to(site).as_posix() for path in site.rglob("*.html"))
    assert sum("brunsall-tansy" in page for page in pages) >= 4
    context = browser.new_context()
    asked, dialogs = [], []
    page = context.new_page()
    page.on("request", lambda request: asked.append(request.url))
    page.on("dialog", lambda dialog: (dialogs.append(dialog.message), dialog.dismiss()))
    for address in pages:
        page.goto(served + address)
        assert page.evaluate("window.pwned") is None, address
        scripts = page.evaluate("[...document.scripts].map(s => s.src || s.type)")
        assert all(src.startswith((served, "application/")) for src in scripts)
        handlers = "[...document.querySelectorAll('*')].flatMap(e => e.getAttributeNames())"
        assert not [a for a in page.evaluate(handlers) if a.startswith("on")], address
        links = page.evaluate("[...document.links].map(a => a.protocol)")
        assert set(links) <= {"http:", "https:", "mailto:"}, address
    assert dialogs == []
    assert [url for url in asked if not url.startswith((served, "data:"))] == []
    context.close()


def test_what_is_written_is_read_as_it_stands(site):
    german = (site / "de/guides/brunsall-tansy/j1/index.html").read_text("utf-8")
    assert "&lt;script&gt;window.pwned=1&lt;/script&gt;" in german
    assert "{{ 7*7 }}" in german
    assert "{name} {0} {{joint}}" in german


def test_a_print_holds_no_program_and_no_way_out(site):
    prints = sorted(site.rglob("*.pdf"))
    assert prints
    for path in prints:
        assert not re.search(
            rb"/(JavaScript|JS|Launch|EmbeddedFile|OpenAction|AA)\b", path.read_bytes()
        )
        with pikepdf.open(path) as pdf:
            links = [
                str(note.A.URI)
                for sheet in pdf.pages
                for note in sheet.get("/Annots", [])
                if "/URI" in note.get("/A", {})
            ]
        assert all(link.startswith("https://guides.example.invalid/") for link in links)
