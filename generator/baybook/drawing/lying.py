"""A route strip that lies along a page or a sheet, its labels on shelves above and below."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from baybook.drawing.forms import Form
from baybook.drawing.measure import BOLD, REGULAR
from baybook.drawing.primitives import Cell, Label, Text, block
from baybook.drawing.shelves import Spot, Tag, shelve, staircase
from baybook.drawing.strip import ACROSS, Axis, RouteScene, Stroke, label_of, strip

_START = 16.0  # the strip begins here, so that the first label can stand under its point
_END_AIR = 8.0
_END_LEAST = 96.0  # width of the device at the end, and so of a label under it
_LABEL_ROOMS = (180.0, 130.0, 95.0)  # widest first: one line is read at a glance
_SHELF_AIR = 5.0
_LEADER = 8.0


@dataclass(frozen=True, slots=True)
class _Side:
    """The labels above or below a lying strip, on their shelves; the first ones name zones."""

    spots: tuple[Spot, ...]
    labels: tuple[Label, ...]
    zones: int = 0

    @property
    def heights(self) -> list[float]:
        count = max((spot.shelf for spot in self.spots), default=-1) + 1
        return [
            max(
                label.height
                for spot, label in zip(self.spots, self.labels, strict=True)
                if spot.shelf == shelf
            )
            for shelf in range(count)
        ]

    @property
    def height(self) -> float:
        heights = self.heights
        return _LEADER + sum(heights) + _SHELF_AIR * len(heights) if heights else 0.0

    def offset(self, shelf: int) -> float:
        """Return how far a shelf begins from the strip."""
        return _LEADER + sum(height + _SHELF_AIR for height in self.heights[:shelf])


@dataclass(frozen=True, slots=True)
class Lying:
    view: Mapping[str, Any]
    form: Form

    def scene(self) -> RouteScene:
        end = label_of(self.view["end_label"], self._end_width - 2 * _END_AIR, self.form, BOLD)
        above, below = self._above(), self._below()
        feed = label_of(self.view["feed_label"], self.form.width, self.form)
        top = feed.height + _SHELF_AIR + above.height
        axis = self._axis(top)
        right = axis.point(self.view["length_m"], 0)[0]
        device = Cell(right, top + 6, float(self.form.width), top + ACROSS - 6)
        device = _tall_enough(device, end.height + _END_AIR)
        foot = max(top + ACROSS + below.height, device.bottom)
        inside = Cell(device.left + _END_AIR, device.top, device.right - _END_AIR, device.bottom)
        texts = [
            *block(feed, Cell(0.0, 0.0, float(self.form.width), feed.height), "start"),
            *block(end, inside, "start"),
        ]
        leaders: list[Stroke] = []
        for side, edge, way in ((above, top, -1), (below, top + ACROSS, 1)):
            texts += _side_texts(side, edge, way)
            leaders += _side_leaders(side, edge, way)
        return RouteScene(
            form=self.form, width=float(self.form.width), height=foot,
            strip=strip(self.view, axis), device=device, leaders=tuple(leaders),
            texts=tuple(texts),
        )  # fmt: skip

    @property
    def _end_width(self) -> float:
        words = label_of(self.view["end_label"], _LABEL_ROOMS[1], self.form, BOLD)
        return max(_END_LEAST, words.width + 2 * _END_AIR + 1)

    def _axis(self, top: float) -> Axis:
        room = self.form.width - _START - self._end_width
        return Axis(room / self.view["length_m"], _START, top, standing=False)

    def _above(self) -> _Side:
        zones = self.view["zones"]
        marks = [mark for mark in self.view["marks"] if not mark["on_ruler"]]
        points = [(z["start_m"] + z["end_m"]) / 2 for z in zones] + [m["at_m"] for m in marks]
        messages = [zone["name"] for zone in zones] + [mark["label"] for mark in marks]
        spots, labels = self._shelved(messages, points, BOLD)
        return _Side(spots, labels, len(zones))

    def _below(self) -> _Side:
        marks = [mark for mark in self.view["marks"] if mark["on_ruler"]]
        points = [mark["at_m"] for mark in marks]
        return _Side(*self._shelved([mark["label"] for mark in marks], points, REGULAR))

    def _shelved(
        self, messages: Sequence[Mapping[str, Any]], metres: Sequence[float], weight: int
    ) -> tuple[tuple[Spot, ...], tuple[Label, ...]]:
        axis = self._axis(0.0)
        points = [axis.point(at, 0.0)[0] for at in metres]
        for room in _LABEL_ROOMS:
            labels = tuple(label_of(message, room, self.form, weight) for message in messages)
            tags = [Tag(at, label.width) for at, label in zip(points, labels, strict=True)]
            if spots := shelve(tags, float(self.form.width)):
                return spots, labels
        narrow = self._end_width - 2 * _END_AIR
        labels = tuple(label_of(message, narrow, self.form, weight) for message in messages)
        tags = [Tag(at, label.width) for at, label in zip(points, labels, strict=True)]
        return staircase(tags), labels


def _side_texts(side: _Side, edge: float, way: int) -> Iterator[Text]:
    for spot, label in zip(side.spots, side.labels, strict=True):
        near = edge + way * side.offset(spot.shelf)
        far = near + way * label.height
        cell = Cell(spot.left, min(near, far), spot.right, max(near, far))
        yield from block(label, cell, "start")


def _side_leaders(side: _Side, edge: float, way: int) -> Iterator[Stroke]:
    for number, (spot, label) in enumerate(zip(side.spots, side.labels, strict=True)):
        beside = not spot.covers(spot.tag.at)
        if number < side.zones and spot.shelf == 0 and not beside:
            continue  # a zone's name right at its zone needs no leader
        reach = side.offset(spot.shelf) + (label.height if beside else 0.0) - 1.0
        yield Stroke(spot.tag.at, edge, spot.tag.at, edge + way * reach)


def _tall_enough(box: Cell, height: float) -> Cell:
    grow = max(0.0, height - (box.bottom - box.top)) / 2
    return Cell(box.left, box.top - grow, box.right, box.bottom + grow)
