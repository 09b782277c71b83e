"""What must hold for every fit, tried over fits by lot."""

from dataclasses import replace
from itertools import pairwise

import pint
import pytest

from baybook.checks import judge
from baybook.design import Design
from baybook.sizing.capacity import around, capacity
from baybook.sizing.choose import choose
from baybook.units import UNITS, read
from drawn import drawn
from variants import charger, load, quantity, route, station, supply, vehicle
from workbooks import example_fit

REFEREE = pint.UnitRegistry()
SEEDS = 160
STEPS = (1.05, 1.3, 1.7)


def designed(fit):
    found = choose(fit, judge)
    return found if isinstance(found, Design) else None


@pytest.mark.parametrize("part", range(4))
def test_a_longer_run_never_takes_a_thinner_cable(part):
    pairs = 0
    for seed in range(part * SEEDS // 4, (part + 1) * SEEDS // 4):
        fit = drawn(seed)
        short = designed(fit)
        if short is None:
            continue
        for by in STEPS:
            long = designed(route(fit, by))
            if long is not None and long.choice.power_W == short.choice.power_W:
                pairs += 1
                assert long.choice.area_mm2 >= short.choice.area_mm2, (seed, by)
    assert pairs > 3


def test_a_hotter_zone_never_carries_more():
    for seed in range(1500):
        fit = drawn(seed)
        for segment in fit.vehicle.routes[fit.job.route].segments:
            for size in fit.cable.sizes:
                carried = [
                    capacity(fit, fit.cable, size, around(fit, segment.zone, ambient))
                    for ambient in (10, 25, 40, 47.5, 50, 62, 75, 100)
                ]
                assert carried == sorted(carried, reverse=True), seed


@pytest.mark.parametrize("part", range(4))
def test_more_load_never_takes_a_smaller_fuse_nor_mends_a_refusal(part):
    pairs = 0
    for seed in range(part * SEEDS // 4, (part + 1) * SEEDS // 4):
        fit = drawn(seed)
        if fit.second is not None:
            continue  # its charger's watts are its battery's
        fits = [load(fit, watts) for watts in (80, 150, 260)]
        found = [designed(one) for one in fits]
        for light, heavy in pairwise(found):
            if light is None:
                assert heavy is None, seed
            elif heavy is not None:
                pairs += 1
                assert heavy.choice.rating_A >= light.choice.rating_A, seed
    assert pairs > 2


def supply_low(fit, q):
    return vehicle(fit, supply=fit.vehicle.supply.model_copy(update={"low": q}))


def first_length(fit, q):
    one = fit.vehicle.routes[fit.job.route]
    segments = (one.segments[0].model_copy(update={"length": q}), *one.segments[1:])
    changed = one.model_copy(update={"segments": segments})
    return vehicle(fit, routes={**fit.vehicle.routes, fit.job.route: changed})


def sill(fit, q):
    zones = {n: z.model_copy(update={"temperature": q}) for n, z in fit.shop.zones.items()}
    return replace(fit, shop=fit.shop.model_copy(update={"zones": zones}))


SPELT = {
    "V": supply_low,
    "A": lambda fit, q: charger(fit, input_current=q, power=None),
    "W": lambda fit, q: station(fit, input_power=q),
    "m": first_length,
    "ohm": lambda fit, q: vehicle(
        fit, battery=fit.vehicle.battery.model_copy(update={"internal": q})
    ),
    "degC": sill,
    "kg": lambda fit, q: charger(fit, mass=q),
    "1": lambda fit, q: charger(fit, efficiency=q),
}
WRITTEN = {"V": 13.2, "A": 46.0, "W": 450.0, "m": 1.25, "ohm": 0.0055, "degC": 45.0}
WRITTEN |= {"kg": 2.3, "1": 0.94}
WORDS = {"ohm": "ohm", "m": "meter", "degC": "degC", "kg": "kilogram", "1": "dimensionless"}


@pytest.mark.parametrize(
    ("unit", "spelling"),
    # "0.94 1" reads as two figures and is refused; a bare share is written without its 1
    [(u, s) for u in UNITS if u.inside in SPELT for s in u.spellings if s != "1"],
    ids=lambda value: value if isinstance(value, str) else value.inside,
)
def test_every_spelling_of_a_quantity_gives_the_same_design(unit, spelling):
    """pint turns the figure into the unit that is written; the design must not move."""
    fit, put, value = example_fit("dunstrel-cobble/j9b"), SPELT[unit.inside], WRITTEN[unit.inside]
    inside = REFEREE.Quantity(value, WORDS.get(unit.inside, unit.inside))
    text = f"{inside.to(unit.pint).magnitude:.9f} {spelling}".strip()
    like = fit.vehicle.supply.low
    as_is = replace(quantity(like, value), unit=unit.inside)
    spelt = replace(quantity(as_is, read(text, unit.inside).value), written=text)
    ours, theirs = (choose(put(fit, q), judge) for q in (as_is, spelt))
    assert isinstance(ours, Design)
    assert isinstance(theirs, Design)
    assert ours.choice.area_mm2 == theirs.choice.area_mm2
    assert ours.choice.rating_A == theirs.choice.rating_A
    assert ours.choice.set_V == theirs.choice.set_V
    for a, b in zip(ours.figures, theirs.figures, strict=True):
        assert a.name == b.name
        assert a.value == pytest.approx(b.value, rel=1e-6, abs=1e-6), a.name


def test_a_lower_supply_never_draws_less():
    for seed in range(40):
        fit = drawn(seed)
        design = designed(fit)
        if design is not None:
            lower = designed(supply(fit, low=fit.vehicle.supply.low.low - 0.05))
            same = lower is not None and lower.choice == design.choice
            if same:
                assert lower.solved.feed.low.current_A >= design.solved.feed.low.current_A
