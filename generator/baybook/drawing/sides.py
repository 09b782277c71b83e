"""Labels beside a picture: on shelves over or under it, or one under the other at its right."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from baybook.drawing.primitives import Cell, Label, Text, block
from baybook.drawing.shelves import Spot, Tag, shelve, staircase
from baybook.drawing.strip import Stroke

_SHELF_AIR = 5.0
_LEADER = 8.0


@dataclass(frozen=True, slots=True)
class Side:
    """The labels above or below a picture, on their shelves; the first ones name zones."""

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
        """Return how far a shelf begins from the picture."""
        return _LEADER + sum(height + _SHELF_AIR for height in self.heights[:shelf])

    def texts(self, edge: float, way: int) -> Iterator[Text]:
        """Yield the words.

        edge  of the picture, where the labels begin
        way   1 downwards, -1 upwards
        """
        for spot, label in zip(self.spots, self.labels, strict=True):
            near = edge + way * self.offset(spot.shelf)
            far = near + way * label.height
            cell = Cell(spot.left, min(near, far), spot.right, max(near, far))
            yield from block(label, cell, "start")

    def leaders(self, edge: float, way: int) -> Iterator[Stroke]:
        """Yield the strokes from the picture's edge to the words; `edge`, `way` as for `texts`."""
        for number, (spot, label) in enumerate(zip(self.spots, self.labels, strict=True)):
            beside = not spot.covers(spot.tag.at)
            if number < self.zones and spot.shelf == 0 and not beside:
                continue  # a zone's name right at its zone needs no leader
            reach = self.offset(spot.shelf) + (label.height if beside else 0.0) - 1.0
            yield Stroke(spot.tag.at, edge, spot.tag.at, edge + way * reach)


def shelved(
    points: Sequence[float], labels: Sequence[tuple[Label, ...]], width: float, zones: int = 0
) -> Side:
    """Return labels on their shelves, the widest that find room.

    points  where on the picture each label belongs, in points
    labels  the same labels several times, each time narrower; the last is for a staircase: no
            label of it is wider than what is right of the last point
    width   the picture's
    """
    for tried in labels[:-1]:
        if spots := shelve(_tags(points, tried), width):
            return Side(spots, tried, zones)
    return Side(staircase(_tags(points, labels[-1])), labels[-1], zones)


def _tags(points: Sequence[float], labels: tuple[Label, ...]) -> list[Tag]:
    return [Tag(at, label.width) for at, label in zip(points, labels, strict=True)]


def spread(
    middles: Sequence[float], labels: Sequence[Label], first: float, last: float, air: float
) -> list[float]:
    """Return the top of each label: level with its point, or as near as the others let it.

    middles      the points, from the top down
    first, last  between which all labels stand; there must be room for them
    air          kept between two labels
    """
    tops: list[float] = []
    free = first
    for middle, label in zip(middles, labels, strict=True):
        tops.append(max(middle - label.height / 2, free))
        free = tops[-1] + label.height + air
    for number in range(len(labels) - 1, -1, -1):
        tops[number] = min(tops[number], last - labels[number].height)
        last = tops[number] - air
    return tops
