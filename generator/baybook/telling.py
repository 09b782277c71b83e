"""The middle of the flow: the entries of a book into the words of every language.

entries ─tell, once a language─▶ contents ─revise, once an entry─▶ one told book a language
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from baybook.book import Book, Entry, Revision, Told, ToldBook, ToldEntry, Tongue
from baybook.intake.texts import Texts
from baybook.plain import text_fingerprint
from baybook.publish.history import History, revise, revision_plain
from baybook.shipped import shipped
from baybook.shop import Shop
from baybook.wording.catalogue import Catalogue, load_catalogue, require_whole
from baybook.wording.tell import tell

MODEL = "en"  # the language that sentences are written in first


def tell_books(
    book: Book, history: History, texts: Mapping[str, Texts] | None = None
) -> tuple[ToldBook, ...]:
    """Put everything into the words of every language, and number what changed.

    texts  the shop's own texts by language; none for the first, the workbook is written in it
    """
    own = texts or {}
    catalogues = [
        load_catalogue(shipped("templates"), language) for language in book.shop.languages
    ]
    model = load_catalogue(shipped("templates"), MODEL)
    for words in catalogues:
        require_whole(words, model)
    tongues = tuple(
        Tongue(
            language=words.language,
            folder=f"{words.language}/" if at else "",
            name=words.sentence("page.tongue"),
        )
        for at, words in enumerate(catalogues)
    )
    told = [_tell_contents(book, history, words, own) for words in catalogues]
    revisions = [
        _revision(entry, history, [contents[at] for contents in told], book.shop)
        for at, entry in enumerate(book.entries)
    ]
    return tuple(
        ToldBook(
            language=words.language,
            shop=tell(book.shop, words, texts=own.get(words.language, {})),
            words=words.words(),
            pairings=tuple(tell(book.pairings, words, texts=own.get(words.language, {}))),
            entries=tuple(
                _told_entry(entry, content, revision, history, words.language)
                for entry, content, revision in zip(book.entries, contents, revisions, strict=True)
            ),
            tongues=tongues,
        )
        for words, contents in zip(catalogues, told, strict=True)
    )


def _tell_contents(
    book: Book, history: History, words: Catalogue, texts: Mapping[str, Texts]
) -> list[Any]:
    """Return the told content of every entry, in one language."""
    us = book.shop.units == "us" and words.language == "en"
    contents: list[Any] = []
    for entry in book.entries:
        told = tell(entry.content, words, texts=texts.get(words.language, {}), us=us)
        if entry.kind == "withdrawal":
            told["identity"] = history[entry.fit][-1].identity_in(words.language)
        contents.append(told)
    return contents


def _revision(entry: Entry, history: History, told: Sequence[Any], shop: Shop) -> Revision:
    """Return the revision of an entry, one for all languages.

    Its fingerprint of the text is that of all languages together: a word that is mended in one
    makes a new revision in every one. So a number on a paper says which edition it is, whatever
    the language, and two papers under one number never say two things.
    """
    text = text_fingerprint(list(told))
    return revise(entry, history.get(entry.fit, ()), text=text, months=shop.valid_months)


def _told_entry(
    entry: Entry,
    told: dict[str, Told],
    revision: Revision,
    history: History,
    language: str,
) -> ToldEntry:
    earlier = history.get(entry.fit, ())
    content: dict[str, Any] = {
        entry.kind: told,
        "state": entry.state,
        "revision": revision_plain(revision),
        "earlier": [
            revision_plain(issue.revision)
            for issue in earlier
            if issue.revision.number < revision.number
        ],
    }
    return ToldEntry(fit=entry.fit, kind=entry.kind, language=language, content=content)
