"""Noun: a second battery as the load: it charges like a station and feeds back like a source."""

from __future__ import annotations

from typing import Literal

from pydantic import Field

from baybook.quantity import (
    Amps,
    Degrees,
    Kilograms,
    Noun,
    OhmsOrUnknown,
    ProperName,
    Ratio,
    Text,
    Volts,
    WattHours,
    Watts,
)
from baybook.sheet import Sheet, StationSheet, Terminal
from baybook.terms import Polarity, YesNoUnknown


class BatterySheet(Noun):
    format: Literal["1"]
    kind: Literal["battery"]
    name: ProperName
    maker: ProperName
    sheet: Sheet
    chemistry: Text
    empty: Volts = Field(description="its own protection opens below")
    charge_voltage: Volts = Field(description="highest that its maker allows for charging")
    absolute: Volts = Field(description="its own protection opens above")
    charge_current: Amps = Field(description="highest that its maker allows for charging")
    charge_power: Watts = Field(description="at that current and voltage")
    internal: OhmsOrUnknown
    energy: WattHours = Field(description="from empty to full")
    efficiency: Ratio = Field(description="of its charging")
    stud: Terminal = Field(description="its two studs")
    low_stop: Degrees | None = Field(
        default=None, description="its own protection stops charging below, by its cells"
    )
    mass: Kilograms
    charge_min: Degrees = Field(description="ambient")
    charge_max: Degrees = Field(description="ambient")

    def as_load(self) -> StationSheet:
        """Return the sheet as what it is to the charger's output: a window, a limit, an energy."""
        return StationSheet(
            format="1",
            kind="station",
            name=self.name,
            maker=self.maker,
            sheet=self.sheet,
            window_min=self.empty,
            window_max=self.charge_voltage,
            start=self.empty,
            absolute=self.absolute,
            input_current=self.charge_current,
            input_power=self.charge_power,
            energy=self.energy,
            efficiency=self.efficiency,
            connector="unknown",
            polarity=Polarity.BY_PIN,
            constant_voltage_tested=YesNoUnknown.YES,
            mass=self.mass,
            charge_min=self.charge_min,
            charge_max=self.charge_max,
        )
