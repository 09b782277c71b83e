"""A told book for the tests of the pages, from the guide and refusal of the print's tests."""

from copy import deepcopy
from dataclasses import replace

from baybook.book import ToldBook
from baybook.publish.listing import listed
from baybook.publish.pages import entry_pages, index_pages
from baybook.shipped import shipped
from baybook.telling import tell_rules
from baybook.wording.catalogue import load_catalogue
from prints import sample

FIT = sample.IDENTITY.fit
PAGE = f"guides/{FIT}/index.html"
SHOP = sample.SHOP | {"about": "Unit 4, county town", "demonstration": True}
CATALOGUE = load_catalogue(shipped("templates"), "en")
WORDS = CATALOGUE.words()
SVG = '<svg xmlns="http://www.w3.org/2000/svg" role="img"><title>{0}</title></svg>'
VIEWS = {
    name: SVG.format(name) for name in ("wiring-wide", "wiring-slim", "route-wide", "route-slim")
}


def guide(*, state="released", fit=FIT):
    return sample.entry(sample.GUIDE, state=state, fit=fit)


def refusal(fit="ostrigg-drey/j4"):
    return sample.entry(sample.REFUSAL, "refusal", "refused", fit)


def withdrawal(fit="tavlow-camber/j8"):
    return sample.entry(sample.WITHDRAWAL, "withdrawal", "withdrawn", fit)


def book(*entries, **shop):
    return ToldBook(
        language="en", shop=SHOP | shop, words=WORDS, entries=entries, rules=tell_rules(CATALOGUE)
    )


def pages(*entries, prints=None, **shop):
    return pages_of(book(*entries, **shop), prints)


def pages_of(whole, prints=None):
    drawn = {entry.fit: VIEWS for entry in whole.entries if entry.kind == "guide"}
    files = dict(index_pages(replace(whole, entries=tuple(map(listed, whole.entries)))))
    for entry in whole.entries:
        files |= entry_pages(whole, entry, drawn, prints or {})
    return files


def under_banners():
    """Return a site of what the example does not publish, and its pages by what stands on them."""
    draft, old = guide(state="draft", fit="a/draft"), guide(fit="a/old")
    draft.content["guide"]["draft"] = draft.content["guide"]["reasons"]
    gone = withdrawal()
    files = pages(gone, draft)
    now = {"number": 4, "on": "2025-01-02"}
    files |= entry_pages(book(), old, {old.fit: VIEWS}, {}, now=now)
    number = old.content["revision"]["number"]
    return files, {
        "withdrawal": f"guides/{gone.fit}/index.html",
        "draft": f"guides/{draft.fit}/index.html",
        "earlier revision": f"guides/{old.fit}/r{number}/index.html",
    }


def page(entry, **shop):
    return pages(entry, **shop)[f"guides/{entry.fit}/index.html"].decode()


def changed(entry, change):
    """Return a copy of an entry whose told content was changed."""
    other = deepcopy(entry)
    change(other.content[other.kind])
    return other
