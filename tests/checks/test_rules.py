"""Edges of single rules that the bad fits do not reach."""

from dataclasses import replace

import pytest

from baybook.checks import RULES, judge
from baybook.finding import Verdict
from baybook.quantity import Basis, Mark, State, Unknown
from baybook.sizing.choose import choose
from baybook.sizing.work_out import work_out
from baybook.terms import CueKind, YesNoUnknown
from variants import charger, job, point, quantity, source, station, supply, vehicle
from workbooks import example_fit

J1, J3, J9B = "brunsall-tansy/j1", "ostrigg-drey/j3", "dunstrel-cobble/j9b"
UNKNOWN = Unknown(basis=Basis(state=State.MEASURED), where=Mark("x.yaml", 2, 3))


def design(fit):
    return choose(example_fit(fit), judge)


def again(fit, choice):
    """Return the bare design of a changed fit at a given choice."""
    return work_out(fit, choice)


def found(code, worked_out):
    return tuple(RULES[code](worked_out))


def with_fault(one, **update):
    return replace(one, solved=replace(one.solved, fault=replace(one.solved.fault, **update)))


def with_budget(one, **update):
    return replace(one, solved=replace(one.solved, budget=replace(one.solved.budget, **update)))


def with_output(one, **update):
    return replace(one, solved=replace(one.solved, output=replace(one.solved.output, **update)))


@pytest.mark.parametrize("fit", [J1, J3, J9B])
def test_gravest_first(fit):
    order = [f.verdict for f in judge(design(fit))]
    assert order == sorted(order, key=list(Verdict).index, reverse=True)


def test_limits_themselves_pass():
    one = design(J1)
    limit = one.fit.station.absolute.value * 0.95
    assert not found("OV-01", with_output(one, high_V=limit))
    assert found("OV-01", with_output(one, high_V=limit + 1e-6))
    carries = one.choice.input_limit_A
    assert not found("OC-01", with_fault(one, carries_A=carries))
    assert found("OC-01", with_fault(one, carries_A=carries - 1e-6))
    breaking = one.circuit.protections[0].breaking.value
    assert not found("OC-05", with_fault(one, near_A=breaking))
    assert found("OC-05", with_fault(one, near_A=breaking + 1))
    assert not found("OC-09", with_fault(one, overload=1.0))
    assert found("OC-09", with_fault(one, overload=1.0001))
    assert not found("OC-08", with_fault(one, withstand_far=1.0))


def test_both_ends_of_the_withstand_are_told():
    one = with_fault(design(J1), withstand_near=2.0, withstand_far=3.0)
    assert [f.place for f in found("OC-08", one)] == [
        "circuit.F1.withstand.near",
        "circuit.F1.withstand.far",
    ]


def test_rated_voltage_must_be_strictly_above_the_class():
    one = design(J3)
    part = one.circuit.protections[0]
    for volts, wrong in ((32, True), (32.01, False)):
        rated = replace(part, voltage=quantity(part.voltage, volts))
        circuit = replace(one.circuit, protections=(rated,))
        assert bool(found("OC-04", replace(one, circuit=circuit))) is wrong


@pytest.mark.parametrize(
    ("metres", "conduit", "signed", "verdict"),
    [
        (0.2, False, None, None),
        (0.201, False, None, Verdict.REFUSED),
        (0.5, True, "approver", Verdict.HOLD),
        (0.9, True, "approver", Verdict.HOLD),
        (0.901, True, "approver", Verdict.REFUSED),
        (0.5, True, None, Verdict.REFUSED),
        (0.5, True, "nobody we know", Verdict.REFUSED),
        (0.5, False, "approver", Verdict.REFUSED),
    ],
)
def test_distance(metres, conduit, signed, verdict):
    fit = example_fit(J3)
    at = quantity(fit.job.source.fuse_at, metres)
    changed = source(fit, fuse_at=at, conduit=conduit, signed=signed)
    verdicts = [f.verdict for f in found("OC-07", again(changed, design(J3).choice))]
    assert verdicts == ([verdict] if verdict else [])


def test_conduit_must_be_named():
    fit = job(example_fit(J3), conduit=None)
    assert [f.verdict for f in found("OC-07", again(fit, design(J3).choice))] == [Verdict.REFUSED]


def test_output_below_the_start_voltage():
    fit = example_fit(J1)
    high_start = station(fit, start=quantity(fit.station.start, 24))
    (fault,) = found("OV-02", again(high_start, design(J1).choice))
    assert (fault.found.value, fault.allowed.value) == (pytest.approx(23.76), 24)


def test_a_default_below_the_window_holds_too():
    fit = example_fit(J9B)
    high = station(fit, window_min=quantity(fit.station.window_min, 35.9))
    (fault,) = found("OV-04", again(high, design(J9B).choice))
    assert fault.verdict is Verdict.HOLD
    assert (fault.found.value, fault.allowed.value) == (pytest.approx(35.64), 35.9)


def test_a_kept_default_outside_the_window_needs_no_hold():
    fit = charger(example_fit(J9B), default_after_reset=False)
    high = station(fit, window_min=quantity(fit.station.window_min, 35.9))
    assert not found("OV-04", again(high, design(J9B).choice))


def test_halves_that_their_sheet_says_mate():
    fit = example_fit(J1)
    mates = replace(fit, connector=fit.connector.model_copy(update={"mates_with": ("other",)}))
    other = job(station(mates, connector="other"), connector="barrel")
    assert not found("OV-08", again(other, design(J1).choice))


def test_connector_voltage_and_lead():
    one = with_output(design(J1), high_V=30.5, lead_carries_A=10.0)
    assert [f.place for f in found("OV-10", one)] == [
        "circuit.output.lead",
        "circuit.output.connector",
    ]


def test_never_tested_is_held_as_unknown_is():
    fit = station(example_fit(J1), constant_voltage_tested=YesNoUnknown.NO)
    (fault,) = found("OV-09", again(fit, design(J1).choice))
    assert fault.found.id == "rule.OV-09.no"


@pytest.mark.parametrize(
    ("day", "night", "sentence"),
    [(-3.0, -31.0, "loses_both"), (5.0, -12.0, "loses_night"), (-4.0, 2.0, "loses_day")],
)
def test_balance_is_told_as_it_is(day, night, sentence):
    (fault,) = found("SU-03", with_budget(design(J1), idle_day_A=day, idle_night_A=night))
    assert fault.values["balance"].id == f"rule.SU-03.{sentence}"
    (fault,) = found("SU-04", with_budget(design(J1), cruise_day_A=day, cruise_night_A=night))
    assert fault.values["balance"].id == f"rule.SU-03.{sentence.replace('loses', 'drive')}"


def test_no_deficit_nothing_said():
    assert not found("SU-03", with_budget(design(J1), idle_day_A=0.0, idle_night_A=0.0))
    assert not found("SU-03", with_budget(design(J1), idle_day_A=None, idle_night_A=None))


@pytest.mark.parametrize(("low", "high", "wrong"), [(11.1, 14.9, "low"), (12.3, 15.9, "high")])
def test_supply_outside_the_chargers_input(low, high, wrong):
    fit = supply(example_fit(J1), low=low, high=high)
    (fault,) = found("SU-01", again(fit, design(J1).choice))
    assert fault.found.value == {"low": low, "high": high}[wrong]


def test_cut_in_above_the_lowest_running_voltage():
    fit = supply(example_fit(J9B), low=12.9)
    (fault,) = found("CU-02", again(fit, design(J9B).choice))
    assert fault.values["threshold"].id == "rule.CU-02.cut_in"


def test_sensor_unknown_is_no_permission():
    fit = example_fit(J1)
    battery = fit.vehicle.battery.model_copy(update={"sensor": YesNoUnknown.UNKNOWN})
    on_post = source(vehicle(fit, battery=battery), negative="negative-post")
    (fault,) = found("NE-01", again(on_post, design(J1).choice))
    assert fault.values["sensor"].id == "rule.NE-01.unknown"


def test_isolator_in_the_positive_lead_looks_at_the_positive_point():
    fit = example_fit(J3)
    isolator = fit.vehicle.isolator.model_copy(update={"lead": "positive"})
    positive = vehicle(fit, isolator=isolator)
    (fault,) = found("NE-02", again(positive, design(J3).choice))
    assert fault.verdict is Verdict.REFUSED
    switched = point(positive, "positive-stud", switched_side=True)
    (fault,) = found("NE-02", again(switched, design(J3).choice))
    assert fault.verdict is Verdict.HOLD


def test_torque_of_the_mount_unknown():
    fit = example_fit(J1)
    mounts = fit.vehicle.mounts
    mount = mounts[fit.job.mount].model_copy(update={"torque": UNKNOWN})
    changed = vehicle(fit, mounts={**mounts, fit.job.mount: mount})
    (fault,) = found("TQ-01", again(changed, design(J1).choice))
    assert (fault.place, fault.under("TQ-01").hold) == ("circuit.mount.torque", "tq-01-mount")


def test_a_thread_without_a_palm_figure_is_not_judged_by_it():
    fit = example_fit(J1)
    lugs = fit.lugs.model_copy(update={"palms": ()})
    assert not found("TQ-02", again(replace(fit, lugs=lugs), design(J1).choice))


def test_missing_parts_are_all_told():
    fit = example_fit(J9B)
    fat = tuple(size.model_copy(update={"diameter": size.bend_radius}) for size in fit.cable.sizes)
    changed = replace(fit, cable=fit.cable.model_copy(update={"sizes": fat}))
    parts = [f.found for f in found("CA-05", again(changed, design(J9B).choice))]
    told = [f.values["part"].id for f in found("CA-05", again(changed, design(J9B).choice))]
    wanted = ("shrink", "clip", "sleeve", "passage")
    assert told == [f"rule.CA-05.{part}" for part in wanted]
    assert all(part.unit == "m" for part in parts)


def test_no_lug_of_the_size_and_no_lug_for_the_stud():
    fit, choice = example_fit(J1), design(J1).choice
    none = replace(fit, lugs=fit.lugs.model_copy(update={"sizes": fit.lugs.sizes[2:]}))
    assert [f.values["part"].id for f in found("CA-05", again(none, choice))] == ["rule.CA-05.lug"]
    assert not found("OC-10", again(none, choice)), "one cause, one finding"
    odd = point(fit, "positive-stud", thread="M12")
    (fault,) = found("CA-05", again(odd, choice))
    assert fault.values["wanted"].text == "M12"


def test_a_sleeve_that_is_none_does_not_shield():
    fit = example_fit(J9B)
    sundries = {
        name: sheet.model_copy(update={"use": "conduit"}) if name == "osmick-h" else sheet
        for name, sheet in fit.sundries.items()
    }
    (fault,) = found("RT-01", again(replace(fit, sundries=sundries), design(J9B).choice))
    assert fault.verdict is Verdict.REFUSED


def test_a_hole_is_no_cause_where_no_passage_takes_the_cable():
    fit, choice = example_fit(J1), design(J1).choice
    fat = tuple(size.model_copy(update={"diameter": size.bend_radius}) for size in fit.cable.sizes)
    changed = replace(fit, cable=fit.cable.model_copy(update={"sizes": fat}))
    assert not found("RT-02", again(changed, choice))
    assert "rule.CA-05.passage" in [
        f.values["part"].id for f in found("CA-05", again(changed, choice))
    ]


def test_ignition_without_a_working_point():
    fit = example_fit(J1)
    cues = fit.vehicle.cues
    cue = cues[fit.job.cue].model_copy(update={"kind": CueKind.IGNITION})
    one = again(vehicle(fit, cues={**cues, fit.job.cue: cue}), design(J1).choice)
    dead = replace(one, solved=replace(one.solved, feed=replace(one.solved.feed, low=None)))
    (fault,) = found("CU-04", dead)
    assert fault.values["current"].value == 0
    assert not found("CA-01", dead)
    assert not found("CA-02", dead)
    assert found("CA-03", dead)


def test_estimates_in_margins_make_a_draft_and_the_battery_does_not():
    assert not found("ES-01", design(J3)), "the battery's estimate takes its factor"


def test_no_restraints_listed():
    fit = example_fit(J1)
    restraints = fit.vehicle.restraints.model_copy(update={"found": ()})
    assert found("RS-01", again(vehicle(fit, restraints=restraints), design(J1).choice))


def test_unknown_free_depth_is_told_by_its_own_rule_only():
    fit = example_fit(J1)
    mounts = fit.vehicle.mounts
    mount = mounts[fit.job.mount].model_copy(update={"free_depth": UNKNOWN})
    one = again(vehicle(fit, mounts={**mounts, fit.job.mount: mount}), design(J1).choice)
    assert not found("FX-01", one)
    assert found("FX-02", one)
