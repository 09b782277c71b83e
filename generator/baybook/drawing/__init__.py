"""Verb: told views to placed drawings.

`wiring` draws the wiring diagram, `route` the strip to scale. Both take told data and
give SVG text: they measure the text in the shipped font, let a layout engine place the
boxes, and make no figure of their own.
"""

from baybook.drawing.entries import draw_entries

__all__ = ["draw_entries"]
