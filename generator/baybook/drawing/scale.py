"""From the values of a chart's axis to points, and the figures along it."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from typing import Any

from baybook.drawing.forms import LEADING, Form
from baybook.drawing.measure import REGULAR, width
from baybook.drawing.phrase import Line, Span
from baybook.drawing.primitives import Label

_NEAR = 1e-9  # of a decade
_AIR = 8.0  # between figures under a frame


@dataclass(frozen=True, slots=True, kw_only=True)
class Scale:
    """One axis in its place. What lies beyond an end is drawn at that end."""

    low: float
    high: float
    start: float  # where `low` stands, in points
    end: float
    log: bool

    def at(self, value: float) -> float:
        """Return where a value stands, in points."""
        value = min(max(value, self.low), self.high)
        if self.log:
            share = math.log(value / self.low) / math.log(self.high / self.low)
        else:
            share = (value - self.low) / (self.high - self.low)
        return self.start + share * (self.end - self.start)


def scale(axis: Mapping[str, Any], start: float, end: float) -> Scale:
    """Return the scale of a told axis between two points of the page."""
    return Scale(low=axis["low"], high=axis["high"], start=start, end=end, log=axis["log"])


@dataclass(frozen=True, slots=True)
class Tick:
    """A figure of an axis: where it belongs, and where the middle of its words stands."""

    at: float
    figure: Line
    middle: float
    besides: Line | None = None  # what a US reader is told in his unit

    @property
    def words(self) -> Label:
        return Label((self.figure, self.besides) if self.besides else (self.figure,))


def along(axis: Mapping[str, Any], x: Scale, form: Form) -> list[Tick]:
    """Return the figures under a frame, as many as find room."""
    return list(_apart(_ticks(axis, x, form, inside=True), None))


def upwards(axis: Mapping[str, Any], y: Scale, form: Form) -> list[Tick]:
    """Return the figures left of a frame, as many as find room."""
    return list(_apart(_ticks(axis, y, form, inside=False), LEADING * form.note))


def widest(axis: Mapping[str, Any], form: Form) -> float:
    """Return the width that the figures of an axis take beside it."""
    return max((_figure(tick, form.note).width for tick in axis["ticks"]), default=0.0)


def _ticks(axis: Mapping[str, Any], on: Scale, form: Form, *, inside: bool) -> list[Tick]:
    """Return all figures in their places, whole decades before what parts them.

    inside  words that would leave the sheet at its side stand beside their place
    """
    found = []
    for tick in sorted(axis["ticks"], key=lambda tick: axis["log"] and not _decade(tick["value"])):
        at, line = on.at(tick["value"]), _figure(tick, form.note)
        found.append(_placed(Tick(at, line, at, _besides(tick, form.note)), form, inside=inside))
    return found


def _figure(tick: Mapping[str, Any], size: float) -> Line:
    """Return a told figure without its unit, which stands in the axis's title."""
    text = tick["figure"]
    return Line((Span(text, REGULAR),), size, width(text, size))


def _placed(tick: Tick, form: Form, *, inside: bool) -> Tick:
    half = tick.words.width / 2
    return replace(tick, middle=min(max(tick.at, half), form.width - half)) if inside else tick


def _besides(tick: Mapping[str, Any], size: float) -> Line | None:
    """Return the same in the reader's other unit; the title of the axis does not give it."""
    text = tick["converted"]
    return Line((Span(text, REGULAR),), size, width(text, size)) if text else None


def _decade(value: float) -> bool:
    part = math.log10(value) % 1.0
    return min(part, 1.0 - part) < _NEAR


def _apart(found: list[Tick], room: float | None) -> Iterator[Tick]:
    """Yield the ticks whose figures keep apart; the first come first.

    room  height of a line of words, for an axis that stands; None: the figures' own widths count
    """
    kept: list[tuple[float, float]] = []
    for tick in found:
        half = (tick.words.width + _AIR if room is None else room) / 2
        begin, end = tick.middle - half, tick.middle + half
        if all(end <= low or begin >= high for low, high in kept):
            kept.append((begin, end))
            yield tick
