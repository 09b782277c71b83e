"""Noun: words of the trade with a closed list."""

from __future__ import annotations

from enum import StrEnum


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
