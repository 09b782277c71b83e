"""Whole guides of the example workbook as told and as printed, and their sheets read back."""

import re
from functools import cache

import pypdfium2

from baybook.book import ToldBook, ToldEntry
from baybook.intake.texts import read_texts
from baybook.plain import plain
from baybook.publish.prints import render_prints
from baybook.shipped import shipped
from baybook.wording.catalogue import load_catalogue
from baybook.wording.tell import tell
from compose.jobs import GUIDES, guide
from prints import sample
from workbooks import EXAMPLE, example

MM = 72 / 25.4
ALL = (
    *(*GUIDES, "brunsall-tansy/j2", "dunstrel-cobble-tow-pack/j9", "pellmare-mirren/j5"),
    *("tavlow-camber/j8", "tessick-orlet/j7"),
)


@cache
def words_of(language):
    """Return the catalogue of a language, and the example's own texts in it."""
    texts, faults = read_texts(EXAMPLE, example())
    assert not faults
    return load_catalogue(shipped("templates"), language), texts.get(language, {})


@cache
def whole(name, paper, language="en"):
    """Return the told guide and its print, the drawings and the workings left out."""
    words, texts = words_of(language)
    told = tell(guide(name), words, texts=texts) | {"figures": [], "charts": []}
    content = {"guide": told, "state": "released", "revision": plain(sample.REVISION)}
    entry = ToldEntry(fit=name, kind="guide", language=language, content=content | {"earlier": []})
    book = ToldBook(language=language, shop=sample.SHOP, words=words.words(), entries=(entry,))
    pdf = render_prints(book, {}, papers=(paper,))[name][paper]
    return told, pdf


def squeezed(text):
    return re.sub(r"\s+", "", text)


@cache
def flows(pdf):
    """Return the text of each sheet as it was set, without spaces."""
    with pypdfium2.PdfDocument(pdf) as read:
        texts = [page.get_textpage().get_text_bounded() for page in read]
    # A hyphen at the end of a line is read as a sign of its own.
    return [squeezed(text.replace("\x02", "-")) for text in texts]


def unparted(text):
    """Leave out hyphens: German words are parted in the narrow columns."""
    return text.replace("-", "").replace("\N{SOFT HYPHEN}", "")


def sheets_of(name, paper, language):
    """Return the told guide, its sheets as flows, and how a told text is looked for in them."""
    told, pdf = whole(name, paper, language)
    parted = unparted if language == "de" else str
    return told, [parted(text) for text in flows(pdf)], lambda text: parted(squeezed(text))
