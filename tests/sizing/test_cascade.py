"""What goes with a size, and what may stand in: the demo's own parts, and rules for every size."""

from dataclasses import replace
from functools import cache

import pytest

from baybook.cascade import KINDS
from baybook.checks import judge
from baybook.design import Design
from baybook.finding import Verdict
from baybook.sizing.cascade import cascade
from baybook.sizing.choose import choose
from baybook.sizing.fittings import shrink_size
from baybook.sizing.work_out import with_protection, work_out
from variants import asked
from workbooks import example, example_fit

J1, J3, J9, J9B = (
    "brunsall-tansy/j1",
    "ostrigg-drey/j3",
    "dunstrel-cobble/j9",
    "dunstrel-cobble/j9b",
)
GUIDES = (J1, J3, J9B)


@cache
def chosen(name):
    return choose(example_fit(name), judge)


def goes(found, kind, area):
    one = next(one for one in found.cascades if one.area_mm2 == area)
    return [
        follower.part or (follower.figure.written if follower.figure else "")
        for follower in one.followers
        if follower.kind == kind and follower.there
    ]


@pytest.mark.parametrize("name", [*GUIDES, J9])
def test_each_size_that_was_weighed_has_its_parts(name):
    found = chosen(name)
    areas = [c.choice.area_mm2 for c in found.candidates]
    assert [one.area_mm2 for one in found.cascades] == areas
    for one in found.cascades:
        keys = [follower.key for follower in one.followers]
        assert len(keys) == len(set(keys))
        assert {kind for kind, _, _ in keys} <= set(KINDS)


def test_j9b_against_the_size_that_j9_asked_for():
    """SCENARIO of the demo: lugs, gland G20 for G16, hole 20.5, clip 10, bend 40."""
    found = chosen(J9)
    rows = {
        "die": ("H10", "H12"),
        "strip": ("12 mm", "14 mm"),
        "shrink": ("S9", "S12"),
        "passage": ("G16", "G20"),
        "hole": ("16.5 mm", "20.5 mm"),
        "clip": ("P10", "P10"),
        "bend": ("33 mm", "40 mm"),
    }
    for kind, (thin, thick) in rows.items():
        assert goes(found, kind, 16) == [thin], kind
        assert goes(found, kind, 25) == [thick], kind


def test_a_size_too_thick_for_clamp_and_lugs_says_so():
    thick = next(one for one in chosen(J9B).cascades if one.area_mm2 == 35)
    missing = {follower.kind for follower in thick.followers if not follower.there}
    assert {"lug", "terminal", "stock"} <= missing, "no 35 mm² lug for M6, no clamp, no drum"


def test_stock_is_a_drum_or_to_buy():
    stock = [f for f in chosen(J9B).cascades[3].followers if f.kind == "stock"]
    assert [(f.place, f.there, f.metres) for f in stock] == [
        ("red", True, pytest.approx(6.02)),
        ("black", False, pytest.approx(6.02)),
    ]


@pytest.mark.parametrize("name", GUIDES)
def test_a_thicker_cable_never_gets_a_smaller_part(name):
    fit = example_fit(name)
    design = chosen(name)
    order = {
        kind: [
            next((f.figure.value for f in one.followers if f.kind == kind and f.figure), None)
            for one in design.cascades
        ]
        for kind in ("strip", "hole", "bend")
    }
    for values in order.values():
        known = [value for value in values if value is not None]
        assert known == sorted(known)
    sleeves = [shrink_size(fit, size) for size in fit.cable.sizes]
    widths = [sleeve.diameter_max.value for sleeve in sleeves if sleeve]
    assert widths == sorted(widths)
    assert len(widths) == len(sleeves)


def test_a_heat_shrink_goes_over_and_grips():
    for fit in example().fits:
        for size in fit.cable.sizes:
            sleeve = shrink_size(fit, size)
            assert sleeve.diameter_min.value <= size.diameter.value <= sleeve.diameter_max.value


def test_without_a_named_heat_shrink_none_is_wanted():
    fit = replace(example_fit(J1), shrink=None)
    design = choose(fit, judge)
    assert shrink_size(fit, fit.cable.sizes[0]) is None
    assert "shrink" not in {f.kind for f in design.cascades[0].followers}


def test_without_its_die_a_size_is_refused_and_the_next_is_taken():
    fit = example_fit(J3)
    tools = tuple(tool.model_copy(update={"dies": ("H6", "H10")}) for tool in fit.shop.tools)
    lacking = replace(fit, shop=fit.shop.model_copy(update={"tools": tools}))
    design = choose(lacking, judge)
    assert (chosen(J3).choice.area_mm2, design.choice.area_mm2) == (10, 16)
    ten = design.candidates[1]
    assert "CA-05" in {f.code for f in ten.findings if f.verdict is Verdict.REFUSED}
    silent = tuple(tool.model_copy(update={"dies": ()}) for tool in fit.shop.tools)
    unsaid = replace(fit, shop=fit.shop.model_copy(update={"tools": silent}))
    assert choose(unsaid, judge).choice == chosen(J3).choice, "a shop that lists none"


@pytest.mark.parametrize("fit", example().fits, ids=lambda fit: fit.id)
def test_substitutes_are_judged_by_all_rules_anew(fit):
    design = choose(fit, judge)
    for one in design.substitutes if isinstance(design, Design) else ():
        cable = next(
            sheet for sheet in (fit.cable, *fit.other_cables) if sheet.name == one.cascade.cable
        )
        anew = judge(work_out(replace(fit, cable=cable), one.candidate.choice))
        passes = all(finding.verdict is not Verdict.REFUSED for finding in anew)
        assert one.candidate.passes is passes
        assert one.candidate.choice != design.choice or one.kind == "cable"


def test_what_stands_in_for_the_pickup():
    found = {
        (one.kind, one.cascade.cable, one.cascade.area_mm2, one.candidate.choice.rating_A):
            one.candidate.passes
        for one in chosen(J9B).substitutes
    }  # fmt: skip
    assert found["size", "Cordrow F105", 35, 70] is False, "the clamp takes 25 mm²"
    assert found["cable", "Marrow M90", 25, 70] is True
    assert [k for k in found if k[0] == "protection"]


def test_an_asked_size_still_has_larger_ones_in_its_place():
    design = choose(asked(example_fit(J1), 10), judge)
    areas = [s.candidate.choice.area_mm2 for s in design.substitutes if s.kind == "size"]
    assert areas == [16, 25, 35]


@pytest.mark.parametrize("name", GUIDES)
def test_another_protection_alone_is_the_circuit_worked_out_anew(name):
    design = chosen(name)
    for one in design.substitutes:
        if one.kind == "protection":
            quick = with_protection(design, one.candidate.choice)
            anew = work_out(design.fit, one.candidate.choice)
            assert (quick.circuit, quick.solved) == (anew.circuit, anew.solved)
            assert cascade(anew) == one.cascade


def test_a_family_whose_sheet_does_not_reach_the_heat_stands_in_for_nothing():
    fit = example_fit(J9B)
    families = {s.candidate.choice.family for s in chosen(J9B).substitutes if s.kind != "cable"}
    (other,) = families - {chosen(J9B).choice.family}
    hottest = fit.shop.zones["engine-bay"].temperature.high

    def until(sheet, most):
        kept = tuple(row for row in sheet.derating if row.ambient.value < most)
        return sheet.model_copy(update={"derating": kept})

    sheets = tuple(
        until(sheet, hottest) if name == other else sheet
        for name, sheet in zip(fit.job.protection, fit.protections, strict=True)
    )
    design = choose(replace(fit, protections=sheets), judge)
    assert design.choice == chosen(J9B).choice
    found = {s.candidate.choice.family for s in design.substitutes if s.kind == "protection"}
    assert found == {design.choice.family}
