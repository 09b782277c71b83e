"""The sentences of one language, parsed once.

A catalogue is a folder of YAML files, `id: "sentence"`, loaded together. A sentence may
hold `{name}` for a value and `**strong**`; a sentence with a `count` may come in plural
forms, chosen by the language's own rule.
"""

from __future__ import annotations

import re
from collections.abc import Hashable, Mapping
from dataclasses import dataclass
from functools import cache, lru_cache
from pathlib import Path
from typing import TYPE_CHECKING, Any, TypeAlias

import yaml

from baybook.standards.register import LANGUAGE, register_words

if TYPE_CHECKING:
    from babel import Locale
    from markdown_it import MarkdownIt
    from markdown_it.token import Token

Sentence: TypeAlias = str | Mapping[str, str]  # by plural form, if it has any
# What the reader of marks would not leave as it is. One star or underline is no mark.
_MARKED = re.compile(r"\*\*|[\\\0\r]")
_VALUE = re.compile(r"\{\{|\}\}|\{([a-z_][a-z0-9_]*)\}")


class CatalogueError(Exception):
    """A catalogue that cannot be used: it says which id, which file, what would be right."""


@dataclass(frozen=True, slots=True)
class Part:
    """A piece of a sentence: plain text, strong text, or the name of a value."""

    kind: str  # "text" | "strong" | "value"
    text: str


@dataclass(frozen=True, slots=True)
class Catalogue:
    language: str
    sentences: Mapping[str, Sentence]

    def sentence(self, message_id: str, count: int | None = None) -> str:
        """Return the sentence as it stands in the file, in the plural form of `count`."""
        try:
            found = self.sentences[message_id]
        except KeyError:
            msg = f"no sentence `{message_id}` in the catalogue `{self.language}`"
            raise CatalogueError(msg) from None
        if isinstance(found, str):
            return found
        if count is None:
            raise CatalogueError(f"`{message_id}` has plural forms and was given no `count`")
        form = _locale(self.language).plural_form(count)
        return found.get(form) or found["other"]

    def has(self, message_id: str) -> bool:
        return message_id in self.sentences

    def words(self) -> dict[str, str]:
        """Return the fixed words that templates ask for by id."""
        return {key: text for key, text in sorted(self.sentences.items()) if isinstance(text, str)}


@cache
def _locale(language: str) -> Locale:
    from babel import Locale  # noqa: PLC0415 - loaded for the first plural only

    return Locale.parse(language)


def load_catalogue(folder: Path, language: str) -> Catalogue:
    """Read every file of `folder/language`, and the register of sources in its own language.

    Raises CatalogueError for an unreadable file, a sentence that is not text, and an id
    that stands in two files.
    """
    sentences: dict[str, Sentence] = {}
    home: dict[str, str] = {}
    for file in sentence_files(folder, language):
        for key, text in read_sentences(file).items():
            if key in sentences:
                raise CatalogueError(f"`{key}` stands in {home[key]} and in {file.name}")
            sentences[key], home[key] = text, file.name
    if language == LANGUAGE:
        sentences |= register_words()
    return Catalogue(language, sentences)


def sentence_files(folder: Path, language: str) -> list[Path]:
    """Return the files of a language. Raises CatalogueError if there is none."""
    files = sorted((folder / language).glob("*.yaml"))
    if not files:
        raise CatalogueError(f"no sentences for the language `{language}` in {folder}")
    return files


def require_whole(catalogue: Catalogue, model: Catalogue) -> None:
    """Raise CatalogueError naming every sentence that `model` has and `catalogue` lacks.

    Asked before a word is told: some sentences are only used where they are there, and one that
    is missing in one language would make its guide say something else than the others.
    """
    missing = sorted(set(model.sentences) - set(catalogue.sentences))
    if missing:
        named = ", ".join(f"`{key}`" for key in missing)
        raise CatalogueError(
            f"the language `{catalogue.language}` lacks {len(missing)} of "
            f"{len(model.sentences)} sentences: {named}"
        )


class _OnceLoader(yaml.CSafeLoader):
    """Refuses an id that stands twice in a file: the second sentence would hide the first."""

    def construct_mapping(self, node: yaml.MappingNode, deep: bool = False) -> dict[Hashable, Any]:
        said = [key.value for key, _ in node.value]
        if len(set(said)) < len(said):
            twice = next(key for key in said if said.count(key) > 1)
            raise CatalogueError(f"`{twice}` stands twice in {Path(node.start_mark.name).name}")
        return super().construct_mapping(node, deep)


def read_sentences(file: Path) -> dict[str, Sentence]:
    """Return the sentences of one file. Raises CatalogueError for one that is not text."""
    with file.open("rb") as text:
        loaded = yaml.load(text, Loader=_OnceLoader) or {}  # noqa: S506 - it is a safe one
    if not isinstance(loaded, dict):
        raise CatalogueError(f"{file.name}: a catalogue is a map of id to sentence")
    for key, text in loaded.items():
        plural = isinstance(text, dict) and "other" in text
        if not (isinstance(key, str) and (isinstance(text, str) or plural)):
            raise CatalogueError(f"{file.name}: `{key}` is not a sentence in quotes")
    return loaded


@cache
def _markdown() -> MarkdownIt:
    from markdown_it import MarkdownIt  # noqa: PLC0415 - loaded for the first mark only

    # Nothing but strong and a backslash: no links, no images, no raw HTML.
    return MarkdownIt("zero").enable(["emphasis", "escape"])


@lru_cache(maxsize=4096)  # the texts of a vehicle or two: not of ten thousand
def inline(text: str) -> tuple[Part, ...]:
    """Split a person's line into plain and strong parts."""
    if text and not _MARKED.search(text):
        return (Part("text", text.replace("\n", " ")),)
    return tuple(_walk(_markdown().parseInline(text.replace("\n", " "))[0].children or []))


def _walk(tokens: list[Token]) -> list[Part]:
    parts: list[Part] = []
    strong = 0
    for token in tokens:
        if token.markup == "**":
            strong += {"strong_open": 1, "strong_close": -1}.get(token.type, 0)
        # One star or underline is no mark here: 2*3*4 must not be read as 234.
        text = token.content or (token.markup if token.markup in {"*", "_", "__"} else "")
        if text:
            parts.append(Part("strong" if strong else "text", text))
    return _joined(parts)


def _joined(parts: list[Part]) -> list[Part]:
    """Put neighbours of one kind together."""
    whole: list[Part] = []
    for part in parts:
        if whole and whole[-1].kind == part.kind:
            whole[-1] = Part(part.kind, whole[-1].text + part.text)
        else:
            whole.append(part)
    return whole


@cache
def parse(sentence: str) -> tuple[Part, ...]:
    """Split a sentence of the catalogue into text, strong and values."""
    parts: list[Part] = []
    for piece in inline(sentence):
        end = 0
        for match in _VALUE.finditer(piece.text):
            literal = piece.text[end : match.start()]
            if match[1] is None:
                literal += match[0][0]
            if literal:
                parts.append(Part(piece.kind, literal))
            if match[1] is not None:
                parts.append(Part("value", match[1]))
            end = match.end()
        if piece.text[end:]:
            parts.append(Part(piece.kind, piece.text[end:]))
    return tuple(parts)
