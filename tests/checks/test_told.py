"""What a rule says of what it finds: which of two words, which figure; and its limit itself."""

from dataclasses import replace

import pytest

from baybook.finding import Verdict
from baybook.terms import Polarity
from checks.asking import design, found, solved, word
from variants import charger, quantity, source, station, supply
from workbooks import example_fit

J1, J9B = "brunsall-tansy/j1", "dunstrel-cobble/j9b"


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


def test_less_than_an_ampere_to_spare_is_no_loss():
    one = solved(design(J1), "budget", idle_day_A=0.5, idle_night_A=-3.0)
    (fault,) = found("SU-03", one)
    assert word(fault.values["balance"]) == "loses_night"
    one = solved(design(J1), "budget", idle_day_A=-3.0, idle_night_A=0.5)
    (fault,) = found("SU-03", one)
    assert word(fault.values["balance"]) == "loses_day"


def test_a_default_that_no_reset_brings_back_destroys_only_once():
    fit = charger(example_fit(J1), default_after_reset=False)
    one = replace(design(J1), fit=fit)
    top = fit.station.absolute.low
    assert not found("OV-05", solved(one, "output", default_high_V=top))
    (fault,) = found("OV-05", solved(one, "output", default_high_V=top + 0.1))
    assert fault.verdict is Verdict.HOLD
