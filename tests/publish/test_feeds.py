"""The feeds of changes, read back as RFC 4287 has them."""

import re
import xml.etree.ElementTree as ET
from dataclasses import replace
from datetime import date
from itertools import pairwise

import feedparser
import pytest
from hypothesis import given
from hypothesis import strategies as st

from baybook.book import Tongue
from baybook.publish.changes import changes_of, last_day
from baybook.publish.feeds import feeds
from baybook.publish.listing import listed
from baybook.publish.verify import verify_entries
from baybook.shipped import shipped
from baybook.wording.catalogue import load_catalogue
from publish import told
from publish.markup_reader import read

ATOM = {"a": "http://www.w3.org/2005/Atom"}
SAY = {"runs": [{"kind": "text", "text": "Joint D."}], "text": "Joint D."}
MOMENT = re.compile(r"\d{4}-\d\d-\d\dT\d\d:\d\d:\d\dZ")  # RFC 3339 with T and Z in capitals


def revision(
    number, on, *, kind="guide", state="released", figures="f", verdict="ok", notice=False
):
    return {"number": number, "on": on, "check_after": on, "figures": figures, "text": "t",
            "kind": kind, "state": state, "verdict": verdict, "notice": notice}  # fmt: skip


GUIDE = revision(1, "2024-01-01")
DRAFT = revision(1, "2024-01-01", state="draft")
REFUSAL = revision(1, "2024-01-01", kind="refusal", state="refused", verdict="")
WITHDRAWAL = revision(1, "2024-01-01", kind="withdrawal", state="withdrawn", verdict="")
MAKE = {"guide": told.guide, "refusal": told.refusal, "withdrawal": told.withdrawal}


def history(*lines, fit=told.FIT):
    """Return an entry with these revisions, numbered from 1; the last one stands."""
    *earlier, now = [line | {"number": place} for place, line in enumerate(lines, 1)]
    made = MAKE[now["kind"]](fit=fit)
    content = made.content | {"state": now["state"], "earlier": earlier}
    content["revision"] = {
        key: now[key] for key in ("number", "on", "figures", "text", "check_after")
    }
    if now["kind"] == "guide":
        content["guide"] = content["guide"] | {"verdict": now["verdict"]}
    if now["notice"]:
        content["notice"] = SAY
    return listed(replace(made, content=content))


def kinds(*lines):
    return [(change.kind, change.safety) for change in changes_of(history(*lines))]


def read_back(xml):
    return ET.fromstring(xml)  # noqa: S314 - made by us


def parsed(entries, name="feed.xml", **shop):
    return read_back(feeds(told.book(*entries, **shop))[name])


def texts(feed, path):
    return [node.text for node in feed.iterfind(path, ATOM)]


# ------------------------------------------------------------------ what a change is


@pytest.mark.parametrize(
    ("lines", "last"),
    [
        ([GUIDE], ("new", False)),
        ([GUIDE, GUIDE], ("revised", False)),
        ([GUIDE, GUIDE | {"figures": "g"}], ("figures", True)),
        ([GUIDE, GUIDE | {"verdict": "hold"}], ("verdict", True)),
        ([GUIDE, GUIDE | {"notice": True}], ("revised", True)),
        ([GUIDE, REFUSAL], ("refused", True)),
        ([REFUSAL], ("refused", True)),
        ([GUIDE, WITHDRAWAL], ("withdrawn", True)),
        ([GUIDE, WITHDRAWAL, GUIDE], ("again", False)),
        ([GUIDE, WITHDRAWAL, GUIDE | {"figures": "g"}], ("figures", True)),
        ([GUIDE, REFUSAL, REFUSAL, GUIDE | {"figures": "g"}], ("figures", True)),
        ([REFUSAL, GUIDE], ("new", False)),
        ([GUIDE, DRAFT], ("drafted", True)),
        ([GUIDE, DRAFT, GUIDE], ("again", False)),
        ([GUIDE, DRAFT, GUIDE | {"figures": "g"}], ("figures", True)),
        ([DRAFT, GUIDE], ("new", False)),
    ],
)
def test_each_change_is_told_by_its_kind_and_whether_it_is_of_safety(lines, last):
    assert kinds(*lines)[-1] == last


def test_a_draft_that_follows_no_released_guide_is_no_change():
    assert kinds(DRAFT) == []
    assert kinds(DRAFT, DRAFT) == []
    assert kinds(GUIDE, DRAFT, DRAFT) == [("new", False), ("drafted", True)]


LINES = st.lists(
    st.builds(
        lambda line, figures, on: line | {"figures": figures, "on": on.isoformat()},
        st.sampled_from([GUIDE, DRAFT, REFUSAL, WITHDRAWAL]),
        st.sampled_from(["f", "g"]),
        st.dates(date(2024, 1, 1), date(2024, 1, 9)),
    ),
    min_size=1,
    max_size=6,
)


@given(LINES)
def test_no_withdrawal_no_refusal_and_no_new_figure_is_ever_left_out_of_safety(lines):
    found = list(changes_of(history(*lines)))
    of_safety = {change.number for change in found if change.safety}
    released = [(place, line) for place, line in enumerate(lines, 1) if line["state"] == "released"]
    must = {place for place, line in enumerate(lines, 1) if line["kind"] != "guide"}
    must |= {
        place
        for (_, older), (place, line) in pairwise(released)
        if older["figures"] != line["figures"]
    }
    assert must <= of_safety
    days = [change.on for change in found]
    assert days == sorted(days)
    assert last_day(history(*lines)) == max(line["on"] for line in lines)


# ------------------------------------------------------------------ RFC 4287

FITS = (
    history(GUIDE, GUIDE | {"on": "2024-03-01", "figures": "g", "notice": True}),
    history(REFUSAL | {"on": "2024-02-01"}, fit="ostrigg-drey/j4"),
    history(GUIDE, WITHDRAWAL | {"on": "2024-04-01"}, fit="tavlow-camber/j8"),
)


@pytest.mark.parametrize("name", ["feed.xml", "safety.xml"])
def test_a_feed_has_what_rfc_4287_asks_for(name):
    feed = parsed(FITS, name)
    assert feed.tag == f"{{{ATOM['a']}}}feed"
    for one in (feed, *feed.iterfind("a:entry", ATOM)):  # 4.1.1 and 4.1.2: exactly one of each
        for tag in ("id", "title", "updated"):
            (node,) = one.findall(f"a:{tag}", ATOM)
            assert node.text.strip() == node.text != ""
        assert MOMENT.fullmatch(one.findtext("a:updated", None, ATOM))  # 3.3
        assert len(one.findall("a:link[@rel='alternate']", ATOM)) == 1
    assert texts(feed, "a:author/a:name") == [told.SHOP["name"]]  # 4.1.1: the feed's serves all
    (own,) = feed.findall("a:link[@rel='self']", ATOM)
    assert own.get("href") == f"https://guides.example.invalid/{name}"
    everything = texts(feed, ".//a:id")
    assert len(set(everything)) == len(everything)  # 4.2.6
    assert feed.findtext("a:updated", None, ATOM) == max(texts(feed, "a:entry/a:updated"))


@pytest.mark.parametrize("name", ["feed.xml", "safety.xml"])
def test_a_reader_that_is_not_ours_reads_the_same(name):
    feed = feeds(told.book(*FITS))[name]
    ours, theirs = read_back(feed), feedparser.parse(feed)
    assert not theirs.bozo
    assert theirs.version == "atom10"
    assert [entry.id for entry in theirs.entries] == texts(ours, "a:entry/a:id")
    assert [entry.title for entry in theirs.entries] == texts(ours, "a:entry/a:title")
    assert [entry.updated for entry in theirs.entries] == texts(ours, "a:entry/a:updated")
    assert all(entry.link.startswith("https://") for entry in theirs.entries)
    assert theirs.entries


def test_the_newest_stands_first_and_each_has_the_day_of_the_workbook():
    assert texts(parsed(FITS), "a:entry/a:updated") == [
        f"2024-{day}T00:00:00Z" for day in ("04-01", "03-01", "02-01", "01-01", "01-01")
    ]


def test_the_feed_of_safety_leaves_out_what_is_not_of_safety():
    said = texts(parsed(FITS, "safety.xml"), "a:entry/a:title")
    assert [title.partition(":")[0] for title in said] == [
        "WITHDRAWN",
        "FIGURES CHANGED",
        "REFUSED",
    ]


def test_an_entry_keeps_its_id_and_its_date_as_others_follow():
    def marks(*lines):
        feed = parsed([history(*lines)])
        return set(zip(texts(feed, "a:entry/a:id"), texts(feed, "a:entry/a:updated"), strict=True))

    lines = [GUIDE, GUIDE | {"on": "2024-03-01"}, REFUSAL | {"on": "2024-02-01"}, GUIDE]
    for size in range(1, len(lines)):
        assert marks(*lines[:size]) < marks(*lines[: size + 1])


def test_an_id_is_the_address_that_the_paper_of_that_revision_leads_to():
    ids = texts(parsed(FITS[:1]), "a:entry/a:id")
    assert ids == [f"https://guides.example.invalid/guides/{told.FIT}/?r={n}" for n in (2, 1)]


def test_the_shops_own_words_stand_with_what_stands_now():
    summaries = texts(parsed(FITS, "safety.xml"), "a:entry/a:summary")
    assert summaries[1].endswith("From the shop: Joint D.")
    assert "30.8 V reach the input." in summaries[2]


def test_demonstration_data_is_marked_in_the_feed_and_in_each_entry():
    feed = parsed(FITS)
    for said in texts(feed, "a:subtitle") + texts(feed, "a:entry/a:summary"):
        assert said.startswith("Demonstration data.")
    real = parsed(FITS, demonstration=False)
    assert "Demonstration" not in ET.tostring(real, "unicode")


def test_an_empty_site_still_has_a_feed():
    assert MOMENT.fullmatch(parsed(()).findtext("a:updated", None, ATOM))


def test_hostile_text_stays_text_and_no_character_breaks_the_feed():
    bad = "]]></title><script>\x00\x0b\ufffe\ud800&amp;<!--"
    entry = told.changed(told.refusal(), lambda t: t["identity"]["vehicle"].update(text=bad))
    feed = parsed([listed(entry)], about=f"A{bad}")
    assert {node.tag.partition("}")[2] for node in feed.iter()} <= {
        "feed", "id", "title", "subtitle", "updated", "link", "author", "name", "entry",
        "category", "summary",
    }  # fmt: skip
    (title,) = texts(feed, "a:entry/a:title")
    assert "]]></title><script>\ufffd\ufffd\ufffd\ufffd&amp;<!--" in title


def test_each_language_has_feeds_of_its_own():
    tongues = (
        Tongue(language="en", folder="", name="E"),
        Tongue(language="de", folder="de/", name="D"),
    )
    words = load_catalogue(shipped("templates"), "de").words()
    book = replace(told.book(*FITS), language="de", words=words, tongues=tongues)
    feed = read_back(feeds(book)["feed.xml"])
    assert feed.get("{http://www.w3.org/XML/1998/namespace}lang") == "de"
    for address in texts(feed, ".//a:id") + [
        one.get("href") for one in feed.iterfind(".//a:link", ATOM)
    ]:
        assert address.startswith("https://guides.example.invalid/de/")
    assert texts(feed, "a:entry/a:title")[0].startswith("ZURÜCKGEZOGEN")


def test_the_same_book_gives_the_same_feeds():
    assert feeds(told.book(*FITS)) == feeds(told.book(*reversed(FITS)))


# ------------------------------------------------------------------ where they are found


def test_every_page_leads_to_both_feeds_and_home_says_so():
    files = told.pages(told.guide(), told.refusal(), told.withdrawal())
    assert {"feed.xml", "safety.xml"} <= set(files)
    for name, content in files.items():
        if name.endswith(".html"):
            found = [
                e.attributes["href"].rpartition("/")[2]
                for e in read(content).elements
                if e.tag == "link" and e.attributes.get("type") == "application/atom+xml"
            ]
            assert found == ["feed.xml", "safety.xml"], name
    home = [e.attributes.get("href") for e in read(files["index.html"]).elements if e.tag == "a"]
    assert {"feed.xml", "safety.xml"} <= set(home)


@pytest.mark.parametrize("make", [told.guide, told.refusal])
def test_a_notice_of_the_shop_stands_on_the_page(make):
    entry = make()
    assert "From the shop:" not in told.page(entry)
    noted = replace(entry, content=entry.content | {"notice": SAY})
    page = told.page(noted)
    assert (
        page.index("From the shop:")
        < page.index("Joint D.")
        < page.index("</header>", page.index("<h1>"))
    )


@pytest.mark.parametrize("make", [told.guide, told.refusal])
def test_a_page_that_lost_the_notice_is_found(make):
    entry = make()
    noted = replace(entry, content=entry.content | {"notice": SAY})
    lost = [
        what for what in verify_entries(told.book(noted), told.pages(entry)) if "notice" in what
    ]
    assert lost == [f"guides/{entry.fit}/index.html: the notice `Joint D.`"]
    kept = verify_entries(told.book(noted), told.pages(noted))
    assert not [what for what in kept if "notice" in what]
