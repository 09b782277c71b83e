"""A reader's own station put to the output of a guide: what the OV rules say of that pair.

The same limits as in `output.py` and `lead.py`, for a station that no data sheet of the shop
describes. No answer is a yes: a station that nobody has tried on a constant voltage is held.
`templates/assets/guide/equipment.js` is this file's twin in the page, held to it case by case.
"""

from __future__ import annotations

from collections.abc import Iterator
from math import inf

from baybook.checks.output import allowed
from baybook.equipment import Answer, Outlet, Own, Reason, Said
from baybook.terms import Polarity

NO, UNKNOWN, HOLD = Said.NO, Said.UNKNOWN, Said.HOLD


def own_station(outlet: Outlet, own: Own) -> Answer:
    """Return what the rules say of an entered station at a guide's output.

    A blank field that a rule needs makes the answer unknown, unless another rule refuses.
    [fit-sheet], [shop-rule], [common-practice]
    """
    return Answer(
        reasons=tuple(Reason(said=said, code=code) for said, code in _reasons(outlet, own))
    )


def _reasons(outlet: Outlet, own: Own) -> Iterator[tuple[Said, str]]:
    found = (
        ("DA-15", _slip(own)),
        ("OV-01", _absolute(outlet, own)),
        ("OV-03", _default(outlet, own)),
        ("OV-02", _window(outlet, own)),
        ("OV-08", _connector(outlet, own)),
        ("OV-10", _plug(outlet, own)),
        ("OV-07", _lead(outlet, own)),
        ("CA-01", _feed(outlet, own)),
        ("OV-12", _polarity(outlet, own)),
        ("OV-04", _outside(outlet, own)),
        ("OV-05", _once(outlet, own)),
        ("OV-09", HOLD),
    )
    return ((said, code) for code, said in found if said is not None)


def _slip(own: Own) -> Said | None:
    """Read nothing into figures that contradict each other, or are not above nought."""
    rising = (own.window_min_V, own.start_V, own.window_max_V, own.absolute_V)
    given = [volts for volts in rising if volts is not None]
    figures = [*given, *(one for one in (own.input_A, own.input_W) if one is not None)]
    return UNKNOWN if given != sorted(given) or any(one <= 0 for one in figures) else None


def _absolute(outlet: Outlet, own: Own) -> Said | None:
    """U_set (1 + tol) + overshoot ≤ U_abs (1 - margin)."""
    if own.absolute_V is None:
        return UNKNOWN
    return NO if outlet.high_V > allowed(own.absolute_V, outlet.absolute_margin) else None


def _default(outlet: Outlet, own: Own) -> Said | None:
    """U_default (1 + tol) + overshoot ≤ U_abs where a reset brings the default back."""
    if not outlet.default_after_reset:
        return None
    if own.absolute_V is None:
        return UNKNOWN
    return NO if outlet.default_high_V > own.absolute_V else None


def _window(outlet: Outlet, own: Own) -> Said | None:
    """U_set (1 + tol) + overshoot ≤ U_max; U_set (1 - tol) ≥ U_start and U_min."""
    top, bottoms = own.window_max_V, (own.start_V, own.window_min_V)
    over = top is not None and outlet.high_V > top
    under = any(one is not None and outlet.low_V < one for one in bottoms)
    if over or under:
        return NO
    return UNKNOWN if top is None or None in bottoms else None


def _connector(outlet: Outlet, own: Own) -> Said | None:
    """One family, or one that the sheet of the half at the lead lets it be plugged into."""
    if own.connector is None:
        return UNKNOWN
    return None if own.connector in {outlet.connector, *outlet.mates} else NO


def _plug(outlet: Outlet, own: Own) -> Said | None:
    """I_connector ≥ min(I_out,max, I_station)."""
    if outlet.charger_A <= outlet.plug_A:
        return None
    if own.input_A is None:
        return UNKNOWN
    return NO if own.input_A > outlet.plug_A else None


def _lead(outlet: Outlet, own: Own) -> Said | None:
    """I ≤ the current at which the lead keeps to its drop; I = P / U_set."""
    if min(outlet.full_W / outlet.set_V, outlet.charger_A) <= outlet.lead_A:
        return None
    watts = min(outlet.full_W, _or_any(own.input_W))
    current_A = min(watts / outlet.set_V, outlet.charger_A, _or_any(own.input_A))
    if current_A <= outlet.lead_A:
        return None
    return UNKNOWN if own.input_W is None or own.input_A is None else NO


def _feed(outlet: Outlet, own: Own) -> Said | None:
    """The input side was judged for so much power; for more, nobody has judged it."""
    watts = min(outlet.full_W, _or_any(own.input_W))
    amps = min(outlet.charger_A, _or_any(own.input_A))
    return UNKNOWN if min(watts, outlet.high_V * amps) > outlet.counted_W else None


def _polarity(outlet: Outlet, own: Own) -> Said | None:
    """The plug is wired for the guide's station: the other way round it destroys the input."""
    if own.polarity is None or own.polarity == Polarity.UNKNOWN:
        return UNKNOWN
    if outlet.polarity == Polarity.UNKNOWN:
        return HOLD
    if own.polarity != outlet.polarity:
        return NO
    return HOLD if own.polarity == Polarity.CENTRE_NEGATIVE else None


def _outside(outlet: Outlet, own: Own) -> Said | None:
    """A default that comes back, outside window or margin. Blanks are OV-01's and OV-02's."""
    absolute = _or_any(own.absolute_V)
    if not outlet.default_after_reset or outlet.default_high_V > absolute:
        return None
    top = min(_or_any(own.window_max_V), allowed(absolute, outlet.absolute_margin))
    over = outlet.default_high_V > top
    under = own.window_min_V is not None and outlet.default_low_V < own.window_min_V
    return HOLD if over or under else None


def _once(outlet: Outlet, own: Own) -> Said | None:
    """A default from the box above the absolute maximum. A blank is OV-01's."""
    if outlet.default_after_reset or own.absolute_V is None:
        return None
    return HOLD if outlet.default_high_V > own.absolute_V else None


def _or_any(figure: float | None) -> float:
    return inf if figure is None else figure
