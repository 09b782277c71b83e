"""What search engines are told: the form of sitemaps.org, RFC 9309 for robots, and what is not."""

import xml.etree.ElementTree as ET
from dataclasses import replace
from pathlib import Path
from urllib.robotparser import RobotFileParser

import pytest
from lxml import etree

from baybook.book import Tongue
from baybook.publish.listing import listed
from baybook.publish.sitemap import for_robots
from publish import told
from publish.markup_reader import read

SITE = "https://guides.example.invalid"
NAMES = {
    "s": "http://www.sitemaps.org/schemas/sitemap/0.9",
    "x": "http://www.w3.org/1999/xhtml",
}
ENTRIES = (
    told.guide(),
    told.refusal(),
    told.withdrawal(),
    told.guide(state="draft", fit="a/draft"),
)
TONGUES = (
    Tongue(language="en", folder="", name="E"),
    Tongue(language="de", folder="de/", name="D"),
)


def book(**shop):
    made = told.book(*map(listed, ENTRIES), **({"demonstration": False} | shop))
    return replace(made, tongues=TONGUES)


def addresses():
    pages = [name for name in told.pages(*ENTRIES) if not name.startswith("assets/")]
    return [*pages, *(f"de/{name}" for name in pages), "assets/site.css"]


def read_back(xml):
    return ET.fromstring(xml)  # noqa: S314 - made by us


def days(xml):
    return {
        url.findtext("s:loc", None, NAMES): url.findtext("s:lastmod", None, NAMES)
        for url in read_back(xml).iterfind("s:url", NAMES)
    }


def robots(files):
    parser = RobotFileParser()
    parser.parse(files["robots.txt"].decode().splitlines())
    return parser


SCHEMA = etree.XMLSchema(file=str(Path(__file__).parents[1] / "schema" / "sitemap.xsd"))
MOST_BYTES = 50 * 1024 * 1024  # of one list, by https://www.sitemaps.org/protocol.html, from memory


def faults(xml):
    """Return what the schema holds against a list, one fault a line."""
    SCHEMA.validate(etree.fromstring(xml))
    return [fault.message for fault in SCHEMA.error_log]


@pytest.fixture(scope="module")
def files():
    return for_robots(book(), addresses())


def test_every_page_of_every_language_is_listed_but_a_draft(files):
    pages = {name for name in addresses() if name.endswith(".html")}
    drafts = {name for name in pages if "guides/a/draft/" in name}
    assert len(drafts) == 4  # guide and workings, in two languages
    assert set(days(files["sitemap.xml"])) == {f"{SITE}/{name}" for name in pages - drafts}


def test_a_draft_is_named_nowhere(files):
    assert b"draft" not in b"".join(files.values())


def test_a_guide_has_the_day_of_its_revision_in_every_language():
    later = {"number": 4, "on": "2025-01-02", "figures": "f", "text": "t", "check_after": "x"}
    entry = replace(told.guide(), content=told.guide().content | {"revision": later})
    whole = replace(book(), entries=(listed(entry), listed(told.refusal())))
    found = days(for_robots(whole, addresses())["sitemap.xml"])
    for folder in ("", "de/"):
        assert found[f"{SITE}/{folder}{told.PAGE}"] == "2025-01-02"
        workings = told.PAGE.replace("index.html", "workings/index.html")
        assert found[f"{SITE}/{folder}{workings}"] == "2025-01-02"
        assert found[f"{SITE}/{folder}guides/ostrigg-drey/j4/index.html"] == "2024-11-29"
        assert found[f"{SITE}/{folder}index.html"] == "2025-01-02"  # its newest line
        assert found[f"{SITE}/{folder}manual/rules.html"] is None  # nobody knows


def test_a_page_names_itself_and_its_other_languages(files):
    urls = read_back(files["sitemap.xml"]).findall("s:url", NAMES)
    assert urls
    for url in urls:
        links = {a.get("hreflang"): a.get("href") for a in url.iterfind("x:link", NAMES)}
        assert set(links) == {"en", "de"}
        assert url.findtext("s:loc", None, NAMES) in links.values()
        assert links["de"] == links["en"].replace(SITE, f"{SITE}/de")


def test_a_page_that_one_language_lacks_is_no_alternate():
    there = [name for name in addresses() if name != "de/symbols.html"]
    for url in read_back(for_robots(book(), there)["sitemap.xml"]).iterfind("s:url", NAMES):
        if "symbols" in url.findtext("s:loc", None, NAMES):
            assert [a.get("hreflang") for a in url.iterfind("x:link", NAMES)] == ["en"]


def test_a_list_that_is_too_long_is_parted(files):
    parted = for_robots(book(), addresses(), at_most=10)
    index = read_back(parted["sitemap.xml"])
    assert index.tag == f"{{{NAMES['s']}}}sitemapindex"
    named = [node.text.removeprefix(f"{SITE}/") for node in index.iterfind(".//s:loc", NAMES)]
    assert set(named) == set(parted) - {"sitemap.xml", "robots.txt"}
    assert len(named) > 1
    lists = [days(parted[name]) for name in named]
    assert max(map(len, lists)) == 10
    whole = {address: day for one in lists for address, day in one.items()}
    assert whole == days(files["sitemap.xml"])
    assert sum(map(len, lists)) == len(whole)


def test_every_list_is_valid_by_the_schema(files):
    parted = for_robots(book(), addresses(), at_most=10)
    lists = [xml for name, xml in {**parted, "whole": files["sitemap.xml"]}.items() if b"<" in xml]
    assert len(lists) > 3
    for xml in lists:
        assert faults(xml) == []
        assert len(xml) <= MOST_BYTES
        assert xml.startswith(b"<?xml version='1.0' encoding='utf-8'?>")


@pytest.mark.parametrize(
    ("spoil", "into", "said"),
    [
        (b"<lastmod>2024-11-29", b"<lastmod>29.11.2024", "not a valid value"),
        (b"<loc>https://guides", b"<loc>x</loc><loc>https://guides", "minLength"),
        (b'hreflang="de"', b'hreflang="_"', "xs:language"),
        (b"<url>", b"<page>", "not expected"),
        (b'rel="alternate"', b'rel="canonical"', "fixed value"),
    ],
)
def test_the_schema_would_find_something(files, spoil, into, said):
    xml = files["sitemap.xml"]
    assert spoil in xml
    xml = xml.replace(spoil, into)
    if spoil == b"<url>":
        xml = xml.replace(b"</url>", b"</page>")
    assert any(said in fault for fault in faults(xml))


def test_an_address_of_any_sign_is_escaped():
    odd = "guides/a&b/<c>/index.html"
    xml = for_robots(book(), [odd])["sitemap.xml"]
    assert faults(xml) == []
    assert set(days(xml)) == {f"{SITE}/{odd}"}


def test_robots_are_let_in_and_told_of_the_list(files):
    parser = robots(files)
    assert parser.site_maps() == [f"{SITE}/sitemap.xml"]
    assert parser.can_fetch("any", f"{SITE}/{told.PAGE}")


def test_a_demonstration_keeps_every_robot_out_and_has_no_list():
    files = for_robots(book(demonstration=True), addresses())
    assert set(files) == {"robots.txt"}
    parser = robots(files)
    assert parser.site_maps() is None
    for address in addresses():
        assert not parser.can_fetch("any", f"{SITE}/{address}")


def test_the_order_of_files_changes_nothing(files):
    assert for_robots(book(), reversed(addresses())) == files


def test_every_page_says_which_address_is_its_own():
    for name, content in told.pages(*ENTRIES).items():
        if name.endswith(".html"):
            (link,) = [e for e in read(content).elements if e.attributes.get("rel") == "canonical"]
            assert link.attributes["href"] == f"{SITE}/{name}"
