"""How many designs a second one core works out and judges: `python tests/bench/designs.py FITS`.

A design is one power step, set voltage, size and protection, worked out whole and put before all
rules. Alone: parts are kept from one to the next of a fit, as where a guide is sized. With memory:
the same designs, each vehicle's put to the stations of the others, as where a matrix is judged.
Seconds of processor time, so that a busy machine counts less.
"""

from __future__ import annotations

import sys
import time
from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[1]))

from baybook.checks import judge
from baybook.checks.remembering import Remembering
from baybook.design import Choice
from baybook.fit import Fit
from baybook.sizing.choose import _areas, _protected, _start
from baybook.sizing.output import power_steps
from baybook.sizing.recall import AFRESH, Memory
from baybook.sizing.source_point import as_asked
from baybook.sizing.work_out import work_out
from drawn import drawn

STATIONS = 25


def choices(fit: Fit) -> Iterator[Choice]:
    """Yield every step, size and protection of a fit, at the default setting."""
    for step in power_steps(fit.charger, fit.station.input_power.value):
        for area in _areas(fit):
            yield from _protected(fit, _start(fit, step, area, AFRESH), AFRESH)


def alone(fits: list[Fit]) -> tuple[int, float]:
    """Return how many designs of some fits were judged, and the seconds it took."""
    work = [(fit, tuple(choices(fit))) for fit in fits]
    began = time.process_time()
    for fit, own in work:
        recall = Memory()
        for choice in own:
            judge(work_out(fit, choice, recall))
    return sum(len(own) for _, own in work), time.process_time() - began


def with_memory(fits: list[Fit]) -> tuple[int, float]:
    """Return the same of each fit with the stations of the others."""
    count, seconds = 0, 0.0
    stations = [fit.station for fit in fits[:STATIONS]]
    for fit in fits:
        swapped = [replace(fit, station=station) for station in stations]
        work = [(one, choice) for one in swapped for choice in choices(one)]
        recall, remembering = Memory(), Remembering()
        began = time.process_time()
        for one, choice in work:
            remembering(work_out(one, choice, recall))
        seconds += time.process_time() - began
        count += len(work)
    return count, seconds


def main(count: int) -> None:
    fits = [fit for fit in map(as_asked, map(drawn, range(count))) if fit.second is None]
    for name, measure in (("alone", alone), ("with memory", with_memory)):
        designs, seconds = measure(fits)
        print(f"{name}: {designs} designs in {seconds:.1f} s, {designs / seconds:,.0f} a second")


if __name__ == "__main__":
    main(int(sys.argv[1]))
