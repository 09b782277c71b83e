"""The most dangerous fits that still pass: `python tests/bench/dangerous.py [SEEDS] [STEPS]`.

Fits by lot are sized, and of those that no rule refuses the one that comes nearest to harm, or goes
past it, is kept for each measure of a danger. From there the search climbs: a few throws of its
dice are changed at a time, and a fit that still passes and is worse takes its place. What is found
is read by a person: what an engineer would refuse is a rule that is missing.
"""

import random
import sys
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[1]))

from baybook.checks import judge
from baybook.design import Design
from baybook.sizing.choose import choose
from drawn import drawn_by

Measure = Callable[[Design], float | None]


def _copper(design: Design) -> float | None:
    """Current to what the cable carries in its hottest zone."""
    low = design.solved.feed.low
    return low and low.current_A / design.solved.feed.carries_A


def _fuse_over_cable(design: Design) -> float | None:
    """Rating of the protection to what the cable carries."""
    return design.choice.rating_A / design.solved.feed.carries_A


def _fuse_load(design: Design) -> float | None:
    """Current to what the protection carries where it lies."""
    low, carries = design.solved.feed.low, design.solved.fault.carries_A
    return low.current_A / carries if low and carries else None


def _held_overload(design: Design) -> float | None:
    """Temperature of the copper under the overload that is held, to what it stands."""
    held = design.solved.overload
    return held and held.hottest_C / held.allowed_C


def _let_through(design: Design) -> float | None:
    """Heat that a far fault lets through, to what the copper stands."""
    return design.solved.fault.withstand_far


def _opens(design: Design) -> float | None:
    """Seconds until a far fault is off."""
    return design.solved.fault.opens_far_s


def _drop(design: Design) -> float | None:
    """Share of the supply that is lost in the loop."""
    return design.solved.feed.low and design.solved.feed.low.drop


def _over_absolute(design: Design) -> float | None:
    """Highest volts of the output to the station's absolute maximum."""
    fit = design.fit
    return None if fit.second else design.solved.output.high_V / fit.station.absolute.low


def _over_window(design: Design) -> float | None:
    """Highest volts of the output to the top of the station's window."""
    fit = design.fit
    return None if fit.second else design.solved.output.high_V / fit.station.window_max.low


def _default_over_absolute(design: Design) -> float | None:
    """Volts after a reset to the station's absolute maximum."""
    fit = design.fit
    return None if fit.second else design.solved.output.default_high_V / fit.station.absolute.low


def _lead(design: Design) -> float | None:
    """Most current of the output to what its lead carries."""
    return design.solved.output.most_A / design.solved.output.lead_carries_A


def _fixing(design: Design) -> float | None:
    """Pull at the worst fixing, some lost, to what one is known to hold."""
    place = design.solved.place
    return place.fixing_N / place.held_N if place.held_N else None


def _tip(design: Design) -> float | None:
    """How far a screw stands out, to the free depth behind the panel."""
    depth = design.fit.vehicle.mounts[design.fit.job.mount].free_depth
    low = getattr(depth, "low", None)
    return design.solved.place.tip_m / low if low else None


def _deficit(design: Design) -> float | None:
    """Amperes that the supply lacks on the road at night."""
    left = design.solved.budget.cruise_night_A
    return None if left is None else -left


def _payload(design: Design) -> float | None:
    """Kilograms over the permitted mass."""
    left = design.solved.payload.left_kg
    return None if left is None else -left


MEASURES: dict[str, Measure] = {
    measure.__name__.strip("_"): measure
    for measure in (
        _copper,
        _fuse_over_cable,
        _fuse_load,
        _held_overload,
        _let_through,
        _opens,
        _drop,
        _over_absolute,
        _over_window,
        _default_over_absolute,
        _lead,
        _fixing,
        _tip,
        _deficit,
        _payload,
    )
}


class Dice(random.Random):
    """Throws what is given, and by lot when that is used up; every throw is kept."""

    def __init__(self, given: Sequence[float], seed: int) -> None:
        super().__init__(seed)
        self._given, self.thrown = given, []

    def random(self) -> float:
        """Return the next throw; `choice`, `sample` and `uniform` ask for nothing else."""
        at = len(self.thrown)
        self.thrown.append(self._given[at] if at < len(self._given) else super().random())
        return self.thrown[-1]


@dataclass
class Worst:
    """What came nearest so far."""

    value: float = float("-inf")
    thrown: Sequence[float] = ()
    design: Design | None = None

    def take(self, measure: Measure, design: Design, thrown: Sequence[float]) -> None:
        """Take a design in this one's place if it is worse."""
        value = measure(design)
        if value is not None and value > self.value:
            self.value, self.thrown, self.design = value, thrown, design


def search(seeds: range) -> tuple[dict[str, Worst], int]:
    """Return the worst fit that passes by each measure, and how many passed."""
    worst = {name: Worst() for name in MEASURES}
    passed = 0
    for seed in seeds:
        dice = Dice((), seed)
        found = choose(drawn_by(dice), judge)
        if isinstance(found, Design):
            passed += 1
            for name, measure in MEASURES.items():
                worst[name].take(measure, found, dice.thrown)
    return worst, passed


def climb(worst: Worst, measure: Measure, steps: int) -> None:
    """Look for a worse fit near this one: one to four of its throws changed, again and again."""
    lot = random.Random(steps)  # noqa: S311 - the same climb every time
    for step in range(steps if worst.design else 0):
        given = list(worst.thrown)
        for at in lot.sample(range(len(given)), lot.choice((1, 1, 2, 4))):
            near = min(max(given[at] + lot.gauss(0, 0.05), 0.0), 0.999999)
            given[at] = lot.choice((lot.random(), near))
        dice = Dice(given, step)
        found = choose(drawn_by(dice), judge)
        if isinstance(found, Design):
            worst.take(measure, found, dice.thrown)


def told(design: Design) -> str:
    """Return what a person needs to judge a fit."""
    fit, feed, choice = design.fit, design.solved.feed, design.choice
    codes = ", ".join(f"{f.code} {f.verdict}" for f in judge(design))
    current = f"{feed.low.current_A:.1f} A" if feed.low else "no current"
    return (
        f"    {fit.id}, {choice.power_W:g} W at {choice.set_V:g} V, {choice.area_mm2:g} mm², "
        f"{choice.rating_A:g} A {choice.family}; {current}, carries {feed.carries_A:.1f} A\n"
        f"    {codes or 'no finding'}"
    )


def main(count: int, steps: int) -> None:
    worst, passed = search(range(count))
    print(f"{passed} of {count} passed")
    for name, one in worst.items():
        lot = one.value
        climb(one, MEASURES[name], steps)
        print(f"{name}: {lot:.4g} by lot, {one.value:.4g} climbed. {MEASURES[name].__doc__}")
        if one.design is not None:
            print(told(one.design), flush=True)


if __name__ == "__main__":
    main(*(int(word) for word in (*sys.argv[1:], "300", "200")[:2]))
