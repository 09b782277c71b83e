"""Noun: what was read on the finished fit, and what became of it: the as-built record."""

from dataclasses import dataclass
from typing import Literal

from pydantic import Field

from baybook.finding import Amount, Finding, Message, Name
from baybook.guide import Identity, ReadingLine
from baybook.quantity import Day, Metres, Noun, ProperName, Text, Volts


class Serials(Noun):
    charger: ProperName
    station: ProperName = Field(description="station or second battery")


class SupplyRead(Noun):
    """Running volts read on this very vehicle, where they differ from the survey."""

    low: Volts | None = None
    typical: Volts | None = None
    high: Volts | None = None


class AsBuilt(Noun):
    """A readings file: one job on one vehicle."""

    format: Literal["1"]
    fit: ProperName = Field(description="vehicle/fit")
    figures: ProperName = Field(description="fingerprint of the figures, as the sheet prints it")
    vin: ProperName = Field(description="VIN, last 8, read from the vehicle")
    on: Day
    fitted_by: Text
    checked_by: Text
    tools: tuple[ProperName, ...] = Field(description="ids of the tools: meters and torque tool")
    serials: Serials
    readings: dict[ProperName, ProperName] = Field(description="by id: `R1: 13.9 V`")
    supply: SupplyRead | None = None
    lengths: tuple[Metres, ...] | None = Field(
        default=None, description="of the route's segments as laid, in their order"
    )
    deviations: tuple[Text, ...] = Field(description="not as drawn; `[]` if there is none")


@dataclass(frozen=True, slots=True, kw_only=True)
class Judged:
    """One reading against its interval, and the way through the fault tree if it misses."""

    row: ReadingLine
    read: Amount
    miss: str  # "low", "high" or ""
    way: tuple[int, ...] = ()  # questions that the readings answered, in order
    answer: Message | None = None  # where the way ends; None: a person has to answer the next one
    ask: int | None = None  # the question that the readings do not answer


@dataclass(frozen=True, slots=True, kw_only=True)
class Way:
    """A resistance worked out from the readings, against what the model allows. [ohm]"""

    what: Message
    measured: Amount
    low: Amount
    high: Amount
    inside: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class ToolUsed:
    id: str
    name: Name
    due: str  # calibration due, "" if the profile names no day
    overdue: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class Record:
    """The as-built record of one job."""

    identity: Identity
    figures: str
    vin: Name
    on: str
    fitted_by: Name
    checked_by: Name
    charger_serial: Name
    station_serial: Name
    tools: tuple[ToolUsed, ...]
    readings: tuple[Judged, ...]
    ways: tuple[Way, ...]
    outside: tuple[Finding, ...]  # rules that this very vehicle breaks
    deviations: tuple[Name, ...]

    @property
    def passed(self) -> bool:
        """Every reading in, every resistance as modelled, the vehicle inside the envelope."""
        late = any(tool.overdue for tool in self.tools)
        missed = any(one.miss for one in self.readings)
        return not (missed or late or self.outside or any(not way.inside for way in self.ways))
