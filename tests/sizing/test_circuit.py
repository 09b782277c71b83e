"""The circuit: one line, one alphabet, each thing once."""

import pytest

from baybook.checks import judge
from baybook.point import FactoryFuse
from baybook.sizing.choose import choose
from baybook.sizing.circuit import with_station
from baybook.sizing.joints import LETTERS
from baybook.terms import JointKind, YesNoUnknown
from variants import job, point, station, vehicle
from workbooks import example_fit

GUIDES = ("brunsall-tansy/j1", "ostrigg-drey/j3", "dunstrel-cobble/j9b")


def circuit(fit):
    return choose(fit, judge).circuit


@pytest.fixture(scope="module", params=GUIDES)
def built(request):
    return circuit(example_fit(request.param))


def test_letters_run_with_the_current(built):
    assert [(j.letter, j.role) for j in built.joints] == list(
        zip(
            "ABCDEFGHJKL",
            [
                *("source+", "fuse-in", "fuse-out", "in+", "out+", "plug+"),
                *("plug-", "out-", "in-", "return", "source-"),
            ],
            strict=True,
        )
    )
    assert "I" not in LETTERS
    assert "O" not in LETTERS


def test_each_conductor_joins_two_joints_in_the_direction_of_the_current(built):
    ends = {c.tag or c.use: c.start + c.end for c in built.conductors}
    assert ends == {"W1": "AB", "W2": "CD", "W3": "JK", "W4": "EF", "W5": "GH", "existing": "KL"}


def test_the_way_out_is_red_and_the_return_black(built):
    colours = {c.tag: c.colour for c in built.conductors if c.tag}
    assert colours == {"W1": "red", "W2": "red", "W3": "black", "W4": "red", "W5": "black"}


def test_each_joint_names_the_conductors_that_end_there(built):
    for joint in built.joints:
        ends = [c.tag for c in built.conductors if c.tag and joint.letter in (c.start, c.end)]
        assert list(joint.conductors) == ends


def test_legs_make_up_the_cut_length(built):
    for conductor in built.conductors:
        assert sum(leg.length_m for leg in conductor.legs) == pytest.approx(conductor.cut_m)


def test_the_protection_lies_between_its_two_joints(built):
    part = built.protections[0]
    assert part.start + part.end == "BC"
    assert part.at_m <= part.limit_m
    assert part.rating_written == f"{part.rating_A:g} A"


def test_only_the_vehicle_s_own_lead_is_there_already(built):
    assert [c.use for c in built.conductors if c.existing] == ["existing"]
    assert not any(part.factory for part in built.protections)


@pytest.mark.parametrize("name", ["Aal 100", "Zander 900"])
def test_another_station_is_named_in_its_place(built, name):
    fit = example_fit(GUIDES[0])
    other = with_station(built, station(fit, name=name))
    assert [d.name for d in other.devices if d.kind == "station"] == [name]
    assert [d for d in other.devices if d.kind != "station"] == [
        d for d in built.devices if d.kind != "station"
    ]


def test_a_second_battery_s_protection_stands_near_it_on_its_own_studs():
    fit = example_fit("tavlow-camber/j8")
    built = circuit(fit)
    (own,) = (part for part in built.protections if part.tag == "F2")
    (sheet,) = (one for one in fit.second_protections if one.name == own.family)
    segments = fit.vehicle.routes[fit.job.route].segments
    battery_m = sum(s.length.value for s in segments) + fit.job.output_length.value
    for role in ("load-in", "load-out"):
        stud = built.joint(role)
        assert (stud.what, stud.thread, stud.torque) == (sheet.name, sheet.thread, sheet.torque)
        assert stud.at_m == pytest.approx(battery_m - fit.job.second.fuse_at.value)
    assert built.joint("load+").at_m == pytest.approx(battery_m)
    assert (own.rating_written, own.factory) == (f"{own.rating_A:g} A", False)


def test_the_batterys_own_post_is_left_as_it_is(built):
    post = built.joint("source-")
    assert post.existing
    assert post.torque is None
    assert "negative post" in post.what


def test_torques_come_from_the_maker_of_what_is_clamped():
    at = {j.role: j.torque and j.torque.value for j in circuit(example_fit(GUIDES[2])).joints}
    assert at == {
        "source+": 7.0,  # vehicle: stud on the post
        "fuse-in": 6.5,  # sheet of the fuse
        "fuse-out": 6.5,
        "in+": 4.5,  # sheet of the charger
        "out+": None,  # push-in
        "plug+": None,
        "plug-": None,
        "out-": None,
        "in-": 4.5,
        "return": 20,  # vehicle: body point
        "source-": None,
    }


def test_devices_name_isolator_and_sensor_only_where_there_is_one():
    kinds = {fit: {d.kind for d in circuit(example_fit(fit)).devices} for fit in GUIDES}
    assert "isolator" in kinds["ostrigg-drey/j3"]
    assert "sensor" not in kinds["ostrigg-drey/j3"]
    assert "sensor" in kinds["brunsall-tansy/j1"]
    assert "isolator" not in kinds["brunsall-tansy/j1"]


def test_a_return_on_the_post_needs_no_existing_lead():
    fit = example_fit("brunsall-tansy/j1")
    battery = fit.vehicle.battery.model_copy(update={"sensor": YesNoUnknown.NO})
    source = fit.job.source.model_copy(update={"negative": "negative-post"})
    built = circuit(vehicle(job(fit, source=source), battery=battery))
    assert built.joints[-1].role == "return"
    assert built.joints[-1].device == "battery"
    assert "existing" not in {c.use for c in built.conductors}


def test_a_vehicle_without_a_listed_post_still_has_one():
    fit = example_fit("brunsall-tansy/j1")
    points = {name: p for name, p in fit.vehicle.points.items() if name != "negative-post"}
    post = circuit(vehicle(fit, points=points)).joint("source-")
    assert (post.place, post.thread) == (fit.vehicle.battery.place, None)


def fused(fit, *, continuous=20.0, opens=None):
    """Return the fit with its positive point fused by the vehicle's maker."""
    sheet = fit.protections[1]

    def amps(value, like=sheet.ratings[0]):
        return type(like)(
            value=value,
            low=value,
            high=value,
            unit="A",
            written=f"{value:g} A",
            basis=like.basis,
            where=like.where,
        )

    fuse = FactoryFuse(
        place="fuse box, place 9",
        rating=amps(25.0),
        continuous=amps(continuous),
        voltage=sheet.voltage,
        breaking=sheet.breaking,
        opens=sheet.opens if opens is None else opens,
    )
    return point(
        fit, fit.job.source.positive, factory_fuse=fuse, kind=JointKind.STUD, at_post=False
    )


def test_a_vehicle_makers_fused_point_is_the_protection():
    design = choose(fused(example_fit("brunsall-tansy/j1")), judge)
    built = design.circuit
    assert [j.role for j in built.joints][:3] == ["battery+", "source+", "in+"]
    assert built.protections[0].factory
    assert (built.protections[0].start, built.protections[0].end) == ("A", "B")
    assert built.joint("battery+").existing
    assert (design.choice.family, design.choice.rating_A) == ("", 25)
    assert {c.tag: c.use for c in built.conductors if c.tag} == {
        "W1": "feed",
        "W2": "return",
        "W3": "output+",
        "W4": "output-",
    }
    assert design.figure("fuse_carries").value == 20
    assert design.figure("cut_W1").value == design.figure("cut_W2").value


def test_its_stated_continuous_current_counts():
    refusal = choose(fused(example_fit("brunsall-tansy/j1"), continuous=9.0), judge)
    assert "OC-01" in {f.code for f in refusal.findings}


def test_a_fused_point_without_gates_is_held():
    design = choose(fused(example_fit("brunsall-tansy/j1"), opens=()), judge)
    assert "OC-12" in {f.code for f in judge(design)}
    assert "opening_time" not in {f.name for f in design.figures}
