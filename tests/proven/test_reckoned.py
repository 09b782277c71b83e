"""Thousands of whole fits, each worked out twice: by the tool, and by a reckoner of our own.

The reckoner writes the laws out and lets scipy find the roots. Figures must agree to a
millionth; what the rules refuse must be what plain comparisons of the reckoner's figures refuse.
"""

import math
import random

import pytest

from baybook.checks import judge
from baybook.design import Choice, Design
from baybook.finding import Verdict
from baybook.sizing.choose import choose
from baybook.sizing.work_out import work_out
from baybook.terms import CueKind
from drawn import drawn
from proven.reckoner import Loop, cut_out, reckon, watts_in
from workbooks import example_fit

SHEAVES = 12  # so that two workers share them
FIGURES = 200  # fits in a sheaf: 2,400 in all
CHOICES = 70  # of which so many are chosen for: 840 in all
CLOSE = 1e-6
HIGHEST = {12.0: 16.0, 24.0: 32.0}  # ISO 16750-2


def at_random(fit, dice):
    """Return a choice that a sizing might weigh, good or bad."""
    charger = fit.charger
    steps = charger.power.steps if charger.power else ()
    watts, limit = dice.choice(
        [
            (charger.output_power.value, charger.input_current.high),
            *((s.power.value, s.input_limit.high) for s in steps),
        ]
    )
    fuse = fit.vehicle.points[fit.job.source.positive].factory_fuse
    family, rating = "", fuse.rating.value if fuse else 0.0
    if fuse is None:
        family = dice.choice(fit.job.protection)
        sheet = fit.protections[fit.job.protection.index(family)]
        rating = dice.choice(sheet.ratings).value
    low, high = charger.output_min.value, charger.output_max.value
    return Choice(
        power_W=watts,
        input_limit_A=limit,
        power_kept=True,
        set_V=round(dice.uniform(low, high), 1),
        area_mm2=dice.choice(fit.cable.sizes).area.value,
        family=family,
        rating_A=rating,
    )


def told(design):
    """Return what the tool says, by the reckoner's names."""
    solved = design.solved
    feed, fault, output = solved.feed, solved.fault, solved.output
    found = {
        "power": feed.power_W,
        "carries": feed.carries_A,
        "far_ohm": fault.far_ohm,
        "k": fault.k,
        "overload": fault.overload,
        "protection": fault.carries_A,
        "near": fault.near_A,
        "far": fault.far_A,
        "opens_near": fault.opens_near_s,
        "opens_far": fault.opens_far_s,
        "withstand_near": fault.withstand_near,
        "withstand_far": fault.withstand_far,
        "low_V": output.low_V,
        "high_V": output.high_V,
        "default_high_V": output.default_high_V,
        "power_W": output.power_W,
        "sure_W": output.sure_W,
        "out_A": output.current_A,
        "lead_carries": output.lead_carries_A,
        "lead_ohm": output.lead_ohm,
        "station_V": output.station_V,
        "out_drop": output.drop,
        "sleep": solved.budget.sleep_A,
        "standby_d": solved.budget.standby_d,
        "idle_day": solved.budget.idle_day_A,
        "idle_night": solved.budget.idle_night_A,
        "cruise_day": solved.budget.cruise_day_A,
        "cruise_night": solved.budget.cruise_night_A,
        "heat": solved.place.heat_W,
        "derated": solved.place.derated,
        "charger_N": solved.place.charger_N,
        "station_N": solved.place.station_N,
        "strap_N": max(
            solved.place.station_N,
            *(way[1] for way in (solved.place.rearward, solved.place.sideways)),
            solved.place.upward[1],
        ),
        "fixing_N": solved.place.fixing_N,
        "held_N": solved.place.held_N,
        "tip": solved.place.tip_m,
    }
    for name in ("low", "typical", "rest"):
        point = getattr(feed, name)
        found[f"{name}.current"] = point.current_A if point else None
        if point:
            found |= {
                f"{name}.volts": point.charger_V,
                f"{name}.drop": point.drop,
                f"{name}.out": point.positive_ohm,
                f"{name}.back": point.return_ohm,
                f"{name}.hottest": point.hottest_C,
            }
    return found


def same(ours, theirs):
    if ours is None or theirs is None:
        return ours is theirs
    return math.isclose(ours, theirs, rel_tol=CLOSE, abs_tol=1e-9)


# ------------------------------------------------------------------ what is refused, and why


def comparisons(fit, choice, found):
    """Yield (code, left, right): the rule refuses where left > right."""
    limits, charger = fit.shop.limits, fit.charger
    if found["low.current"] is not None:
        yield "CA-01", found["low.drop"], limits.input_drop.value.value
        yield "CA-02", cut_out(fit) + limits.cut_out_margin.value.value, found["low.volts"]
    yield "CA-04", choice.area_mm2, charger.input.area_max.low
    carried = found["protection"]
    yield "OC-01", choice.input_limit_A, -1.0 if carried is None else carried
    yield "OC-02", choice.rating_A, found["carries"]
    yield "OC-03", choice.rating_A, charger.upstream_max.low
    yield "OC-09", found["overload"], 1.0
    for end in ("near", "far"):
        if found.get(f"withstand_{end}") is not None:
            yield "OC-08", found[f"withstand_{end}"], 1.0
    fuse = fit.vehicle.points[fit.job.source.positive].factory_fuse
    part = fuse or fit.protections[fit.job.protection.index(choice.family)]
    if found["near"] is not None:
        yield "OC-05", found["near"], part.breaking.low
    if fuse is None:
        source = fit.job.source
        signed = source.conduit and fit.job.conduit and source.signed == "approver"
        most = limits.fuse_distance_conduit if signed else limits.fuse_distance
        yield "OC-07", source.fuse_at.high, most.value.value
    station = fit.station
    yield "OV-01", found["high_V"], station.absolute.low * (1 - limits.absolute_margin.value.value)
    yield "OV-02", found["high_V"], station.window_max.low
    yield "OV-02", station.start.high, found["low_V"]
    touched = max(found["high_V"], found["default_high_V"])
    yield "OV-06", touched, limits.touch_voltage.value.value
    yield "OV-07", found["out_drop"], limits.output_drop.value.value
    yield "OV-10", charger.output_current.high, found["lead_carries"]
    yield "OV-11", fit.job.output_area.value, charger.output.area_max.low
    if fit.connector is not None:
        amps = min(charger.output_current.value, station.input_current.value)
        yield "OV-10", amps, fit.connector.current.low
        yield "OV-10", found["high_V"], fit.connector.voltage.low
    allowed = fit.vehicle.supply.allowance
    yield "SU-02", choice.input_limit_A, math.inf if allowed is None else allowed.low
    spare = [found[f"cruise_{light}"] for light in ("day", "night")]
    if None not in spare:
        yield "SU-04", -min(spare), 0.0
    mount = fit.vehicle.mounts[fit.job.mount]
    yield "HT-01", 0.0, found["derated"] - 1e-12
    if found["held_N"] is not None and not math.isinf(found["fixing_N"]):
        yield "FX-11", found["fixing_N"], found["held_N"]
    yield "FX-03", found["fixing_N"], 1e300
    yield "FX-01", found["tip"], mount.free_depth.low
    kept = fit.job.station_place
    if kept.straps is not None and kept.strap_holds is not None:
        yield "FX-13", found["strap_N"], (kept.straps - 1) * kept.strap_holds.low


def verdicts(fit, choice, found):
    """Return the codes that must refuse, and those too near to their limit to say."""
    refused, near = set(), set()
    for code, left, right in comparisons(fit, choice, found):
        if math.isclose(left, right, rel_tol=1e-6, abs_tol=1e-9):
            near.add(code)
        elif left > right:
            refused.add(code)
    if found["low.current"] is None:
        refused.add("CA-03")
    highest = HIGHEST[fit.vehicle.supply.nominal.value]
    fuse = fit.vehicle.points[fit.job.source.positive].factory_fuse
    part = fuse or fit.protections[fit.job.protection.index(choice.family)]
    if part.voltage.low <= highest:
        refused.add("OC-04")
    stated = [gate for gate in part.opens if gate.within.value <= 5]
    if stated and found["far"] is not None and found["opens_far"] is None:
        refused.add("OC-06")
    return refused, near


REFEREED = {
    *("CA-01", "CA-02", "CA-03", "CA-04", "OC-01", "OC-02", "OC-03", "OC-04", "OC-05", "OC-06"),
    *("OC-07", "OC-08", "OC-09", "OV-01", "OV-02", "OV-06", "OV-07", "OV-10", "OV-11", "SU-02"),
    *("SU-04", "HT-01", "FX-01", "FX-03", "FX-11", "FX-13"),
}


@pytest.mark.parametrize("sheaf", range(SHEAVES))
def test_every_figure_and_every_refusal_is_found_again(sheaf):
    without, seen = 0, set()
    for seed in range(sheaf * FIGURES, (sheaf + 1) * FIGURES):
        fit = drawn(seed)
        choice = at_random(fit, random.Random(seed))  # noqa: S311
        design = work_out(fit, choice)
        ours, theirs = told(design), reckon(fit, choice)
        wrong = {
            name: (ours.get(name), theirs.get(name))
            for name in {*ours, *theirs}
            if not same(ours.get(name), theirs.get(name))
        }
        assert not wrong, (seed, fit.id)
        refused, near = verdicts(fit, choice, theirs)
        codes = {f.code for f in judge(design) if f.verdict is Verdict.REFUSED}
        assert (codes & REFEREED) - near == refused - near, (seed, fit.id)
        without += ours["low.current"] is None
        seen |= codes
    # the lot is neither all hopeless nor all harmless
    assert without < FIGURES / 4
    assert len(seen & REFEREED) > len(REFEREED) * 0.7


# ------------------------------------------------------------------ what is chosen


def in_order(design):
    """I_B ≤ I_n ≤ I_T, and the part carries I_B where it lies."""
    choice, solved = design.choice, design.solved
    assert choice.input_limit_A <= solved.fault.carries_A <= choice.rating_A
    assert choice.rating_A <= solved.feed.carries_A


def switches(design, stops_V=None):
    """Drive for a while at the lowest supply and count how often the charger starts.

    It stops where its volts fall under its cut-out, or `stops_V`; it starts again where they are
    over that, or over its cut-in on the voltage cue. The volts are the reckoner's.
    """
    fit, choice = design.fit, design.choice
    supply, loop = fit.vehicle.supply.low.low, Loop(fit, choice.area_mm2)
    amps = loop.solve(supply, watts_in(fit, choice))
    loaded = supply - amps * loop.ohm(amps)
    starts_V = stops_V = cut_out(fit) if stops_V is None else stops_V
    if fit.vehicle.cues[fit.job.cue].kind is CueKind.VOLTAGE:
        starts_V = max(stops_V, fit.charger.cut_in.high)
    on, starts = False, 0
    for _ in range(20):
        volts = loaded if on else supply
        if on and volts < stops_V:
            on = False
        elif not on and volts >= starts_V:
            on, starts = True, starts + 1
    return starts


def test_a_charger_that_hunts_is_seen_to_hunt():
    design = choose(example_fit("dunstrel-cobble/j9b"), judge)
    low = design.solved.feed.low
    assert switches(design, low.charger_V - 0.01) == 1
    assert switches(design, low.charger_V + 0.01) > 5


@pytest.mark.parametrize("sheaf", range(SHEAVES))
def test_what_is_chosen_is_the_smallest_that_the_reckoner_passes(sheaf):
    designs = 0
    for seed in range(sheaf * FIGURES, sheaf * FIGURES + CHOICES):
        design = choose(drawn(seed), judge)
        if not isinstance(design, Design):
            continue
        designs += 1
        fit, choice = design.fit, design.choice
        refused, near = verdicts(fit, choice, reckon(fit, choice))
        assert not refused - near, (seed, fit.id)
        in_order(design)
        assert switches(design) == 1, (seed, fit.id)
        for one in design.candidates:
            if one.choice.area_mm2 >= choice.area_mm2:
                continue
            thinner, unsure = verdicts(fit, one.choice, reckon(fit, one.choice))
            others = {f.code for f in one.findings if f.verdict is Verdict.REFUSED} - REFEREED
            assert thinner | unsure | others, (seed, fit.id, one.choice.area_mm2)
    assert designs > 4
