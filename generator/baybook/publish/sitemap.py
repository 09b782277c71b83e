"""What a search engine is told: which pages there are and when they changed, or to stay away.

The form is that of https://www.sitemaps.org/protocol.html, with the other languages of a page as
links; `robots.txt` is RFC 9309. A demonstration has no list, and asks every robot to stay away.
A draft is in no list and in no `robots.txt`, which would give its address away; its own page says
`noindex`. A withdrawal is listed: who finds the old guide is to find that it holds no longer.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Mapping, Sequence
from xml.etree import ElementTree as ET

from baybook.book import ToldBook, Tongue
from baybook.publish.changes import last_day
from baybook.publish.frame import shop_frame
from baybook.publish.home import folder

SITEMAP = "http://www.sitemaps.org/schemas/sitemap/0.9"
XHTML = "http://www.w3.org/1999/xhtml"
AT_MOST = 50_000  # addresses in one file, by the protocol
_OLD = re.compile(r"^guides/[^/]+/[^/]+/r[0-9]+/")  # an earlier revision
_LISTS = frozenset({"index.html", "matrix.html", "symbols.html"})  # change with any guide


def for_robots(
    book: ToldBook, addresses: Iterable[str], *, at_most: int = AT_MOST
) -> dict[str, bytes]:
    """Return `robots.txt`, and what it leads to, by address.

    book       any language of the site, with its slim entries
    addresses  of all files of the site, in all languages
    """
    if book.shop["demonstration"]:
        return {"robots.txt": b"User-agent: *\nDisallow: /\n"}
    site = shop_frame(book.shop)["site"]["address"]
    pages = _pages(book, addresses)
    robots = f"User-agent: *\nAllow: /\n\nSitemap: {site}/sitemap.xml\n"
    return {"robots.txt": robots.encode(), **_files(pages, book, site, at_most)}


def _files(pages: Mapping[str, str], book: ToldBook, site: str, at_most: int) -> dict[str, bytes]:
    """Return one list, or where it would be too long several and a list of them."""
    order = sorted(pages)
    parts = [order[at : at + at_most] for at in range(0, len(order), at_most)]
    lists = [_list(part, pages, book.tongues, site) for part in parts]
    if len(lists) == 1:
        return {"sitemap.xml": lists[0]}
    named = {f"sitemap-{place}.xml": content for place, content in enumerate(lists, 1)}
    index = ET.Element("sitemapindex", {"xmlns": SITEMAP})
    for name in named:
        ET.SubElement(ET.SubElement(index, "sitemap"), "loc").text = f"{site}/{name}"
    return {**named, "sitemap.xml": _bytes(index)}


def _pages(book: ToldBook, addresses: Iterable[str]) -> dict[str, str]:
    """Return the pages that may be found, each with the day that it changed last, "" if unknown."""
    days = {folder(entry.fit): last_day(entry) for entry in book.entries}
    drafts = {folder(e.fit) for e in book.entries if e.content["state"] == "draft"}
    listed = (day for at, day in days.items() if at not in drafts)
    newest = max(listed, default="")
    found: dict[str, str] = {}
    for address in addresses:
        own = _own(address, book.tongues)
        fit = "/".join(own.split("/")[:3])
        if own.endswith(".html") and fit not in drafts and not _OLD.search(own):
            found[address] = newest if own in _LISTS else days.get(fit, "")
    return found


def _own(address: str, tongues: Sequence[Tongue]) -> str:
    """Return an address as it stands in its language's folder."""
    for tongue in tongues:
        if tongue.folder and address.startswith(tongue.folder):
            return address.removeprefix(tongue.folder)
    return address


def _list(
    part: Iterable[str], pages: Mapping[str, str], tongues: Sequence[Tongue], site: str
) -> bytes:
    top = ET.Element("urlset", {"xmlns": SITEMAP, "xmlns:xhtml": XHTML})
    for address in part:
        url = ET.SubElement(top, "url")
        ET.SubElement(url, "loc").text = f"{site}/{address}"
        if pages[address]:
            ET.SubElement(url, "lastmod").text = pages[address]
        for language, other in _alternates(address, pages, tongues):
            link = {"rel": "alternate", "hreflang": language, "href": f"{site}/{other}"}
            ET.SubElement(url, "xhtml:link", link)
    return _bytes(top)


def _alternates(
    address: str, pages: Mapping[str, str], tongues: Sequence[Tongue]
) -> Iterator[tuple[str, str]]:
    """Yield language and address of a page in every language that has it, itself included."""
    own = _own(address, tongues)
    if len(tongues) > 1:
        for tongue in tongues:
            if tongue.folder + own in pages:
                yield tongue.language, tongue.folder + own


def _bytes(top: ET.Element) -> bytes:
    ET.indent(top, "")
    xml: bytes = ET.tostring(top, encoding="utf-8", xml_declaration=True)
    return xml + b"\n"
