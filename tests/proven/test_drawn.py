"""The fits by lot are fits that a workbook could hold, and the same every time."""

from dataclasses import dataclass
from itertools import chain

import pytest
from pydantic import BaseModel

from baybook.checks import judge
from baybook.design import Design
from baybook.intake.plausible import implausible
from baybook.quantity import Mark
from baybook.sizing.choose import choose
from drawn import BASES, drawn

SOME = range(300)


@dataclass(frozen=True)
class Page:
    """As much of a read document as the look for implausible figures needs."""

    model: BaseModel
    prefix: str = "it"

    def mark(self, path):
        return Mark(file="it.yaml", line=1, column=1, path=path)


def test_no_figure_of_a_drawn_fit_is_implausible():
    for seed in SOME:
        fit = drawn(seed)
        models = (
            *(fit.shop, fit.vehicle, fit.charger, fit.station, fit.cable, fit.output_cable),
            *fit.protections,
        )
        found = chain.from_iterable(implausible(Page(model)) for model in models)
        assert not [(f.place, f.found) for f in found], seed


def test_a_seed_is_a_fit():
    assert drawn(7) == drawn(7)
    assert drawn(7) != drawn(8)


def test_the_lot_holds_all_kinds():
    drawn_fits = [drawn(seed) for seed in SOME]
    assert {fit.id for fit in drawn_fits} == set(BASES)
    assert len({fit.vehicle.supply.kind for fit in drawn_fits}) == 3
    assert len({fit.vehicle.cues[fit.job.cue].kind for fit in drawn_fits}) == 5
    assert len({fit.shop.ampacity for fit in drawn_fits}) == 2
    assert {len(fit.cable.sizes) for fit in drawn_fits} == {2, 4, 5}


@pytest.mark.parametrize("part", range(2))
def test_some_are_built_and_some_are_not(part):
    outcomes = [choose(drawn(seed), judge) for seed in range(part * 60, part * 60 + 60)]
    assert 6 <= sum(isinstance(found, Design) for found in outcomes) <= 54
