"""A route strip that lies along a page or a sheet, its labels on shelves above and below."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from baybook.drawing.forms import Form
from baybook.drawing.measure import BOLD, REGULAR
from baybook.drawing.primitives import Cell, block
from baybook.drawing.sides import Side, shelved
from baybook.drawing.strip import ACROSS, Axis, RouteScene, Stroke, label_of, strip

_START = 16.0  # the strip begins here, so that the first label can stand under its point
_END_AIR = 8.0
_END_LEAST = 96.0  # width of the device at the end, and so of a label under it
_LABEL_ROOMS = (180.0, 130.0, 95.0)  # widest first: one line is read at a glance
_FEED_AIR = 5.0


@dataclass(frozen=True, slots=True)
class Lying:
    view: Mapping[str, Any]
    form: Form

    def scene(self) -> RouteScene:
        end = label_of(self.view["end_label"], self._end_width - 2 * _END_AIR, self.form, BOLD)
        above, below = self._above(), self._below()
        feed = label_of(self.view["feed_label"], self.form.width, self.form)
        top = feed.height + _FEED_AIR + above.height
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
            texts += side.texts(edge, way)
            leaders += side.leaders(edge, way)
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

    def _above(self) -> Side:
        zones = self.view["zones"]
        marks = [mark for mark in self.view["marks"] if not mark["on_ruler"]]
        points = [(z["start_m"] + z["end_m"]) / 2 for z in zones] + [m["at_m"] for m in marks]
        messages = [zone["name"] for zone in zones] + [mark["label"] for mark in marks]
        return self._shelved(messages, points, BOLD, len(zones))

    def _below(self) -> Side:
        marks = [mark for mark in self.view["marks"] if mark["on_ruler"]]
        points = [mark["at_m"] for mark in marks]
        return self._shelved([mark["label"] for mark in marks], points, REGULAR)

    def _shelved(
        self,
        messages: Sequence[Mapping[str, Any]],
        metres: Sequence[float],
        weight: int,
        zones: int = 0,
    ) -> Side:
        axis = self._axis(0.0)
        narrow = self._end_width - 2 * _END_AIR
        tries = [
            tuple(label_of(message, room, self.form, weight) for message in messages)
            for room in (*_LABEL_ROOMS, narrow)
        ]
        points = [axis.point(at, 0.0)[0] for at in metres]
        return shelved(points, tries, float(self.form.width), zones)


def _tall_enough(box: Cell, height: float) -> Cell:
    grow = max(0.0, height - (box.bottom - box.top)) / 2
    return Cell(box.left, box.top - grow, box.right, box.bottom + grow)
