"""Voltage along the run: what is left between the two conductors, from the source to the charger.

Both conductors are walked at once, the return's rise with the positive's drop, so that the last
point is the charger's terminal voltage. The profile gives one contact resistance a side: half of
it stands at either end of the return; of the positive, what its protection does not take is
shared equally by its joints.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from baybook.chart import Band, Chart, Curve, Place, Points
from baybook.circuit import Leg
from baybook.design import Design
from baybook.finding import Amount, Listing, Message, Name, Ref, say
from baybook.sizing.ampacity import steady_temperature
from baybook.sizing.body import body_ends
from baybook.sizing.chart_axis import linear, shown
from baybook.sizing.conductor import resistance_at
from baybook.sizing.feed import Loop
from baybook.sizing.interval import loop as loop_of
from baybook.sizing.lengths import lay, total
from baybook.solved import Operating

_NEAR_M = 1e-9  # less than that is an artefact of binary numbers
_AIR = 0.08  # of the y axis, over and under what stands outermost


@dataclass(frozen=True, slots=True, kw_only=True)
class Piece:
    """A stretch of both conductors in one zone; or, without length, the contacts at a place."""

    zone: str
    out_m: float  # of the positive: that is what the x axis counts
    back_m: float
    contact_ohm: float = 0.0

    @property
    def contact(self) -> bool:
        return self.out_m == 0


def voltage_chart(design: Design) -> Iterator[Chart]:
    """Yield the chart; none where the power does not arrive at the lowest nor the typical supply.

    U(x) = U - I·R(x), R(x) of both conductors up to x        [circuit-laws]
    """
    feed = design.solved.feed
    points = [
        (name, style, point)
        for name, style, point in (("typ", "second", feed.typical), ("low", "main", feed.low))
        if point is not None
    ]
    if not points:
        return
    pieces = tuple(run_pieces(design))
    curves = tuple(
        Curve(label=_label(name, point), style=style, points=profile(design, point, pieces))
        for name, style, point in points
    )
    cut_out = Curve(
        label=say("chart.voltage.cut-out", voltage=shown(feed.cut_out_V, "V")),
        style="limit",
        points=((0.0, feed.cut_out_V), (_length(pieces), feed.cut_out_V)),
    )
    volts = [U for curve in (*curves, cut_out) for _, U in curve.points]
    air = _AIR * (max(volts) - min(volts)) or 1.0
    yield Chart(
        id="voltage",
        title=say("chart.voltage.title"),
        x=linear(say("chart.axis.along"), 0.0, _length(pieces), "m"),
        y=linear(say("chart.axis.voltage"), min(volts) - air, max(volts) + air, "V"),
        bands=tuple(_bands(pieces)),
        places=(*_zones(design, pieces), *_joints(design, pieces)),
        curves=(*curves, cut_out),
        lines=tuple(_lines(points, curves, feed.cut_out_V)),
    )


def run_pieces(design: Design) -> Iterator[Piece]:
    """Yield the run from source to charger: contacts, stretches by zone, the protection between.

    [circuit-laws] [shop-rule]
    """
    run = lay(design.fit, protected=not design.choice.family)
    joints = design.fit.shop.joints
    fuse = min(joints.protection.high, joints.positive.high)
    ends = 2 if not run.source else 4  # a protection of ours has two joints of its own
    each, half = (joints.positive.high - fuse) / ends, joints.negative.high / 2
    stretches = list(_beside((*run.source, *run.feed), run.back, total(run.source)))
    first, last = stretches[0].zone, stretches[-1].zone
    at_source = each + half + (0.0 if run.source else fuse)
    yield _contact(first, at_source)
    done, waits = 0.0, bool(run.source)
    for stretch in stretches:
        if waits and done >= total(run.source) - _NEAR_M:
            yield _contact(stretch.zone, 2 * each + fuse)
            waits = False
        yield stretch
        done += stretch.out_m
    if waits:
        yield _contact(last, 2 * each + fuse)
    # What the body carries back, it carries beside all of the run: it stands at the end.
    yield _contact(last, each + half + body_ends(design.fit)[1])


def _contact(zone: str, ohm: float) -> Piece:
    return Piece(zone=zone, out_m=0.0, back_m=0.0, contact_ohm=ohm)


def _beside(out: tuple[Leg, ...], back: tuple[Leg, ...], cut_m: float) -> Iterator[Piece]:
    """Yield the stretches of the positive with the return that lies beside each.

    Both pass the same zones in the same order; in each the return keeps pace with the positive.
    Where the body carries the current back, most zones have no return.

    cut_m  where the protection parts the positive, so that a stretch ends there
    """
    returns = _by_zone(back)
    for zone, out_m in _by_zone(out):
        back_m = returns.pop(0)[1] if returns and returns[0][0] == zone else 0.0
        before = min(max(cut_m, 0.0), out_m)
        cut_m -= before
        for part in (before, out_m - before):
            if part > 0:
                yield Piece(zone=zone, out_m=part, back_m=back_m * part / out_m)


def _by_zone(legs: tuple[Leg, ...]) -> list[tuple[str, float]]:
    """Return zone and length of each stay in a zone, in order."""
    stays: list[tuple[str, float]] = []
    for leg in legs:
        if stays and stays[-1][0] == leg.zone:
            stays[-1] = (leg.zone, stays[-1][1] + leg.length_m)
        else:
            stays.append((leg.zone, leg.length_m))
    return stays


def profile(design: Design, point: Operating, pieces: tuple[Piece, ...]) -> Points:
    """Return distance along the positive and the voltage that is left there. [m, V]

    [circuit-laws]
    """
    loop = loop_of(design, light=False)
    x, U = 0.0, point.source_volts
    points = [(x, point.supply_V), (x, U)] if point.line else [(x, U)]
    for piece in pieces:
        x += piece.out_m
        U -= point.current_A * _ohm(loop, piece, point.current_A)
        points.append((x, U))
    return tuple(points)


def _ohm(loop: Loop, piece: Piece, I: float) -> float:  # noqa: E741 - IEC letter
    """Resistance of a piece, both conductors. [ohm]"""
    if piece.contact:
        return piece.contact_ohm
    metres = {"out": piece.out_m, "back": piece.back_m}
    return sum(
        length * resistance_at(loop.r20_ohm_per_m, _theta(loop, way, piece.zone, I))
        for way, length in metres.items()
        if length
    )


def _theta(loop: Loop, way: str, zone: str, I: float) -> float:  # noqa: E741
    stretches = loop.out if way == "out" else loop.back
    there = next(stretch for stretch in stretches if stretch.zone == zone)
    return steady_temperature(there.ambient_C, loop.theta_max_C, I, there.carries_A)


def _length(pieces: tuple[Piece, ...]) -> float:
    return sum(piece.out_m for piece in pieces)


# --------------------------------------------------------------------------- names


def _stays(pieces: tuple[Piece, ...]) -> Iterator[tuple[str, float, float]]:
    """Yield each stay in a zone: its id, where it begins, where it ends."""
    begin, end, zone = 0.0, 0.0, pieces[0].zone
    for piece in pieces:
        if piece.zone != zone:
            yield zone, begin, end
            begin, zone = end, piece.zone
        end += piece.out_m
    yield zone, begin, end


def _bands(pieces: tuple[Piece, ...]) -> Iterator[Band]:
    for number, (_, begin, end) in enumerate(_stays(pieces)):
        if number % 2 == 0:
            yield Band(low=begin, high=end, style="zone")


def _zones(design: Design, pieces: tuple[Piece, ...]) -> Iterator[Place]:
    for zone, begin, end in _stays(pieces):
        label = say("chart.voltage.zone", zone=Name(design.fit.shop.zones[zone].name))
        yield Place(label=label, at=(begin + end) / 2, style="zone")


def _joints(design: Design, pieces: tuple[Piece, ...]) -> Iterator[Place]:
    letters = {joint.role: joint.letter for joint in design.circuit.joints}
    x = 0.0
    at: list[float] = []
    for piece in pieces:
        if piece.contact:
            at.append(x)
        x += piece.out_m
    roles = (("source+", "return"), ("fuse-in", "fuse-out"), ("in+", "in-"))
    here = [pair for pair in roles if pair[0] in letters]
    for place, pair in zip(at, here, strict=True):
        named = Listing(tuple(Ref("joint", letters[role]) for role in pair))
        if pair[0] == "fuse-in":
            label = say("chart.voltage.fuse", device=Ref("device", "F1"), joints=named)
        else:
            label = say("chart.voltage.joints", joints=named)
        yield Place(label=label, at=place, style="joint")


def _label(name: str, point: Operating) -> Message:
    return say(f"chart.voltage.{name}", end=Amount(point.charger_V, "V", 2))


def _lines(
    points: list[tuple[str, str, Operating]], curves: tuple[Curve, ...], cut_out_V: float
) -> Iterator[Message]:
    for (name, _, point), curve in zip(points, curves, strict=True):
        steps = tuple(
            say("chart.voltage.step", voltage=Amount(U, "V", 2), distance=Amount(x, "m", 2).plain())
            for x, U in curve.points[1:-1]
        )
        yield say(
            f"chart.voltage.says.{name}",
            start=Amount(point.supply_V, "V", 2),
            end=Amount(point.charger_V, "V", 2),
            current=Amount(point.current_A, "A", 1),
            steps=Listing(steps),
        )
    yield say("chart.voltage.stops", voltage=shown(cut_out_V, "V"))
    yield say("chart.voltage.shared")
