"""Noun: a second battery as the load: it charges like a station and feeds back like a source."""

from typing import Literal

from pydantic import Field

from baybook.quantity import (
    Amps,
    Degrees,
    Format,
    Kilograms,
    Noun,
    OhmsOrUnknown,
    Ratio,
    Text,
    Volts,
    WattHours,
    Watts,
)
from baybook.sheet import Maker, Paper, PartName, StationSheet, Terminal
from baybook.terms import Polarity, YesNoUnknown


class BatterySheet(Noun):
    format: Format
    kind: Literal["battery"] = Field(description="the folder under datasheets/ that it lies in")
    name: PartName
    maker: Maker
    sheet: Paper
    chemistry: Text = Field(description="as printed on it, e.g. `LiFePO4`")
    empty: Volts = Field(description="its own protection opens below")
    charge_voltage: Volts = Field(description="highest that its maker allows for charging")
    absolute: Volts = Field(description="its own protection opens above")
    charge_current: Amps = Field(description="highest that its maker allows for charging")
    charge_power: Watts = Field(description="at that current and voltage")
    internal: OhmsOrUnknown = Field(description="internal resistance, or `unknown`")
    energy: WattHours = Field(description="from empty to full")
    efficiency: Ratio = Field(description="of its charging")
    stud: Terminal = Field(description="its two studs")
    low_stop: Degrees | None = Field(
        default=None, description="its own protection stops charging below, by its cells"
    )
    mass: Kilograms = Field(description="of the whole battery")
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
