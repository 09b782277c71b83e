"""What a rule says of fuse, line, fixing, route and joint; and its limit itself."""

import math
from dataclasses import replace
from types import SimpleNamespace

import pytest

from baybook.checks import judge
from baybook.checks.cable import takes
from baybook.finding import Verdict
from baybook.part import HoldPoint
from baybook.quantity import Basis, State
from baybook.route import Hazard
from baybook.sizing.choose import choose
from baybook.sizing.work_out import work_out
from baybook.terms import HazardKind, JointKind, PassageKind
from chassis import chassis_fit
from checks.asking import design, found, solved, word
from shared_line import shared_fit
from variants import point, quantity, vehicle
from workbooks import example_fit

J1, J9B = "brunsall-tansy/j1", "dunstrel-cobble/j9b"


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
    faults = found("OC-24", claimed)
    assert [f.allowed.text for f in faults] == [part] * outside
    assert {f.values["standard"].text for f in faults} <= {part}


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


def test_what_a_far_fault_needs_to_open_by_hand():
    # 350 % of 30 A
    one = solved(design(J1), "fault", far_A=100.0, opens_far_s=None)
    (fault,) = found("OC-06", one)
    assert one.choice.rating_A == 30
    assert (fault.found.value, fault.allowed.value) == (100.0, pytest.approx(105.0))


@pytest.mark.parametrize(("factor", "shown"), [(1.0, True), (0.99, False)])
def test_the_vehicle_s_fuse_that_just_holds_the_far_fault_opens_second(factor, shown):
    """Held at its very multiple, for longer than ours needs."""
    one = design(J1)
    name, fused = one.fit.job.source.positive, example_fit("tessick-orlet/j7")
    factory = fused.vehicle.points[fused.job.source.positive].factory_fuse
    ratio = quantity(one.fit.charger.efficiency, 100.0 * factor / factory.rating.low)
    first = factory.model_copy(update={"holds": (HoldPoint(multiple=ratio),)})
    fit = point(one.fit, name, upstream=first)
    fault = found("OC-22", solved(replace(one, fit=fit), "fault", far_A=100.0, opens_far_s=0.1))
    assert (not fault) is shown


def test_a_shared_line_carries_the_charger_and_the_others(tmp_path):
    fit = shared_fit(tmp_path)
    one = choose(fit, judge)
    others = one.solved.feed.low.line.others_A
    line = fit.vehicle.points[fit.job.source.positive].line
    for spare, refused in ((0.001, False), (-0.001, True)):
        most = one.choice.input_limit_A + others + spare
        carries = line.model_copy(update={"carries": quantity(line.carries, most)})
        changed = replace(one, fit=point(fit, fit.job.source.positive, line=carries))
        faults = found("SU-12", changed)
        assert bool(faults) is refused
    assert faults[0].found.value == pytest.approx(one.choice.input_limit_A + others)


def test_what_a_warm_charger_still_gives_by_hand():
    # 0.9 of 520 W is 468 W, and no more than the station takes
    one = design(J9B)
    assert one.fit.charger.output_power.value == 520
    for takes_W, gives_W in ((520.0, 468.0), (300.0, 300.0)):
        warm = solved(solved(one, "place", derated=0.9), "output", power_W=takes_W)
        (fault,) = found("HT-01", warm)
        assert fault.values["power"].value == pytest.approx(gives_W)


def test_a_vehicle_without_high_voltage_waits_for_no_discharge():
    assert not found("RS-03", design(J1))


def test_a_palm_stands_its_own_limit():
    one = design(J1)
    joint = next(j for j in one.circuit.joints if j.role == "return")
    palm = one.fit.lugs.palms[0]
    for spare, held in ((0.0, True), (-0.1, False)):
        limit = palm.model_copy(
            update={
                "thread": joint.thread,
                "torque": quantity(joint.torque, joint.torque.value + spare),
            }
        )
        lugs = one.fit.lugs.model_copy(update={"palms": (limit,)})
        faults = found("TQ-02", replace(one, fit=replace(one.fit, lugs=lugs)))
        assert (joint.letter.lower() not in {f.hold for f in faults}) is held


@pytest.mark.parametrize(
    ("low_mm", "high_mm", "refused"),
    [(21.0, 22.0, False), (22.0, 23.0, False), (20.0, 21.9, True), (22.1, 24.0, True)],
)
def test_a_hole_is_as_wide_as_its_grommet_wants_within_its_tolerance(low_mm, high_mm, refused):
    one = design(J1)
    laid = one.fit.vehicle.routes[one.fit.job.route]
    number, segment = next((n, s) for n, s in enumerate(laid.segments) if s.passage)
    wide = replace(segment.passage.hole, low=low_mm / 1000, high=high_mm / 1000)
    segments = list(laid.segments)
    passage = segment.passage.model_copy(update={"hole": wide})
    segments[number] = segment.model_copy(update={"passage": passage})
    routes = {one.fit.job.route: laid.model_copy(update={"segments": tuple(segments)})}
    faults = found("RT-02", replace(one, fit=vehicle(one.fit, routes=routes)))
    assert [f.verdict for f in faults] == ([Verdict.REFUSED] if refused else [])
    assert {f.where for f in faults} <= {wide.where}
