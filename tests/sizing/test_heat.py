"""Heat, derating, and what pulls at the fixings."""

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from baybook.sizing.heat import derated_share, heat_loss, solve_place
from workbooks import example_fit


@pytest.mark.parametrize(
    ("ambient", "share"),
    [(20, 1), (45, 1), (46, 0.98), (50, 0.90), (69.9, 0.502), (70, 0), (90, 0)],
)
def test_derating(ambient, share):
    derating = example_fit("dunstrel-cobble/j9b").charger.derating
    assert derated_share(derating, ambient) == pytest.approx(share)


@given(st.floats(-20, 100), st.floats(0.01, 30))
def test_hotter_never_gives_more(ambient, more):
    derating = example_fit("dunstrel-cobble/j9b").charger.derating
    assert derated_share(derating, ambient + more) <= derated_share(derating, ambient)


@given(st.floats(1, 1000), st.floats(0.5, 0.99))
def test_energy_balance(W, efficiency):
    assert heat_loss(W, efficiency) + W == pytest.approx(W / efficiency)


def test_place_of_j9b():
    place = solve_place(example_fit("dunstrel-cobble/j9b"), 520)
    assert place.tip_m == pytest.approx(0.020 - 0.0012)
    assert place.charger_N == pytest.approx(2.3 * 20 * 9.80665)
    assert place.fixing_N == pytest.approx(place.charger_N / 3)
    assert place.derated == pytest.approx(0.9)


@pytest.mark.parametrize("more", [0, 1])
def test_where_no_fixing_is_left_none_is_strong_enough(more):
    fit = example_fit("brunsall-tansy/j1")
    lost = fit.vehicle.mounts[fit.job.mount].fixings + more
    restraint = fit.shop.restraint.model_copy(update={"fixings_lost": lost})
    fit = replace(fit, shop=fit.shop.model_copy(update={"restraint": restraint}))
    assert solve_place(fit, 240).fixing_N == float("inf")
