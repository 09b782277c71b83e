"""A route strip that stands on a phone's page, its labels beside it in the order of the run."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from baybook.drawing.forms import Form
from baybook.drawing.measure import BOLD
from baybook.drawing.primitives import Cell, Label, block
from baybook.drawing.shelves import BESIDE
from baybook.drawing.sides import spread
from baybook.drawing.strip import ACROSS, Axis, RouteScene, Stroke, label_of, strip

_END_AIR = 8.0
_LABEL_AIR = 5.0
_LEADER = 8.0
_HEIGHTS = (200.0, 420.0)  # least and greatest of a strip whose labels need no more
_PER_METRE = 48.0
_NOTES_LEFT = ACROSS + 34.0  # where the words beside the strip begin


@dataclass(frozen=True, slots=True)
class _Note:
    """A label beside a standing strip, and the distance it belongs to."""

    label: Label
    metres: float


@dataclass(frozen=True, slots=True)
class Standing:
    view: Mapping[str, Any]
    form: Form

    def scene(self) -> RouteScene:
        width = float(self.form.width)
        feed = label_of(self.view["feed_label"], width, self.form)
        top = feed.height + 2 * _LABEL_AIR
        tall, notes = self._tall(), self._notes()
        axis = Axis(tall / self.view["length_m"], top, 0.0, standing=True)
        end = label_of(self.view["end_label"], width - 2 * _END_AIR, self.form, BOLD)
        device = Cell(0.0, top + tall, width, top + tall + end.height + 2 * _END_AIR)
        texts = [
            *block(feed, Cell(0.0, 0.0, width, feed.height), "start"),
            *block(end, device.inset(_END_AIR, _END_AIR), "start"),
        ]
        leaders: list[Stroke] = []
        points = [axis.point(note.metres, 0.0)[1] for note in notes]
        tops = spread(points, [note.label for note in notes], top, top + tall, _LABEL_AIR)
        for note, y in zip(notes, tops, strict=True):
            cell = Cell(_NOTES_LEFT, y, width, y + note.label.height)
            texts += block(note.label, cell, "start")
            leaders += _elbow(axis.point(note.metres, 0.0)[1], (cell.top + cell.bottom) / 2)
        return RouteScene(
            form=self.form, width=width, height=device.bottom, strip=strip(self.view, axis),
            device=device, leaders=tuple(leaders), texts=tuple(texts),
        )  # fmt: skip

    def _tall(self) -> float:
        needed = sum(note.label.height + _LABEL_AIR for note in self._notes())
        wished = _PER_METRE * float(self.view["length_m"])
        return max(min(max(wished, _HEIGHTS[0]), _HEIGHTS[1]), needed)

    def _notes(self) -> list[_Note]:
        room = self.form.width - _NOTES_LEFT
        zones = [
            _Note(label_of(z["name"], room, self.form, BOLD), (z["start_m"] + z["end_m"]) / 2)
            for z in self.view["zones"]
        ]
        marks = [
            _Note(label_of(mark["label"], room, self.form), mark["at_m"])
            for mark in self.view["marks"]
        ]
        return sorted([*zones, *marks], key=lambda note: note.metres)


def _elbow(at: float, level: float) -> list[Stroke]:
    bend, end = ACROSS + _LEADER, _NOTES_LEFT - BESIDE
    return [
        Stroke(ACROSS, at, bend, at),
        Stroke(bend, at, end - 3, level),
        Stroke(end - 3, level, end, level),
    ]
