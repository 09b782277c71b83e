"""Holes, their edges, and everything that is bolted to the vehicle."""

from __future__ import annotations

from collections.abc import Iterator

from baybook.circuit import Fitting
from baybook.compose.action import act
from baybook.compose.practice import MINUTES, PAINT_DRIES, STOP_PAST_PANEL
from baybook.compose.work import Work, at, count, device, millimetres
from baybook.finding import Amount, Message, Name, Value, say
from baybook.quantity import Quantity, Unknown
from baybook.route import Mount
from baybook.step import Phase, Step

PHASE = Phase.DRILL
_LOOKED = "hold:behind-screws"


def edges(work: Work) -> tuple[tuple[int, Fitting], ...]:
    """Return the fittings that guard the edge of a hole, with their place in the circuit."""
    return tuple(
        (place, fitting)
        for place, fitting in enumerate(work.circuit.fittings)
        if fitting.kind in {"grommet", "gland"}
    )


def drill(work: Work) -> tuple[Step, ...]:
    """Return the steps from the depth stop to the last guarded edge."""
    mount = work.fit.vehicle.mounts[work.fit.job.mount]
    holes = ("hole:mount", *(f"hole:{place}" for place, f in edges(work) if f.new_hole))
    return (
        _depth_stop(mount),
        _drill_mount(mount),
        *_drill_walls(work),
        *_finish(holes),
        *_guard(work),
        *_bolt(work, mount),
    )


def _depth_stop(mount: Mount) -> Step:
    stop = mount.panel.value + STOP_PAST_PANEL.value
    return act(
        "depth-stop",
        PHASE,
        say("do.depth-stop", stop=millimetres(stop, 1).at_most()),
        value=millimetres(stop, 1).at_most(),
        value_note=say("note.from-tip"),
        tool=say("tool.drill"),
        needs=(_LOOKED,),
        makes=("depth-stop",),
    )


def _drill_mount(mount: Mount) -> Step:
    return act(
        "drill.mount",
        PHASE,
        say(
            "do.drill.mount",
            count=count(mount.fixings),
            drill=Amount.of(mount.drill, 1).plain(),
            place=Name(mount.place),
        ),
        value=Amount.of(mount.drill, 1).plain(),
        value_note=say("note.drill"),
        tool=say("tool.drill"),
        minutes=MINUTES["drill"] * mount.fixings,
        needs=(_LOOKED, "depth-stop"),
        makes=("hole:mount",),
        hazards=("drill",),
    )


def _drill_walls(work: Work) -> Iterator[Step]:
    for place, hole in edges(work):
        if hole.new_hole and hole.hole_m is not None:
            yield act(
                f"drill.{place}",
                PHASE,
                say(
                    "do.drill.hole",
                    count=count(hole.count),
                    drill=millimetres(hole.hole_m, 1).plain(),
                    wall=Name(hole.wall),
                ),
                value=millimetres(hole.hole_m, 1).plain(),
                value_note=say("note.drill"),
                tool=say("tool.hole-cutter"),
                minutes=MINUTES["drill"] * hole.count,
                needs=(_LOOKED, "depth-stop"),
                makes=(f"hole:{place}",),
                hazards=("drill",),
            )


def _finish(holes: tuple[str, ...]) -> Iterator[Step]:
    yield act(
        "deburr",
        PHASE,
        say("do.deburr"),
        tool=say("tool.deburr"),
        minutes=MINUTES["fit"],
        needs=holes,
        makes=("deburred",),
    )
    yield act(
        "swarf",
        PHASE,
        say("do.swarf"),
        tool=say("tool.vacuum"),
        needs=("deburred",),
        makes=("swarf-out",),
    )
    yield act(
        "paint",
        PHASE,
        say("do.paint"),
        value=PAINT_DRIES.amount,
        value_note=say("note.dry"),
        tool=say("tool.paint"),
        people=0,
        minutes=PAINT_DRIES.value,
        needs=("swarf-out",),
        makes=("edges-painted",),
    )


def _guard(work: Work) -> Iterator[Step]:
    for place, fitting in edges(work):
        new = fitting.new_hole
        yield act(
            f"edge.{place}",
            PHASE,
            _guard_action(fitting),
            value=count(fitting.count),
            value_note=say("note.part", part=Name(fitting.part)) if fitting.part else None,
            minutes=MINUTES["fit"],
            needs=("edges-painted",) if new else (_LOOKED,),
            makes=(f"edge:{place}",),
        )


def _guard_action(fitting: Fitting) -> Message:
    if not fitting.part:
        return say("do.edge.existing", wall=Name(fitting.wall))
    kind = "gland" if fitting.kind == "gland" else "grommet"
    values: dict[str, Value] = {
        "count": count(fitting.count),
        "part": Name(fitting.part),
        "wall": Name(fitting.wall),
    }
    return say(f"do.edge.{kind}", **values)


def _bolt(work: Work, mount: Mount) -> Iterator[Step]:
    torque = mount.torque
    yield act(
        "charger.bolt",
        PHASE,
        _bolting(mount),
        value=None if isinstance(torque, Unknown) else Amount.of(torque),
        value_note=say("note.fixing", fixing=Name(mount.fixing)),
        tool=_tool(work, mount, torque),
        torque_mark=True,
        minutes=MINUTES["fit"] * 2,
        needs=("edges-painted",),
        makes=("charger-fixed",),
    )
    fuse = work.fuse
    if not fuse.factory:
        yield act(
            "fuse.holder",
            PHASE,
            say(
                "do.fuse.holder",
                fuse=device(fuse.tag),
                distance=millimetres(fuse.at_m).at_most(),
                source=at(work.joint("source+").letter),
            ),
            value=millimetres(fuse.at_m).at_most(),
            value_note=say("note.limit", limit=millimetres(fuse.limit_m).at_most()),
            tool=say("tool.hand"),
            minutes=MINUTES["fit"],
            needs=(_LOOKED,),
            makes=(f"{fuse.tag}.fixed",),
        )


def _bolting(mount: Mount) -> Message:
    number, thread = count(mount.fixings), Name(mount.thread)
    if isinstance(mount.torque, Unknown):
        return say("do.charger.bolt", count=number, thread=thread)
    torque = Amount.of(mount.torque)
    return say("do.charger.bolt.torque", count=number, thread=thread, torque=torque)


def _tool(work: Work, mount: Mount, torque: Quantity | Unknown) -> Message:
    return work.torque_tool(torque, mount.tool)
