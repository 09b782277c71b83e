"""The table of supply kinds and start cues is whole, and each cell is what the rules do."""

from dataclasses import replace
from itertools import product

import pytest

import variants
from baybook.checks import judge
from baybook.checks.cue import CUES, stops_at_rest
from baybook.design import Choice
from baybook.sizing.choose import choose
from baybook.sizing.work_out import work_out
from baybook.terms import CueKind, SupplyKind
from workbooks import example_fit

CODES = {
    "ok": set(),
    "foreign": {"CU-05"},
    "forgotten": {"CU-04"},
    "never": {"CU-01"},
    "volts": set(),
}


def test_every_pair_has_a_cell():
    assert set(CUES) == set(product(SupplyKind, CueKind))


@pytest.mark.parametrize(("supply", "cue"), CUES)
def test_a_cell_is_what_the_rules_say(supply, cue):
    fit = example_fit("dunstrel-cobble/j9b")
    old = fit.vehicle
    cues = {name: one.model_copy(update={"kind": cue}) for name, one in old.cues.items()}
    kind = old.supply.model_copy(update={"kind": supply})
    fit = variants.vehicle(fit, cues=cues, supply=kind)
    choice = Choice(
        power_W=520,
        input_limit_A=46,
        power_kept=True,
        set_V=41,
        area_mm2=25,
        family="tarrock-bf70h",
        rating_A=70,
    )
    found = {f.code for f in judge(work_out(fit, choice))}
    assert found & {"CU-01", "CU-04", "CU-05"} == CODES[CUES[supply, cue]]


def test_volts_never_start_behind_a_converter_and_a_run_line_always_may_with_an_alternator():
    assert CUES[SupplyKind.CONVERTER, CueKind.VOLTAGE] == "never"
    assert CUES[SupplyKind.CONTROLLED, CueKind.RUN] == "ok"


@pytest.mark.parametrize(("supply", "cue"), CUES)
def test_a_battery_left_to_the_charger_goes_by_a_line_only_where_one_tells(supply, cue):
    fit = example_fit("dunstrel-cobble/j9b")
    old = fit.vehicle
    cues = {name: one.model_copy(update={"kind": cue}) for name, one in old.cues.items()}
    kind = old.supply.model_copy(update={"kind": supply})
    design = choose(fit, judge)
    drained = replace(
        design,
        fit=variants.vehicle(fit, cues=cues, supply=kind),
        solved=replace(design.solved, budget=replace(design.solved.budget, standing_A=3.0)),
    )
    (fault,) = stops_at_rest(drained)
    told = "line" if CUES[supply, cue] == "ok" else "off"
    assert fault.values["way"].id == f"rule.CU-03.{told}"
