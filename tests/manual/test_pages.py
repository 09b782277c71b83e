"""The manual's pages in both languages: whole, led to and from, light, and promising nothing."""

import posixpath
import re

import pytest

from baybook.book import ToldBook
from baybook.publish.pages import index_pages
from baybook.publish.site import merge, written_site
from baybook.publish.written import written_folder, written_pages
from baybook.shipped import shipped
from baybook.telling import tell_rules
from baybook.wording.catalogue import load_catalogue
from publish import told
from publish.markup_reader import ids, read
from publish.test_pages import assert_clean

LANGUAGES = ("en", "de")
PROMISE = {"en": r"\bsafe(ly|ty)?\b", "de": r"\bsicher(e[nmrs]?|heit)?\b"}
WANTED = ("index", "start", "vehicle", "sheet", "shop", "review", "publish", "stranger")


def source(language, address):
    return (written_folder(language) / "pages" / address.replace(".html", ".md")).read_text("utf-8")


def manual(language):
    return [p.address for p in written_pages(language) if p.address.startswith("manual/")]


@pytest.fixture(scope="module", params=LANGUAGES)
def site(request):
    words = load_catalogue(shipped("templates"), request.param)
    book = ToldBook(
        language=request.param,
        shop=told.SHOP,
        words=words.words(),
        entries=(),
        rules=tell_rules(words),
    )
    return request.param, merge(index_pages(book), written_site(book))


def test_every_part_of_the_manual_is_there(site):
    language, files = site
    assert manual(language) == [f"manual/{name}.html" for name in WANTED]
    assert set(manual(language)) <= set(files)
    assert "manual/rules.html" in files


def test_every_page_leads_to_the_manual(site):
    for address, page in site[1].items():
        if address.endswith(".html"):
            root = "../" * address.count("/") or "./"
            assert f'href="{root}manual/index.html"' in page.decode(), address


def test_every_link_of_the_manual_leads_to_a_place(site):
    for address, page in site[1].items():
        if not address.endswith(".html"):
            continue
        for link in re.findall(r'<a [^>]*href="([^"]+)"', page.decode()):
            target, _, anchor = link.partition("#")
            if target.startswith(("mailto:", "https:")):
                continue
            path = posixpath.normpath(posixpath.join(posixpath.dirname(address), target or
                                                     posixpath.basename(address)))  # fmt: skip
            assert path in site[1], f"{address}: {link}"
            assert not anchor or anchor in ids(read(site[1][path])), f"{address}: {link}"


def test_every_page_of_the_manual_is_clean_and_light(site):
    for address, page in site[1].items():
        if address.startswith("manual/"):
            assert_clean(read(page))
            assert len(page) < 60_000, address
            assert not re.search(r'href="(?:rule|built):', page.decode()), address


def test_nothing_is_promised(site):
    language, files = site
    for address in manual(language):
        prose = re.sub(r"<code>[^<]*</code>", " ", files[address].decode())  # names of files, keys
        text = re.sub(r"<[^>]*>", " ", prose)
        assert not re.search(PROMISE[language], text, re.IGNORECASE), address


@pytest.mark.parametrize("address", manual("en"))
def test_every_language_says_the_same(address):
    """Headings, rows, list items, links and what stands in code are the same ones."""
    shapes = [_shape(source(language, address)) for language in LANGUAGES]
    assert all(shape == shapes[0] for shape in shapes)


def _shape(text):
    prose = re.sub(r"^```.*?^```$", "", text, flags=re.MULTILINE | re.DOTALL)
    return {
        "headings": [len(marks) for marks in re.findall(r"^(#+) ", prose, re.MULTILINE)],
        "rows": len(re.findall(r"^\|", prose, re.MULTILINE)),
        "items": len(re.findall(r"^- ", prose, re.MULTILINE)),
        "links": sorted(re.findall(r"\]\(([^)]+)\)", prose)),
        "code": sorted(re.findall(r"`([^`]+)`", prose)),
    }
