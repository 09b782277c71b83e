"""The check after rendering: everything that matters is found again, in the text a reader sees.

It reads the finished page, not the templates, so it also finds what a shop's own template dropped.
"""

from __future__ import annotations

from bisect import bisect_left
from collections import Counter
from collections.abc import Iterable, Iterator, Mapping
from functools import cache
from typing import Any

from baybook.book import ToldBook, ToldEntry
from baybook.publish.home import folder
from baybook.publish.requirements import (
    Row,
    Words,
    guide_rows,
    refusal_rows,
    step_rows,
    workings_rows,
)
from baybook.publish.shown import page_text, plain_text, words_of
from baybook.publish.workings import figures_of


def verify_page(html: bytes, guide: Mapping[str, Any], words: Words) -> tuple[str, ...]:
    """Return what of a told guide the page does not show; empty: nothing is lost."""
    return _missing(page_text(html), guide_rows(guide, words))


def verify_workings(html: bytes, figures: Iterable[Mapping[str, Any]]) -> tuple[str, ...]:
    """Return which figure, number or result a page of workings does not show."""
    return _missing(page_text(html), tuple(workings_rows(figures)))


def verify_charts(html: bytes, charts: Iterable[Mapping[str, Any]]) -> tuple[str, ...]:
    """Return which title of a chart, or sentence of it in words, a page does not show."""
    wanted = [node["text"] for chart in charts for node in (chart["title"], *chart["lines"])]
    return _lost_lines(page_text(html), wanted) if wanted else ()


def verify_text(text: str, guide: Mapping[str, Any], words: Words) -> tuple[str, ...]:
    """Return what of a told guide a print's text does not hold: all but workings and sizes."""
    return _missing(plain_text(text), step_rows(guide, words))


def verify_refusal(html: bytes, refusal: Mapping[str, Any]) -> tuple[str, ...]:
    """Return what of a told refusal the page does not show."""
    return _missing(page_text(html), refusal_rows(refusal))


def verify_refusal_text(text: str, refusal: Mapping[str, Any]) -> tuple[str, ...]:
    """Return what of a told refusal a print's text does not hold."""
    rows = (row for row in refusal_rows(refusal) if row.kind != "reason")  # that is for lists
    return _missing(plain_text(text), tuple(rows))


def verify_lines(text: str, lines: Iterable[str]) -> tuple[str, ...]:
    """Return the lines that a text does not hold."""
    return _lost_lines(plain_text(text), lines)


def _lost_lines(plain: str, lines: Iterable[str]) -> tuple[str, ...]:
    return tuple(f"`{line}`" for line in lines if words_of(line) not in plain)


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
        elif words_of(book.words["page.withdrawn.word"]) not in page_text(files[address]):
            lost.append(f"{address}: the banner of a withdrawn guide")
        lost += _lost_notice(entry, files.get(address, b""))
        if not alone:
            lost += _lost_workings(entry, files)
    return tuple(lost)


def _lost_notice(entry: ToldEntry, html: bytes) -> Iterator[str]:
    notice: Any = entry.content.get("notice")
    if notice:
        for what in _lost_lines(page_text(html), [notice["text"]]):
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


# ------------------------------------------------------------------ finding rows


def _missing(text: str, rows: tuple[Row, ...]) -> tuple[str, ...]:
    @cache  # a step is asked for by each box that stands before it
    def places_of(*anchor: str) -> tuple[int, ...]:
        return tuple(_places(text, words_of(*anchor)))

    anchors = {row: places_of(*row.anchor) for row in rows}
    starts: dict[str, list[int]] = {}
    for row, places in anchors.items():
        starts.setdefault(row.kind, []).extend(places)
    for found in starts.values():
        found.sort()
    steps = starts.get("step", [])
    for row, places in anchors.items():
        if row.before:
            anchors[row] = tuple(_leading(places_of(*row.before), places, steps))
    lost = (_lost(text, row, anchors[row], starts[row.kind]) for row in rows)
    return tuple(what for what in lost if what)


def _places(text: str, wanted: str) -> Iterator[int]:
    """Yield where words stand in a plain text, each time from the space before them."""
    words = wanted[1:-1]  # the search is faster without the spaces, which end every word
    place = text.find(words)
    while place >= 0:
        if text.startswith(wanted, place - 1):
            yield place - 1
        place = text.find(words, place + 1)


def _leading(its_step: tuple[int, ...], places: Iterable[int], steps: list[int]) -> Iterator[int]:
    """Yield the places from which the next step is the one that the row stands before.

    One warning may stand at several steps: at one it does not stand in for another.
    """
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
    begin = place + len(words_of(*row.anchor)) - 1
    room = sum(len(words_of(part)) for part in row.parts) * 2 + row.slack
    following = bisect_left(starts, begin)
    end = starts[following] + 1 if following < len(starts) else len(text)
    segment = text[begin : min(end, begin + room)]
    # Two fields with the same limit need it twice.
    return tuple(
        part for part, times in Counter(row.parts).items() if not _stands(segment, part, times)
    )


def _stands(segment: str, part: str, times: int) -> bool:
    wanted = words_of(part)
    return wanted in segment if times == 1 else len(list(_places(segment, wanted))) >= times
