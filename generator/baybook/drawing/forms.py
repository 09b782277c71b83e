"""The forms of the wiring drawing: its width, its sizes of text, where its colours come from.

Lengths are points. Sizes of text are those of the sheet: 15 px is 11.25 pt on screen, and
no note is under 9 pt on paper.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from types import MappingProxyType

LEADING = 1.25

# Hard values: paper, and a page that sets no colours of its own.
INK = MappingProxyType(
    {
        "ink": "#111111",
        "paper": "#FFFFFF",
        "hair": "#8A9096",
        "tint": "#EEF0F1",
        "wire-red": "#C4302B",
        "wire-black": "#0B0B0B",
        "wire-case": "#111111",
    }
)
# On screen the page's custom properties decide, so that one drawing serves light and dark.
SCREEN = MappingProxyType({name: f"var(--{name}, {value})" for name, value in INK.items()})


@dataclass(frozen=True, slots=True, kw_only=True)
class Form:
    """How one drawing is set."""

    name: str
    width: int
    head: float  # size of torques, tags and names
    note: float  # size of the words under them, of ruler and zone band
    ring: float  # radius of a joint's ring
    rail: int  # width of a rail's column
    tallest: float | None  # None: as tall as it gets
    stretch: float  # how much of a long run's length is drawn, 0 to 1
    across: bool  # a device's box and words take the whole width; its signs stand over the rails
    colours: Mapping[str, str]


def _print(head: float, note: float) -> Form:
    ring = 0.8 * head
    # Column of 185 mm; the height that a Letter sheet leaves between heading and legend.
    return Form(
        name="print", width=522, head=head, note=note, ring=ring, rail=40, tallest=620.0,
        stretch=1.0, across=False, colours=INK,
    )  # fmt: skip


WIDE = Form(
    name="wide", width=530, head=13.5, note=11.25, ring=10.5, rail=44, tallest=None, stretch=1.0,
    across=False, colours=SCREEN,
)  # fmt: skip
# Two labels and two rails on 328 px: its words are 13 and 15 px, and the reader can zoom.
SLIM = Form(
    name="slim", width=246, head=11.5, note=10.0, ring=9.0, rail=26, tallest=None, stretch=1.0,
    across=True, colours=SCREEN,
)  # fmt: skip


def _half(head: float, note: float) -> Form:
    """Return half a print: both halves stand beside each other, with a gutter, on one sheet."""
    return replace(_print(head, note), width=252, rail=28, across=True)


# Tried in turn, the largest first; when none fits the sheet in one piece, in two beside each
# other; when that fails too the drawing goes over more sheets.
HALVES = tuple(_half(head, note) for head, note in ((13.0, 10.0), (12.0, 9.5), (11.5, 9.0)))
PRINT = tuple(_print(head, note) for head, note in ((14.0, 11.0), (13.0, 10.0), (12.0, 9.0)))
ROUTE = MappingProxyType({"wide": WIDE, "slim": SLIM, "print": _print(13.0, 10.0)})
FORMS = MappingProxyType({"wide": (WIDE,), "slim": (SLIM,), "print": PRINT})
