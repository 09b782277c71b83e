"""What widens a reading, as inputs of a formula: the shop's meters, the tolerances of sheets."""

from __future__ import annotations

from baybook.design import Design
from baybook.figure import Input
from baybook.quantity import Quantity
from baybook.sizing.trace import SHOP_RULE, given
from baybook.sizing.work_out import step_of


def volt_share(design: Design) -> Input:
    """What the shop's voltmeter may be off by.

    [shop-rule]
    """
    return given("m_U", design.fit.shop.meter.voltage)


def amp_share(design: Design) -> Input:
    """What the shop's clamp may be off by.

    [shop-rule]
    """
    return given("m_I", design.fit.shop.meter.current)


def draw_share(design: Design) -> Input:
    """What a load may take less than its sheet says, without a fault.

    [shop-rule]
    """
    return allowance(design.fit.shop.meter.draw, "d", "1")


def allowance(allowed: Quantity | None, symbol: str, unit: str) -> Input:
    """Return an allowance of the profile; one that it leaves out counts as nothing.

    [shop-rule]
    """
    if allowed is None:
        return Input(symbol=symbol, value=0.0, unit=unit, source=SHOP_RULE)
    return given(symbol, allowed)


def tolerance(design: Design) -> Input:
    """Tolerance of the set voltage, the high end.

    [fit-sheet]
    """
    tolerance = design.fit.charger.output_tolerance
    return given("tol", tolerance, tolerance.high)


def least_volts(design: Design) -> tuple[float, Input | None]:
    """Least volts at the charger's output at load, and the battery's figure if it decides. [V]

    [fit-sheet]
    """
    battery = design.fit.second
    if battery is None:
        return design.choice.set_V * (1 - tolerance(design).value), None
    return battery.empty.low, given("U_empty", battery.empty, battery.empty.low)


def powers(design: Design) -> tuple[Quantity, ...]:
    """Return what limits the power: step, charger, load.

    [fit-sheet]
    """
    fit = design.fit
    return step_of(fit, design.choice.power_W), fit.charger.output_power, fit.station.input_power


def currents(design: Design) -> tuple[Quantity, ...]:
    """Return what limits the output current: charger, load.

    [fit-sheet]
    """
    return design.fit.charger.output_current, design.fit.station.input_current


def least_full(design: Design) -> Input:
    """Least full power that step, charger and load allow.

    [fit-sheet]
    """
    power = min(powers(design), key=lambda q: q.low)
    return given("P_full", power, power.low)


def most_full(design: Design) -> Input:
    """Most full power that step, charger and load allow.

    [fit-sheet]
    """
    power = min(powers(design), key=lambda q: q.high)
    return given("P_full", power, power.high)


def least_current(design: Design) -> Input:
    """Least of the smaller current limit of charger and load.

    [fit-sheet]
    """
    current = min(currents(design), key=lambda q: q.low)
    return given("I_max", current, current.low)


def most_current(design: Design) -> Input:
    """Most of the smaller current limit of charger and load.

    [fit-sheet]
    """
    current = min(currents(design), key=lambda q: q.high)
    return given("I_max", current, current.high)
