"""Figures of an overload: how fast a conductor warms, and how warm it gets in the time."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from baybook.design import Design
from baybook.figure import Figure, Input
from baybook.part import CableSheet, CableSize, HoldPoint
from baybook.quantity import Quantity
from baybook.sizing.output import lead_size
from baybook.sizing.overload import CARRIES, HEAT
from baybook.sizing.protection import holds_of
from baybook.sizing.second import second_rating, second_sheet
from baybook.sizing.trace import AMPACITY, COPPER, SHEET, constant, figure, from_figure, given
from baybook.sizing.traces_fault import rating
from baybook.sizing.work_out import size_of
from baybook.solved import Overload

_BLADE = "iso8820-3"


@dataclass(frozen=True, slots=True, kw_only=True)
class _Case:
    """One protection with its cable."""

    prefix: str
    overload: Overload
    rating: Input
    holds: Sequence[HoldPoint]
    cable: CableSheet
    size: CableSize
    carried: Figure
    ambient: Quantity


def overload_figures(design: Design, named: Mapping[str, Figure]) -> Iterator[Figure]:
    """Yield how warm the cables get under what F1 and F2 may hold.

    [heat-balance] [iso8820-3]
    """
    fit, overload = design.fit, design.solved.overload
    if overload is not None:
        yield from _figures(
            _Case(
                prefix="",
                overload=overload,
                rating=rating(design),
                holds=holds_of(fit, design.choice.family),
                cable=fit.cable,
                size=size_of(fit, design.choice.area_mm2),
                carried=named[f"ampacity_{overload.zone}"],
                ambient=fit.shop.zones[overload.zone].temperature,
            )
        )
    second = design.solved.second_overload
    if second is not None:
        yield from _figures(
            _Case(
                prefix="second_",
                overload=second,
                rating=given("I_n", second_rating(fit, design.choice)),
                holds=second_sheet(fit, design.choice.second_family).holds,
                cable=fit.output_cable,
                size=lead_size(fit),
                carried=named["lead_ampacity"],
                ambient=fit.shop.zones[second.zone].temperature,
            )
        )


def _figures(case: _Case) -> Iterator[Figure]:
    overload, cable = case.overload, case.cable
    T_a = given("T_a", case.ambient, overload.ambient_C)
    T_max = given("T_max", cable.conductor_max)
    I_T = from_figure("I_T", case.carried)
    climb = figure(
        f"{case.prefix}overload_constant",
        overload.constant_s,
        "s",
        0,
        "t_c = c_v·S·(T_max - T_a) / (I_T²·r20·(1 + (T_max - 20) / 254.5))",
        constant("c_v", HEAT, "J/(K·m·mm²)", COPPER),
        given("S", case.size.area),
        T_max,
        T_a,
        I_T,
        given("r20", case.size.resistance, case.size.resistance.high),
        sources=(AMPACITY, COPPER),
    )
    yield climb
    settled = "T = T_a + (T_max - T_a)·(I_n / I_T)²"
    multiple, up_to, before = _hold(case)
    formula = f"{settled}·m²"
    more: tuple[Input, ...] = (multiple,)
    if up_to is not None:
        formula = f"{settled}·(m² - (m² - m_0²)·exp(-t / t_c))"
        more = (multiple, before, up_to, from_figure("t_c", climb))
    yield figure(
        f"{case.prefix}overload_temperature",
        overload.hottest_C,
        "degC",
        0,
        formula,
        T_a,
        T_max,
        case.rating,
        I_T,
        *more,
        sources=(AMPACITY, SHEET),
        end="end.overload",
    )


def _hold(case: _Case) -> tuple[Input, Input | None, Input]:
    """Return the multiple that is held, for how long, and the one held before, as inputs."""
    overload = case.overload
    before = _multiple("m_0", case, overload.before)
    stated = [h for h in case.holds if h.multiple.high == overload.multiple and h.up_to]
    if overload.up_to_s is None or not stated or stated[0].up_to is None:
        return _multiple("m", case, overload.multiple), None, before
    return (
        given("m", stated[0].multiple, overload.multiple),
        given("t", stated[0].up_to, overload.up_to_s),
        before,
    )


def _multiple(symbol: str, case: _Case, value: float) -> Input:
    for hold in case.holds:
        if hold.multiple.high == value:
            return given(symbol, hold.multiple, value)
    return constant(symbol, value, "1", _BLADE if value == CARRIES else SHEET)
