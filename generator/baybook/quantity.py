"""Noun: a figure that somebody wrote, with its unit, tolerance, basis and place.

Every figure of a workbook is a `Quantity`; what nobody knows is `Unknown`, never None. The
reader of a scalar reaches the models through pydantic's validation context (`Reader`), so
this file imports nothing of ours.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from datetime import date
from enum import StrEnum
from functools import cache
from typing import Annotated, Any, Literal, Protocol, get_args

from pydantic import BaseModel, BeforeValidator, ConfigDict, Field, ValidationInfo
from pydantic_core.core_schema import (
    CoreSchema,
    is_instance_schema,
    with_info_before_validator_function,
)


@dataclass(frozen=True, slots=True)
class Mark:
    """A place in a file a person wrote: 1-based line and column, dotted path inside the file."""

    file: str
    line: int
    column: int
    path: str = ""


class State(StrEnum):
    """How a figure came to be known."""

    MEASURED = "measured"
    PAPER = "paper"  # a maker's document
    ESTIMATED = "estimated"
    RULE = "rule"  # a choice of the shop profile


class Reader(Protocol):
    """What `intake` puts into the validation context under the key "reader".

    A scalar of a file reaches the models as a `str` that also knows its place and its basis;
    each method raises a ValueError that carries the messages a person is to read.
    """

    def boolean(self, raw: object) -> bool: ...

    def whole(self, raw: object) -> int: ...

    def day(self, raw: object) -> date: ...

    def quantity(self, raw: object, unit: str, *, unknown: bool) -> Quantity | Unknown: ...


def _read(kind: str, **options: str | bool) -> Callable[[object, ValidationInfo], object]:
    def call(raw: object, info: ValidationInfo) -> object:
        if not isinstance(raw, (str, Mapping)) or info.context is None:
            return raw  # built in Python, not read from a file
        read: Callable[..., object] = getattr(info.context["reader"], kind)
        return read(raw, **options)

    return call


Day = Annotated[date, BeforeValidator(_read("day"))]


@dataclass(frozen=True, slots=True)
class InWords:
    """Schema mark: the shop's own words; a reader of another language needs them translated."""


Text = Annotated[str, Field(min_length=1), InWords()]
Remark = Annotated[str, InWords()]  # a text that may be left out
# A make, model, code, document or thread, or a word that only a rule reads: the same in every
# language.
ProperName = Annotated[str, Field(min_length=1)]


@cache
def in_words(model: type[BaseModel]) -> frozenset[str]:
    """Return the fields of a noun that hold texts to be translated, by name."""
    return frozenset(
        name
        for name, field in model.model_fields.items()
        if any(isinstance(mark, InWords) for mark in (*field.metadata, *_marks(field.annotation)))
    )


def _marks(hint: object) -> list[Any]:
    """Return the schema marks anywhere in `Text | None`, `tuple[Text, ...]` …"""
    within = [mark for part in get_args(hint) for mark in _marks(part)]
    return [*getattr(hint, "__metadata__", ()), *within]


class Noun(BaseModel):
    """Frozen, and nothing in a file is ignored."""

    # Built when first read: a model inside another need not be built for itself.
    model_config = ConfigDict(
        frozen=True, extra="forbid", arbitrary_types_allowed=True, defer_build=True
    )


class Basis(Noun):
    """Why a figure may be believed: its state and the trail to it."""

    state: State = Field(description="how the figure came to be known")
    method: Remark = Field(default="", description="how it was measured or chosen, in words")
    by: Remark = Field(default="", description="role of who measured, read, estimated or chose it")
    on: Day | None = Field(default=None, description="the day")
    instrument: str = Field(default="", description="id of the shop's tool")
    seen: str = Field(
        default="", description="the vehicle it was read on: VIN part or fleet number"
    )
    document: str = Field(default="", description="maker's paper: number, revision, page")
    note: Remark = Field(default="", description="what else there is to say")


@dataclass(frozen=True, slots=True, kw_only=True)
class Quantity:
    """A figure with its unit. `written` stays the control value that guides print."""

    value: float  # in `unit`
    low: float  # low end of the tolerance, in `unit`; equals value if none was written
    high: float
    unit: str  # one of the inside units of `units`: "V", "A", "ohm", "m", "mm2", "degC", "N*m" …
    written: str  # "120 lbf·in", "AWG 6", "4.2 m ± 2 %"
    basis: Basis
    where: Mark


@dataclass(frozen=True, slots=True, kw_only=True)
class Unknown:
    """A fact that was looked for and is not known. A blank is an error; this is a value."""

    basis: Basis
    where: Mark


@dataclass(frozen=True, slots=True)
class InUnit:
    """Schema mark: the inside unit of a field and whether `unknown` is a legal answer."""

    unit: str
    unknown: bool = False

    def __get_pydantic_core_schema__(self, _kind: object, _build: object) -> CoreSchema:
        """Let the reader make the figure; of a made one nothing is asked but that it is one."""
        kinds = (Quantity, Unknown) if self.unknown else Quantity
        return with_info_before_validator_function(
            _read("quantity", unit=self.unit, unknown=self.unknown), is_instance_schema(kinds)
        )


Format = Annotated[Literal["1"], Field(description="version of the file format")]
YesNo = Annotated[bool, BeforeValidator(_read("boolean"))]
Whole = Annotated[int, BeforeValidator(_read("whole"))]
Id = Annotated[str, Field(pattern=r"^[a-z0-9][a-z0-9-]{0,63}$")]

Volts = Annotated[Quantity, InUnit("V")]
Amps = Annotated[Quantity, InUnit("A")]
Watts = Annotated[Quantity, InUnit("W")]
Ohms = Annotated[Quantity, InUnit("ohm")]
OhmsPerMetre = Annotated[Quantity, InUnit("ohm/m")]
Metres = Annotated[Quantity, InUnit("m")]
Area = Annotated[Quantity, InUnit("mm2")]
Degrees = Annotated[Quantity, InUnit("degC")]
Kelvins = Annotated[Quantity, InUnit("K")]
Torque = Annotated[Quantity, InUnit("N*m")]
TorqueOrUnknown = Annotated[Quantity | Unknown, InUnit("N*m", unknown=True)]
OhmsOrUnknown = Annotated[Quantity | Unknown, InUnit("ohm", unknown=True)]
MetresOrUnknown = Annotated[Quantity | Unknown, InUnit("m", unknown=True)]
Kilograms = Annotated[Quantity, InUnit("kg")]
KilogramsOrUnknown = Annotated[Quantity | Unknown, InUnit("kg", unknown=True)]
KilogramsPerMetre = Annotated[Quantity, InUnit("kg/m")]
Newtons = Annotated[Quantity, InUnit("N")]
NewtonsOrUnknown = Annotated[Quantity | Unknown, InUnit("N", unknown=True)]
Megapascals = Annotated[Quantity, InUnit("MPa")]
Seconds = Annotated[Quantity, InUnit("s")]
SecondsOrUnknown = Annotated[Quantity | Unknown, InUnit("s", unknown=True)]
AmpHours = Annotated[Quantity, InUnit("A*h")]
WattHours = Annotated[Quantity, InUnit("W*h")]
Ratio = Annotated[Quantity, InUnit("1")]  # "5 %" or "0.92"
Gravities = Annotated[Quantity, InUnit("g_n")]  # standard gravity
KelvinsPerWatt = Annotated[Quantity, InUnit("K/W")]
PerKelvin = Annotated[Quantity, InUnit("1/K")]  # "2 %/K"
