"""How long a matrix takes: generated vehicles, chargers and stations, one worker against two.

    python tests/bench/pairings.py VEHICLES CHARGERS STATIONS [WORKERS …]

Every name is invented. The vehicles are those of the example with supply, battery and route drawn
anew, each with an output lead of its own length; they share the example's shop.
"""

from __future__ import annotations

import random
import resource
import sys
import time
from collections import Counter
from dataclasses import replace
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parents[1]))

import drawn
from baybook.desk.matrix import started
from baybook.fit import Fit, Workbook
from baybook.matrix import Sheets, pairings, tasks
from baybook.quantity import Quantity
from baybook.sheet import ChargerSheet, StationSheet
from variants import job, quantity, vehicle
from workbooks import example

_BASES = tuple(name for name in drawn.BASES if name != "tavlow-camber/j8")


def generated(vehicles: int, chargers: int, stations: int) -> Workbook:
    """Return a workbook of so many; the same one every time."""
    dice = random.Random(5)  # noqa: S311 - the same workbook every time
    book = example()
    return replace(
        book,
        fits=tuple(_vehicle(dice, number) for number in range(vehicles)),
        chargers={f"charger-{n:03d}": _charger(dice, n) for n in range(chargers)},
        stations={f"station-{n:03d}": _station(dice, n) for n in range(stations)},
    )


def _vehicle(dice: random.Random, number: int) -> Fit:
    fit = drawn.example_fit(dice.choice(_BASES))
    for part in (drawn._supply, drawn._battery, drawn._route):
        fit = part(fit, dice)
    name = f"vehicle-{number:05d}"
    lead = round(dice.uniform(0.5, 2.5), 2)
    fit = job(fit, id="j1", output_length=quantity(fit.job.output_length, lead), refused=None)
    fit = vehicle(fit, fits=(fit.job,), model=name)
    return replace(fit, id=f"{name}/j1", slug=name, shop=example().shop)


def _charger(dice: random.Random, number: int) -> ChargerSheet:
    like = dice.choice([sheet for name, sheet in example().chargers.items() if "b2b" not in name])
    watts = dice.choice((150, 200, 240, 300, 360, 400, 520, 600, 720))
    old = like.output_power.value

    def scaled(figure: Quantity) -> Quantity:
        return quantity(figure, round(figure.value * watts / old, 1))

    power = like.power and like.power.model_copy(
        update={
            "steps": tuple(
                step.model_copy(
                    update={"power": scaled(step.power), "input_limit": scaled(step.input_limit)}
                )
                for step in like.power.steps
            )
        }
    )
    low = float(dice.choice((13, 14, 16, 18, 20, 24)))
    changes = {
        "name": f"Charger {number:03d}",
        "power": power,
        "output_power": quantity(like.output_power, float(watts)),
        "input_current": scaled(like.input_current),
        "output_current": quantity(like.output_current, float(dice.choice((8, 10, 12, 15, 20)))),
        "output_min": quantity(like.output_min, low),
        "output_max": quantity(like.output_max, low + dice.choice((12, 18, 24))),
        "output_default": quantity(like.output_default, low + dice.choice((0, 2, 6))),
        "default_after_reset": dice.random() < 0.5,
        "mass": quantity(like.mass, round(dice.uniform(0.8, 4), 1)),
    }
    return like.model_copy(update=changes)


def _station(dice: random.Random, number: int) -> StationSheet:
    like = dice.choice(list(example().stations.values()))
    bottom = float(dice.choice((10, 11, 12, 14, 16)))
    top = bottom + dice.choice((14, 18, 28, 40))
    changes = {
        "name": f"Station {number:03d}",
        "window_min": quantity(like.window_min, bottom),
        "start": quantity(like.start, bottom + 1),
        "window_max": quantity(like.window_max, top),
        "absolute": quantity(like.absolute, round(top * 1.1, 1)),
        "input_current": quantity(like.input_current, float(dice.choice((6, 8, 10, 12, 15)))),
        "input_power": quantity(
            like.input_power, float(dice.choice((100, 120, 200, 240, 300, 400, 500, 600)))
        ),
        "mass": quantity(like.mass, round(dice.uniform(4, 25), 1)),
    }
    return like.model_copy(update=changes)


def measure(book: Workbook, workers: int) -> tuple[float, float, Counter[str]]:
    """Return seconds by the clock and of all cores, the start of the workers included."""
    began, before, work = time.perf_counter(), _core_seconds(), tasks(book)
    with started(workers) as pool:
        verdicts = Counter(str(row.verdict) for row in pairings(work, Sheets.of(book), pool))
    return time.perf_counter() - began, _core_seconds() - before, verdicts


def _core_seconds() -> float:
    used = resource.getrusage(resource.RUSAGE_CHILDREN)
    return used.ru_utime + used.ru_stime


def main() -> None:
    vehicles, chargers, stations = (int(word) for word in sys.argv[1:4])
    book = generated(vehicles, chargers, stations)
    seconds: dict[int, list[float]] = {}
    for workers in [int(word) for word in sys.argv[4:]] or [1, 2]:
        took, core, verdicts = measure(book, workers)
        seconds.setdefault(workers, []).append(took)
        count = sum(verdicts.values())
        each = 1e3 * core / count
        print(f"{workers} workers: {count} pairings in {took:.1f} s, {each:.2f} ms of a core each")
        print("  ", ", ".join(f"{n} {verdict}" for verdict, n in verdicts.most_common()))
    if {1, 2} <= seconds.keys():
        print(f"one to two: {sum(seconds[1]) / sum(seconds[2]):.2f}")
    most = resource.getrusage(resource.RUSAGE_CHILDREN).ru_maxrss / 1024
    print(f"largest worker: {most:.0f} MB")


if __name__ == "__main__":
    main()
