"""Figures of the readings: between which ends a meter may show what the model predicts.

The ends are the two corner cases of the circuit, widened by what the shop's meters may be off
by. A limit that protects something (a cut-out, a station's input, a joint) is a rule, not a corner.
"""

from __future__ import annotations

from collections.abc import Iterator

from baybook.design import Design
from baybook.figure import Figure, Input
from baybook.sizing.reading_parts import allowance, amp_share, volt_share
from baybook.sizing.trace import LAWS, SHEET, SHOP_RULE, constant, figure, from_figure, given
from baybook.sizing.traces_loaded import loaded_figures
from baybook.standards.rule_sets import rule_sets

Named = dict[str, Figure]

_REST = rule_sets().rest_V  # read once on import, so that the functions below open no file
_REST_CLASS_V = 12.0  # what the table of rest volts is made for
_LEAD_ACID = ("lead", "agm", "gel", "efb")


def reading_figures(design: Design, named: Named) -> Iterator[Figure]:
    """Least and most that each reading may show; what does not apply here is absent.

    [circuit-laws] [shop-rule]

    design  passing; a refused one has nothing to read
    named   its other figures
    """
    yield from _vehicle(design, named)
    yield from _rest(design)
    yield from loaded_figures(design, named)
    yield from _warm(design, named)
    yield from _idle(design, named)
    yield from _parked(design)


def lead_acid(chemistry: str) -> bool:
    """Tell whether a chemistry is one that the table of rest volts is made for.

    [rest-voltage]

    chemistry  as the vehicle file words it
    """
    return any(word in chemistry.casefold() for word in _LEAD_ACID)


# --------------------------------------------------------------------------- the vehicle alone


def _vehicle(design: Design, named: Named) -> Iterator[Figure]:
    """D2: running volts, the charger absent: as surveyed."""
    m = volt_share(design)
    low, high = named["supply_low"], named["supply_high"]
    shared, volts, terms = _shared(named), low.value, "U_low"
    if shared:
        others, ohms = shared
        volts, terms = volts - others.value * ohms.value, "(U_low - I_o·R_line)"
    yield figure("least_running", volts * (1 - m.value), "V", 2, f"U = {terms}·(1 - m_U)",
                 from_figure("U_low", low), *shared, m, sources=(SHOP_RULE,))  # fmt: skip
    yield figure("most_running", high.value * (1 + m.value), "V", 2, "U = U_high·(1 + m_U)",
                 from_figure("U_high", high), m, sources=(SHOP_RULE,))  # fmt: skip


def _shared(named: Named) -> tuple[Input, ...]:
    """What others on a shared line drop in it while the charger is absent."""
    if "others_current_low" not in named:
        return ()
    ohms = from_figure("R_line", named["line_resistance"])
    return from_figure("I_o", named["others_current_low"]), ohms


def _rest(design: Design) -> Iterator[Figure]:
    """D1: rest volts, only of a lead-acid battery: for another chemistry nobody published them."""
    battery, supply = design.fit.vehicle.battery, design.fit.vehicle.supply
    if not lead_acid(battery.chemistry):
        return
    m, n = volt_share(design), _in_series(design)
    full, *below = _REST
    share, volts = next((row for row in below if n.value * row[1] <= supply.rest.low), below[-1])
    at_share = constant("U_q", volts, "V", "rest-voltage")
    at_full = constant("U_full", full[1], "V", "rest-voltage")
    yield figure("rest_charge", share, "1", 0, "q = q_row", constant("q_row", share, "1",
                 "rest-voltage"), sources=("rest-voltage",), end="end.rest_row")  # fmt: skip
    yield figure("least_rest", n.value * volts * (1 - m.value), "V", 2, "U = n·U_q·(1 - m_U)",
                 n, at_share, m, sources=("rest-voltage", SHOP_RULE))  # fmt: skip
    yield figure("most_rest", max(n.value * full[1], supply.rest.high) * (1 + m.value), "V", 2,
                 "U = max(n·U_full, U_rest)·(1 + m_U)", n, at_full,
                 given("U_rest", supply.rest, supply.rest.high), m,
                 sources=("rest-voltage", SHOP_RULE))  # fmt: skip


def _in_series(design: Design) -> Input:
    nominal = design.fit.vehicle.supply.nominal
    return Input(symbol="n", value=nominal.value / _REST_CLASS_V, unit="1", basis=nominal.basis,
                 where=nominal.where)  # fmt: skip


# --------------------------------------------------------------------------- warm, idle, parked


def _warm(design: Design, named: Named) -> Iterator[Figure]:
    """D11 and D12: over the air around, so that the day's weather is no part of it."""
    rise, thermal = design.fit.shop.limits.joint_rise, design.fit.charger.thermal
    yield figure("most_joints", rise.value.value, "K", 0, "dT = T_j", given("T_j", rise.value),
                 sources=(SHOP_RULE,))  # fmt: skip
    if thermal is None:
        return
    R_th, P = given("R_th", thermal, thermal.high), from_figure("P_loss", named["heat"])
    meter = allowance(design.fit.shop.meter.temperature, "m_T", "K")
    case = figure("case_rise", R_th.value * P.value, "K", 0, "dT = R_th·P_loss", R_th, P,
                  sources=(LAWS, SHEET))  # fmt: skip
    yield case
    yield figure("most_case", case.value + meter.value, "K", 0, "dT = dT_case + m_T",
                 from_figure("dT_case", case), meter, sources=(SHOP_RULE,))  # fmt: skip


def _idle(design: Design, named: Named) -> Iterator[Figure]:
    """D13: with every load on; only where the vehicle has a figure for idling."""
    if "idle_night" not in named:
        return
    spare, m = from_figure("I_spare", named["idle_night"]), amp_share(design)
    least = min(spare.value * (1 + m.value), spare.value * (1 - m.value))
    yield figure("least_idle", least, "A", 1, "I = min(I_spare·(1 + m_I), I_spare·(1 - m_I))",
                 spare, m, sources=(SHOP_RULE,), end="end.lowest_running")  # fmt: skip


def _parked(design: Design) -> Iterator[Figure]:
    """D14 and D15, and the sleep current before the work."""
    before, standby = design.fit.vehicle.supply.sleep, design.fit.charger.standby
    m, wander = amp_share(design), allowance(design.fit.shop.meter.sleep, "m_s", "A")
    rows = (
        ("most_sleep", "I_before", (before,)),
        ("most_stopped", "I_standby", (standby,)),
        ("most_asleep", "I_before + I_standby", (before, standby)),
    )
    for name, terms, parts in rows:
        inputs = [given(s, q, q.high) for s, q in zip(terms.split(" + "), parts, strict=True)]
        sum_of = f"({terms})" if len(parts) > 1 else terms
        most = sum(one.value for one in inputs) * (1 + m.value) + wander.value
        yield figure(name, most, "A", 3, f"I = {sum_of}·(1 + m_I) + m_s", *inputs, m, wander,
                     sources=(SHEET, SHOP_RULE), end="end.heavy", show="mA")  # fmt: skip
    low = (given("I_before", before, before.low), given("I_standby", standby, standby.low))
    least = max(0.0, (low[0].value + low[1].value) * (1 - m.value) - wander.value)
    yield figure("least_asleep", least, "A", 3,
                 "I = max(0, (I_before + I_standby)·(1 - m_I) - m_s)", *low, m, wander,
                 sources=(SHEET, SHOP_RULE), end="end.light", show="mA")  # fmt: skip
