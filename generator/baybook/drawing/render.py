"""Scenes to SVG text, through the templates in templates/drawing."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache, lru_cache
from math import ceil
from typing import Any

from jinja2 import Environment, FileSystemLoader, StrictUndefined

from baybook.drawing.measure import BOLD, FAMILY, MissingGlyph
from baybook.shipped import shipped

EDGE = 1.0  # pt around a drawing, so that no outline is cut in half
_NOT_IN_XML = re.compile("[^\t\n\r\u0020-\ud7ff\ue000-\ufffd\U00010000-\U0010ffff]")
_NOT_IN_ID = re.compile("[^A-Za-z0-9-]+")


@dataclass(frozen=True, slots=True, kw_only=True)
class Drawing:
    """A finished drawing: SVG text, its size in points, its title in plain words."""

    svg: str
    width_pt: float
    height_pt: float
    title: str


def render(  # noqa: PLR0913 - the parts of an SVG, each by name
    template: str, scene: Any, *, title: str, lines: tuple[str, ...], prefix: str,  # noqa: ANN401
    colours: Mapping[str, str],
) -> Drawing:  # fmt: skip
    """Return a scene as SVG.

    template  name of a file in templates/drawing
    scene     has width and height in points, and whatever the template prints
    lines     the text equivalent, a sentence each
    prefix    begins every id, so that drawings can stand in one page
    """
    for text in (title, *lines):
        if wrong := _NOT_IN_XML.search(text):
            raise MissingGlyph(wrong[0], text)
    width, height = scene.width + 2 * EDGE, ceil(scene.height) + 2 * EDGE
    svg = _environment().get_template(template).render(
        scene=scene, title=title, lines=lines, id=_NOT_IN_ID.sub("-", prefix), colour=colours,
        width=width, height=height, edge=EDGE,
    )  # fmt: skip
    return Drawing(svg=svg, width_pt=width, height_pt=height, title=title)


@cache
def _environment() -> Environment:
    environment = Environment(
        loader=FileSystemLoader(shipped("templates") / "drawing"),
        undefined=StrictUndefined,
        autoescape=True,
        trim_blocks=True,
        lstrip_blocks=True,
        keep_trailing_newline=False,
    )
    environment.filters["pt"] = _pt
    environment.globals.update(family=FAMILY, bold=BOLD)
    return environment


@lru_cache(maxsize=8192)  # most places are those of the drawing before
def _pt(value: float) -> str:
    """Return a length with at most two decimals, the same on every machine."""
    return f"{round(value, 2) + 0.0:.2f}".rstrip("0").rstrip(".")
