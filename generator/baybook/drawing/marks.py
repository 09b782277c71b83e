"""The marks of the drawing: how tall each is, where a rail stops for it, where its letters stand.

Lengths are points from the mark's centre, y downwards. The shapes themselves stand in
templates/drawing/marks.svg.j2 and are drawn as tall as they are declared here.
"""

from __future__ import annotations

from dataclasses import dataclass
from types import MappingProxyType

# Half the height of each body, without rings.
_HALF = MappingProxyType(
    {
        "joint": 0.0,
        "fuse": 18.0,
        "breaker": 18.0,
        "grommet": 5.0,
        "gland": 7.0,
        "sleeve": 17.0,
        "loop": 20.0,
        "arrow": 9.0,
        "sensor": 11.5,
        "isolator": 17.0,
        "plug": 18.0,
        "removed": 12.0,
        "chassis": 9.0,
        "none": 0.0,
    }
)
_ENDS = frozenset({"joint", "fuse", "breaker", "plug", "isolator", "removed"})


class UnknownMark(ValueError):  # noqa: N818 - it names what is wrong
    """A view asks for a mark that the grammar of the drawing does not have."""


@dataclass(frozen=True, slots=True)
class Ring:
    """A joint's letter in its ring."""

    letter: str
    dy: float


@dataclass(frozen=True, slots=True)
class Shape:
    """One mark, measured."""

    kind: str
    half: float  # of its body
    dy: float  # of its body's centre, from the middle of body and rings together
    rings: tuple[Ring, ...]
    height: float  # body and rings
    top: float  # where the rail from above stops
    bottom: float  # where the rail below begins
    ends: bool  # a conductor ends here


def shape(kind: str, letters: tuple[str, ...], radius: float) -> Shape:
    """Return a mark with its rings: none, one on top, or one at each end.

    kind     a mark of the grammar; UnknownMark is raised for any other
    letters  joint letters from the top down, at most two
    radius   of a ring, above 0
    """
    if kind not in _HALF:
        raise UnknownMark(f"the wiring drawing has no mark {kind!r}; it has {', '.join(_HALF)}")
    most = 2 if kind in _ENDS - {"joint"} else 1
    if len(letters) > most:
        raise UnknownMark(f"the mark {kind!r} takes {most} letters, not {', '.join(letters)}")
    half, ends = _HALF[kind], kind in _ENDS
    if half == 0.0:
        rings = tuple(Ring(letter, 0.0) for letter in letters)
        return Shape(kind, half, 0.0, rings, 2 * radius * len(rings), 0.0, 0.0, ends)
    dy = radius if len(letters) == 1 else 0.0
    places = (dy - half - radius, dy + half + radius)
    rings = tuple(Ring(letter, at) for letter, at in zip(letters, places, strict=False))
    height = 2 * (half + radius * len(rings))
    if not ends:
        return Shape(kind, half, dy, rings, height, 0.0, 0.0, ends)
    top = rings[0].dy if rings else -half
    bottom = rings[1].dy if len(rings) == most else dy + half
    return Shape(kind, half, dy, rings, height, top, bottom, ends)
