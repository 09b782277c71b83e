"""What may protect the feed, and the two faults."""

from dataclasses import replace

import pytest

from baybook.checks import judge
from baybook.quantity import Basis, Mark, State, Unknown
from baybook.sizing.choose import choose
from baybook.sizing.protection import (
    continuous_factor,
    derating_factor,
    gates_of,
    internal_resistance,
    options,
    sure_opening,
)
from baybook.sizing.ratings import smallest_rating
from baybook.sizing.second import second_options, second_rating
from baybook.sizing.validity import OutOfRange
from baybook.sizing.work_out import work_out
from variants import charger, quantity, vehicle
from workbooks import example_fit

J1, J3, J9B = "brunsall-tansy/j1", "ostrigg-drey/j3", "dunstrel-cobble/j9b"


@pytest.mark.parametrize(
    ("ambient", "d"), [(20, 1.0), (40, 1.0), (41, 0.98), (50, 0.97), (51, 0.93), (70, 0.92)]
)
def test_derating_takes_the_next_hotter_row(ambient, d):
    assert derating_factor(example_fit(J1).protections[0].derating, ambient) == d


def test_beyond_its_table_nothing_is_known():
    fit = example_fit(J1)
    assert derating_factor(fit.protections[0].derating, 71) is None
    assert derating_factor((), 20) is None
    assert continuous_factor(fit, fit.protections[0], 71) is None


@pytest.mark.parametrize(
    ("fit", "I_B", "found"),
    [
        # I_n · 0.80 · d ≥ I_B: 30 · 0.8 · 0.92 = 22.1; 70 · 0.8 · 0.93 = 52.1;
        # 50 · 0.8 · 0.97 = 38.8
        (J1, 20, [("tarrock-bf32", 30), ("tarrock-bf70h", 30)]),
        (J1, 15, [("tarrock-bf32", 25), ("tarrock-bf70h", 30)]),
        (J9B, 46, [("tarrock-bf32", 70), ("tarrock-bf70h", 70)]),
        (J3, 36, [("tarrock-bf32", 50), ("tarrock-bf70h", 50), ("tarrock-bt", 50)]),
        # above every rating of one family: that family is out
        (J9B, 65, [("tarrock-bf32", 100)]),
        # above all: the largest of each, for a rule to refuse
        (J9B, 200, [("tarrock-bf70h", 80), ("tarrock-bf32", 125)]),
    ],
)
def test_smallest_rating_that_carries(fit, I_B, found):
    assert [(name, rating.value) for name, rating in options(example_fit(fit), I_B)] == found


def test_a_small_load_has_a_rating_and_a_rating_of_nothing_is_none():
    assert smallest_rating([5.0, 2.0, 1.0], 0.75, 0.7) == 1.0
    with pytest.raises(OutOfRange, match="rating 0 A: must be above 0 A"):
        smallest_rating([5.0, 0.0], 0.75, 0.7)


@pytest.mark.parametrize(
    ("multiple", "within"),
    [(3.4, None), (3.5, 5), (5.9, 5), (6, 0.5), (19.9, 0.5), (20, 0.01), (99, 0.01)],
)
def test_sure_opening(multiple, within):
    gates = example_fit(J1).protections[0].opens
    assert sure_opening(gates, 30, 30 * multiple) == within


def test_no_gates_promise_nothing():
    assert sure_opening((), 30, 1e6) is None


def test_gates_slower_than_the_adiabatic_law_do_not_count():
    """[iec60364-4-43] 434.5.2 holds up to 5 s; a gate of no time at all is none."""
    fit = example_fit(J1)
    slow, quick, fastest = fit.protections[0].opens
    for within in (5.1, 0.0):
        gate = slow.model_copy(update={"within": quantity(slow.within, within)})
        sheet = fit.protections[0].model_copy(update={"opens": (gate, quick, fastest)})
        changed = replace(fit, protections=(sheet, *fit.protections[1:]))
        assert gates_of(changed, "tarrock-bf32") == (quick, fastest)
    assert len(gates_of(fit, "tarrock-bf32")) == 3


@pytest.mark.parametrize("less_K", [0, 5])
def test_a_cable_that_may_not_grow_warmer_stands_no_fault(less_K):
    fit = example_fit(J1)
    most = quantity(fit.cable.conductor_max, fit.cable.conductor_max.value - less_K)
    same = fit.cable.model_copy(update={"short_circuit": most})
    refusal = choose(replace(fit, cable=same), judge)
    assert "OC-08" in {f.code for f in refusal.findings}


def test_measured_resistance_keeps_its_tolerance_and_an_estimate_takes_factors():
    assert internal_resistance(example_fit(J9B)) == pytest.approx((3.78e-3, 4.62e-3))
    assert internal_resistance(example_fit(J3)) == pytest.approx((0.7 * 7.2e-3, 1.5 * 7.2e-3))


def test_unknown_battery_has_no_faults():
    fit = example_fit(J1)
    basis = Basis(state=State.MEASURED, by="bay")
    unknown = Unknown(basis=basis, where=Mark("fits/vehicles/x/vehicle.yaml", 9, 3))
    battery = fit.vehicle.battery.model_copy(update={"internal": unknown})
    bare = vehicle(fit, battery=battery)
    assert internal_resistance(bare) is None
    fault = choose(bare, judge).solved.fault
    assert (fault.near_A, fault.far_A, fault.withstand_near, fault.opens_far_s) == (None,) * 4


def test_far_fault_is_the_smaller_one():
    for fit in (J1, J3, J9B):
        fault = choose(example_fit(fit), judge).solved.fault
        assert fault.far_A < fault.near_A
        assert fault.k == pytest.approx(134.8, abs=0.05)  # printed in the scenario


def test_a_choice_can_be_worked_out_again():
    design = choose(example_fit(J1), judge)
    assert work_out(design.fit, design.choice).solved == design.solved


@pytest.mark.parametrize(
    ("amps", "rating"),
    [(15.0, 30), (22.3, 30), (22.4, 40), (40.0, 70), (500.0, 80)],  # I_n · 0.80 · 0.93
)
def test_the_second_battery_s_end_takes_the_smallest_rating_that_carries(amps, rating):
    fit = example_fit("tavlow-camber/j8")
    zones = {
        name: zone.model_copy(update={"temperature": quantity(zone.temperature, 60.0)})
        for name, zone in fit.shop.zones.items()
    }
    warm = replace(fit, shop=fit.shop.model_copy(update={"zones": zones}))
    warm = charger(warm, output_current=quantity(fit.charger.output_current, amps))
    assert dict(second_options(warm))["tarrock-bf70h"] == rating


def test_the_second_battery_s_rating_is_written_as_on_its_sheet():
    design = choose(example_fit("tavlow-camber/j8"), judge)
    written = second_rating(design.fit, design.choice)
    assert (written.value, written.written) == (
        design.choice.second_rating_A, f"{design.choice.second_rating_A:g} A"
    )  # fmt: skip
