"""Noun: a job on a vehicle: what is joined to what, with which parts, by which way."""

from typing import Literal

from pydantic import Field

from baybook.quantity import (
    Area,
    Day,
    Id,
    Metres,
    Newtons,
    Noun,
    ProperName,
    Text,
    Whole,
    YesNo,
)
from baybook.shop import Approval


class StationPlace(Noun):
    place: Text = Field(description="where the station stands, in words")
    fixing: Text = Field(description="what holds it, in words")
    straps: Whole | None = Field(default=None, description="how many hold it")
    strap_holds: Newtons | None = Field(default=None, description="what one of them may bear")
    access: Text | None = Field(
        default=None, description="what is opened to reach a second battery, an action"
    )


class SourceChoice(Noun):
    positive: Id = Field(description="id of a point")
    negative: Id = Field(description="id of a point; by the chassis: the one near the charger")
    fuse_at: Metres = Field(description="along the cable from the source")
    conduit: YesNo = Field(
        default=False, description="the run from the source to the fuse lies in conduit"
    )
    return_path: Literal["conductor", "chassis"] = Field(
        default="conductor", description="what carries the current back"
    )
    return_length: Metres | None = Field(
        default=None,
        description="from the charger to the body point, where the chassis carries it back",
    )
    signed: Text | None = Field(default=None, description="role that signs a longer distance")
    letter: YesNo = Field(default=False, description="the customer's isolator letter is on file")


class SecondChoice(Noun):
    """The fuse at a second battery's own end, and how its temperature is read."""

    protection: tuple[Id, ...] = Field(description="ids of protection sheets to choose from")
    fuse_at: Metres = Field(description="along the cable from the second battery")
    temperature_lead: YesNo = Field(description="the charger's lead is fixed to the battery")


class Asked(Noun):
    area: Area | None = Field(default=None, description="a larger size than the tool would choose")


class KeptRefusal(Noun):
    """This fit is published as a refusal, and fails if it is not refused so."""

    codes: tuple[ProperName, ...] = Field(description="codes of the rules that must refuse it")
    thought: Text = Field(description="the wrong thought that leads here, one sentence")
    instead: Id | None = Field(
        default=None, description="id of a fit of this vehicle that is no refusal"
    )


class Checked(Noun):
    on: Day = Field(description="the day the fit was gone through")
    by: Text = Field(description="role of who went through it")
    safety: Text | None = Field(
        default=None,
        description="what readers of an earlier revision must know: the feed of safety changes",
    )


class Job(Noun):
    """One entry of `fits:`."""

    id: Id = Field(description="short name, part of the guide's address")
    title: Text = Field(description="one line: what charges what, and where")
    charger: Id = Field(description="id of a charger sheet")
    charger_units: Whole = Field(default=1, description="how many chargers")
    pairing: Literal["parallel", "series"] = Field(
        default="parallel", description="of the outputs, where there is more than one charger"
    )
    station: Id = Field(description="id of a station sheet, or of a battery sheet")
    source: SourceChoice = Field(description="where the feed is joined, and its fuse")
    cue: Id = Field(description="id of a cue of the vehicle")
    route: Id = Field(description="id of a route of the vehicle")
    mount: Id = Field(description="id of a mount of the vehicle")
    cable: Id = Field(description="id of a cable sheet")
    other_cables: tuple[Id, ...] = Field(
        default=(), description="ids of cable sheets that are looked at in place of it"
    )
    lugs: Id = Field(description="id of a lug sheet")
    protection: tuple[Id, ...] = Field(description="ids of protection sheets to choose from")
    clips: Id = Field(description="id of a sundry sheet")
    shrink: Id | None = Field(
        default=None, description="id of a sundry sheet: the heat-shrink over the lugs"
    )
    conduit: Id | None = Field(
        default=None, description="id of a sundry sheet for the run in conduit"
    )
    output_cable: Id = Field(description="id of a cable sheet")
    output_area: Area = Field(description="one of the sizes of the output cable")
    output_length: Metres = Field(description="from the charger to the connector")
    connector: Id | None = Field(
        default=None, description="id of a connector sheet; absent: the load is a battery"
    )
    second: SecondChoice | None = Field(
        default=None, description="where the load is a battery: what protects its own end"
    )
    station_place: StationPlace = Field(description="where the station stands and what holds it")
    asked: Asked = Field(
        default=Asked(), description="what this fit asks for beyond the smallest that passes"
    )
    checked: Checked = Field(description="who went through it, and when")
    approvals: tuple[Approval, ...] = Field(
        default=(), description="by licensed persons, bound to the figures"
    )
    refused: KeptRefusal | None = Field(
        default=None, description="for a fit that is published as a refusal"
    )
