"""The joints of a single feed, lettered with the current, and who sets their torque.

The torque is that of the maker of the stud or terminal that is clamped: the vehicle file's
for its points, the sheet's for protection and charger. Nothing is filled in here.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from functools import partial
from itertools import count

from baybook.circuit import Joint
from baybook.fit import Fit
from baybook.part import CableSize
from baybook.point import Point
from baybook.quantity import Quantity, Unknown
from baybook.sheet import Terminal
from baybook.sizing.lengths import route_length
from baybook.sizing.protection import sheet_of, source_point
from baybook.sizing.torque import at_point, at_terminal, carried_at_point
from baybook.terms import JointKind

LETTERS = "ABCDEFGHJKLMNPQRSTUVWXYZ"  # I and O are left out: a copier turns them into 1 and 0


@dataclass(frozen=True, slots=True, kw_only=True)
class Tags:
    """The cut pieces. `source` is "" where a vehicle maker's fuse protects the point."""

    source: str
    feed: str
    back: str
    out: str
    out_far: str  # from the second battery's protection to the battery; "" for a station
    out_back: str


def tags(*, protected: bool, second: bool = False) -> Tags:
    """Number the cut pieces: source, feed, return, output + (in two at a battery) and −.

    [shop-rule]
    """
    numbers = (f"W{number}" for number in count(1))
    return Tags(
        source="" if protected else next(numbers),
        feed=next(numbers),
        back=next(numbers),
        out=next(numbers),
        out_far=next(numbers) if second else "",
        out_back=next(numbers),
    )


def joints(fit: Fit, family: str, size: CableSize, second_family: str = "") -> tuple[Joint, ...]:
    """Return every joint in letter order.

    [vehicle-survey], [fit-sheet]

    family         id of the protection's sheet, "" for a vehicle maker's fused point
    size           of the input cable, for a clamp whose torque goes by it
    second_family  as family, at a second battery; "" for a station or for nothing
    """
    named = tags(protected=not family, second=fit.second is not None)
    clamp, output = at_terminal(fit, fit.charger.input, size), fit.charger.output
    load = _station(fit, named) if fit.second is None else _second(fit, second_family, named)
    found = (
        *_source(fit, family, named),
        _at_charger(fit, fit.charger.input, clamp, "in+", "IN +", named.feed),
        _at_charger(fit, output, output.torque, "out+", "OUT +", named.out),
        *load,
        _at_charger(fit, output, output.torque, "out-", "OUT -", named.out_back),
        _at_charger(fit, fit.charger.input, clamp, "in-", "IN -", named.back),
        *_return(fit, named),
    )
    return tuple(joint(letter=letter) for joint, letter in zip(found, LETTERS, strict=False))


def battery_point(fit: Fit) -> Point | None:
    """The battery's own negative post, None if the vehicle file does not list it.

    [vehicle-survey]
    """
    posts = [p for p in fit.vehicle.points.values() if p.role == "negative" and p.at_post]
    return posts[0] if posts else None


def _source(fit: Fit, family: str, named: Tags) -> Iterator[partial[Joint]]:
    point = source_point(fit)
    if point.factory_fuse is not None:
        yield _at_positive_post(fit)
    yield _at_point(fit, point, "source+", "30", (named.source or named.feed,))
    if not family:
        return
    sheet = sheet_of(fit, family)
    for role, mark, tag in (("fuse-in", "IN", named.source), ("fuse-out", "OUT", named.feed)):
        yield _joint(
            role=role,
            kind=JointKind.STUD,
            device="F1",
            terminal=mark,
            what=sheet.name,
            place=point.place,
            at_m=fit.job.source.fuse_at.value,
            zone=point.zone,
            thread=sheet.thread,
            torque=sheet.torque,
            tool=sheet.tool,
            conductors=(tag,),
        )


def _at_positive_post(fit: Fit) -> partial[Joint]:
    """The battery's side of a fuse of the vehicle's maker; nothing is joined there."""
    posts = [p for p in fit.vehicle.points.values() if p.role == "positive" and p.at_post]
    post, battery = posts[0] if posts else None, fit.vehicle.battery
    return _joint(
        role="battery+",
        kind=JointKind.POST,
        device="battery",
        terminal="30",
        what=post.what if post else "",
        place=post.place if post else battery.place,
        zone=battery.zone,
        thread=post.thread if post else None,
        existing=True,
    )


def _station(fit: Fit, named: Tags) -> Iterator[partial[Joint]]:
    yield _at_plug(fit, "plug+", "+", named.out)
    yield _at_plug(fit, "plug-", "-", named.out_back)


def _second(fit: Fit, family: str, named: Tags) -> Iterator[partial[Joint]]:
    """To a second battery: its protection stands near it, and its studs are its own."""
    at_m = fit.job.second.fuse_at.value if fit.job.second else 0.0
    end = _route_end(fit) + fit.job.output_length.value
    if family:
        sheet = (
            fit.second_protections[fit.job.second.protection.index(family)]
            if fit.job.second
            else None
        )
        for role, mark, tag in (("load-in", "IN", named.out), ("load-out", "OUT", named.out_far)):
            yield _joint(
                role=role,
                kind=JointKind.STUD,
                device="F2",
                terminal=mark,
                what=sheet.name if sheet else "",
                place=fit.job.station_place.place,
                at_m=end - at_m,
                zone=fit.vehicle.mounts[fit.job.mount].zone,
                thread=sheet.thread if sheet else None,
                torque=sheet.torque if sheet else None,
                tool=sheet.tool if sheet else None,
                conductors=(tag,),
            )
    for role, mark, tag in (("load+", "+", named.out_far), ("load-", "-", named.out_back)):
        yield _at_stud(fit, role, mark, tag, end)


def _at_stud(fit: Fit, role: str, mark: str, tag: str, at_m: float) -> partial[Joint]:
    battery = fit.second
    stud = battery.stud if battery else fit.charger.output
    return _joint(
        role=role,
        kind=stud.kind,
        device="station",
        terminal=mark,
        what=battery.name if battery else "",
        place=fit.job.station_place.place,
        at_m=at_m,
        zone=fit.vehicle.mounts[fit.job.mount].zone,
        thread=stud.thread,
        torque=stud.torque,
        tool=stud.tool,
        conductors=(tag,),
    )


def _return(fit: Fit, named: Tags) -> Iterator[partial[Joint]]:
    point = fit.vehicle.points[fit.job.source.negative]
    loop = fit.body_loop
    near = _route_end(fit) if loop else 0.0
    yield _at_point(fit, point, "return", "31", (named.back,), at_m=near)
    if point.at_post:
        return
    if loop is not None:
        yield _at_body(fit.vehicle.points[loop.end])
    battery = fit.vehicle.battery
    post = battery_point(fit)
    yield _joint(
        role="source-",
        kind=JointKind.POST,
        device="battery",
        terminal="31",
        what=post.what if post else "",
        place=post.place if post else battery.place,
        zone=battery.zone,
        thread=post.thread if post else None,
        existing=True,
    )


def _at_body(point: Point) -> partial[Joint]:
    """Where the battery's own negative lead joins the body; nothing is done there."""
    return _joint(
        role="body",
        kind=point.kind,
        device="vehicle",
        terminal="31",
        what=point.what,
        place=point.place,
        zone=point.zone,
        thread=point.thread,
        photo=point.photo,
        existing=True,
    )


def _at_point(  # noqa: PLR0913, PLR0917 - a joint is all of this
    fit: Fit, point: Point, role: str, terminal: str, conductors: tuple[str, ...], at_m: float = 0.0
) -> partial[Joint]:
    return _joint(
        role=role,
        kind=point.kind,
        device="battery" if point.at_post else "vehicle",
        terminal=terminal,
        what=point.what,
        place=point.place,
        zone=point.zone,
        thread=point.thread,
        torque=at_point(fit, point),
        carries_A=carried_at_point(point),
        tool=point.tool,
        conductors=conductors,
        photo=point.photo,
        at_m=at_m,
    )


def _at_charger(  # noqa: PLR0913, PLR0917 - a joint is all of this
    fit: Fit,
    terminal: Terminal,
    torque: Quantity | Unknown | None,
    role: str,
    mark: str,
    tag: str,
) -> partial[Joint]:
    mount = fit.vehicle.mounts[fit.job.mount]
    return _joint(
        role=role,
        kind=terminal.kind,
        device="charger",
        terminal=mark,
        what=fit.charger.name,
        place=mount.place,
        at_m=_route_end(fit),
        zone=mount.zone,
        thread=terminal.thread,
        torque=torque,
        tool=terminal.tool,
        conductors=(tag,),
    )


def _at_plug(fit: Fit, role: str, mark: str, tag: str) -> partial[Joint]:
    return _joint(
        role=role,
        kind=JointKind.CONNECTOR,
        device="station",
        terminal=mark,
        what=fit.plug.name,
        place=fit.job.station_place.place,
        at_m=_route_end(fit),
        zone=fit.vehicle.mounts[fit.job.mount].zone,
        conductors=(tag,),
    )


def _route_end(fit: Fit) -> float:
    return route_length(fit.vehicle.routes[fit.job.route].segments)


def _joint(  # noqa: PLR0913 - one place that fills what a kind of joint does not have
    *,
    role: str,
    kind: JointKind,
    device: str,
    terminal: str,
    what: str,
    place: str,
    zone: str,
    at_m: float = 0.0,
    thread: str | None = None,
    torque: Quantity | Unknown | None = None,
    carries_A: float | None = None,
    tool: str | None = None,
    conductors: tuple[str, ...] = (),
    photo: str | None = None,
    existing: bool = False,
) -> partial[Joint]:
    return partial(
        Joint,
        role=role,
        kind=kind,
        device=device,
        terminal=terminal,
        what=what,
        place=place,
        at_m=at_m,
        zone=zone,
        thread=thread,
        torque=torque,
        carries_A=carries_A,
        tool=tool,
        conductors=conductors,
        photo=photo,
        existing=existing,
    )
