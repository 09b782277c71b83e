"""Figures of the pull that a made joint must stand, and of what a hanging scale shows at it."""

from __future__ import annotations

from collections.abc import Callable, Iterator

from baybook.design import Design
from baybook.figure import Figure, Input
from baybook.quantity import Quantity
from baybook.sizing.capacity import gauge_within
from baybook.sizing.pull import SCALE_STEP_KG, clamp_pull, crimp_pull_out, scale_reading
from baybook.sizing.trace import SHOP_RULE, constant, figure, given
from baybook.sizing.validity import OutOfRange
from baybook.sizing.work_out import size_of
from baybook.standards import load
from baybook.terms import JointKind

# Read once on import, so that the functions below open no file.
_CONSTANTS = load().constants
_CLAMP, _CRIMP = "iec60947-1", "ul486a-pull"


def pull_figures(design: Design) -> Iterator[Figure]:
    """Pull on a cable in each screw clamp of the charger, and on a sample of the input's lugs.

    [iec60947-1], [ul486a-pull], [cgpm-1901]; none for a size that the table does not list
    """
    fit = design.fit
    chosen = size_of(fit, design.choice.area_mm2).area
    if fit.charger.input.kind is JointKind.CLAMP:
        yield from _pull("clamp_{}_input", chosen, clamp_pull, _CLAMP)
    if fit.charger.output.kind is JointKind.CLAMP:
        yield from _pull("clamp_{}_output", fit.job.output_area, clamp_pull, _CLAMP)
    yield from _pull("crimp_{}", chosen, _of_gauge, _CRIMP)


def _of_gauge(area_mm2: float) -> float:
    return crimp_pull_out(gauge_within(area_mm2))


def _pull(
    name: str, area: Quantity, table: Callable[[float], float], source: str
) -> Iterator[Figure]:
    try:
        force = table(area.value)
    except OutOfRange:
        return
    pull = figure(
        name.format("pull"),
        force,
        "N",
        0 if force.is_integer() else 1,
        "F = F_t",
        constant("F_t", force, "N", source),
        given("S", area),
        sources=(source,),
    )
    yield pull
    yield figure(
        name.format("scale"),
        scale_reading(force),
        "kg",
        1,
        "m = up(F / g_n)",
        Input(symbol="F", value=force, unit="N", figure=pull.name),
        constant("g_n", _CONSTANTS["standard_gravity"], "m/s2", "cgpm-1901"),
        constant("step", SCALE_STEP_KG, "kg", SHOP_RULE),
        sources=("cgpm-1901",),
    )
