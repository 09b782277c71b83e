"""The middle of the flow: one entry into the words of every language, under one revision.

entry ─tell, once a language─▶ contents ─revise─▶ a told entry a language
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from typing import Any

from baybook.book import Entry, Revision, Told, ToldBook, ToldEntry, Tongue
from baybook.compose.rulebook import example_texts, rulebook
from baybook.intake.texts import Texts
from baybook.plain import text_fingerprint
from baybook.publish.history import Issue, passed, revise, revision_plain
from baybook.shipped import shipped
from baybook.shop import Shop
from baybook.wording.catalogue import Catalogue, load_catalogue, require_whole
from baybook.wording.tell import tell

MODEL = "en"  # the language that sentences are written in first


@dataclass(frozen=True, slots=True, kw_only=True)
class Speaker:
    """One language of a site: its sentences, the shop's own texts in it, what it calls itself."""

    words: Catalogue
    texts: Texts
    book: ToldBook  # without an entry


def speakers(shop: Shop, texts: Mapping[str, Texts]) -> tuple[Speaker, ...]:
    """Return the languages of a shop, the first of its profile first.

    texts  the shop's own texts by language; none for the first, the workbook is written in it

    Raises CatalogueError for a language that lacks a sentence.
    """
    catalogues = [_catalogue(shipped("templates"), language) for language in shop.languages]
    for words in catalogues:
        require_whole(words, _catalogue(shipped("templates"), MODEL))
    tongues = tuple(
        Tongue(
            language=words.language,
            folder=f"{words.language}/" if at else "",
            name=words.sentence("page.tongue"),
        )
        for at, words in enumerate(catalogues)
    )
    return tuple(
        _speaker(words, shop, texts.get(words.language, {}), tongues) for words in catalogues
    )


@cache
def _catalogue(templates: Path, language: str) -> Catalogue:
    return load_catalogue(templates, language)


def _speaker(words: Catalogue, shop: Shop, texts: Texts, tongues: tuple[Tongue, ...]) -> Speaker:
    return Speaker(
        words=words,
        texts=texts,
        book=ToldBook(
            language=words.language,
            shop=tell(shop, words, texts=texts),
            words=words.words(),
            entries=(),
            tongues=tongues,
        ),
    )


def tell_rules(words: Catalogue) -> tuple[dict[str, Told], ...]:
    """Return the families of rules in the words of one language. No workbook changes them."""
    return tuple(tell(rulebook(), words, texts=example_texts(words.language)))


def tell_entry(
    entry: Entry, issues: tuple[Issue, ...], shop: Shop, languages: Sequence[Speaker]
) -> tuple[ToldEntry, ...]:
    """Put an entry into the words of every language, and number it if it changed.

    issues  what was published at its address before
    """
    contents = [_tell(entry, issues, shop, speaker) for speaker in languages]
    notices = [tell(entry.notice, at.words, texts=at.texts) for at in languages if entry.notice]
    revision = _revision(entry, issues, [*contents, *notices], shop)
    told = tuple(
        _told_entry(entry, content, revision, issues, speaker.words.language)
        for speaker, content in zip(languages, contents, strict=True)
    )
    for one, notice in zip(told, notices, strict=False):
        one.content["notice"] = notice
    return told


def _tell(entry: Entry, issues: tuple[Issue, ...], shop: Shop, speaker: Speaker) -> Any:  # noqa: ANN401
    words = speaker.words
    us = shop.units == "us" and words.language == "en"
    told: Any = tell(entry.content, words, texts=speaker.texts, us=us)
    if entry.kind == "withdrawal":
        told["identity"] = issues[-1].identity_in(words.language)
    return told


def _revision(
    entry: Entry, issues: tuple[Issue, ...], contents: Sequence[Any], shop: Shop
) -> Revision:
    """Return the revision of an entry, one for all languages.

    Its fingerprint of the text is that of all languages together: a word that is mended in one
    makes a new revision in every one. So a number on a paper says which edition it is, whatever
    the language, and two papers under one number never say two things.
    """
    text = text_fingerprint(list(contents))
    return revise(entry, issues, text=text, months=shop.valid_months)


def _told_entry(
    entry: Entry,
    told: dict[str, Told],
    revision: Revision,
    issues: tuple[Issue, ...],
    language: str,
) -> ToldEntry:
    content: dict[str, Any] = {
        entry.kind: told,
        "state": entry.state,
        "revision": revision_plain(revision),
        "earlier": [passed(issue) for issue in issues if issue.revision.number < revision.number],
    }
    return ToldEntry(fit=entry.fit, kind=entry.kind, language=language, content=content)
