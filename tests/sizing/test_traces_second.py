"""Figures of both protections where a fact is missing: absent, never invented."""

from dataclasses import replace

import pytest

from baybook.checks import RULES, judge
from baybook.part import HoldPoint
from baybook.quantity import Basis, Mark, State, Unknown
from baybook.sizing.choose import choose
from baybook.sizing.traces import figures
from baybook.sizing.work_out import work_out
from variants import quantity
from workbooks import example_fit

J8 = example_fit("tavlow-camber/j8")
DESIGN = choose(J8, judge)


def named(design):
    return {figure.name: figure for figure in figures(design, ())}


def with_battery(**update):
    fit = replace(J8, second=J8.second.model_copy(update=update))
    return work_out(fit, DESIGN.choice)


def test_both_faults_by_hand():
    found = named(DESIGN)
    # 14.6 V over 1.6 mohm - 10 %; battery low end over 1.6 mohm + 10 % and the hot loop
    assert found["second_fault_near"].value == pytest.approx(14.6 / 0.00144, abs=0.5)
    # far: 0.9 m and 0.30 m of ends, out and back, 16 mm² at 105 °C, and 0.7 mohm of the holder
    loop = 2.4 * 1.21e-3 * (1 + 85 / 254.5) + 0.7e-3
    assert found["second_loop_hot"].value == pytest.approx(loop, rel=1e-6)
    empty = J8.second.empty.low
    assert found["second_fault_far"].value == pytest.approx(empty / (0.00176 + loop), rel=1e-6)
    # 50 A x 0.80 x 1.00 at 40 °C; 1.35 x 50 / (1.45 x 94)
    assert found["second_carries"].value == pytest.approx(40)
    assert found["second_overload_ratio"].value == pytest.approx(0.495, abs=0.0005)


def test_an_unknown_resistance_leaves_its_faults_out():
    where = J8.second.internal.where
    found = named(with_battery(internal=Unknown(basis=Basis(state=State.MEASURED), where=where)))
    assert "second_loop_hot" in found
    assert not {"second_fault_near", "second_fault_far", "second_withstand_far"} & set(found)


def test_an_estimated_resistance_shows_its_factors():
    guessed = replace(J8.second.internal, basis=Basis(state=State.ESTIMATED, method="age"))
    found = named(with_battery(internal=guessed))
    assert found["second_internal_low"].value == pytest.approx(0.7 * 1.6e-3)
    assert found["second_internal_high"].value == pytest.approx(1.5 * 1.6e-3)


def test_no_protection_no_figure_of_one():
    bare = work_out(J8, replace(DESIGN.choice, second_family="", second_rating_A=0.0))
    assert not [name for name in named(bare) if name.startswith("second_")]


def test_beyond_its_derating_table_a_part_carries_nothing_that_is_known():
    second = DESIGN.solved.second
    unknown = replace(second, carries_A=None, factor=None)
    design = replace(DESIGN, solved=replace(DESIGN.solved, second=unknown))
    assert "second_carries" not in named(design)


def test_a_cable_that_carries_nothing_has_no_overload():
    hot = {
        name: zone.model_copy(update={"temperature": quantity(zone.temperature, 110.0)})
        for name, zone in J8.shop.zones.items()
    }
    fit = replace(J8, shop=J8.shop.model_copy(update={"zones": hot}))
    design = work_out(fit, DESIGN.choice)
    assert (design.solved.overload, design.solved.second_overload) == (None, None)
    found = named(design)
    assert "overload_temperature" not in found
    assert not {"second_overload_ratio", "second_carries"} & set(found)


def test_what_is_held_without_end_is_told_so():
    like = J8.protections[0].holds[1].multiple
    endless = HoldPoint(multiple=quantity(like, 1.8))
    sheets = tuple(p.model_copy(update={"holds": (endless,)}) for p in J8.protections)
    design = work_out(replace(J8, protections=sheets), DESIGN.choice)
    (finding,) = RULES["OC-25"](design)
    assert finding.values["held"].id == "rule.OC-25.endless"
    # 40 °C + 65 K (1.8 x 70 / 94)^2 = 156.8 °C
    assert finding.found.value == pytest.approx(156.8, abs=0.05)
    assert named(design)["overload_temperature"].value == pytest.approx(156.8, abs=0.05)


@pytest.mark.parametrize(
    ("multiples", "lasting", "at"),
    [((1.0, 1.1, 1.8), (None, 3600.0, 600.0), 2), ((1.0, 1.8), (None, None), 1)],
)
def test_what_is_held_is_shown_where_its_row_stands(multiples, lasting, at):
    like = J8.protections[0].holds[1]
    rows = tuple(
        HoldPoint(
            multiple=replace(quantity(like.multiple, m), where=Mark("sheet", n + 1, 1)),
            up_to=t and replace(quantity(like.up_to, t), where=Mark("sheet", n + 1, 9)),
        )
        for n, (m, t) in enumerate(zip(multiples, lasting, strict=True))
    )
    sheets = tuple(p.model_copy(update={"holds": rows}) for p in J8.protections)
    found = named(work_out(replace(J8, protections=sheets), DESIGN.choice))
    stands = {entry.symbol: entry.where for entry in found["overload_temperature"].inputs}
    assert stands["m"] == rows[at].multiple.where
    assert stands.get("t") == (rows[at].up_to.where if lasting[at] else None)


def test_a_sheet_that_states_no_endless_hold_starts_from_the_rating():
    like = J8.protections[0].holds[1]
    brief = like.model_copy(update={"multiple": quantity(like.multiple, 1.5)})
    sheets = tuple(p.model_copy(update={"holds": (brief,)}) for p in J8.protections)
    found = named(work_out(replace(J8, protections=sheets), DESIGN.choice))
    inputs = {entry.symbol: entry.value for entry in found["overload_temperature"].inputs}
    assert (inputs["m_0"], inputs["m"], inputs["t"]) == (1.0, 1.5, 600)
