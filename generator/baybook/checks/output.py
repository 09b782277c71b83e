"""OV: what the output does to the station, at its setting and at its default."""

from __future__ import annotations

from collections.abc import Iterator

from baybook.checks.found import SHEET, SHOP_RULE, Found, setting, volts
from baybook.design import Design
from baybook.finding import Amount, Name, Verdict, say

_SETTING = "circuit.charger.U_set"


def highest_allowed(design: Design) -> float:
    """Absolute maximum of the station less the shop's margin. [V]

    [fit-sheet], [shop-rule]
    """
    margin = design.fit.shop.limits.absolute_margin.value.value
    return allowed(design.fit.station.absolute.low, margin)


def allowed(absolute_V: float, margin: float) -> float:
    """Absolute maximum of a station less a margin. [V]

    [shop-rule]

    absolute_V  above which the input is destroyed, any [V]
    margin      share of it that is kept free, any [1]
    """
    return absolute_V * (1 - margin)


def over_absolute_maximum(design: Design) -> Iterator[Found]:
    """Keep tolerance and overshoot under the station's absolute maximum less the margin.

    U_set (1 + tol) + overshoot ≤ U_abs (1 - margin)        [fit-sheet], margin [shop-rule]
    """
    fit, limit = design.fit, highest_allowed(design)
    if design.solved.output.high_V > limit:
        yield Found(
            verdict=Verdict.REFUSED,
            place=_SETTING,
            where=fit.mark("fit.charger"),
            found=volts(design.solved.output.high_V),
            allowed=volts(limit),
            sources=(SHEET, SHOP_RULE),
            values={
                "set": setting(design.choice.set_V),
                "high": volts(design.solved.output.high_V),
                "absolute": Amount.of(fit.station.absolute),
                "limit": volts(limit),
                "charger": Name(fit.charger.name),
                "station": Name(fit.station.name),
            },
        )


def outside_window(design: Design) -> Iterator[Found]:
    """Keep the whole tolerance band inside the station's window, and above its start voltage.

    U_set (1 + tol) + overshoot ≤ U_window,max and U_set (1 - tol) ≥ U_start        [fit-sheet]
    """
    fit, output = design.fit, design.solved.output
    top = fit.station.window_max.low
    bottom = max(fit.station.start.high, fit.station.window_min.high)
    if output.high_V > top or output.low_V < bottom:
        above = output.high_V > top
        yield Found(
            verdict=Verdict.REFUSED,
            place=_SETTING,
            where=fit.mark("fit.charger"),
            found=volts(output.high_V if above else output.low_V),
            allowed=volts(top if above else bottom),
            sources=(SHEET,),
            values={
                "set": setting(design.choice.set_V),
                "low": volts(output.low_V),
                "high": volts(output.high_V),
                "bottom": volts(bottom),
                "top": volts(top),
                "charger": Name(fit.charger.name),
                "station": Name(fit.station.name),
            },
        )


def default_comes_back(design: Design) -> Iterator[Found]:
    """Refuse a default above the absolute maximum that a reset brings back.

    U_default (1 + tol) + overshoot ≤ U_abs        [fit-sheet]
    """
    if design.fit.charger.default_after_reset and _default_destroys(design):
        yield _default(design, Verdict.REFUSED, design.fit.station.absolute.low)


def default_outside(design: Design) -> Iterator[Found]:
    """Hold before plugging where a reset brings back a default outside window or margin.

    U_default (1 + tol) + overshoot ≤ min(U_window,max, U_abs (1 - margin)),
    U_default (1 - tol) ≥ U_window,min        [fit-sheet], margin [shop-rule]
    """
    fit, output = design.fit, design.solved.output
    if not fit.charger.default_after_reset or _default_destroys(design):
        return
    top = min(fit.station.window_max.low, highest_allowed(design))
    if output.default_high_V > top or output.default_low_V < fit.station.window_min.high:
        yield _default(design, Verdict.HOLD, top)


def default_destroys_once(design: Design) -> Iterator[Found]:
    """Hold before plugging where the factory default is above the absolute maximum.

    No reset brings it back, but a charger from the box starts there.        [fit-sheet]
    """
    if not design.fit.charger.default_after_reset and _default_destroys(design):
        yield _default(design, Verdict.HOLD, design.fit.station.absolute.low)


def over_touch_limit(design: Design) -> Iterator[Found]:
    """Keep setting and default under the touch limit, tolerance and overshoot counted.

    The default comes back with a reset, or out of the box.        [shop-rule]
    """
    limit, output = design.fit.shop.limits.touch_voltage.value, design.solved.output
    default = output.default_high_V >= output.high_V
    high = max(output.high_V, output.default_high_V)
    if high > limit.value:
        set_V = design.fit.charger.output_default.value if default else design.choice.set_V
        yield Found(
            verdict=Verdict.REFUSED,
            place="circuit.charger.U_default" if default else _SETTING,
            where=design.fit.mark("fit.charger"),
            found=volts(high),
            allowed=Amount.of(limit),
            sources=(SHOP_RULE,),
            values={
                "which": say(f"rule.OV-06.{'default' if default else 'set'}"),
                "set": setting(set_V),
                "high": volts(high),
                "limit": Amount.of(limit),
            },
        )


def _default_destroys(design: Design) -> bool:
    return design.solved.output.default_high_V > design.fit.station.absolute.low


def _default(design: Design, verdict: Verdict, allowed: float) -> Found:
    fit, output = design.fit, design.solved.output
    below = output.default_high_V <= allowed
    found = output.default_low_V if below else output.default_high_V
    return Found(
        verdict=verdict,
        place="circuit.charger.U_default",
        where=fit.mark("fit.charger"),
        found=volts(found),
        allowed=volts(fit.station.window_min.high if below else allowed),
        sources=(SHEET, SHOP_RULE),
        values={
            "default": Amount.of(fit.charger.output_default),
            "may_give": volts(found),
            "limit": volts(fit.station.window_min.high if below else allowed),
            "set": setting(design.choice.set_V),
            "charger": Name(fit.charger.name),
            "station": Name(fit.station.name),
        },
    )
