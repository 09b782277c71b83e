"""The check after rendering: everything that matters is found again, in the text a reader sees.

It reads the finished page, not the templates, so it also finds what a shop's own template dropped.
"""

from __future__ import annotations

import re
from bisect import bisect_left
from collections import Counter
from collections.abc import Iterable, Iterator, Mapping
from functools import lru_cache
from html import unescape
from typing import Any

from baybook.book import ToldBook, ToldEntry
from baybook.publish.home import folder
from baybook.publish.marked import MARKUP
from baybook.publish.requirements import (
    Row,
    Words,
    guide_rows,
    refusal_rows,
    step_rows,
    workings_rows,
)
from baybook.publish.workings import figures_of

_DRAWING = re.compile(r"<svg\b.*?</svg>", re.DOTALL)  # left out before parsing: half of a page
_WORD = re.compile(r"\d+(?:[.,]\d+)*|\w+|[^\w\s]")
_ATTRIBUTE = re.compile(r"""\s([\w:-]+)(?:\s*=\s*(?:"([^"]*)"|'([^']*)'|[^\s"'>]+))?""")
_HIDDEN = frozenset({"script", "style", "template", "svg", "head", "title", "noscript"})
_VOID = frozenset({"br", "input", "hr", "img", "link", "meta", "wbr", "col", "source"})
_INLINE = frozenset({"a", "b", "strong", "em", "i", "code", "small", "sub", "sup"})


def verify_page(html: bytes, guide: Mapping[str, Any], words: Words) -> tuple[str, ...]:
    """Return what of a told guide the page does not show; empty: nothing is lost."""
    return _missing(page_text(html), guide_rows(guide, words))


def verify_workings(html: bytes, figures: Iterable[Mapping[str, Any]]) -> tuple[str, ...]:
    """Return which figure, number or result a page of workings does not show."""
    return _missing(page_text(html), tuple(workings_rows(figures)))


def verify_charts(html: bytes, charts: Iterable[Mapping[str, Any]]) -> tuple[str, ...]:
    """Return which title of a chart, or sentence of it in words, a page does not show."""
    wanted = [node["text"] for chart in charts for node in (chart["title"], *chart["lines"])]
    return verify_lines(page_text(html), wanted) if wanted else ()


def verify_text(text: str, guide: Mapping[str, Any], words: Words) -> tuple[str, ...]:
    """Return what of a told guide a print's text does not hold: all but workings and sizes."""
    return _missing(_plain(text), step_rows(guide, words))


def verify_refusal(html: bytes, refusal: Mapping[str, Any]) -> tuple[str, ...]:
    """Return what of a told refusal the page does not show."""
    return _missing(page_text(html), refusal_rows(refusal))


def verify_refusal_text(text: str, refusal: Mapping[str, Any]) -> tuple[str, ...]:
    """Return what of a told refusal a print's text does not hold."""
    rows = (row for row in refusal_rows(refusal) if row.kind != "reason")  # that is for lists
    return _missing(_plain(text), tuple(rows))


def verify_lines(text: str, lines: Iterable[str]) -> tuple[str, ...]:
    """Return the lines that a text does not hold."""
    plain = _plain(text)
    return tuple(f"`{line}`" for line in lines if _words(line) not in plain)


def verify_entries(
    book: ToldBook, files: Mapping[str, bytes], *, alone: bool = False
) -> tuple[str, ...]:
    """Return what any page of the book lost, each with the address of its page.

    alone  only the pages themselves are looked at, not their workings
    """
    lost: list[str] = []
    for entry in book.entries:
        address = f"{folder(entry.fit)}/index.html"
        told: Any = entry.content[entry.kind]
        if address not in files:
            lost.append(f"{address}: the whole page")
        elif entry.kind == "guide":
            lost += [f"{address}: {what}" for what in verify_page(files[address], told, book.words)]
        elif entry.kind == "refusal":
            lost += [f"{address}: {what}" for what in verify_refusal(files[address], told)]
        elif _words(book.words["page.withdrawn.word"]) not in page_text(files[address]):
            lost.append(f"{address}: the banner of a withdrawn guide")
        lost += _lost_notice(entry, files.get(address, b""))
        if not alone:
            lost += _lost_workings(entry, files)
    return tuple(lost)


def _lost_notice(entry: ToldEntry, html: bytes) -> Iterator[str]:
    notice: Any = entry.content.get("notice")
    if notice:
        for what in verify_lines(page_text(html), [notice["text"]]):
            yield f"{folder(entry.fit)}/index.html: the notice {what}"


def _lost_workings(entry: ToldEntry, files: Mapping[str, bytes]) -> Iterator[str]:
    figures = figures_of(entry)
    address = f"{folder(entry.fit)}/workings/index.html"
    if figures and address not in files:
        yield f"{address}: the whole page"
    elif figures:
        for what in verify_workings(files[address], figures):
            yield f"{address}: {what}"
        told: Any = entry.content[entry.kind]
        for what in verify_charts(files[address], told["charts"]):
            yield f"{address}: chart {what}"


# ------------------------------------------------------------------ the text of a page


@lru_cache(maxsize=2)  # a page of workings is looked through for its figures, then for its charts
def page_text(html: bytes) -> str:
    """Return the text that a page shows, in reading order, with plain single spaces.

    No script, no drawing and nothing that is marked hidden is shown.
    """
    parts = MARKUP.split(_DRAWING.sub(" ", html.decode("utf-8")))  # a text, then a tag's parts, …
    out = [unescape(parts[0])]
    within: list[tuple[str, bool]] = []  # the elements that are open, and whether each is hidden
    for close, name, attributes, text in zip(*(parts[at::4] for at in (1, 2, 3, 4)), strict=True):
        # A comment has no name; an element that is closed at once holds no text.
        if name and not attributes.endswith("/"):
            tag = name.lower()
            if tag not in _INLINE:
                out.append(" ")
            if close:
                _leave(within, tag)
            else:
                if tag == "sub":
                    out.append("_")  # an index of a symbol: U_low
                if tag not in _VOID:
                    hidden = bool(within) and within[-1][1]
                    within.append((tag, hidden or tag in _HIDDEN or _is_hidden(attributes)))
        if not (within and within[-1][1]):
            out.append(unescape(text))
    return _plain("".join(out))


def _leave(within: list[tuple[str, bool]], tag: str) -> None:
    """Close an element, and what was left open in it."""
    while within:
        closed, _ = within.pop()
        if closed == tag:
            return


def _is_hidden(attributes: str) -> bool:
    if "hidden" not in attributes:
        return False
    values = {name: double or single for name, double, single in _ATTRIBUTE.findall(attributes)}
    return "hidden" in values or values.get("aria-hidden") == "true"


def _plain(text: str) -> str:
    """Return the words and figures of a text, one space between any two and at both ends.

    A figure with its decimals is one word, so that 7.0 is not found in 17.0; how a line was
    broken, and which space stands before a unit, no longer matters.
    """
    bare = text.replace("\N{SOFT HYPHEN}", "").replace("\N{ZERO WIDTH SPACE}", "")
    return f" {' '.join(_WORD.findall(bare))} "


@lru_cache(maxsize=8192)
def _words(*parts: str) -> str:
    return _plain(" ".join(parts))


# ------------------------------------------------------------------ finding rows


def _missing(text: str, rows: tuple[Row, ...]) -> tuple[str, ...]:
    anchors = {row: tuple(_places(text, _words(*row.anchor))) for row in rows}
    starts: dict[str, list[int]] = {}
    for row, places in anchors.items():
        starts.setdefault(row.kind, []).extend(places)
    for found in starts.values():
        found.sort()
    steps = starts.get("step", [])
    for row, places in anchors.items():
        if row.before:
            anchors[row] = tuple(_leading(text, row, places, steps))
    lost = (_lost(text, row, anchors[row], starts[row.kind]) for row in rows)
    return tuple(what for what in lost if what)


def _places(text: str, wanted: str) -> Iterator[int]:
    place = text.find(wanted)
    while place >= 0:
        yield place
        place = text.find(wanted, place + 1)


def _leading(text: str, row: Row, places: Iterable[int], steps: list[int]) -> Iterator[int]:
    """Yield the places from which the next step is the one that the row stands before.

    One warning may stand at several steps: at one it does not stand in for another.
    """
    its_step = set(_places(text, _words(*row.before)))
    for place in places:
        following = bisect_left(steps, place)
        if following < len(steps) and steps[following] in its_step:
            yield place


def _lost(text: str, row: Row, places: tuple[int, ...], starts: list[int]) -> str:
    if not places:
        return f"{row.name}: `{' '.join(row.anchor)}`"
    best = min((_absent(text, row, place, starts) for place in places), key=len)
    return f"{row.name}: {', '.join(f'`{part}`' for part in best)}" if best else ""


def _absent(text: str, row: Row, place: int, starts: list[int]) -> tuple[str, ...]:
    """Return the parts that do not stand between this anchor and the next one of its kind."""
    begin = place + len(_words(*row.anchor)) - 1
    room = sum(len(_words(part)) for part in row.parts) * 2 + row.slack
    following = bisect_left(starts, begin)
    end = starts[following] + 1 if following < len(starts) else len(text)
    segment = text[begin : min(end, begin + room)]
    # Two fields with the same limit need it twice.
    return tuple(
        part
        for part, times in Counter(row.parts).items()
        if sum(1 for _ in _places(segment, _words(part))) < times
    )
