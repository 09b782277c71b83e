"""What goes with a size of cable: lug, die, strip, heat-shrink, passage, hole, clip, stock.

Nothing is chosen here. The circuit of a weighed size says what stands on its run; sheets and
profile say which size of each part that is.
"""

from __future__ import annotations

from collections.abc import Iterator

from baybook.cascade import Cascade, Follower
from baybook.circuit import Joint
from baybook.design import Design
from baybook.fit import Fit
from baybook.part import CableSize, LugSize
from baybook.quantity import Quantity
from baybook.sizing.fittings import passage_size
from baybook.terms import JointKind, PassageKind

_LUGGED = frozenset({JointKind.STUD, JointKind.BODY, JointKind.POST, JointKind.ISOLATOR})
_INPUT = ("source", "feed", "return")  # uses of the conductors whose size is chosen


def cascade(design: Design) -> Cascade:
    """Return what goes with the size of this design, in the order of the work.

    [fit-sheet], [shop-rule]

    design  bare is enough; a size for which a part is missing has a follower that is not there
    """
    size = _size(design)
    lug = _lug(design.fit, size)
    return Cascade(
        cable=design.fit.cable.name,
        area_mm2=size.area.value,
        gauge=size.nearest_awg,
        followers=(
            *_protection(design),
            *_lugs(design, lug),
            *_pressed(design, lug),
            *_passages(design, size),
            *_on_the_run(design, size),
            *_clamped(design),
            *_stock(design),
        ),
    )


def _size(design: Design) -> CableSize:
    sizes = design.fit.cable.sizes
    return next(size for size in sizes if size.area.value == design.choice.area_mm2)


def _lug(fit: Fit, size: CableSize) -> LugSize | None:
    return next((lug for lug in fit.lugs.sizes if lug.area.value == size.area.value), None)


def _protection(design: Design) -> Iterator[Follower]:
    part = design.circuit.protections[0]
    if not part.factory:
        ends = (part.start, part.end)
        yield Follower(kind="fuse", letters=ends, part=f"{part.family} {part.rating_written}")


def _lugs(design: Design, lug: LugSize | None) -> Iterator[Follower]:
    """One row for each stud, the two of a protection together."""
    for joint, letters in _studs(design):
        fits = lug is not None and joint.thread in lug.studs
        yield Follower(
            kind="lug",
            letters=letters,
            part=joint.thread or "",
            figure=lug.area if lug is not None else None,
            there=fits or (lug is not None and not joint.thread),
        )


def _studs(design: Design) -> Iterator[tuple[Joint, tuple[str, ...]]]:
    at = {joint.letter: joint for joint in design.circuit.joints}
    used = [c for c in design.circuit.conductors if c.use in _INPUT]
    letters = dict.fromkeys(letter for c in used for letter in (c.start, c.end))
    lugged = [at[letter] for letter in sorted(letters) if at[letter].kind in _LUGGED]
    devices = dict.fromkeys((joint.device, joint.what, joint.thread) for joint in lugged)
    for device in devices:
        own = [joint for joint in lugged if (joint.device, joint.what, joint.thread) == device]
        yield own[0], tuple(joint.letter for joint in own)


def _pressed(design: Design, lug: LugSize | None) -> Iterator[Follower]:
    fit = design.fit
    owned = {die for tool in fit.shop.tools for die in tool.dies}
    die = lug.die if lug is not None else ""
    yield Follower(kind="die", part=die, there=bool(die) and (not owned or die in owned))
    yield Follower(
        kind="strip", figure=lug.strip if lug is not None else None, there=lug is not None
    )
    if fit.shrink is not None:
        part = design.circuit.shrink
        yield Follower(kind="shrink", part=part, there=bool(part))


def _passages(design: Design, size: CableSize) -> Iterator[Follower]:
    fit = design.fit
    for segment in fit.vehicle.routes[fit.job.route].segments:
        wall = segment.passage
        if wall is None or wall.form is PassageKind.OPEN:
            continue
        part = passage_size(fit, wall, size.diameter.value)
        there = part is not None
        yield Follower(kind="passage", place=wall.wall, part=part.id if part else "", there=there)
        if wall.hole is None:
            hole = part.hole if part else None
            yield Follower(kind="hole", place=wall.wall, figure=hole, there=there)


def _on_the_run(design: Design, size: CableSize) -> Iterator[Follower]:
    yield Follower(kind="clip", part=design.circuit.clip, there=bool(design.circuit.clip))
    for fitting in design.circuit.fittings:
        if fitting.kind in {"sleeve", "conduit"}:
            place = fitting.why if fitting.kind == "sleeve" else ""
            there = bool(fitting.part)
            yield Follower(kind=fitting.kind, place=place, part=fitting.part, there=there)
    yield Follower(kind="bend", figure=size.bend_radius)


def _clamped(design: Design) -> Iterator[Follower]:
    """Say whether the charger's own clamp takes the size, and each torque that is known."""
    clamp = design.fit.charger.input
    clamps = tuple(design.circuit.joint(role).letter for role in ("in+", "in-"))
    fits = design.choice.area_mm2 <= clamp.area_max.low
    yield Follower(kind="terminal", letters=clamps, figure=clamp.area_max, there=fits)
    torques = [
        (design.circuit.joint("in+").torque, clamps),
        *((joint.torque, letters) for joint, letters in _studs(design)),
    ]
    for torque, letters in torques:
        if isinstance(torque, Quantity):
            yield Follower(kind="torque", letters=letters, figure=torque)


def _stock(design: Design) -> Iterator[Follower]:
    """The drum that each colour is cut from; nothing where it is to buy. Shorter pieces add up."""
    fit = design.fit
    metres: dict[str, float] = {}
    for conductor in design.circuit.conductors:
        if conductor.use in _INPUT:
            metres[conductor.colour] = metres.get(conductor.colour, 0.0) + conductor.cut_m
    for colour, needed in metres.items():
        drum = _drum(fit, design.choice.area_mm2, colour, needed)
        yield Follower(
            kind="stock", place=colour, figure=drum, metres=needed, there=drum is not None
        )


def _drum(fit: Fit, area_mm2: float, colour: str, needed_m: float) -> Quantity | None:
    kept = (
        drum.length
        for drum in fit.shop.stock
        if (drum.cable, drum.area.value, drum.colour) == (fit.job.cable, area_mm2, colour)
    )
    return next((length for length in kept if length.low >= needed_m), None)
