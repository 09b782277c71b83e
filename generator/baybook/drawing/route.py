"""The route strip, to scale: lying on a wide page or on paper, standing on a phone."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from baybook.drawing.forms import ROUTE
from baybook.drawing.lying import Lying
from baybook.drawing.render import Drawing, render
from baybook.drawing.rows import DrawingError
from baybook.drawing.standing import Standing
from baybook.drawing.strip import RouteScene


def draw_route(view: Mapping[str, Any], form: str, *, prefix: str) -> Drawing:
    """Return the route strip in one form.

    view    told RouteView
    form    "wide" (530 pt), "slim" (a phone, 246 pt) or "print" (185 mm column)
    prefix  begins every id in the SVG; must differ between drawings of one page

    Raises MissingGlyph, and DrawingError for a route without length.
    """
    scene = route_scene(view, form)
    return render(
        "route.svg.j2", scene, title=view["title"]["text"], lines=(view["text"]["text"],),
        prefix=f"{prefix}-route-{form}", colours=scene.form.colours,
    )  # fmt: skip


def route_scene(view: Mapping[str, Any], form: str) -> RouteScene:
    """Return what `draw_route` would print, as primitives."""
    if view["length_m"] <= 0:
        raise DrawingError("a route strip needs a route with a length")
    sizes = ROUTE[form]
    return Standing(view, sizes).scene() if form == "slim" else Lying(view, sizes).scene()
