"""The ways through sizing and checks that no other test takes."""

from dataclasses import replace

import pytest

from baybook.checks import approve, judge, torque
from baybook.checks.fault import gates_stated
from baybook.checks.protection import distance
from baybook.checks.release import walk
from baybook.checks.second import opens_and_withstands, voltage_class
from baybook.checks.series import ours_opens_first
from baybook.checks.spacing import hole_edge
from baybook.compose import compose
from baybook.finding import Verdict
from baybook.part import HoldPoint
from baybook.point import TorqueTable
from baybook.quantity import Basis, State, Unknown
from baybook.sizing.choose import choose
from baybook.sizing.circuit import allowed_distance
from baybook.sizing.second import battery_resistance
from baybook.sizing.traces import figures
from baybook.sizing.work_out import work_out
from baybook.standards.rule_sets import rule_sets
from baybook.terms import Fastener, JointKind, PassageKind, TableKind
from compose.jobs import behind_a_factory_fuse
from variants import point, quantity, source, vehicle
from workbooks import example_fit

J1, J8 = "brunsall-tansy/j1", "tavlow-camber/j8"


def bare(fit):
    return work_out(fit, choose(example_fit(fit.id), judge).choice)


def mounted(fit, **update):
    old = fit.vehicle.mounts[fit.job.mount]
    return vehicle(fit, mounts={**fit.vehicle.mounts, fit.job.mount: old.model_copy(update=update)})


def test_a_published_distance_replaces_the_shop_s():
    fit = example_fit(J1)
    name, rule = next(iter(rule_sets().distance.items()))
    limits = fit.shop.limits.model_copy(update={"fuse_distance_rule": name})
    fit = replace(fit, shop=fit.shop.model_copy(update={"limits": limits}))
    assert allowed_distance(fit, conduit=False) == rule.plain_m
    assert allowed_distance(fit, conduit=True) == rule.enclosed_m
    far = source(fit, fuse_at=quantity(fit.job.source.fuse_at, rule.plain_m + 0.01))
    found = list(distance(bare(far)))
    assert [one.sources for one in found] == [(name,)]
    near = source(fit, fuse_at=quantity(fit.job.source.fuse_at, rule.plain_m - 0.01))
    assert not list(distance(bare(near)))


def test_an_estimated_second_battery_is_taken_stronger_and_weaker():
    battery = example_fit(J8).second
    ohm = replace(battery.internal, basis=Basis(state=State.ESTIMATED, by="bay"))
    estimated = battery.model_copy(update={"internal": ohm})
    assert battery_resistance(estimated) == pytest.approx((0.7 * ohm.value, 1.5 * ohm.value))


def test_the_vehicle_s_fuse_is_shown_to_hold_longer():
    fit = example_fit(J1)
    name, fused = fit.job.source.positive, example_fit("tessick-orlet/j7")
    factory = fused.vehicle.points[fused.job.source.positive].factory_fuse
    for multiple, quiet in ((1.35, False), (500.0, True)):
        ratio = quantity(fit.charger.efficiency, multiple)
        first = factory.model_copy(update={"holds": (HoldPoint(multiple=ratio),)})
        found = list(ours_opens_first(bare(point(fit, name, upstream=first))))
        assert (not found) is quiet


def test_the_gates_of_the_vehicle_s_own_fuse_count_where_it_protects():
    fit = behind_a_factory_fuse()
    name = fit.job.source.positive
    silent = fit.vehicle.points[name].factory_fuse.model_copy(update={"opens": ()})
    assert not list(gates_stated(bare(fit)))
    found = list(gates_stated(bare(point(fit, name, factory_fuse=silent))))
    assert [one.verdict for one in found] == [Verdict.HOLD]


def test_an_edge_far_enough_away():
    fit = example_fit(J1)
    route = fit.vehicle.routes[fit.job.route]
    wall = route.segments[0].passage.model_copy(
        update={"form": PassageKind.OPEN, "edge": quantity(route.segments[0].length, 0.02)}
    )
    segments = (route.segments[0].model_copy(update={"passage": wall}), *route.segments[1:])
    laid = route.model_copy(update={"segments": segments})
    design = bare(vehicle(fit, routes={**fit.vehicle.routes, fit.job.route: laid}))
    assert not list(hole_edge(design))


def test_a_fixing_whose_torque_nobody_knows():
    fit = example_fit(J1)
    old = fit.vehicle.mounts[fit.job.mount].torque
    unknown = Unknown(basis=old.basis, where=old.where)
    found = list(torque.unknown(bare(mounted(fit, torque=unknown))))
    assert "circuit.mount.torque" in {one.place for one in found}
    assert {one.verdict for one in found} == {Verdict.HOLD}


def test_two_papers_that_agree():
    fit = example_fit(J1)
    name = fit.job.source.positive
    stated = fit.vehicle.points[name].torque
    assert not list(torque.two_makers(bare(point(fit, name, torque_other=stated))))
    other = quantity(stated, 2 * stated.value)
    assert list(torque.two_makers(bare(point(fit, name, torque_other=other))))


def test_the_trace_of_a_fixing_that_nobody_rates():
    fit = example_fit(J1)
    names = {f.name for f in figures(bare(mounted(fit, holds=None)), ())}
    assert "fixing_holds" not in names
    screw = {
        "fastener": Fastener.SELF_TAPPING,
        "screw": quantity(fit.job.source.fuse_at, 0.0048),
        "sheet_strength": quantity(replace(fit.charger.mass, unit="MPa"), 270.0),
        "holds": None,
    }
    assert "fixing_holds" in {f.name for f in figures(bare(mounted(fit, **screw)), ())}


def test_a_part_too_weak_for_the_volts_of_its_class():
    fit = example_fit(J8)
    weak = tuple(
        sheet.model_copy(update={"voltage": quantity(sheet.voltage, 16.0)})
        for sheet in fit.second_protections
    )
    assert list(voltage_class(bare(replace(fit, second_protections=weak))))


def test_a_table_that_serves_its_own_kind():
    fit = example_fit(J1)
    name = fit.job.source.negative
    own = fit.vehicle.points[name]
    unknown = Unknown(basis=own.torque.basis, where=own.torque.where)
    brass = TorqueTable(kind=TableKind.BRASS)
    served = bare(point(fit, name, torque=unknown, kind=JointKind.STUD, table=brass))
    assert not list(torque.table_of_another_kind(served))
    post = bare(point(fit, name, torque=unknown, kind=JointKind.POST, table=brass))
    assert list(torque.table_of_another_kind(post))


def test_a_second_battery_that_burns_its_cable_before_its_fuse_opens():
    fit = example_fit(J8)
    slow = tuple(
        sheet.model_copy(
            update={
                "opens": tuple(
                    gate.model_copy(update={"within": quantity(gate.within, 5.0)})
                    for gate in sheet.opens
                )
            }
        )
        for sheet in fit.second_protections
    )
    found = list(opens_and_withstands(bare(replace(fit, second_protections=slow))))
    assert "circuit.F2.withstand" in {one.place for one in found}


def test_a_second_battery_without_a_split_relay_is_walked_too():
    fit = vehicle(example_fit(J8), split_relay=None)
    checked = approve(choose(fit, judge))
    assert "ST-18" not in {fault.code for fault in walk(checked, compose(checked))}
