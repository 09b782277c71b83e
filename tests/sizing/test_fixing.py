"""What one fixing holds, what the vehicle may still carry, how warm the case gets."""

from dataclasses import replace

import pytest

from baybook import checks
from baybook.finding import Verdict
from baybook.quantity import Unknown
from baybook.sizing.choose import choose
from baybook.sizing.heat import held, spacing
from baybook.terms import Fastener
from variants import charger, quantity, vehicle
from workbooks import example_fit

FIT = example_fit("brunsall-tansy/j1")
MOUNT = FIT.vehicle.mounts["boot-left"]
MPA = replace(MOUNT.panel, value=310.0, low=310.0, high=310.0, unit="MPa", written="310 MPa")
SCREW = replace(MOUNT.panel, value=0.0048, low=0.0048, high=0.0048, written="4.8 mm")


def mounted(**update):
    return MOUNT.model_copy(update=update)


def with_mount(mount):
    return vehicle(FIT, mounts={**FIT.vehicle.mounts, "boot-left": mount})


def screwed(**update):
    known = {"fastener": Fastener.SELF_TAPPING, "screw": SCREW, "sheet_strength": MPA}
    return mounted(**(known | update))


def test_a_through_bolt_holds_what_its_maker_states():
    assert held(MOUNT) == 2000


def test_a_self_tapping_screw_holds_no_more_than_its_pull_out():
    # AISI S100: 0.85 t d F_u / 3 = 0.85 x 1.2 x 4.8 x 310 / 3 = 506 N
    assert held(screwed(holds=None)) == pytest.approx(506, abs=1)
    assert held(screwed()) == pytest.approx(506, abs=1)
    assert held(screwed(holds=quantity(MOUNT.holds, 300))) == 300


@pytest.mark.parametrize(
    "mount",
    [
        mounted(holds=None),
        screwed(screw=None),
        screwed(sheet_strength=None),
        screwed(screw=replace(SCREW, value=0.05, low=0.05, high=0.05)),
    ],
    ids=["no maker's figure", "no diameter", "no strength", "no such screw"],
)
def test_what_nobody_states_holds_nothing_that_is_known(mount):
    assert held(mount) is None


def test_self_tapping_screws_keep_from_the_edge_and_from_each_other():
    # AISI S100: 1.5 d to an edge, 3 d to the next screw
    assert spacing(screwed()) == pytest.approx((0.0072, 0.0144))
    assert spacing(MOUNT) is None
    assert spacing(screwed(screw=None)) is None
    assert spacing(screwed(screw=replace(SCREW, value=0.05, low=0.05, high=0.05))) is None


@pytest.mark.parametrize("holds", [None, MOUNT.holds], ids=["pull-out alone", "the smaller"])
def test_the_pull_out_is_shown_with_its_formula(holds):
    design = choose(with_mount(screwed(holds=holds)), checks.judge)
    found = next(f for f in design.figures if f.name == "fixing_holds")
    assert "c·t·d·F_u / n_s" in found.formula
    assert found.value == pytest.approx(506, abs=1)


def test_no_fixing_figure_where_none_is_known():
    design = choose(with_mount(mounted(holds=None)), checks.judge)
    assert "fixing_holds" not in {f.name for f in design.figures}
    assert any(f.code == "FX-12" and f.verdict is Verdict.HOLD for f in checks.judge(design))


def test_a_case_is_as_warm_as_its_zone_and_its_heat():
    like = FIT.charger.standby
    thermal = replace(like, value=0.5, low=0.5, high=0.5, unit="K/W", written="0.5 K/W")
    design = choose(charger(FIT, thermal=thermal), checks.judge)
    case, heat = design.figure("case_temperature"), design.figure("heat")
    assert case.value == pytest.approx(45 + 0.5 * heat.value)


def test_an_unknown_mass_of_cable_leaves_the_payload_unknown():
    sizes = tuple(size.model_copy(update={"mass": None}) for size in FIT.cable.sizes)
    fit = replace(FIT, cable=FIT.cable.model_copy(update={"sizes": sizes}))
    design = choose(fit, checks.judge)
    assert "mass_added" not in {f.name for f in design.figures}
    assert any(f.code == "PL-02" for f in checks.judge(design))


def test_a_vehicle_without_masses_is_a_caution():
    design = choose(vehicle(FIT, masses=None), checks.judge)
    assert any(f.code == "PL-02" and f.verdict is Verdict.CAUTION for f in checks.judge(design))


def test_an_unknown_gross_mass_too():
    masses = FIT.vehicle.masses
    unknown = Unknown(basis=masses.aboard.basis, where=masses.aboard.where)
    fit = vehicle(FIT, masses=masses.model_copy(update={"gross": unknown}))
    assert any(f.code == "PL-02" for f in checks.judge(choose(fit, checks.judge)))


def test_the_mass_that_is_added_by_hand():
    """Charger and station at their high end, each cut length by its mass a metre."""
    design = choose(FIT, checks.judge)
    metres = {"input": 0.0, "output": 0.0}
    for piece in design.circuit.conductors:
        if not piece.existing:
            metres["output" if piece.use.startswith("output") else "input"] += piece.cut_m
    weighs = {
        name: next(s.mass.high for s in sheet.sizes if s.area.value == area)
        for name, sheet, area in (
            ("input", FIT.cable, design.choice.area_mm2),
            ("output", FIT.output_cable, FIT.job.output_area.value),
        )
    }
    cable = sum(metres[name] * weighs[name] for name in metres)
    payload = design.solved.payload
    assert payload.cable_kg == pytest.approx(cable)
    assert payload.added_kg == pytest.approx(cable + FIT.charger.mass.high + FIT.station.mass.high)
    masses = FIT.vehicle.masses
    spare = masses.gross.low - masses.kerb.high - masses.aboard.high
    assert payload.left_kg == pytest.approx(spare - payload.added_kg)
