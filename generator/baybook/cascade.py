"""Noun: what goes with a size of cable: everything that changes when the size does."""

from __future__ import annotations

from dataclasses import dataclass

from baybook.quantity import Quantity

KINDS = (
    "fuse",
    "lug",
    "die",
    "strip",
    "shrink",
    "passage",
    "hole",
    "clip",
    "sleeve",
    "conduit",
    "bend",
    "terminal",
    "torque",
    "stock",
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Follower:
    """One thing that goes with a size, at one place of the circuit."""

    kind: str  # one of KINDS
    letters: tuple[str, ...] = ()  # of the joints it belongs to
    place: str = ""  # the wall or the hazard, in the vehicle file's words; the colour of a cable
    part: str = ""  # the size's own name on its sheet, the thread of a lug; "" for a bare figure
    figure: Quantity | None = None
    metres: float = 0.0  # of cable that the cut list asks for
    there: bool = True  # False: sheets and shop have nothing for this size

    @property
    def key(self) -> tuple[str, tuple[str, ...], str]:
        """What two sizes are compared by: the same kind at the same place."""
        return self.kind, self.letters, self.place

    @property
    def what(self) -> tuple[str, float | None, bool]:
        """What must be equal for a thing to be the same in two sizes."""
        return self.part, self.figure.value if self.figure else None, self.there


@dataclass(frozen=True, slots=True, kw_only=True)
class Cascade:
    """All that goes with one size of one cable behind one protection."""

    cable: str  # name of its sheet
    area_mm2: float
    gauge: str  # nearest one, as the sheet states it
    followers: tuple[Follower, ...]

    def differing(self, other: Cascade) -> tuple[tuple[Follower, Follower | None], ...]:
        """Return (here, there) for each thing that is another one with the other size."""
        there = {follower.key: follower for follower in other.followers}
        pairs = [(follower, there.get(follower.key)) for follower in self.followers]
        return tuple(
            (ours, theirs) for ours, theirs in pairs if theirs is None or ours.what != theirs.what
        )
