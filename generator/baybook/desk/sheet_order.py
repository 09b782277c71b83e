"""The order of the survey sheet: which field of a vehicle file stands in which part of it.

The fields come from the nouns; a part names nouns, never fields, so that a new field of a noun
is on the sheet as soon as it is in the file. A noun that stands in no part is an error.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Final, Literal

from pydantic import BaseModel

from baybook.desk.fields import Field, fields_of
from baybook.vehicle import Vehicle

# Of the file, not of the vehicle: its version, its base, and the jobs that the desk chooses.
AT_THE_DESK: Final = frozenset({"Vehicle.format", "Vehicle.variant_of", "Vehicle.fits"})


@dataclass(frozen=True, slots=True, kw_only=True)
class Part:
    """One block of the sheet."""

    id: str
    nouns: tuple[str, ...]
    form: Literal["boxes", "readings", "table", "numbered", "note"]
    rows: int = 0  # blank rows of a table
    first: str = ""  # label of a table's first column: the id, or the entry it belongs to
    width: float = 1  # share of its band


# Two sides, in bands from the top; the parts of a band stand side by side.
SIDES: Final[tuple[tuple[tuple[Part, ...], ...], ...]] = (
    (
        (Part(id="vehicle", nouns=("Vehicle", "Years"), form="boxes"),),
        (
            Part(id="applies", nouns=("Applies",), form="table", rows=4, width=1.3),
            Part(id="zones", nouns=("Zone",), form="table", rows=4, first="id"),
        ),
        (Part(id="supply", nouns=("Supply",), form="readings"),),
        (Part(id="battery", nouns=("Battery", "Masses"), form="readings"),),
        (Part(id="bases", nouns=("Basis",), form="table", rows=5, first="id"),),
        (
            Part(id="restraints", nouns=("Restraints",), form="table", rows=3),
            Part(id="preserve", nouns=("Preserve",), form="table", rows=3),
        ),
        (
            Part(id="traction", nouns=("HighVoltage",), form="table", rows=1, width=1.2),
            Part(id="isolator", nouns=("Isolator",), form="table", rows=1, width=1.4),
            Part(id="split", nouns=("SplitRelay",), form="table", rows=1),
            Part(id="loops", nouns=("BodyLoop",), form="table", rows=1, width=1.6),
        ),
        (Part(id="cautions", nouns=("Caution",), form="table", rows=2),),
    ),
    (
        (
            Part(id="grid", nouns=("GridPoint",), form="note"),  # the rest stands beside it
            Part(id="cues", nouns=("Cue",), form="table", rows=2, first="id"),
            Part(id="torque", nouns=("TorqueTable",), form="table", rows=1, first="point"),
            Part(id="photos", nouns=("Photo",), form="numbered"),
        ),
        (Part(id="points", nouns=("Point",), form="table", rows=4, first="id"),),
        (
            Part(
                id="fuse",
                nouns=("FactoryFuse", "GatePoint", "HoldPoint"),
                form="table",
                rows=2,
                first="point",
                width=1.6,
            ),
            Part(id="line", nouns=("SharedLine", "LineLoad"), form="table", rows=2, first="point"),
        ),
        (Part(id="segments", nouns=("Segment", "Route"), form="table", rows=6, first="number"),),
        (
            Part(id="hazards", nouns=("Hazard",), form="table", rows=5, first="segment"),
            Part(id="passages", nouns=("Passage",), form="table", rows=5, first="segment"),
        ),
        (Part(id="mounts", nouns=("Mount",), form="table", rows=2, first="id"),),
    ),
)


def surveyed(noun: type[BaseModel] = Vehicle) -> Iterator[Field]:
    """Yield what is found out at the vehicle, field by field, each once per place in the file."""
    for field in fields_of(noun):
        if field.key in AT_THE_DESK:
            continue
        if field.group:
            yield from surveyed(field.group)
        else:
            yield field


def nouns_surveyed() -> dict[str, tuple[Field, ...]]:
    """Return the leaves of each noun that a survey fills, in the order of the file."""
    found: dict[str, dict[str, Field]] = {}
    for field in surveyed():
        found.setdefault(field.owner, {})[field.name] = field
    return {noun: tuple(fields.values()) for noun, fields in found.items()}


def parts() -> Iterator[Part]:
    for side in SIDES:
        for band in side:
            yield from band
