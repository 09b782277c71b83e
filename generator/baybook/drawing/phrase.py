"""Told messages as lines that fit a column.

A figure keeps its unit; a word that is wider than the column is parted, first behind a
hyphen or a stroke, then with a hyphen of ours where a soft one is marked, else anywhere.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from functools import lru_cache
from typing import Any

from baybook.drawing.measure import BOLD, REGULAR, width
from baybook.drawing.syllables import SOFT_HYPHEN

Told = Mapping[str, Any]
NO_BREAK = "\u00a0"
_LEAST_PART = 3  # letters on either side of a hyphen that we put in
_SIGNS = frozenset({"+", "−"})
_GAUGE = re.compile(r"\bAWG (?=\d)")  # a size in gauge is one name
_KEPT = f"AWG{NO_BREAK}"
_STRONG = frozenset({"strong", "letter"})


@dataclass(frozen=True, slots=True)
class Span:
    """A piece of one line in one weight."""

    text: str
    weight: int


@dataclass(frozen=True, slots=True)
class Line:
    spans: tuple[Span, ...]
    size: float
    width: float

    @property
    def text(self) -> str:
        return "".join(span.text for span in self.spans)


_Word = tuple[Span, ...]  # what must stay on one line
_Runs = tuple[tuple[str, str], ...]  # kind and text


def _width(spans: Iterable[Span], size: float) -> float:
    return sum(width(_seen(span.text), size, span.weight) for span in spans)


def _seen(text: str) -> str:
    return text.replace(SOFT_HYPHEN, "")


def _pieces(runs: _Runs, weight: int) -> Iterator[Span]:
    before = ""
    for kind, words in runs:
        # A unit belongs to the figure before it, whatever stands between them in the told form.
        joined = kind == "unit" and before == "figure"
        text = words.replace(" ", NO_BREAK) if kind == "unit" else _GAUGE.sub(_KEPT, words)
        strong = max(weight, BOLD) if kind in _STRONG else weight
        yield Span((NO_BREAK if joined else "") + text, strong)
        before = kind


def _words(runs: _Runs, weight: int) -> list[_Word]:
    words: list[list[Span]] = [[]]
    for piece in _pieces(runs, weight):
        for number, part in enumerate(piece.text.split(" ")):
            if number:
                words.append([])
            if part:
                words[-1].append(Span(part, piece.weight))
    return _signs_kept([tuple(word) for word in words if word])


def _signs_kept(words: list[_Word]) -> list[_Word]:
    """Keep a sign that stands alone with the word before it: "IN −" is one name."""
    out: list[_Word] = []
    for word in words:
        if out and len(word) == 1 and word[0].text in _SIGNS:
            out[-1] = (*out[-1], Span(NO_BREAK + word[0].text, word[0].weight))
        else:
            out.append(word)
    return out


def _cut(text: str, room: float, size: float, weight: int) -> tuple[str, str]:
    """Part a word so that the first part, with its hyphen, fits the room."""
    fits = [n for n in range(1, len(text)) if width(_seen(text[:n]), size, weight) <= room]
    for n in reversed(fits):
        if text[n - 1] in "-/" and n >= _LEAST_PART:
            return text[:n], text[n:]
    hyphen = width("-", size, weight)
    for n in reversed(fits):
        if text[n] == SOFT_HYPHEN and width(_seen(text[:n]), size, weight) + hyphen <= room:
            return text[:n] + "-", text[n + 1 :]
    for n in reversed(fits):
        inside = text[n - 1].isalpha() and text[n].isalpha()
        roomy = n >= _LEAST_PART and len(text) - n >= _LEAST_PART
        if inside and roomy and width(_seen(text[:n]), size, weight) + hyphen <= room:
            return text[:n] + "-", text[n:]
    n = max(fits, default=1)
    return text[:n], text[n:]


def _parted(word: _Word, room: float, size: float) -> Iterator[_Word]:
    line: list[Span] = []
    for span in word:
        rest = span.text
        while rest and _width([*line, Span(rest, span.weight)], size) > room:
            if line:
                yield tuple(line)
                line = []
                continue
            first, rest = _cut(rest, room, size, span.weight)
            yield (Span(first, span.weight),)
        if rest:
            line.append(Span(rest, span.weight))
    if line:
        yield tuple(line)


def _merged(spans: Iterable[Span]) -> tuple[Span, ...]:
    out: list[Span] = []
    for span in spans:
        if out and out[-1].weight == span.weight:
            out[-1] = Span(out[-1].text + span.text, span.weight)
        else:
            out.append(span)
    return tuple(out)


def _line(words: list[_Word], size: float) -> Line:
    spans: list[Span] = []
    for word in words:
        if spans:
            # Between two weights a plain space would stand at the edge of an SVG element: some
            # readers of SVG drop it there.
            same = spans[-1].weight == word[0].weight
            spans.append(Span(" " if same else NO_BREAK, word[0].weight))
        spans.extend(word)
    merged = _merged(Span(_seen(span.text), span.weight) for span in spans)
    return Line(merged, size, _width(merged, size))


def wrap(message: Told, room: float, size: float, weight: int = REGULAR) -> tuple[Line, ...]:
    """Return a told message as lines, none wider than the room.

    message  told form: {"runs": [...]}, see book.py
    room     width of the column; a single character wider than it still gets a line
    size     font size, above 0
    weight   of plain runs; strong runs and letters are bold at least

    Raises MissingGlyph naming the character and the text.
    """
    runs = tuple((run["kind"], run["text"]) for run in message["runs"])
    return _wrapped(runs, room, size, weight)


@lru_cache(maxsize=8192)  # a print is measured at several sizes before one fits
def _wrapped(runs: _Runs, room: float, size: float, weight: int) -> tuple[Line, ...]:
    parts = [
        part
        for word in _words(runs, weight)
        for part in ([word] if _width(word, size) <= room else _parted(word, room, size))
    ]
    lines: list[list[_Word]] = []
    for part in parts:
        if lines and _line([*lines[-1], part], size).width <= room:
            lines[-1].append(part)
        else:
            lines.append([part])
    return tuple(_line(line, size) for line in lines)


def plain(text: str) -> Told:
    """Return a plain string in the told form."""
    return {"runs": [{"kind": "text", "text": text}], "text": text}
