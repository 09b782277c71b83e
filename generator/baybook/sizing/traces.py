"""Every figure of the chosen design with its trace, in the order in which one follows the other."""

from __future__ import annotations

from collections.abc import Iterable

from baybook.design import Bound, Design
from baybook.figure import Figure
from baybook.sizing.traces_capacity import capacity_figures
from baybook.sizing.traces_fault import fault_figures, protection_figures
from baybook.sizing.traces_fixing import case_figures, fixing_figures, payload_figures
from baybook.sizing.traces_input import loop_figures, supply_figures
from baybook.sizing.traces_output import output_figures
from baybook.sizing.traces_overload import overload_figures
from baybook.sizing.traces_pull import pull_figures
from baybook.sizing.traces_readings import reading_figures
from baybook.sizing.traces_rest import (
    budget_figures,
    envelope_figures,
    length_figures,
)
from baybook.sizing.traces_second import second_figures


def figures(design: Design, bounds: tuple[Bound, ...]) -> tuple[Figure, ...]:
    """Return the figures; those that do not exist here are absent.

    [shop-rule]

    bounds  none for a refused design, which holds for nothing
    """
    named: dict[str, Figure] = {}
    _add(named, supply_figures(design))
    _add(named, length_figures(design))
    _add(named, capacity_figures(design))
    _add(named, loop_figures(design, named))
    _add(named, protection_figures(design, named))
    _add(named, fault_figures(design, named))
    _add(named, overload_figures(design, named))
    _add(named, second_figures(design, named))
    _add(named, output_figures(design))
    _add(named, budget_figures(design, named))
    _add(named, fixing_figures(design))
    _add(named, case_figures(design))
    _add(named, pull_figures(design) if bounds else ())
    _add(named, payload_figures(design))
    _add(named, reading_figures(design, named) if bounds else ())
    _add(named, envelope_figures(design.fit, bounds))
    return tuple(named.values())


def _add(named: dict[str, Figure], more: Iterable[Figure]) -> None:
    named.update((figure.name, figure) for figure in more)
