"""What is heard of a site as its workbook changes: feeds, list for search engines, links."""

import xml.etree.ElementTree as ET

import pytest

from baybook import pipeline
from package.lives import LATER, pickup, publish
from workbooks import COBBLE, SHOP, edit

ATOM = {"a": "http://www.w3.org/2005/Atom"}
GUIDE = "guides/dunstrel-cobble/j9b/index.html"
CHECKED = "    checked:\n      on: 2024-11-29\n      by: approver\n"


def at(book, address):
    return (book.parent / "_site" / address).read_text("utf-8")


def titles(book, name):
    feed = ET.fromstring(at(book, name))  # noqa: S314 - made by us
    return [
        (
            node.findtext("a:title", None, ATOM).partition(":")[0],
            node.findtext("a:updated", None, ATOM),
        )
        for node in feed.iterfind("a:entry", ATOM)
        if "/j9b/" in node.findtext("a:id", None, ATOM)
    ]


def with_job(book, change):
    """Change the text of j9b in the vehicle file."""
    text = (book / COBBLE).read_text("utf-8")
    head, tail = text.split("  - id: j9b", 1)
    (book / COBBLE).write_text(f"{head}  - id: j9b{change(tail)}", "utf-8")


@pytest.fixture(scope="module")
def once(tmp_path_factory):
    """Return the folder of the pickup's workbook, no demonstration, published once."""
    top = tmp_path_factory.mktemp("once")
    book = pickup(top / "fits", papers="[]")
    edit(book, SHOP, "demonstration: true", "demonstration: false")
    assert publish(book) == 0
    return top


def test_a_shops_notice_makes_a_revision_that_the_safety_feed_carries(standing):
    assert titles(standing, "feed.xml") == [("New guide", "2024-11-29T00:00:00Z")]
    assert titles(standing, "safety.xml") == []
    noted = f"{CHECKED}      safety: Joint D was 5.4 N·m. Go back to it.\n"
    with_job(standing, lambda text: text.replace(CHECKED, noted, 1))
    assert publish(standing) == 0
    assert titles(standing, "safety.xml") == [("Words revised", "2024-11-29T00:00:00Z")]
    assert "From the shop: Joint D was 5.4 N·m. Go back to it." in at(standing, "safety.xml")
    assert "Joint D was 5.4 N·m. Go back to it." in at(standing, GUIDE)
    # The next one has nothing to say, and takes nothing back.
    with_job(standing, lambda text: text.replace(noted, CHECKED.replace("11-29", "12-01"), 1))
    assert publish(standing) == 0
    assert [title for title, _ in titles(standing, "feed.xml")] == [
        "Words revised",
        "Words revised",
        "New guide",
    ]
    assert titles(standing, "safety.xml") == [("Words revised", "2024-11-29T00:00:00Z")]
    assert "Joint D was" not in at(standing, GUIDE)


def test_a_changed_figure_and_a_withdrawal_are_heard_as_safety(standing):
    edit(standing, COBBLE, "length: 3.9 m", "length: 4.0 m")
    assert publish(standing) == 0
    asked = f"    asked:\n      area: 16 mm²\n{CHECKED}"
    with_job(standing, lambda text: text.replace(CHECKED, asked, 1))
    assert publish(standing, today=LATER) == 1
    wanted = [("WITHDRAWN", "2025-06-02T00:00:00Z"), ("FIGURES CHANGED", "2024-11-29T00:00:00Z")]
    assert titles(standing, "safety.xml") == wanted
    assert titles(standing, "feed.xml")[:2] == wanted
    assert f"{GUIDE}</loc>\n<lastmod>2025-06-02</lastmod>" in at(standing, "sitemap.xml")


def test_a_link_that_leads_nowhere_stops_the_publish_and_keeps_the_site(
    standing, monkeypatch, capsys
):
    before = at(standing, GUIDE)
    edit(standing, COBBLE, "length: 3.9 m", "length: 4.0 m")
    monkeypatch.setattr(pipeline, "kept_site", lambda *_: {})
    assert publish(standing) == 1
    said = capsys.readouterr().err
    assert "nothing was published: guides/dunstrel-cobble/j9/index.html has a broken link" in said
    assert "`manual/index.html`: there is no such file" in said
    assert at(standing, GUIDE) == before
    assert len(list((standing / "issued/dunstrel-cobble/j9b").iterdir())) == 1
