"""The order of the steps, found from what each needs, makes and breaks.

Whoever needs a state comes after the step that makes it; whoever ends a state comes after
all that need it. What is still free goes by phase, then by its place in the list.
"""

from __future__ import annotations

import heapq
from collections.abc import Iterable
from dataclasses import replace
from graphlib import TopologicalSorter

from baybook.step import Phase, Step


class OrderError(Exception):
    """Steps that no order can satisfy: a fault of this room, not of a workbook."""


def put_in_order(steps: Iterable[Step]) -> tuple[Step, ...]:
    """Return the steps in working order, numbered from 1.

    Raises OrderError if a step needs what nobody makes, if a state has two makers, or
    graphlib.CycleError if two steps wait for each other.
    """
    drafts = tuple(steps)
    rank = {step.id: (list(Phase).index(step.phase), place) for place, step in enumerate(drafts)}
    if len(rank) != len(drafts):
        raise OrderError("two steps share an id")
    sorter = TopologicalSorter(_before(drafts))
    sorter.prepare()
    ready = [(rank[step_id], step_id) for step_id in sorter.get_ready()]
    heapq.heapify(ready)
    order: list[str] = []
    while ready:
        _, step_id = heapq.heappop(ready)
        order.append(step_id)
        sorter.done(step_id)
        for free in sorter.get_ready():
            heapq.heappush(ready, (rank[free], free))
    by_id = {step.id: step for step in drafts}
    return tuple(replace(by_id[step_id], number=n) for n, step_id in enumerate(order, 1))


def _before(steps: tuple[Step, ...]) -> dict[str, set[str]]:
    """Return for each step the steps that must come before it."""
    makers = _makers(steps)
    before: dict[str, set[str]] = {step.id: set() for step in steps}
    for step in steps:
        for state in step.needs:
            if state not in makers:
                raise OrderError(f"step {step.id} needs {state}: no step makes it")
            before[step.id].add(makers[state])
        for state in step.breaks:
            before[step.id].add(makers[state])
            before[step.id] |= {s.id for s in steps if state in s.needs and s.id != step.id}
    return before


def _makers(steps: tuple[Step, ...]) -> dict[str, str]:
    makers: dict[str, str] = {}
    for step in steps:
        for state in step.makes:
            if state in makers:
                raise OrderError(f"{state} is made by {makers[state]} and by {step.id}")
            makers[state] = step.id
    return makers
