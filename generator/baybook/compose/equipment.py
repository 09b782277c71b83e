"""The form for a reader's own station: the guide's output, and each reason with its figures."""

from __future__ import annotations

from collections.abc import Iterator

from baybook.compose.work import Work
from baybook.equipment import Outlet, OwnForm, ReasonLine, Said
from baybook.finding import Amount, Message, Name, Value, say
from baybook.terms import Polarity

# What may be said, in the order in which it is; `checks.equipment` says which of it is.
_REASONS = (
    (Said.UNKNOWN, "DA-15"),
    (Said.NO, "OV-01"),
    (Said.UNKNOWN, "OV-01"),
    (Said.NO, "OV-03"),
    (Said.UNKNOWN, "OV-03"),
    (Said.NO, "OV-02"),
    (Said.UNKNOWN, "OV-02"),
    (Said.NO, "OV-08"),
    (Said.UNKNOWN, "OV-08"),
    (Said.NO, "OV-10"),
    (Said.UNKNOWN, "OV-10"),
    (Said.NO, "OV-07"),
    (Said.UNKNOWN, "OV-07"),
    (Said.UNKNOWN, "CA-01"),
    (Said.NO, "OV-12"),
    (Said.UNKNOWN, "OV-12"),
    (Said.HOLD, "OV-12"),
    (Said.HOLD, "OV-04"),
    (Said.HOLD, "OV-05"),
    (Said.HOLD, "OV-09"),
)


def own_form(work: Work) -> OwnForm | None:
    """Return the form of a guide whose load is a station, None for a battery."""
    outlet = work.design.outlet
    if outlet is None:
        return None
    plug = Name(work.fit.plug.name)
    values = dict(_values(work, outlet)) | {"plug": plug}
    return OwnForm(
        outlet=outlet,
        setting=work.setting,
        plug=plug,
        reasons=tuple(
            ReasonLine(said=said, code=code, text=_text(said, code, values))
            for said, code in _REASONS
        ),
    )


def _text(said: Said, code: str, values: dict[str, Value]) -> Message:
    return Message(f"own.{said}.{code}", tuple(values.items()))


def _values(work: Work, outlet: Outlet) -> Iterator[tuple[str, Value]]:
    fit = work.fit
    yield "set", work.setting
    yield "low", Amount(outlet.low_V, "V", 2)
    yield "high", Amount(outlet.high_V, "V", 2)
    yield "default", Amount.of(fit.charger.output_default)
    yield "default_low", Amount(outlet.default_low_V, "V", 2)
    yield "default_high", Amount(outlet.default_high_V, "V", 2)
    yield "margin", Amount.of(fit.shop.limits.absolute_margin.value)
    yield "plug_rated", Amount.of(fit.plug.current)
    yield "lead_limit", Amount(outlet.lead_A, "A", 1)
    yield "counted", Amount(outlet.counted_W, "W", 0)
    yield "wired", say(f"own.wired.{Polarity(outlet.polarity).name.lower()}")
