"""What goes on each end of each conductor: lug and die, ferrule, bare strands, plug half."""

from __future__ import annotations

from dataclasses import dataclass

from baybook.circuit import Conductor, Joint
from baybook.compose.work import LUGGED, Work
from baybook.finding import Amount, Message, Name, say
from baybook.part import LugSize
from baybook.quantity import Quantity
from baybook.sheet import Terminal
from baybook.terms import JointKind


@dataclass(frozen=True, slots=True, kw_only=True)
class End:
    """One end of one conductor."""

    wire: Conductor
    joint: Joint
    form: str  # "lug", "ferrule", "bare", "plug"
    strip: Quantity | None
    lug: LugSize | None

    @property
    def id(self) -> str:
        return f"{self.wire.tag}@{self.joint.letter}"


def all_ends(work: Work) -> tuple[End, ...]:
    """Return both ends of every new conductor, in tag order."""
    return tuple(
        end_of(work, wire, letter) for wire in work.new for letter in (wire.start, wire.end)
    )


def end_of(work: Work, wire: Conductor, letter: str) -> End:
    """Return what the end of `wire` at `letter` gets."""
    joint = work.at(letter)
    if joint.kind in LUGGED:
        lug = _lug(work, wire)
        return End(wire=wire, joint=joint, form="lug", strip=lug.strip if lug else None, lug=lug)
    if joint.kind is JointKind.CONNECTOR:
        return End(wire=wire, joint=joint, form="plug", strip=None, lug=None)
    terminal = terminal_of(work, joint)
    form = "ferrule" if terminal.ferrule else "bare"
    return End(wire=wire, joint=joint, form=form, strip=terminal.strip, lug=None)


def terminal_of(work: Work, joint: Joint) -> Terminal:
    """Return the charger's terminal at this joint."""
    charger = work.fit.charger
    return charger.input if joint.role.startswith("in") else charger.output


def _lug(work: Work, wire: Conductor) -> LugSize | None:
    fitting = (lug for lug in work.fit.lugs.sizes if lug.area.value >= wire.area_mm2)
    return min(fitting, key=lambda lug: lug.area.value, default=None)


def describe(work: Work, end: End) -> Message:
    """Say what goes on this end."""
    if end.form == "lug" and end.lug is not None:
        return say(
            "end.lug",
            lug=Name(work.fit.lugs.name),
            area=Amount.of(end.lug.area),
            thread=Name(end.joint.thread or ""),
            die=Name(end.lug.die),
        )
    if end.form == "plug":
        return say("end.plug", connector=Name(work.fit.plug.name))
    return say(f"end.{end.form}")
