"""What a finding shows and advises: the decimals that were stated, and nothing the fit has."""

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

import variants
from baybook.checks import RULES, judge
from baybook.checks.found import amps, area, kiloamps, millimetres, setting, share, volts
from baybook.finding import Verdict
from baybook.point import FactoryFuse
from baybook.quantity import Basis, Mark, State, Unknown
from baybook.shipped import shipped
from baybook.sizing.choose import choose
from baybook.sizing.work_out import work_out
from baybook.terms import CueKind, Fastener, HazardKind, SupplyKind
from baybook.vehicle import Cue
from baybook.wording.catalogue import load_catalogue
from baybook.wording.figures import tell_amount
from baybook.wording.tell import tell
from workbooks import example_fit

J1, J3, J5 = "brunsall-tansy/j1", "ostrigg-drey/j3", "pellmare-mirren/j5"
J8, J9B = "tavlow-camber/j8", "dunstrel-cobble/j9b"
UNKNOWN = Unknown(basis=Basis(state=State.MEASURED), where=Mark("x.yaml", 2, 3))


@pytest.fixture(scope="module")
def words():
    return load_catalogue(shipped("templates"), "en")


def design(fit):
    return choose(example_fit(fit), judge)


def found(code, one):
    return [found.under(code) for found in RULES[code](one)]


def way_out(code, one, words):
    (finding,) = found(code, one)
    return tell(finding, words)["way_out"]["text"]


def limited(fit, **limits):
    return replace(
        fit, shop=fit.shop.model_copy(update={"limits": fit.shop.limits.model_copy(update=limits)})
    )


# ---------------------------------------------------------------- decimals


@pytest.mark.parametrize(
    ("amount", "figure"),
    [
        (volts(30 * 1.01 + 0.5), "30.8"),
        (volts(60.0), "60"),
        (volts(12.337), "12.34"),
        (setting(41.0), "41"),
        (amps(24.0), "24"),
        (amps(16.83), "16.8"),
        (share(0.05), "5"),
        (share(0.0423), "4.23"),
        (area(2.5), "2.5"),
        (area(25.0), "25"),
        (kiloamps(3000.0), "3"),
        (kiloamps(3922.0), "3.92"),
        (millimetres(0.0095, 1), "9.5"),
    ],
)
def test_a_figure_has_the_decimals_that_it_has(amount, figure):
    assert tell_amount(amount, "en")["figure"] == figure


@given(st.floats(0.01, 1000))
def test_no_digit_is_lost_by_it(value):
    shown = volts(value)
    assert abs(round(value, shown.digits) - value) <= 0.005 + 1e-9
    assert shown.digits <= 2


# ---------------------------------------------------------------- the way out


def test_a_sleeve_is_advised_only_where_there_is_none(words):
    one = design(J9B)
    assert "fit a heat sleeve" not in way_out("RT-01", one, words)
    route = one.fit.vehicle.routes[one.fit.job.route]
    segments = tuple(
        s.model_copy(
            update={"hazards": tuple(h.model_copy(update={"shield": None}) for h in s.hazards)}
        )
        for s in route.segments
    )
    bare = {one.fit.job.route: route.model_copy(update={"segments": segments})}
    without = variants.vehicle(one.fit, routes={**one.fit.vehicle.routes, **bare})
    assert "fit a heat sleeve" in way_out("RT-01", replace(one, fit=without), words)


def test_a_letter_on_file_is_to_be_read_not_asked_for(words):
    one = design(J3)
    assert "on file" not in way_out("NE-02", one, words)
    asked = variants.source(one.fit, letter=False)
    assert "on file" in way_out("NE-02", replace(one, fit=asked), words)


def test_a_conduit_that_is_there_is_not_advised(words):
    one = design(J3)
    assert "conduit" not in way_out("OC-07", one, words)
    bare = variants.source(one.fit, conduit=False)
    assert "conduit" in way_out("OC-07", replace(one, fit=bare), words)
    far = variants.source(one.fit, fuse_at=variants.quantity(one.fit.job.source.fuse_at, 1.2))
    assert "conduit" not in way_out("OC-07", replace(one, fit=far), words)


def test_a_battery_that_was_measured_is_not_to_be_measured(words):
    one = design(J1)
    strong = replace(one, solved=replace(one.solved, fault=replace(one.solved.fault, near_A=9e4)))
    assert "measure" not in way_out("OC-05", strong, words)
    guessed = replace(
        one.fit.vehicle.battery.internal, basis=Basis(state=State.ESTIMATED, method="age")
    )
    battery = one.fit.vehicle.battery.model_copy(update={"internal": guessed})
    estimated = replace(strong, fit=variants.vehicle(one.fit, battery=battery))
    assert "measure" in way_out("OC-05", estimated, words)


def test_a_run_line_is_advised_only_to_whom_has_one_and_does_not_use_it(words):
    one = design(J9B)
    low = replace(one.solved.feed.low, charger_V=12.0)
    sags = replace(one, solved=replace(one.solved, feed=replace(one.solved.feed, low=low)))
    assert "line" not in way_out("CA-02", sags, words)
    assert "line" not in way_out("CU-03", one, words)
    run = Cue(kind=CueKind.RUN, where="X7 pin 4")
    fit = variants.vehicle(one.fit, cues={**one.fit.vehicle.cues, "run": run})
    assert "line" in way_out("CA-02", replace(sags, fit=fit), words)
    assert "line" in way_out("CU-03", replace(one, fit=fit), words)


def test_a_bolt_is_not_advised_where_bolts_are(words):
    one = design(J1)
    place = replace(one.solved.place, fixing_N=5000.0)
    torn = replace(one, solved=replace(one.solved, place=place))
    assert "bolt through" not in way_out("FX-11", torn, words)
    mount = one.fit.vehicle.mounts[one.fit.job.mount]
    riveted = {one.fit.job.mount: mount.model_copy(update={"fastener": Fastener.RIVET_NUT})}
    fit = variants.vehicle(one.fit, mounts=riveted)
    assert "bolt through" in way_out("FX-11", replace(torn, fit=fit), words)


# ---------------------------------------------------------------- what nobody knows


@pytest.mark.parametrize("kind", [HazardKind.FUEL, HazardKind.BRAKE, HazardKind.HIGH_VOLTAGE])
def test_fuel_brakes_and_high_voltage_are_never_passed_unjudged(kind):
    one = design(J9B)
    spacing = one.fit.shop.spacing.model_copy(update={"hazards": ()})
    fit = replace(one.fit, shop=one.fit.shop.model_copy(update={"spacing": spacing}))
    route = fit.vehicle.routes[fit.job.route]
    only = route.segments[0].hazards[0].model_copy(update={"kind": kind})
    segments = (
        route.segments[0].model_copy(update={"hazards": (only,)}),
        *(s.model_copy(update={"hazards": ()}) for s in route.segments[1:]),
    )
    routes = {fit.job.route: route.model_copy(update={"segments": segments})}
    (finding,) = found("RT-15", replace(one, fit=variants.vehicle(fit, routes=routes)))
    assert finding.place.endswith("segments.0.hazards.0")


@pytest.mark.parametrize(
    ("supply", "update", "verdict"),
    [
        (SupplyKind.FIXED, {"hot_idle": None}, Verdict.CAUTION),
        (SupplyKind.CONTROLLED, {"hot_cruise": None}, Verdict.CAUTION),
        (SupplyKind.CONVERTER, {"hot_idle": None, "hot_cruise": None}, Verdict.HOLD),
    ],
)
def test_a_supply_that_nobody_measured_is_told(supply, update, verdict):
    fit = example_fit(J1)
    kind = fit.vehicle.supply.model_copy(update={"kind": supply, **update})
    one = replace(design(J1), fit=variants.vehicle(fit, supply=kind))
    (finding,) = found("SU-11", one)
    assert finding.verdict is verdict


def test_a_fused_point_or_an_allowance_is_a_limit():
    assert not found("SU-11", design(J5))  # an allowance of 20 A
    assert not found("SU-11", design("tessick-orlet/j7"))  # a stud of 20 A continuous
    assert not found("SU-11", design(J1))


# ---------------------------------------------------------------- torque, rating, distance


def tooled(fit, low, high):
    tools = tuple(
        tool.model_copy(
            update={
                "torque_low": variants.quantity(tool.torque_low, low),
                "torque_high": variants.quantity(tool.torque_high, high),
            }
        )
        if tool.torque_low
        else tool
        for tool in fit.shop.tools
    )
    return replace(fit, shop=fit.shop.model_copy(update={"tools": tools}))


def test_the_ends_of_a_tool_s_range_serve_and_beyond_them_nothing_does():
    one = design(J1)
    every = (4.5, 7.0, 20.0)  # fuse studs, source stud, body point; clamp of the charger 2.2
    assert not found("TQ-13", replace(one, fit=tooled(one.fit, 2.2, 20.0)))
    short = found("TQ-13", replace(one, fit=tooled(one.fit, 2.2, 19.9)))
    assert [f.found.value for f in short] == [every[-1]]
    assert {f.hold for f in short} == {f"tq-13-{one.circuit.joint('return').letter.lower()}"}
    coarse = found("TQ-13", replace(one, fit=tooled(one.fit, 100, 200)))
    holds = {f.hold for f in coarse}
    assert {"tq-13-mount", "tq-13-post"} < holds
    assert len(holds) == len(coarse)


def test_a_torque_that_is_unknown_asks_for_no_tool():
    one = design(J1)
    mount, points = one.fit.vehicle.mounts[one.fit.job.mount], one.fit.vehicle.points
    silent = {one.fit.job.mount: mount.model_copy(update={"torque": UNKNOWN})}
    posts = {
        name: point.model_copy(update={"torque": UNKNOWN}) if point.at_post else point
        for name, point in points.items()
    }
    fit = variants.vehicle(tooled(one.fit, 100, 200), mounts=silent, points=posts)
    holds = {f.hold for f in found("TQ-13", replace(one, fit=fit))}
    assert not {"tq-13-mount", "tq-13-post"} & holds


def test_a_clamp_that_is_the_joint_itself_is_told_once():
    one = design(J1)
    fit = variants.source(tooled(one.fit, 100, 200), negative="negative-post")
    assert "tq-13-post" not in {f.hold for f in found("TQ-13", replace(one, fit=fit))}


def test_no_tools_no_torque():
    one = design(J1)
    bare = replace(one.fit, shop=one.fit.shop.model_copy(update={"tools": ()}))
    assert len(found("TQ-13", replace(one, fit=bare))) > len(every_torque(one)) - 1


def every_torque(one):
    return [j for j in one.circuit.joints if j.torque and j.conductors and not j.existing]


def test_an_unread_list_asks_nothing():
    one = design(J1)
    for standard in (None, "ISO 8820-5", "ISO 8820-10"):
        sheets = tuple(
            p.model_copy(update={"standard": standard, "ratings": p.ratings})
            for p in one.fit.protections
        )
        odd = replace(one, choice=replace(one.choice, rating_A=33.0))
        assert not found("OC-26", replace(odd, fit=replace(one.fit, protections=sheets)))


def test_the_second_end_keeps_the_distance_rule_that_the_profile_names():
    fit = example_fit(J8)
    second = fit.job.second
    at = second.model_copy(update={"fuse_at": variants.quantity(second.fuse_at, 0.19)})
    moved = variants.job(fit, second=at)
    own = replace(design(J8), fit=moved)
    assert not found("SB-06", own)  # the shop's 200 mm
    boats = limited(moved, fuse_distance_rule="cfr183-455")
    (finding,) = found("SB-06", replace(own, fit=boats))  # 7 in, 177.8 mm
    assert finding.sources == ("cfr183-455",)
    assert work_out(boats, own.choice).circuit.protections[1].limit_m == pytest.approx(0.1778)


def upstream(fit, *holds):
    like = fit.protections[0]
    first = FactoryFuse(
        place="fuse box, place 3",
        rating=variants.quantity(like.ratings[0], 80.0),
        continuous=variants.quantity(like.ratings[0], 60.0),
        voltage=like.voltage,
        breaking=like.breaking,
        opens=(),
        holds=holds,
    )
    return variants.point(fit, fit.job.source.positive, upstream=first)


def test_two_fuses_in_series_by_what_the_first_one_holds():
    fit = example_fit(J1)
    one = design(J1)
    far = one.solved.fault.far_A / 80.0
    like = fit.protections[0].holds[1]
    long = like.model_copy(
        update={
            "multiple": variants.quantity(like.multiple, far * 1.01),
            "up_to": variants.quantity(like.up_to, one.solved.fault.opens_far_s * 2),
        }
    )
    short = long.model_copy(update={"up_to": variants.quantity(like.up_to, 1e-3)})
    assert not found("OC-22", replace(one, fit=upstream(fit, long)))
    assert found("OC-22", replace(one, fit=upstream(fit, short)))
    assert found("OC-22", replace(one, fit=upstream(fit)))
