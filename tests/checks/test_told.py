"""What a rule says of what it finds: which of two words, which figure; and its limit itself."""

import math
from dataclasses import replace
from functools import cache
from types import SimpleNamespace

import pytest

from baybook.checks import RULES, judge
from baybook.checks.cable import takes
from baybook.finding import Verdict
from baybook.quantity import Basis, State
from baybook.sizing.choose import choose
from baybook.sizing.work_out import work_out
from baybook.terms import HazardKind, JointKind, PassageKind, Polarity
from baybook.vehicle import Hazard
from chassis import chassis_fit
from variants import charger, point, quantity, source, station, supply, vehicle
from workbooks import example_fit

J1, J9B = "brunsall-tansy/j1", "dunstrel-cobble/j9b"


@cache
def design(name):
    return choose(example_fit(name), judge)


def found(code, worked_out):
    return tuple(RULES[code](worked_out))


def solved(one, part, **update):
    """Return a design with figures of one part of its solution moved."""
    moved = replace(getattr(one.solved, part), **update)
    return replace(one, solved=replace(one.solved, **{part: moved}))


def word(message):
    return message.id.rpartition(".")[2]


@pytest.mark.parametrize(("gap", "told"), [(0.3, "over"), (0.0, "over"), (-0.3, "under")])
def test_the_margin_to_the_cut_out_is_told_on_its_own_side(gap, told):
    one = design(J1)
    feed = one.solved.feed
    low = replace(feed.low, charger_V=feed.cut_out_V + gap)
    limit = one.fit.shop.limits.cut_out_margin
    limits = one.fit.shop.limits.model_copy(
        update={"cut_out_margin": limit.model_copy(update={"value": quantity(limit.value, 0.5)})}
    )
    fit = replace(one.fit, shop=one.fit.shop.model_copy(update={"limits": limits}))
    (fault,) = found("CA-02", solved(replace(one, fit=fit), "feed", low=low))
    assert word(fault.values["margin"]) == told
    assert fault.values["margin"].values[0][1].value == pytest.approx(abs(gap))


def test_no_power_arrives_over_a_cable_however_little_it_carries():
    assert found("CA-03", solved(design(J1), "feed", low=None, carries_A=0.5))
    assert not found("CA-03", solved(design(J1), "feed", low=None, carries_A=0.0))


def test_hours_on_the_voltage_cue_by_hand():
    # 44 A h at 3.2 A: 13.75 h
    (fault,) = found("CU-03", solved(design(J9B), "budget", usable_Ah=44.0, standing_A=3.2))
    assert fault.values["hours"].value == pytest.approx(13.75)


@pytest.mark.parametrize(
    ("polarity", "told"),
    [(Polarity.CENTRE_NEGATIVE, "turned"), (Polarity.UNKNOWN, "unknown")],
)
def test_a_turned_inlet_is_told_from_an_unknown_one(polarity, told):
    (fault,) = found("OV-12", replace(design(J1), fit=station(design(J1).fit, polarity=polarity)))
    assert word(fault.found) == told
    assert fault.values["plus"].id == f"rule.OV-12.{told}.plus"


def test_a_rating_as_high_as_the_cable_carries_protects_it():
    one = design(J1)
    assert not found("OC-02", solved(one, "feed", carries_A=one.choice.rating_A))
    assert found("OC-02", solved(one, "feed", carries_A=one.choice.rating_A - 1e-6))


@pytest.mark.parametrize(
    ("default", "told", "place"),
    [(70.0, "default", "circuit.charger.U_default"), (64.0, "set", "circuit.charger.U_set")],
)
def test_whichever_is_higher_of_setting_and_default_is_over_the_touch_limit(default, told, place):
    one = solved(design(J1), "output", default_high_V=default, high_V=65.0)
    (fault,) = found("OV-06", one)
    assert (fault.place, word(fault.values["which"])) == (place, told)
    set_V = one.fit.charger.output_default.value if told == "default" else one.choice.set_V
    assert fault.values["set"].value == set_V
    assert fault.found.value == max(default, 65.0)


def test_the_touch_limit_itself_is_not_over_it():
    limit = design(J1).fit.shop.limits.touch_voltage.value.value
    assert not found("OV-06", solved(design(J1), "output", default_high_V=limit, high_V=30.0))
    assert found("OV-06", solved(design(J1), "output", default_high_V=limit + 1e-6, high_V=30.0))


@pytest.mark.parametrize(
    ("metres", "conduit", "signed", "way"),
    [
        (0.5, True, "approver", "sign"),
        (0.9, True, "approver", "sign"),  # the farthest that a conduit allows
        (0.91, True, "approver", "near"),
        (5.0, False, None, "near"),
        (0.5, False, None, "conduit"),
        (0.9, True, None, "conduit"),
    ],
)
def test_how_a_protection_comes_near_enough(metres, conduit, signed, way):
    one = design("ostrigg-drey/j3")
    at = quantity(one.fit.job.source.fuse_at, metres)
    far = replace(one, fit=source(one.fit, fuse_at=at, conduit=conduit, signed=signed))
    (fault,) = found("OC-07", far)
    assert word(fault.values["way"]) == way


def test_the_vehicle_s_own_limit_itself_is_allowed():
    one = design(J1)
    for spare, refused in ((0.0, False), (-0.1, True)):
        allowed = one.choice.input_limit_A + spare
        fit = supply(one.fit, allowance=allowed)
        assert bool(found("SU-02", replace(one, fit=fit))) is refused


def test_half_an_ampere_is_a_capacity_and_none_is_not():
    assert not found("CA-07", solved(design(J1), "feed", carries_A=0.5))
    assert found("CA-07", solved(design(J1), "feed", carries_A=0.0))


@pytest.mark.parametrize(
    ("high", "low", "told", "allowed"),
    [(61.0, 12.0, 61.0, 60.0), (60.0, 12.0, 12.0, 14.0), (30.0, 13.9, 13.9, 14.0)],
)
def test_a_default_outside_the_window_is_told_at_the_end_that_it_leaves(high, low, told, allowed):
    one = design(J1)
    like = one.fit.station.window_max
    ends = {"window_max": quantity(like, 60.0), "window_min": quantity(like, 14.0)}
    fit = station(one.fit, **ends, absolute=quantity(like, 90.0))
    fit = charger(fit, output_max=quantity(like, 60.0), default_after_reset=True)
    outside = solved(replace(one, fit=fit), "output", default_high_V=high, default_low_V=low)
    (fault,) = found("OV-04", outside)
    assert (fault.found.value, fault.allowed.value) == (told, allowed)


def test_what_a_far_fault_needs_to_open_by_hand():
    # 350 % of 30 A
    one = solved(design(J1), "fault", far_A=100.0, opens_far_s=None)
    (fault,) = found("OC-06", one)
    assert one.choice.rating_A == 30
    assert (fault.found.value, fault.allowed.value) == (100.0, pytest.approx(105.0))


@pytest.mark.parametrize(
    ("state", "way"),
    [(State.MEASURED, "part"), (State.ESTIMATED, "measure"), (State.PAPER, "measure")],
)
def test_a_short_of_a_second_battery_that_nobody_measured_is_measured_first(state, way):
    one = design("tavlow-camber/j8")
    ohm = one.fit.second.internal
    known = replace(ohm, basis=Basis(state=state, by="bay"))
    fit = replace(one.fit, second=one.fit.second.model_copy(update={"internal": known}))
    (own,) = (part for part in one.circuit.protections if part.tag == "F2")
    most = own.breaking.low
    assert not found("SB-03", solved(replace(one, fit=fit), "second", near_A=most))
    (fault,) = found("SB-03", solved(replace(one, fit=fit), "second", near_A=most + 1))
    assert word(fault.values["way"]) == way


@pytest.mark.parametrize(("up_to", "told"), [(None, "endless"), (600.0, "up_to")])
def test_how_long_a_fuse_holds_an_overload(up_to, told):
    one = solved(design(J1), "overload", hottest_C=200.0, up_to_s=up_to)
    (fault,) = found("OC-25", one)
    assert word(fault.values["held"]) == told
    if up_to is not None:
        assert dict(fault.values["held"].values)["time"].value == up_to


@pytest.mark.parametrize("way", ["forward", "rearward", "sideways", "upward"])
def test_the_worst_direction_pulls_at_the_station_s_straps(way):
    """Each direction in its turn; what pulls at the charger does not count."""
    one = design(J1)
    kept = one.fit.job.station_place
    bears = (kept.straps - 1) * kept.strap_holds.low
    calm = {"rearward": (9e9, 1.0), "sideways": (9e9, 1.0), "upward": (9e9, 1.0)}
    for newtons, refused in ((bears, False), (bears + 1, True)):
        pull = {"station_N": newtons} if way == "forward" else {way: (1.0, newtons)}
        moved = solved(one, "place", **(calm | {"station_N": 1.0} | pull))
        assert bool(found("FX-13", moved)) is refused


@pytest.mark.parametrize(
    ("part", "rating", "volts", "breaking", "outside"),
    [
        ("ISO 8820-5", 30, 32, 2000, 0),
        ("ISO 8820-5", 500, 32, 2000, 0),
        ("ISO 8820-5", 29, 32, 2000, 1),
        ("ISO 8820-5", 501, 32, 2000, 1),
        ("ISO 8820-5", 100, 33, 2000, 1),
        ("ISO 8820-5", 100, 32, 2001, 1),
        ("ISO 8820-5", 29, 33, 2001, 3),
        ("ISO 8820-10", 60, 32, 1000, 0),
    ],
)
def test_the_ends_of_a_part_of_the_standard_are_within_it(part, rating, volts, breaking, outside):
    one = design(J1)
    sheets = tuple(
        sheet.model_copy(
            update={
                "standard": part,
                "voltage": quantity(sheet.voltage, volts),
                "breaking": quantity(sheet.breaking, breaking),
            }
        )
        for sheet in one.fit.protections
    )
    choice = replace(one.choice, rating_A=rating)
    claimed = replace(one, fit=replace(one.fit, protections=sheets), choice=choice)
    assert len(found("OC-24", claimed)) == outside


@pytest.mark.parametrize("lost", [4, 5])
def test_one_fixing_more_than_may_be_lost_is_asked_for(lost):
    one = design(J1)
    restraint = one.fit.shop.restraint.model_copy(update={"fixings_lost": lost})
    fit = replace(one.fit, shop=one.fit.shop.model_copy(update={"restraint": restraint}))
    (fault,) = found("FX-03", solved(replace(one, fit=fit), "place", fixing_N=math.inf))
    assert fault.allowed.value == lost + 1
    assert not found("FX-03", one)


@pytest.mark.parametrize(
    ("mm", "verdict", "allowed_mm"),
    [
        (49, Verdict.REFUSED, 50),
        (50, Verdict.CAUTION, 150),
        (149, Verdict.CAUTION, 150),
        (150, None, None),
    ],
)
def test_near_a_fuel_line_it_is_refused_and_beside_it_clamped(mm, verdict, allowed_mm):
    fit = example_fit(J1)
    laid = fit.vehicle.routes[fit.job.route]
    first, *rest = laid.segments
    like = first.length
    line = Hazard(
        kind=HazardKind.FUEL,
        what="fuel line",
        distance=quantity(like, mm / 1000),
        at=quantity(like, 0.2),
    )
    segments = (first.model_copy(update={"hazards": (line,)}), *rest)
    rule = next(row for row in fit.shop.spacing.hazards if row.kind is HazardKind.FUEL)
    spaced = rule.model_copy(update={"least": quantity(like, 0.05), "clear": quantity(like, 0.15)})
    spacing = fit.shop.spacing.model_copy(update={"hazards": (spaced,)})
    changed = vehicle(
        replace(fit, shop=fit.shop.model_copy(update={"spacing": spacing})),
        routes={fit.job.route: laid.model_copy(update={"segments": segments})},
    )
    faults = found("RT-11", replace(design(J1), fit=changed))
    assert [f.verdict for f in faults] == ([verdict] if verdict else [])
    assert [f.allowed.value for f in faults] == ([allowed_mm / 1000] if verdict else [])


def test_less_than_an_ampere_to_spare_is_no_loss():
    one = solved(design(J1), "budget", idle_day_A=0.5, idle_night_A=-3.0)
    (fault,) = found("SU-03", one)
    assert word(fault.values["balance"]) == "loses_night"
    one = solved(design(J1), "budget", idle_day_A=-3.0, idle_night_A=0.5)
    (fault,) = found("SU-03", one)
    assert word(fault.values["balance"]) == "loses_day"


@pytest.mark.parametrize(("amps", "refused"), [(19.0, True), (20.0, False), (45.0, False)])
def test_a_body_is_measured_with_at_least_the_charger_s_current(tmp_path, amps, refused):
    fit = chassis_fit(tmp_path)
    choice = choose(fit, judge).choice
    assert choice.input_limit_A == 20
    (loop,) = fit.vehicle.body_loops
    again = loop.model_copy(update={"current": quantity(loop.current, amps)})
    changed = replace(fit, vehicle=fit.vehicle.model_copy(update={"body_loops": (again,)}))
    faults = found("NE-05", work_out(changed, choice))
    assert [f.verdict for f in faults] == ([Verdict.REFUSED] if refused else [])


@pytest.mark.parametrize("kind", [kind for kind in JointKind if kind is not JointKind.BODY])
def test_what_is_no_point_of_the_body_carries_no_return(tmp_path, kind):
    fit = chassis_fit(tmp_path)
    choice = choose(fit, judge).choice
    assert not found("NE-05", work_out(fit, choice))
    (loop,) = fit.vehicle.body_loops
    (fault,) = found("NE-05", work_out(point(fit, loop.end, kind=kind), choice))
    assert (fault.verdict, fault.where) == (Verdict.REFUSED, loop.drop.where)


def test_a_default_that_no_reset_brings_back_destroys_only_once():
    fit = charger(example_fit(J1), default_after_reset=False)
    one = replace(design(J1), fit=fit)
    top = fit.station.absolute.low
    assert not found("OV-05", solved(one, "output", default_high_V=top))
    (fault,) = found("OV-05", solved(one, "output", default_high_V=top + 0.1))
    assert fault.verdict is Verdict.HOLD


@pytest.mark.parametrize(
    ("form", "conductors", "each", "mm", "takes_it"),
    [
        ("gland", 1, True, 8.0, True),
        ("gland", 1, False, 8.0, False),  # two go through, it seals one
        ("gland", 2, False, 8.0, True),
        ("gland", 2, True, 8.0, False),  # one goes through, its other hole is open
        ("grommet", 1, True, 8.0, False),
        ("gland", 1, True, 6.0, True),
        ("gland", 1, True, 5.9, False),
        ("gland", 1, True, 10.0, True),
        ("gland", 1, True, 10.1, False),
    ],
)
def test_a_passage_takes_as_many_cables_as_it_is_made_for(form, conductors, each, mm, takes_it):
    size = SimpleNamespace(
        form=PassageKind(form),
        conductors=conductors,
        diameter_min=SimpleNamespace(value=0.006),
        diameter_max=SimpleNamespace(value=0.010),
    )
    wall = SimpleNamespace(form=PassageKind.GLAND, each=each)
    assert takes(size, wall, mm / 1000, 2) is takes_it
