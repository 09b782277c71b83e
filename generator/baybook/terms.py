"""Noun: words of the trade with a closed list."""

from __future__ import annotations

from enum import StrEnum
from typing import Literal, TypeAlias

# Designations of ISO 261 (coarse pitch), ISO 1478 (self-tapping) and ASME B1.1 (its first part),
# from memory. Lugs, palms and torques are found by them, and a technician takes a spanner to one.
Thread: TypeAlias = Literal[
    "M3", "M3.5", "M4", "M5", "M6", "M7", "M8", "M10", "M12", "M14", "M16",
    "ST2.9", "ST3.5", "ST3.9", "ST4.2", "ST4.8", "ST5.5", "ST6.3",
    "#6", "#8", "#10", "#12", "1/4", "5/16", "3/8", "7/16", "1/2",
]  # fmt: skip


class YesNoUnknown(StrEnum):
    YES = "yes"
    NO = "no"
    UNKNOWN = "unknown"


class SupplyKind(StrEnum):
    FIXED = "fixed alternator"
    CONTROLLED = "controlled alternator"
    CONVERTER = "converter"


class CueKind(StrEnum):
    RUN = "run line"  # an engine-run line (DIN 72552 terminal D+, or an output that follows it)
    READY = "ready line"
    DRIVE = "drive line"
    IGNITION = "ignition"  # DIN 72552 terminal 15
    VOLTAGE = "voltage"


class Polarity(StrEnum):
    CENTRE_POSITIVE = "centre positive"
    CENTRE_NEGATIVE = "centre negative"
    BY_PIN = "by pin"  # the connector's own marks tell + from −
    UNKNOWN = "unknown"


class AmpacitySource(StrEnum):
    """Where a shop takes from what a cable carries."""

    SHEET = "sheet"  # the cable maker's own table
    CFR_183_425 = "33 CFR 183.425"  # Table 5 with its notes


class JointKind(StrEnum):
    STUD = "stud"
    BODY = "body point"
    CLAMP = "screw clamp"
    PUSH_IN = "push-in"
    CONNECTOR = "connector"
    POST = "battery post"
    ISOLATOR = "isolator"


class PassageKind(StrEnum):
    GROMMET = "grommet"  # existing hole, edge protected
    GLAND = "gland"  # sealed, usually a new hole
    OPEN = "open"  # zone changes without a wall


class Fastener(StrEnum):
    """What takes the screw: it decides which figure says how much a fixing holds."""

    THROUGH_BOLT = "through-bolt"
    SELF_TAPPING = "self-tapping screw"  # its thread is cut into the sheet
    RIVET_NUT = "rivet nut"


class TableKind(StrEnum):
    """Kinds of joint that a published torque table is made for."""

    STEEL = "steel bolt"
    BRASS = "brass stud"
    COPPER = "copper stud"
    CLAMP = "screw clamp"


class HazardKind(StrEnum):
    EXHAUST = "exhaust"
    FUEL = "fuel"
    BRAKE = "brake line"
    STEERING = "steering"
    PEDALS = "pedals"
    AIRBAG = "airbag"
    PRETENSIONER = "belt pretensioner"
    HIGH_VOLTAGE = "high voltage"
    AIR_PIPE = "air pipe"
    WATER_PIPE = "water pipe"
    GAS = "gas"
    MOVING = "moving part"
    ELECTRONICS = "control unit"


# What the words of the lists mean, for an editor's hover; a word that says it all has none.
MEANINGS: dict[type[StrEnum], dict[str, str]] = {
    YesNoUnknown: {"unknown": "nobody could find out"},
    SupplyKind: {
        "fixed alternator": "its voltage hardly moves with load and state of charge",
        "controlled alternator": "the vehicle moves its voltage to save fuel; it can fall at idle",
        "converter": "a converter from a traction battery feeds the 12 V side",
    },
    CueKind: {
        "run line": "live only while the engine runs (DIN 72552 terminal D+, or what follows it)",
        "ready line": "live while the drive is ready, with or without an engine",
        "drive line": "live while a gear for driving is engaged",
        "ignition": "live with the ignition (DIN 72552 terminal 15), engine running or not",
        "voltage": "the charger watches its own input volts, without a lead",
    },
    Polarity: {
        "centre positive": "the pin in the middle is plus",
        "centre negative": "the pin in the middle is minus",
        "by pin": "the connector's own marks tell plus from minus",
        "unknown": "to be metered before anything is plugged in",
    },
    AmpacitySource: {
        "sheet": "the cable maker's own table",
        "33 CFR 183.425": "Table 5 for boats, with its notes",
    },
    JointKind: {
        "stud": "a lug under a nut",
        "body point": "a lug on the body, at a point its maker provides",
        "screw clamp": "a bare or ferruled conductor under a screw",
        "push-in": "a conductor pushed into a spring",
        "connector": "two halves that are plugged",
        "battery post": "the battery's own post with its clamp",
        "isolator": "a stud of a battery isolator",
    },
    PassageKind: {
        "grommet": "a hole that is there, its edge covered",
        "gland": "a sealed passage, usually in a new hole",
        "open": "the zone changes without a wall",
    },
    Fastener: {
        "through-bolt": "a bolt with a nut or plate behind the sheet",
        "self-tapping screw": "its thread is cut into the sheet",
        "rivet nut": "a thread that is riveted into the sheet",
    },
    TableKind: {
        "steel bolt": "a steel bolt or stud of a known property class",
        "brass stud": "a brass stud",
        "copper stud": "a copper stud",
        "screw clamp": "a screw clamp, by wire size and screw",
    },
    HazardKind: {
        "exhaust": "exhaust pipe, silencer, turbocharger: heat",
        "fuel": "fuel pipe, hose, tank or filler",
        "brake line": "brake pipe or hose",
        "steering": "column, joint or rack",
        "pedals": "pedals and what moves with them",
        "airbag": "airbag or its loom",
        "belt pretensioner": "belt pretensioner or its loom",
        "high voltage": "a traction cable or part, usually orange",
        "air pipe": "compressed air",
        "water pipe": "cooling or heating water",
        "gas": "gas pipe or bottle",
        "moving part": "linkage, belt, fan, hinge, seat rail",
        "control unit": "an electronic control unit",
    },
}
