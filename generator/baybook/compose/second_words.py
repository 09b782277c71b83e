"""Sentences about a station, said of a second battery where that is the load.

A guide speaks of plug and station in many places; at a battery the protection F2 stands for
the plug. Each such sentence has a twin, and this is the list of them.
"""

from __future__ import annotations

from dataclasses import fields, is_dataclass, replace
from typing import Any, TypeVar

from baybook.compose.work import Work
from baybook.finding import Message, Name, Ref, Value

T = TypeVar("T")

TWINS: frozenset[str] = frozenset(
    {
        "box.overvoltage.avoidance",
        "box.overvoltage.consequence",
        "box.overvoltage.hazard",
        "caution.lithium",
        "caution.never-load",
        "caution.station",
        "chapter.first_power",
        "do.label.plug",
        "do.lay.output",
        "do.load.engine",
        "do.load.ready",
        "do.meter",
        "do.open-plug",
        "do.plug",
        "do.polarity",
        "do.road",
        "do.show.jump",
        "do.show.off",
        "do.show.station",
        "do.station.fix",
        "do.station.place",
        "envelope.charge",
        "fact.power",
        "field.station-revision",
        "hold.polarity.body",
        "hold.right-parts.body",
        "hold.set-voltage",
        "hold.set-voltage.above",
        "hold.set-voltage.polarity",
        "if.current-high",
        "if.current-low",
        "if.output-current-high",
        "if.output-current-low",
        "if.output-high",
        "if.output-loaded-high",
        "if.output-loaded-low",
        "kit.station",
        "kit.station-fixing",
        "label.off.load",
        "label.plug",
        "label.plug.kept",
        "reading.output-open",
        "readings.loaded.engine",
        "readings.loaded.ready",
        "state.loaded.engine",
        "state.loaded.ready",
        "state.unplugged",
        "state.unplugged.ready",
        "tree.end.demand",
        "tree.end.more",
        "tree.end.over",
        "tree.end.station-restarts",
        "tree.fed",
        "tree.fed.ready",
        "true.plugged",
        "undo.battery",
        "undo.battery.after",
        "undo.crash",
        "undo.jump",
        "undo.jump.boost",
        "undo.leave",
        "undo.leave.power",
        "undo.leave.power.ready",
        "undo.remove",
        "what.drive",
        "what.ignition",
        "what.ready",
        "what.run",
        "what.voltage",
    }
)


def said_of_battery(work: Work, node: T) -> T:
    """Return the same tree with every sentence of the list as its twin."""
    battery = work.fit.second
    if battery is None:
        return node
    more: tuple[tuple[str, Value], ...] = (
        ("second", Ref("device", work.second_fuse.tag)),
        ("battery", Name(battery.name)),
    )
    swapped: T = _swap(node, more)
    return swapped


def _swap(node: Any, more: tuple[tuple[str, Value], ...]) -> Any:  # noqa: ANN401 - a tree of nouns
    if isinstance(node, Message) and node.id in TWINS:
        own = {name for name, _ in node.values}
        values = (*node.values, *(pair for pair in more if pair[0] not in own))
        return Message(f"{node.id}.second", tuple((n, _swap(v, more)) for n, v in values))
    if isinstance(node, tuple):
        return tuple(_swap(item, more) for item in node)
    if is_dataclass(node) and not isinstance(node, type):
        changed = {
            f.name: new
            for f in fields(node)
            if (new := _swap(old := getattr(node, f.name), more)) is not old
        }
        return replace(node, **changed) if changed else node
    return node
