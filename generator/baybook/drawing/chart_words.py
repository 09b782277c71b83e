"""The words of a chart: over its frame, at its right, and on a phone under it."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from baybook.drawing.forms import LEADING, Form
from baybook.drawing.measure import BOLD
from baybook.drawing.phrase import plain, wrap
from baybook.drawing.primitives import Cell, Label, Text, block
from baybook.drawing.scale import Scale
from baybook.drawing.sides import Side, shelved

Told = Mapping[str, Any]

_ROOMS = (260.0, 190.0, 130.0, 90.0)  # of the words over the frame, widest first
_RIGHT = 128.0  # of those at its right
_RIGHT_LEAST = 90.0  # so wide is the room that a staircase of words over the frame needs
_DIRECT = 64.0  # on a phone, words up to here need no number
_KEY_AIR = 5.0
_SAMPLE = (18.0, 46.0)  # where the sample of a line begins and ends in the key
_KEY_WORDS = 54.0


@dataclass(frozen=True, slots=True)
class Named:
    """Lines of one kind with what stands beside each, and the numbers that were given."""

    items: tuple[Told, ...]
    labels: tuple[Label, ...]
    numbered: tuple[Told, ...] = ()  # the first of them has the number that was asked for

    @property
    def width(self) -> float:
        return max((label.width for label in self.labels), default=0.0)


def slim(form: Form) -> bool:
    """Tell whether words stand under the frame."""
    return form.name == "slim"


def label(message: Told, room: float, form: Form) -> Label:
    return Label(wrap(message, room, form.note))


def _number(number: int, form: Form) -> Label:
    return Label(wrap(plain(str(number)), form.width, form.note, BOLD))


# --------------------------------------------------------------------------- over the frame


def over(view: Told, form: Form, x: Scale) -> tuple[Side, Named]:
    """Return the names of all places on their shelves; zones come first."""
    places = sorted(view["places"], key=lambda place: (place["style"] != "zone", place["at"]))
    points = [x.at(place["at"]) for place in places]
    zones = sum(place["style"] == "zone" for place in places)
    tries = _tries(places, form, form.width - x.end)
    side = shelved(points, tries, float(form.width), zones)
    numbered: tuple[Told, ...] = ()
    if slim(form):
        long = tries[0] if side.labels is tries[0] else ()
        numbered = tuple(_long(places, form) if long else _in_order(places))
    return side, Named(tuple(places), side.labels, numbered)


def _tries(places: Sequence[Told], form: Form, beside: float) -> list[tuple[Label, ...]]:
    if slim(form):
        some = _labelled(places, _long(places, form), form)
        every = _labelled(places, _in_order(places), form)
        return [some, every, every]
    narrow = beside - _KEY_AIR
    return [
        tuple(label(place["label"], room, form) for place in places)
        for room in (*_ROOMS, narrow, narrow)
    ]


def _in_order(places: Sequence[Told]) -> list[Told]:
    return sorted(places, key=lambda place: place["at"])


def _long(places: Sequence[Told], form: Form) -> list[Told]:
    """Return the places with more words than find room over the frame of a phone."""
    return [
        place
        for place in _in_order(places)
        if label(place["label"], form.width, form).width > _DIRECT
    ]


def _labelled(places: Sequence[Told], numbered: Sequence[Told], form: Form) -> tuple[Label, ...]:
    numbers = {id(place): number for number, place in enumerate(numbered, 1)}
    return tuple(
        _number(numbers[id(place)], form)
        if id(place) in numbers
        else label(place["label"], form.width, form)
        for place in places
    )


# --------------------------------------------------------------------------- at its right


def right(view: Told, form: Form, first: int) -> Named:
    """Return the names of all curves in the order in which they end, from the top down.

    first  number that the first of them gets on a phone
    """
    curves = tuple(sorted(view["curves"], key=lambda curve: -curve["points"][-1][1]))
    if slim(form):
        labels = tuple(_number(number, form) for number, _ in enumerate(curves, first))
        return Named(curves, labels, curves)
    return Named(curves, tuple(label(curve["label"], _RIGHT, form) for curve in curves))


def right_room(view: Told, form: Form) -> float:
    """Return the width that the words at the right take."""
    if slim(form):
        return max(_number(number, form).width for number in range(1, 21))
    return max(_RIGHT_LEAST, right(view, form, 1).width)


# --------------------------------------------------------------------------- under it


@dataclass(frozen=True, slots=True)
class Sample:
    """A line of the key, to be known again."""

    x1: float
    x2: float
    y: float
    style: str
    across: bool  # of a place, not of a curve


@dataclass(frozen=True, slots=True)
class Key:
    texts: tuple[Text, ...]
    samples: tuple[Sample, ...]
    bottom: float


def key(named: Sequence[Told], top: float, form: Form) -> Key:
    """Return the numbered lines, one under the other.

    top  where the first begins
    """
    texts: list[Text] = []
    samples: list[Sample] = []
    for number, item in enumerate(named, 1):
        words = label(item["label"], form.width - _KEY_WORDS, form)
        cell = Cell(0.0, top, float(form.width), top + words.height)
        texts += block(_number(number, form), _first_line(cell, form), "start")
        texts += block(words, cell.inset(_KEY_WORDS, 0.0), "start")
        samples += _sample(item, cell, form)
        top = cell.bottom + _KEY_AIR
    return Key(tuple(texts), tuple(samples), top - _KEY_AIR if named else top)


def _first_line(cell: Cell, form: Form) -> Cell:
    return Cell(cell.left, cell.top, cell.left + _SAMPLE[0], cell.top + LEADING * form.note)


def _sample(item: Told, cell: Cell, form: Form) -> Iterator[Sample]:
    if item["style"] in {"zone", "beyond"}:
        return
    y = cell.top + LEADING * form.note / 2
    yield Sample(*_SAMPLE, y, item["style"], across="at" in item)
