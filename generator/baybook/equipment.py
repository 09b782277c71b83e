"""Noun: a guide's charger output, a reader's own station put to it, and what the rules say."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from baybook.finding import Amount, Message, Name


class Said(StrEnum):
    """What a rule says of a station that is not the guide's. None of them is a yes."""

    NO = "no"
    UNKNOWN = "unknown"  # a field that the rule needs is blank, or the guide does not reach
    HOLD = "hold"  # not refused, and something is to be done before it is plugged in


@dataclass(frozen=True, slots=True, kw_only=True)
class Outlet:
    """What a guide's charger gives at its output, set as the guide says, through its lead."""

    low_V: float  # tolerance counted
    high_V: float  # tolerance and overshoot counted
    set_V: float
    default_low_V: float
    default_high_V: float
    default_after_reset: bool
    absolute_margin: float  # share of a station's absolute maximum that is kept free
    charger_A: float  # current limit of the charger's output
    plug_A: float  # what the connector is rated for
    lead_A: float  # most current at which the lead keeps to the shop's drop
    full_W: float  # power step of the charger, whatever the station
    counted_W: float  # what cable, protection and supply of the guide were judged for
    connector: str  # id of the half at the lead
    mates: tuple[str, ...]  # ids of the halves that its sheet lets it be plugged into
    polarity: str  # of the plug, as the guide wires it: a word of `Polarity`


@dataclass(frozen=True, slots=True, kw_only=True)
class Own:
    """A station as its reader has entered it; None: left blank."""

    window_min_V: float | None = None
    start_V: float | None = None
    window_max_V: float | None = None
    absolute_V: float | None = None
    input_A: float | None = None
    input_W: float | None = None
    connector: str | None = None
    polarity: str | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Reason:
    said: Said
    code: str  # of the rule


@dataclass(frozen=True, slots=True, kw_only=True)
class Answer:
    """The reasons in the order of the rules; there is always one, so that none reads as a yes."""

    reasons: tuple[Reason, ...]

    @property
    def verdict(self) -> str:
        """Return "no", "unknown" or "not refused"."""
        said = {reason.said for reason in self.reasons}
        first = next((one for one in (Said.NO, Said.UNKNOWN) if one in said), None)
        return first.value if first else "not refused"


@dataclass(frozen=True, slots=True, kw_only=True)
class ReasonLine:
    """A reason as it is told, whether it comes to it or not."""

    said: Said
    code: str
    text: Message


@dataclass(frozen=True, slots=True, kw_only=True)
class OwnForm:
    """What a page needs to judge a reader's own station."""

    outlet: Outlet
    setting: Amount
    plug: Name
    reasons: tuple[ReasonLine, ...]
