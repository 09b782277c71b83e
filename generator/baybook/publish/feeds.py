"""The changes of a site as Atom feeds (RFC 4287): one of all, one of those that concern safety.

Every date is the workbook's, so that the same book gives the same bytes. A site whose workbook
holds nothing yet has no date to give: its feeds bear the first day that a computer counts.
"""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from typing import Any
from xml.etree import ElementTree as ET

from baybook.book import ToldBook, ToldEntry
from baybook.publish.changes import Change, changes_of
from baybook.publish.frame import shop_frame
from baybook.publish.home import folder
from baybook.publish.prints import address

ATOM = "http://www.w3.org/2005/Atom"
TYPE = "application/atom+xml"
ALL, SAFETY = "feed.xml", "safety.xml"
NEWEST = {ALL: 200, SAFETY: 1000}  # entries at most: what is older stands on the pages
_NO_DAY = "1970-01-01"
# RFC 4287 asks for well-formed XML 1.0, which holds no control character but these three.
_FORBIDDEN = re.compile("[^\t\n\r\u0020-\ud7ff\ue000-\ufffd\U00010000-\U0010ffff]")


def feeds(book: ToldBook) -> dict[str, bytes]:
    """Return both feeds of one language, by address. They ask for no more than `listed` keeps."""
    told = {entry.fit: entry for entry in book.entries}
    changes = [change for entry in book.entries for change in changes_of(entry)]
    changes.sort(key=lambda change: (change.fit, -change.number))
    changes.sort(key=lambda change: change.on, reverse=True)
    of_safety = [change for change in changes if change.safety]
    return {ALL: _feed(book, ALL, changes, told), SAFETY: _feed(book, SAFETY, of_safety, told)}


def _feed(
    book: ToldBook, name: str, changes: Sequence[Change], told: Mapping[str, ToldEntry]
) -> bytes:
    shop, top = shop_frame(book.shop), _top(book)
    feed = ET.Element("feed", {"xmlns": ATOM, "xml:lang": book.language})
    _text(feed, "id", f"{top}/{name}")
    _text(feed, "title", _said(book, f"feed.title.{name.partition('.')[0]}", shop=shop["name"]))
    _text(feed, "subtitle", " ".join([*_demonstration(book), shop["about"]]))
    _text(feed, "updated", _moment(max((change.on for change in changes), default=_NO_DAY)))
    ET.SubElement(feed, "link", {"rel": "self", "type": TYPE, "href": f"{top}/{name}"})
    ET.SubElement(
        feed, "link", {"rel": "alternate", "type": "text/html", "href": f"{top}/index.html"}
    )
    _text(ET.SubElement(feed, "author"), "name", shop["name"])
    for change in changes[: NEWEST[name]]:
        _entry(feed, book, change, told[change.fit])
    ET.indent(feed, "")
    xml: bytes = ET.tostring(feed, encoding="utf-8", xml_declaration=True)
    return xml + b"\n"


def _entry(feed: ET.Element, book: ToldBook, change: Change, told: ToldEntry) -> None:
    content: Any = told.content[told.kind]
    identity = content["identity"]
    entry = ET.SubElement(feed, "entry")
    _text(entry, "id", address(shop_frame(book.shop)["site"]["address"], change.fit, change.number,
                               book.folder))  # fmt: skip
    _text(entry, "title", _said(
        book, "feed.entry.title", what=_said(book, f"feed.what.{change.kind}"),
        vehicle=identity["vehicle"]["text"], variant=identity["variant"]["text"],
        pair=identity["pair"]["text"], number=change.number,
    ))  # fmt: skip
    _text(entry, "updated", _moment(change.on))
    ET.SubElement(
        entry,
        "link",
        {
            "rel": "alternate",
            "type": "text/html",
            "href": f"{_top(book)}/{folder(change.fit)}/index.html",
        },
    )
    ET.SubElement(entry, "category", {"term": change.kind})
    if change.safety:
        ET.SubElement(entry, "category", {"term": "safety"})
    _text(entry, "summary", " ".join(_summary(book, change, told)))


def _summary(book: ToldBook, change: Change, told: ToldEntry) -> list[str]:
    """Return the sentences of an entry; a reason is known of what stands now, and said."""
    lines = [*_demonstration(book), _said(book, f"feed.say.{change.kind}", number=change.number)]
    if not change.newest:
        return lines
    content: Any = told.content[told.kind]
    notice: Any = told.content.get("notice")
    if change.kind == "refused":
        lines.append(content["short_reason"]["text"])
    return [*lines, _said(book, "feed.notice"), notice["text"]] if notice else lines


def _demonstration(book: ToldBook) -> list[str]:
    words = ("page.demonstration.word", "page.demonstration.what")
    return [book.words[word] for word in words] if book.shop["demonstration"] else []


def _top(book: ToldBook) -> str:
    """Return the address of the home page's folder in this language, without a slash."""
    site: str = shop_frame(book.shop)["site"]["address"]
    return f"{site}/{book.folder}".rstrip("/")


def _moment(day: str) -> str:
    return f"{day}T00:00:00Z"


def _said(book: ToldBook, word: str, **values: object) -> str:
    return book.words[word].format(**values)


def _text(parent: ET.Element, tag: str, text: str) -> None:
    ET.SubElement(parent, tag).text = _FORBIDDEN.sub("\N{REPLACEMENT CHARACTER}", text)
