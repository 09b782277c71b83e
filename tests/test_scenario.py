"""The answer sheet of the demonstration jobs, reckoned independently before the tool was.

Expected figures were printed with these ends: currents ± 0.1 A, voltages ± 0.03 V, drops
± 0.1 %, fault currents ± 0.02 kA. Jobs whose vehicles are not in the example workbook are
reckoned through the same loop from their lengths and zones.
"""

from dataclasses import dataclass, replace

import pytest

from baybook.checks import approve, judge, kept
from baybook.compose import refuse
from baybook.design import CheckedDesign, Refusal
from baybook.finding import Verdict
from baybook.sizing.budget import charge_hours, spare_current
from baybook.sizing.capacity import carries
from baybook.sizing.choose import choose
from baybook.sizing.feed import Loop, Stretch, working_point
from baybook.sizing.heat import heat_loss
from baybook.sizing.lengths import round_up
from baybook.sizing.output import solve_output
from baybook.sizing.restraint import holding_force
from baybook.terms import CueKind
from workbooks import CAMBER, ORLET, TANSY, example_fit, spoilt_fit

AMPS, VOLTS, SHARE, KILOAMPS = 0.1, 0.03, 0.001, 0.02


def decide(fit):
    found = choose(fit, judge)
    return found if isinstance(found, Refusal) else approve(found)


@dataclass(frozen=True, kw_only=True)
class Answer:
    fit: str
    verdict: Verdict
    set_V: float
    area: float
    family: str
    rating: float
    low: tuple[float, float, float]  # A, V, drop at the lowest supply voltage
    typ: tuple[float, float]
    near_kA: float
    station: tuple[float, float | None]  # A, V


ANSWERS = (
    Answer(
        fit="brunsall-tansy/j1",
        verdict=Verdict.CAUTION,
        set_V=24.0,
        area=10,
        family="tarrock-bf32",
        rating=30,
        low=(18.2, 11.93, 0.0302),
        typ=(15.7, 13.88),
        near_kA=2.76,
        station=(8.3, 23.9),
    ),
    Answer(
        fit="brunsall-tansy/j2",
        verdict=Verdict.HOLD,
        set_V=18.0,
        area=6,
        family="tarrock-bf32",
        rating=25,
        low=(10.0, 11.96, 0.0273),
        typ=(8.6, 13.91),
        near_kA=2.76,
        station=(6.1, None),
    ),
    Answer(
        fit="ostrigg-drey/j3",
        verdict=Verdict.HOLD,
        set_V=55.0,
        area=10,
        family="tarrock-bf70h",
        rating=50,
        low=(28.3, 26.05, 0.0281),
        typ=(26.8, 27.49),
        near_kA=5.73,
        station=(12.7, None),
    ),
    Answer(
        fit="pellmare-mirren/j5",
        verdict=Verdict.CAUTION,
        set_V=24.0,
        area=6,
        family="tarrock-bf32",
        rating=30,
        low=(16.8, 12.93, 0.0207),
        typ=(15.7, 13.84),
        near_kA=2.13,
        station=(8.3, 23.9),
    ),
    Answer(
        fit="tessick-orlet/j7",
        verdict=Verdict.HOLD,
        set_V=24.0,
        area=6,
        family="",
        rating=25,
        low=(16.8, 12.93, 0.0354),
        typ=(15.6, 13.96),
        near_kA=2.51,
        station=(8.3, 23.9),
    ),
    Answer(
        fit="tavlow-camber/j8",
        verdict=Verdict.CAUTION,
        set_V=14.2,
        area=16,
        family="tarrock-bf70h",
        rating=70,
        low=(47.4, 12.90, 0.0376),
        typ=(45.5, 13.42),
        near_kA=2.93,
        station=(40.0, 14.04),
    ),
    Answer(
        fit="dunstrel-cobble-tow-pack/j9",
        verdict=Verdict.CAUTION,
        set_V=41.0,
        area=16,
        family="tarrock-bf70h",
        rating=70,
        low=(43.2, 12.82, 0.029),
        typ=(41.2, 13.44),
        near_kA=3.92,
        station=(12.7, None),
    ),
    Answer(
        fit="dunstrel-cobble/j9b",
        verdict=Verdict.CAUTION,
        set_V=41.0,
        area=25,
        family="tarrock-bf70h",
        rating=70,
        low=(43.8, 12.64, 0.0423),
        typ=(41.7, 13.27),
        near_kA=3.92,
        station=(12.7, None),
    ),
)


@pytest.mark.parametrize("answer", ANSWERS, ids=lambda answer: answer.fit)
def test_guide(answer):
    checked = decide(example_fit(answer.fit))
    assert isinstance(checked, CheckedDesign)
    assert checked.verdict is answer.verdict
    assert not checked.draft
    design, choice = checked.design, checked.design.choice
    assert (choice.set_V, choice.area_mm2) == (answer.set_V, answer.area)
    assert (choice.family, choice.rating_A) == (answer.family, answer.rating)

    def value(name):
        return design.figure(name).value

    current, voltage, drop = answer.low
    assert value("current_low") == pytest.approx(current, abs=AMPS)
    assert value("charger_voltage_low") == pytest.approx(voltage, abs=VOLTS)
    assert value("drop_low") == pytest.approx(drop, abs=SHARE)
    current, voltage = answer.typ
    assert value("current_typ") == pytest.approx(current, abs=AMPS)
    assert value("charger_voltage_typ") == pytest.approx(voltage, abs=VOLTS)
    assert value("fault_near") / 1000 == pytest.approx(answer.near_kA, abs=KILOAMPS)
    current, voltage = answer.station
    assert value("station_current") == pytest.approx(current, abs=0.05)
    if voltage is not None:
        assert value("station_voltage") == pytest.approx(voltage, abs=0.05)


def test_j1_takes_the_step_of_200_w_and_the_default():
    design = decide(example_fit("brunsall-tansy/j1")).design
    assert (design.choice.power_W, design.choice.input_limit_A) == (200, 20)
    assert design.choice.set_V == design.fit.charger.output_default.value


def test_j1_with_6_mm2_fails_drop_and_margin():
    design = decide(example_fit("brunsall-tansy/j1")).design
    thin = next(c for c in design.candidates if c.choice.area_mm2 == 6)
    assert thin.charger_V == pytest.approx(11.66, abs=VOLTS)
    assert thin.drop == pytest.approx(0.0521, abs=SHARE)
    assert thin.margin_V == pytest.approx(0.16, abs=VOLTS)
    refused = {f.code for f in thin.findings if f.verdict is Verdict.REFUSED}
    assert refused == {"CA-01", "CA-02"}


def test_j3_with_6_mm2_carries_less_than_its_fuse():
    design = decide(example_fit("ostrigg-drey/j3")).design
    thin = next(c for c in design.candidates if c.choice.area_mm2 == 6)
    assert (thin.carries_A, thin.choice.rating_A) == (46.2, 50)
    assert "OC-02" in {f.code for f in thin.findings}


def test_j3_holds_for_the_distance_and_the_isolator_letter():
    checked = decide(example_fit("ostrigg-drey/j3"))
    assert {f.code for f in checked.findings if f.verdict is Verdict.HOLD} == {"OC-07", "NE-02"}


@pytest.mark.parametrize(
    ("fit", "day", "night", "cruise_night"),
    [
        ("brunsall-tansy/j1", -3, -31, 26.6),
        ("ostrigg-drey/j3", -15.5, -30.5, 9.1),
        ("dunstrel-cobble/j9b", -29.6, -43.6, 14.0),
    ],
)
def test_budget(fit, day, night, cruise_night):
    design = decide(example_fit(fit)).design
    assert design.figure("idle_day").value == pytest.approx(day, abs=0.1)
    assert design.figure("idle_night").value == pytest.approx(night, abs=0.1)
    assert design.figure("cruise_night").value == pytest.approx(cruise_night, abs=0.1)


def test_j9_hunts_and_drops():
    fit = example_fit("dunstrel-cobble/j9")
    refusal = decide(fit)
    assert isinstance(refusal, Refusal)
    assert {f.code for f in refusal.findings} == {"CA-01", "CA-02"}
    assert kept(fit, refusal) == ()
    asked = refusal.candidates[0]
    assert (asked.choice.area_mm2, asked.choice.rating_A) == (16, 70)
    assert asked.carries_A == 73.8
    assert asked.current_A == pytest.approx(44.8, abs=AMPS)
    assert asked.charger_V == pytest.approx(12.34, abs=VOLTS)
    assert asked.drop == pytest.approx(0.0650, abs=SHARE)


def test_j9_names_the_size_that_passes_as_its_way_out():
    refusal = decide(example_fit("dunstrel-cobble/j9"))
    assert {f.way_out.id for f in refusal.findings} == {"rule.CA.way_out_size"}
    assert {dict(f.way_out.values)["area"].value for f in refusal.findings} == {25}
    assert [c.choice.area_mm2 for c in refusal.candidates] == [16, 25]


def test_j9b_cascade():
    circuit = decide(example_fit("dunstrel-cobble/j9b")).design.circuit
    assert circuit.clip == "P10"
    gland = next(f for f in circuit.fittings if f.kind == "gland")
    assert (gland.part, gland.hole_m, gland.count) == ("G20", pytest.approx(0.0205), 2)


def test_j4_is_over_the_absolute_maximum_at_its_lowest_setting():
    refusal = decide(example_fit("ostrigg-drey/j4"))
    assert isinstance(refusal, Refusal)
    over = refusal.findings[0]
    assert over.code == "OV-01"
    assert over.found.value == pytest.approx(30.8)
    assert over.allowed.value == pytest.approx(28.5)
    assert "OV-02" in {f.code for f in refusal.findings}
    assert refusal.candidates == ()


def test_j2_holds_before_plugging():
    checked = decide(example_fit("brunsall-tansy/j2"))
    assert {f.code for f in checked.findings if f.verdict is Verdict.HOLD} == {"OV-04", "OV-12"}
    choice, low = checked.design.choice, checked.design.solved.feed.low
    assert (choice.power_W, choice.input_limit_A) == (150, 15)
    assert low.drop == pytest.approx(0.0273, abs=SHARE)
    default = next(f for f in checked.findings if f.code == "OV-04")
    assert default.found.value == pytest.approx(24.54)


def test_tow_pack_passes_with_16_mm2_and_its_base_stays():
    tow = decide(example_fit("dunstrel-cobble-tow-pack/j9")).design
    thin = next(c for c in tow.candidates if c.choice.area_mm2 == 10)
    assert (thin.carries_A, thin.choice.rating_A) == (63.4, 70)
    assert "OC-02" in {f.code for f in thin.findings}
    assert decide(example_fit("dunstrel-cobble/j9b")).design.choice.area_mm2 == 25


def test_j8_protects_both_ends():
    design = decide(example_fit("tavlow-camber/j8")).design
    first, second = design.circuit.protections
    assert (first.tag, first.rating_A, first.at_m) == ("F1", 70, 0.12)
    assert (second.tag, design.choice.second_family, second.rating_A) == ("F2", "tarrock-bt", 50)
    assert second.at_m == 0.15
    assert design.solved.second.near_A / 1000 == pytest.approx(10.14, abs=KILOAMPS)
    assert design.solved.second.carries_A == pytest.approx(40)


def test_j8_10_mm2_carries_less_than_its_fuse():
    design = decide(example_fit("tavlow-camber/j8")).design
    thin = next(c for c in design.candidates if c.choice.area_mm2 == 10)
    assert (thin.carries_A, thin.choice.rating_A) == (68.9, 70)


@pytest.mark.parametrize("family", ["tarrock-bf32", "tarrock-bf70h"])
def test_j8_refuses_what_cannot_break_10_kiloamps_at_the_second_battery(tmp_path, family):
    asked = "protection: [tarrock-bf32, tarrock-bf70h, tarrock-bt]"
    fit = spoilt_fit(tmp_path, "tavlow-camber/j8", (CAMBER, asked, f"protection: [{family}]"))
    assert "SB-03" in {f.code for f in decide(fit).findings}


def test_j8_letters_run_from_source_1_to_source_2_and_back():
    circuit = decide(example_fit("tavlow-camber/j8")).design.circuit
    assert "".join(joint.letter for joint in circuit.joints) == "ABCDEFGHJKLMN"
    ends = {wire.tag: wire.start + wire.end for wire in circuit.conductors if wire.tag}
    assert ends == {"W1": "AB", "W2": "CD", "W3": "LM", "W4": "EF", "W5": "GH", "W6": "JK"}
    lengths = {wire.tag: wire.cut_m for wire in circuit.conductors}
    assert (lengths["W4"], lengths["W5"], lengths["W6"]) == (0.90, 0.30, 1.20)


def test_j8_does_not_take_the_setting_for_agm():
    design = decide(example_fit("tavlow-camber/j8")).design
    assert [(one.set_V, one.fits) for one in design.settings] == [(14.2, True), (14.6, False)]


def test_j13_is_refused_though_23_v_would_fit():
    fit = example_fit("dunstrel-cobble/j13")
    refusal = decide(fit)
    assert [f.code for f in refusal.findings] == ["OV-03"]
    assert refusal.findings[0].found.value == pytest.approx(36.76)
    assert kept(fit, refusal) == ()
    below = solve_output(fit, 520, 23)
    assert below.high_V < fit.station.window_max.value


def test_j5_keeps_to_the_step_of_200_w_for_the_allowance_of_20_a():
    checked = decide(example_fit("pellmare-mirren/j5"))
    assert {f.code for f in checked.findings} == {"SU-07"}
    step = checked.findings[0]
    assert (step.found.value, step.allowed.value) == (24, 20)
    assert (checked.design.choice.power_W, checked.design.choice.input_limit_A) == (200, 20)
    assert checked.design.fit.vehicle.cues[checked.design.fit.job.cue].kind is CueKind.READY


def test_j6_breaks_the_allowance_and_offers_j5():
    fit = example_fit("pellmare-mirren/j6")
    refusal = decide(fit)
    assert [f.code for f in refusal.findings] == ["SU-02"]
    assert (refusal.findings[0].found.value, refusal.findings[0].allowed.value) == (46, 20)
    sixteen = next(c for c in refusal.candidates if c.choice.area_mm2 == 16)
    assert sixteen.current_A == pytest.approx(42.9, abs=AMPS)
    assert kept(fit, refusal) == ()
    assert refuse(refusal).way_out[0].id == "refusal.instead"
    assert dict(refuse(refusal).way_out[0].values)["fit"].id == "pellmare-mirren/j5"


def test_j7_holds_for_torque_trial_connector_and_polarity():
    checked = decide(example_fit("tessick-orlet/j7"))
    holds = {f.code: f for f in checked.findings if f.verdict is Verdict.HOLD}
    assert set(holds) == {"TQ-01", "OV-09", "OV-08", "OV-12"}
    circuit = checked.design.circuit
    assert holds["TQ-01"].place == f"circuit.{circuit.joint('return').letter}.torque"


def test_j7_is_protected_by_the_vehicle_makers_fuse():
    design = decide(example_fit("tessick-orlet/j7")).design
    fuse, circuit = design.circuit.protections[0], design.circuit
    assert fuse.factory
    assert (fuse.rating_A, fuse.voltage.value, fuse.breaking.value) == (25, 70, 6000)
    assert design.figure("fuse_carries").value == 20
    assert (fuse.start, fuse.end) == ("A", "B")
    assert (circuit.joint("battery+").letter, circuit.joint("source+").letter) == ("A", "B")
    assert [wire.tag for wire in circuit.conductors] == ["W1", "W2", "W3", "W4", ""]


def test_j7_on_the_floor_is_refused(tmp_path):
    fit = spoilt_fit(tmp_path, "tessick-orlet/j7", (ORLET, "mount: racking", "mount: floor"))
    assert "FX-04" in {f.code for f in decide(fit).findings}


def test_j10_no_fuse_of_two_limits_fits_a_cable_that_the_terminals_take():
    fit = example_fit("dunstrel-cobble/j10")
    refusal = decide(fit)
    assert kept(fit, refusal) == ()
    found = {f.code: f for f in refusal.findings}
    assert found["OC-02"].found.value >= 92 / 0.8
    assert found["OC-02"].allowed.value == pytest.approx(98.6)
    assert found["SU-10"].found.value == pytest.approx(104, abs=0.5)
    assert dict(found["SU-10"].title.values)["power"].value == pytest.approx(624, abs=0.5)
    assert dict(found["SU-10"].title.values)["set"].value == 48


def test_j11_is_not_isolated_and_over_the_touch_limit():
    fit = example_fit("dunstrel-cobble/j11")
    refusal = decide(fit)
    assert kept(fit, refusal) == ()
    assert {f.code for f in refusal.findings} == {"SU-05", "SU-09", "OV-06"}


def test_j12_taps_a_pair_below_a_negative_isolator():
    fit = example_fit("ostrigg-drey/j12")
    refusal = decide(fit)
    assert kept(fit, refusal) == ()
    assert [f.code for f in refusal.findings] == ["NE-03", "NE-04"]
    assert {c.choice.area_mm2: round(c.charger_V) for c in refusal.candidates}[10] == 13, "12 V"


def test_j9b_says_how_long_a_charge_takes_in_summer():
    design = decide(example_fit("dunstrel-cobble/j9b")).design
    assert design.figure("derated_share").value == pytest.approx(0.90)
    assert design.figure("charge_time").value == pytest.approx(4.5, abs=0.1)
    hot = 2150 / (0.90 * 520 * 0.92)
    assert design.figure("charge_time_hot").value == pytest.approx(hot, abs=0.01)


def test_j9b_names_the_least_resistance_of_a_new_battery():
    design = decide(example_fit("dunstrel-cobble/j9b")).design
    assert design.figure("battery_least").value == pytest.approx(14.8 / 6000)


def loop(area, zones):
    """Return both conductors of a route of (ambient, metres), ends shared as by the profile."""
    fit = example_fit("dunstrel-cobble/j9b")
    size = next(s for s in fit.cable.sizes if s.area.value == area)
    long = [(ambient, metres * 1.02) for ambient, metres in zones]
    for end in (0, -1):
        long[end] = (long[end][0], long[end][1] + 0.15)
    spare = round_up(sum(m for _, m in long), 0.01) - sum(m for _, m in long)
    long[-1] = (long[-1][0], long[-1][1] + spare)
    way = tuple(
        Stretch(
            zone="run",
            ambient_C=ambient,
            length_m=metres,
            carries_A=carries(fit.cable, size, ambient),
        )
        for ambient, metres in long
    )
    return Loop(
        r20_ohm_per_m=size.resistance.value,
        theta_max_C=105,
        out=way,
        back=way,
        out_joints_ohm=1.3e-3,
        back_joints_ohm=0.6e-3,
    )


V5 = [(40, 2.8)]


def test_recalled_batch_of_16_mm2_still_passes():
    recalled = replace(loop(16, V5), r20_ohm_per_m=1.34e-3)
    assert working_point(13.4, 40 * 14.2 / 0.93, recalled).drop == pytest.approx(0.0411, abs=SHARE)


@pytest.mark.parametrize(
    ("W", "efficiency", "heat"),
    [(240, 0.92, 21), (520, 0.94, 33), (700, 0.95, 37), (568, 0.93, 43)],
)
def test_heat_at_full_power(W, efficiency, heat):
    assert heat_loss(W, efficiency) == pytest.approx(heat, abs=0.5)


@pytest.mark.parametrize(
    ("Wh", "W", "hours"),
    [(512, 200, 2.8), (310, 110, 3.1), (1075, 200, 5.8), (2150, 520, 4.5), (2150, 700, 3.3)],
)
def test_charge_time(Wh, W, hours):
    assert charge_hours(Wh, W, 0.92) == pytest.approx(hours, abs=0.05)


@pytest.mark.parametrize(
    ("kg", "kN"), [(24.5, 4.81), (13.2, 2.59), (12.4, 2.43), (6.4, 1.26), (3.9, 0.77), (3.4, 0.67)]
)
def test_holding_force(kg, kN):
    assert holding_force(kg, 20) / 1000 == pytest.approx(kN, abs=0.01)


def test_budget_of_v5():
    assert spare_current(82, 0.90, 40, 47.4) == pytest.approx(-13.6, abs=0.1)
    assert spare_current(82, 0.90, 63, 47.4) == pytest.approx(-36.6, abs=0.1)


def test_voltage_cue_is_refused_for_j1(tmp_path):
    fit = spoilt_fit(tmp_path, "brunsall-tansy/j1", (TANSY, "cue: engine-run", "cue: voltage"))
    assert fit.vehicle.cues[fit.job.cue].kind is CueKind.VOLTAGE
    assert decide(fit).findings[0].code == "CU-02"
