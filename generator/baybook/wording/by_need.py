"""The sentences of one language for a command that tells a few of them and has to answer at once.

A file of the catalogue is parsed when a sentence of it is asked for. Whether a language is whole,
and says nothing twice, is asked where all of it is loaded: see `catalogue.load_catalogue`.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from pathlib import Path

from baybook.standards.register import LANGUAGE, register_words
from baybook.wording.catalogue import Catalogue, Sentence, read_sentences, sentence_files


def catalogue_by_need(folder: Path, language: str) -> Catalogue:
    """Return the same sentences as `load_catalogue`, their files not yet parsed."""
    return Catalogue(language, _Sentences(folder, language))


class _Sentences(Mapping[str, Sentence]):
    """Sentences by id. A file whose text does not hold an id has no sentence of it."""

    def __init__(self, folder: Path, language: str) -> None:
        files = sentence_files(folder, language)
        self._unread = {file: file.read_text(encoding="utf-8") for file in files}
        self._read: dict[str, Sentence] = {}
        self._registered = language != LANGUAGE  # only the register's own language has its words

    def __getitem__(self, key: str) -> Sentence:
        if key not in self._read:
            self._parse([file for file, text in list(self._unread.items()) if key in text])
        if key not in self._read:
            self._register()
        return self._read[key]

    def __iter__(self) -> Iterator[str]:
        self._parse(list(self._unread))
        self._register()
        return iter(self._read)

    def __len__(self) -> int:
        return sum(1 for _ in self)

    def _parse(self, files: list[Path]) -> None:
        # A preview asks in several threads: a file is there before it is no longer unread.
        for file in files:
            self._read |= read_sentences(file)
            self._unread.pop(file, None)

    def _register(self) -> None:
        if not self._registered:
            self._read |= register_words()
            self._registered = True
