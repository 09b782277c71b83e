"""What of a finished design another station meets, for the reader who owns one."""

from __future__ import annotations

from baybook.design import Design
from baybook.equipment import Outlet
from baybook.sizing.output import lead_capacity, lead_resistance, lead_temperature
from baybook.sizing.work_out import step_of

_HALVINGS = 60  # a double has no more


def outlet(design: Design) -> Outlet | None:
    """Return the charger's output with its lead, None where the load is a battery.

    [fit-sheet], [shop-rule]
    """
    fit, output = design.fit, design.solved.output
    half, plug = fit.job.connector, fit.connector
    if half is None or plug is None or fit.second is not None:
        return None
    step = step_of(fit, design.choice.power_W)
    most = min(step.high, fit.charger.output_power.high)
    return Outlet(
        low_V=output.low_V,
        high_V=output.high_V,
        set_V=design.choice.set_V,
        default_low_V=output.default_low_V,
        default_high_V=output.default_high_V,
        default_after_reset=fit.charger.default_after_reset,
        absolute_margin=fit.shop.limits.absolute_margin.value.value,
        charger_A=fit.charger.output_current.value,
        plug_A=plug.current.low,
        lead_A=lead_limit(design),
        full_W=most,
        counted_W=min(most, fit.station.input_power.high),
        connector=half,
        mates=plug.mates_with,
        polarity=fit.station.polarity.value,
    )


def lead_limit(design: Design) -> float:
    """Most current, up to the charger's limit, at which the lead keeps to the shop's drop. [A]

    I R(I) / U_set ≤ limit, R at the temperature that I gives the copper
    [circuit-laws] [heat-balance] [shop-rule]
    """
    fit, set_V = design.fit, design.choice.set_V
    limit, carried = fit.shop.limits.output_drop.value.value, lead_capacity(fit)

    def keeps(current_A: float) -> bool:
        R = lead_resistance(fit, lead_temperature(fit, current_A, carried))
        return current_A * R / set_V <= limit

    low, high = 0.0, fit.charger.output_current.value
    if keeps(high):
        return high
    for _ in range(_HALVINGS):
        middle = (low + high) / 2
        low, high = (middle, high) if keeps(middle) else (low, middle)
    return low
