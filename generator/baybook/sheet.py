"""Noun: data sheets of equipment, one model a kind, and what every sheet says of its paper."""

from typing import Annotated, Literal

from pydantic import Field

from baybook.quantity import (
    Amps,
    Area,
    Day,
    Degrees,
    Format,
    Id,
    KelvinsPerWatt,
    Kilograms,
    Metres,
    Noun,
    PerKelvin,
    ProperName,
    Ratio,
    Seconds,
    Text,
    TorqueOrUnknown,
    Volts,
    WattHours,
    Watts,
    YesNo,
)
from baybook.terms import JointKind, Polarity, Thread, YesNoUnknown


class Sheet(Noun):
    """The document a data sheet was copied from."""

    document: ProperName = Field(description="number or title of the maker's paper")
    revision: ProperName = Field(description="its revision")
    on: Day = Field(description="date of the paper")


PartName = Annotated[ProperName, Field(description="name of the part, as guides show it")]
Maker = Annotated[ProperName, Field(description="who makes it")]
Paper = Annotated[Sheet, Field(description="the paper that every figure of this file was read in")]


class PowerStep(Noun):
    power: Watts = Field(description="output power at this step")
    input_limit: Amps = Field(description="input current the charger keeps to at this step")


class PowerSteps(Noun):
    kept: YesNo = Field(description="kept without power and through a reset")
    set_by: Text = Field(description="what is turned or pressed, in words")
    steps: tuple[PowerStep, ...] = Field(
        description="the steps, from the lowest to the highest power"
    )


ScrewHead = Literal[
    "narrow slot",
    "wide slot",
    "split bolt",
    "hex",
    "socket 1/8 in",
    "socket 3/16 in",
    "socket 7/32 in",
    "socket 1/4 in",
    "socket 3/8 in",
    "socket 9/16 in",
]


class Terminal(Noun):
    """Where a conductor ends on a device."""

    kind: JointKind = Field(description="kind of joint")
    area_max: Area = Field(description="largest conductor it accepts")
    strip: Metres | None = Field(default=None, description="length of insulation to take off")
    thread: Thread | None = Field(default=None, description="thread of a stud, e.g. `M8`")
    torque: TorqueOrUnknown | None = Field(default=None, description="absent: nothing is tightened")
    screw: ScrewHead | None = Field(
        default=None,
        description="head of the clamp's screw, for a torque by wire size; of a socket head "
        "the size of its hexagon, for a torque by that",
    )
    ferrule: YesNo = Field(default=False, description="the conductor wants a ferrule")
    tool: Text | None = Field(default=None, description="bit or key, e.g. `5 mm hex`")


class CueInput(Noun):
    """The signal input that starts the charger, and the lead to it."""

    terminal: ProperName = Field(description="as marked on the charger")
    area: Area = Field(description="of the lead")
    current: Amps = Field(description="drawn from the vehicle's line, at most")
    fuse: Amps = Field(description="the lead's own fuse")
    fuse_standard: ProperName | None = Field(
        default=None, description="that it is made to, e.g. `ISO 8820-3` for a blade fuse"
    )
    fuse_within: Metres = Field(description="from the joint with the vehicle's line")


class Derating(Noun):
    full_to: Degrees = Field(description="full power up to this ambient")
    per_kelvin: PerKelvin = Field(description="share of full power lost for each kelvin above")
    stop: Degrees = Field(description="the charger stops here")


class Clearance(Noun):
    sides: Metres = Field(description="free space left and right")
    above: Metres = Field(description="free space above")


class ChargerSheet(Noun):
    format: Format
    kind: Literal["charger"] = Field(description="the folder under datasheets/ that it lies in")
    name: PartName
    maker: Maker
    sheet: Paper
    nominal: Volts = Field(description="12 V or 24 V supply class")
    input_min: Volts = Field(description="lowest input voltage")
    input_max: Volts = Field(description="highest input voltage")
    cut_in: Volts = Field(description="with voltage cue")
    cut_out: Volts = Field(description="with voltage cue")
    cut_out_run: Volts = Field(description="with a run, ready or drive line")
    input_current: Amps = Field(description="the charger's own input limit at full power")
    output_min: Volts = Field(description="lowest output setting")
    output_max: Volts = Field(description="highest output setting")
    output_step: Volts = Field(description="from one setting to the next")
    output_default: Volts = Field(description="setting as delivered")
    default_after_reset: YesNo = Field(description="a button reset brings the default back")
    output_tolerance: Ratio = Field(description="of the set voltage")
    overshoot: Volts = Field(description="on load steps, above the tolerance")
    output_current: Amps = Field(description="highest output current")
    output_power: Watts = Field(description="highest output power")
    power: PowerSteps | None = Field(default=None, description="power steps, where it has some")
    efficiency: Ratio = Field(description="output power over input power")
    upstream_max: Amps = Field(description="largest protection the maker allows upstream")
    standby: Amps = Field(description="drawn with the vehicle parked")
    stops_within: Seconds | None = Field(
        default=None, description="from the end of its cue, or of its cut-out, to standby"
    )
    isolated: YesNo = Field(description="input and output have no common conductor")
    pairing: Text = Field(description="`none`, `parallel`, `series` or `parallel and series`")
    derating: Derating = Field(description="what warmth takes away")
    clearance: Clearance = Field(description="free space that it needs to cool")
    thermal: KelvinsPerWatt | None = Field(
        default=None, description="case over ambient for each watt of its heat"
    )
    mass: Kilograms = Field(description="without cables")
    input: Terminal = Field(description="its input terminals")
    output: Terminal = Field(description="its output terminals")
    temperature_lead: YesNo = Field(
        default=False, description="a lead that reads the temperature of the battery it charges"
    )
    cue: CueInput | None = Field(default=None, description="absent: started by voltage alone")
    approvals: Text = Field(description="as stated on the sheet, else `not stated`")


class StationSheet(Noun):
    format: Format
    kind: Literal["station"] = Field(description="the folder under datasheets/ that it lies in")
    name: PartName
    maker: Maker
    sheet: Paper
    window_min: Volts = Field(description="lowest input voltage at which it charges")
    window_max: Volts = Field(description="highest input voltage at which it charges")
    start: Volts = Field(description="the input wakes up from here")
    absolute: Volts = Field(description="above this the input is destroyed")
    input_current: Amps = Field(description="the station takes no more")
    input_power: Watts = Field(description="the station takes no more")
    energy: WattHours = Field(description="from empty to full")
    efficiency: Ratio = Field(description="from the input into the cells")
    connector: Id = Field(description="id of a connector sheet, or `unknown`")
    polarity: Polarity = Field(description="which contact of its inlet is plus")
    constant_voltage_tested: YesNoUnknown = Field(
        description="its input was tested on a source of constant voltage"
    )
    mass: Kilograms = Field(description="of the whole station")
    charge_min: Degrees = Field(description="ambient")
    charge_max: Degrees = Field(description="ambient")
