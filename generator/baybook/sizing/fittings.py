"""What stands on the run without being a joint, and which part size takes the cable.

A thicker cable needs the next gland, hole, clip and sleeve: everything here follows from
its diameter, so that a change of size cascades.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass

from baybook.circuit import Fitting, Stretch
from baybook.fit import Fit
from baybook.part import CableSize, PassageSize, SundrySheet, SundrySize
from baybook.quantity import Quantity
from baybook.route import Hazard, Passage, Segment
from baybook.sizing.validity import above, within
from baybook.terms import PassageKind

_CLEAN = 9  # decimals, see lengths


@dataclass(frozen=True, slots=True, kw_only=True)
class Placed:
    """A segment with its true distances from the source."""

    segment: Segment
    start_m: float
    end_m: float


def place_segments(segments: tuple[Segment, ...]) -> tuple[Placed, ...]:
    """Give each segment of a route its true distances, without tolerance or allowance.

    [vehicle-survey]
    """
    placed = []
    start = 0.0
    for segment in segments:
        end = round(start + segment.length.value, _CLEAN)
        placed.append(Placed(segment=segment, start_m=start, end_m=end))
        start = end
    return tuple(placed)


def passage_size(fit: Fit, passage: Passage, diameter_m: float) -> PassageSize | None:
    """Return the smallest size of the family that takes the cable and suits the hole.

    [fit-sheet]

    diameter_m  over the insulation, above 0 [m]

    Raises:
        OutOfRange: an argument outside its range.
    """
    above(diameter_m, 0, "diameter of the cable", "m")
    wanted = 1 if passage.each else fit.in_run
    fitting = [
        size
        for size in fit.passages[passage.family].sizes
        if size.form is passage.form
        and size.conductors == wanted
        and size.diameter_min.value <= diameter_m <= size.diameter_max.value
        and suits_hole(size, passage)
    ]
    return min(fitting, key=lambda size: size.hole.value, default=None)


def suits_hole(size: PassageSize, passage: Passage) -> bool:
    """Tell whether a size is made for the hole; a new or unknown hole suits all.

    [fit-sheet]
    """
    hole = passage.hole
    if not isinstance(hole, Quantity):
        return True
    return round(hole.low, _CLEAN) <= round(size.hole.value, _CLEAN) <= round(hole.high, _CLEAN)


def sundry_size(sheet: SundrySheet, diameter_m: float) -> SundrySize | None:
    """Return the smallest clip, sleeve or conduit that goes round the cable.

    [fit-sheet]

    diameter_m  over the insulation, above 0 [m]

    Raises:
        OutOfRange: an argument outside its range.
    """
    above(diameter_m, 0, "diameter of the cable", "m")
    wide = [size for size in sheet.sizes if size.diameter_max.value >= diameter_m]
    return min(wide, key=lambda size: size.diameter_max.value, default=None)


def shrink_size(fit: Fit, size: CableSize) -> SundrySize | None:
    """Return the smallest heat-shrink over the lugs of a size, None where none is named or fits.

    As supplied it goes over barrel and cable; shrunk it grips the cable.

    [fit-sheet]
    """
    if fit.shrink is None:
        return None
    lug = next((lug for lug in fit.lugs.sizes if lug.area.value == size.area.value), None)
    barrel_m = lug.barrel.value if lug is not None and lug.barrel is not None else 0.0
    diameter_m = size.diameter.value
    wide = [
        one
        for one in fit.shrink.sizes
        if one.diameter_max.value >= max(barrel_m, diameter_m)
        and (one.diameter_min is None or one.diameter_min.value <= diameter_m)
    ]
    return min(wide, key=lambda one: one.diameter_max.value, default=None)


def clip_count(length_m: float, pitch_m: float, conductors: int = 2) -> int:
    """Clips for the conductors of a stretch, one at each end of every pitch. [pieces]

    [shop-rule]

    length_m    of the stretch, 0 or more [m]
    pitch_m     largest distance, above 0 [m]
    conductors  that lie in it, each with its own clips, 1 or more

    Raises:
        OutOfRange: an argument outside its range.
    """
    within(length_m, 0, float("inf"), "length", "m")
    above(pitch_m, 0, "clip pitch", "m")
    within(conductors, 1, float("inf"), "conductors", "pieces")
    return conductors * math.ceil(round(length_m / pitch_m, _CLEAN))


def fittings(fit: Fit, size: CableSize) -> tuple[Fitting, ...]:
    """Return everything on the run in the order of its distance.

    [vehicle-survey], [fit-sheet]
    """
    found: list[Fitting] = list(_conduit(fit, size))
    for placed in place_segments(fit.vehicle.routes[fit.job.route].segments):
        found.extend(_of_segment(fit, placed, size))
    return tuple(sorted(found, key=lambda fitting: fitting.at_m))


def stretches(fit: Fit) -> tuple[Stretch, ...]:
    """Return the segments of the route as a guide shows them.

    [vehicle-survey]
    """
    pitch = fit.shop.spacing.clip_pitch.value
    return tuple(
        Stretch(
            name=placed.segment.name,
            zone=placed.segment.zone,
            zone_name=fit.shop.zones[placed.segment.zone].name,
            ambient_C=fit.shop.zones[placed.segment.zone].temperature.value,
            start_m=placed.start_m,
            end_m=placed.end_m,
            clips=clip_count(placed.segment.length.value, pitch, fit.in_run),
            access=placed.segment.access,
            fixing=placed.segment.fixing,
        )
        for placed in place_segments(fit.vehicle.routes[fit.job.route].segments)
    )


def _of_segment(fit: Fit, placed: Placed, size: CableSize) -> Iterator[Fitting]:
    segment = placed.segment
    for hazard in segment.hazards:
        if hazard.shield is not None:
            yield _sleeve(fit, hazard, size)
    if segment.loop is not None:
        middle = round((placed.start_m + placed.end_m) / 2, _CLEAN)
        yield _fitting("loop", middle, length_m=segment.loop.value, count=fit.in_run, why="hinge")
    if segment.passage is not None and segment.passage.form is not PassageKind.OPEN:
        yield _wall(fit, segment.passage, placed.end_m, size)


def _sleeve(fit: Fit, hazard: Hazard, size: CableSize) -> Fitting:
    part = sundry_size(fit.sundries[hazard.shield or ""], size.diameter.value)
    length = hazard.shield_length.value if hazard.shield_length else 0.0
    return _fitting(
        "sleeve",
        hazard.at.value,
        part=part.id if part else "",
        length_m=length,
        count=fit.in_run,
        why=hazard.kind.value,
        distance_m=hazard.distance.value,
    )


def _wall(fit: Fit, passage: Passage, at_m: float, size: CableSize) -> Fitting:
    part = passage_size(fit, passage, size.diameter.value)
    new = passage.hole is None
    return _fitting(
        passage.form.value,
        at_m,
        part=part.id if part else "",
        count=fit.in_run if passage.each else 1,
        why="wall",
        hole_m=part.hole.value if part and new else None,
        wall=passage.wall,
        behind=passage.behind,
        new_hole=new,
    )


def _conduit(fit: Fit, size: CableSize) -> Iterator[Fitting]:
    source = fit.job.source
    if source.conduit and fit.job.conduit is not None:
        part = sundry_size(fit.sundries[fit.job.conduit], size.diameter.value)
        name = part.id if part else ""
        yield _fitting("conduit", 0.0, part=name, length_m=source.fuse_at.value, why="unprotected")


def _fitting(  # noqa: PLR0913 - one place that fills what a kind does not have
    kind: str,
    at_m: float,
    *,
    part: str = "",
    length_m: float = 0.0,
    hole_m: float | None = None,
    count: int = 1,
    why: str,
    distance_m: float | None = None,
    wall: str = "",
    behind: str = "",
    new_hole: bool = False,
) -> Fitting:
    return Fitting(
        kind=kind,
        part=part,
        at_m=at_m,
        length_m=length_m,
        hole_m=hole_m,
        count=count,
        why=why,
        distance_m=distance_m,
        wall=wall,
        behind=behind,
        new_hole=new_hole,
    )
