"""A reader's own station gets the verdict of the rules that a station of the workbook gets."""

from dataclasses import fields, replace
from functools import cache

import pytest
from hypothesis import given
from hypothesis import strategies as st

from baybook.checks import RULES, judge
from baybook.checks.equipment import own_station
from baybook.equipment import Answer, Own, Reason, Said
from baybook.finding import Verdict
from baybook.sizing.choose import choose
from baybook.sizing.outlet import lead_limit
from baybook.sizing.work_out import work_out
from baybook.terms import Polarity
from variants import charger, job, quantity, station
from workbooks import example_fit

J1, J2, J9B = "brunsall-tansy/j1", "brunsall-tansy/j2", "dunstrel-cobble/j9b"
FITS = (J1, J2, "ostrigg-drey/j3", J9B)
# The rules of the output that a station decides; OV-12 asks more of a station that is another.
REFUSING = ("OV-01", "OV-03", "OV-02", "OV-08", "OV-10", "OV-07")
HOLDING = ("OV-04", "OV-05")
FIGURES = {
    "window_min_V": "window_min",
    "start_V": "start",
    "window_max_V": "window_max",
    "absolute_V": "absolute",
    "input_A": "input_current",
    "input_W": "input_power",
}


@cache
def design(fit_id):
    return choose(example_fit(fit_id), judge)


def own_of(fit):
    sheet = fit.station
    volts = {field: getattr(sheet, name).value for field, name in FIGURES.items()}
    return Own(**volts, connector=sheet.connector, polarity=sheet.polarity.value)


def codes(answer, said):
    return [reason.code for reason in answer.reasons if reason.said is said]


def ruled(fit_id, own):
    """Return what the rules themselves refuse and hold, with the station in the guide's place."""
    one = design(fit_id)
    sheet = {name: quantity(getattr(one.fit.station, name), getattr(own, field))
             for field, name in FIGURES.items()}  # fmt: skip
    bare = work_out(station(one.fit, connector=own.connector, **sheet), one.choice)
    found = {code: [f.verdict for f in RULES[code](bare)] for code in REFUSING + HOLDING}
    refused = [code for code in REFUSING if Verdict.REFUSED in found[code]]
    return refused, [code for code in HOLDING if Verdict.HOLD in found[code]]


def near(*limits):
    steps = st.sampled_from((-3.0, -0.5, -1e-6, 0.0, 1e-6, 0.5, 3.0))
    return st.one_of(st.floats(1, 120), st.builds(lambda a, b: max(a + b, 0.1),
                                                  st.sampled_from(limits), steps))  # fmt: skip


@st.composite
def stations(draw, outlet):
    volts = near(outlet.low_V, outlet.high_V, outlet.default_low_V, outlet.default_high_V,
                 outlet.high_V / (1 - outlet.absolute_margin))  # fmt: skip
    low, start, top, absolute = sorted(draw(volts) for _ in range(4))
    return Own(
        window_min_V=low,
        start_V=start,
        window_max_V=top,
        absolute_V=absolute,
        input_A=draw(near(outlet.charger_A, outlet.plug_A, outlet.lead_A)),
        input_W=draw(near(outlet.full_W, outlet.counted_W, outlet.lead_A * outlet.set_V)),
        connector=draw(st.sampled_from((outlet.connector, *outlet.mates, "another"))),
        polarity=outlet.polarity,
    )


@pytest.mark.parametrize("fit_id", FITS)
@given(data=st.data())
def test_it_refuses_and_holds_what_the_rules_do(fit_id, data):
    outlet = design(fit_id).outlet
    own = data.draw(stations(outlet))
    answer = own_station(outlet, own)
    refused, held = ruled(fit_id, own)
    assert codes(answer, Said.NO) == refused
    assert [code for code in codes(answer, Said.HOLD) if code in HOLDING] == held


@pytest.mark.parametrize("fit_id", FITS)
def test_the_guides_own_station_is_not_refused(fit_id):
    one = design(fit_id)
    assert own_station(one.outlet, own_of(one.fit)).verdict == "not refused"


def test_no_answer_is_a_yes():
    one = design(J9B)
    best = own_station(one.outlet, own_of(one.fit))
    assert codes(best, Said.HOLD) == ["OV-09"]
    assert Answer(reasons=(Reason(said=Said.HOLD, code="OV-09"),)).verdict == "not refused"


@given(data=st.data())
def test_a_blank_counts_as_the_worst_that_may_stand_there(data):
    """What is not refused with a blank is not refused with any figure; a refusal stays one."""
    outlet = design(data.draw(st.sampled_from(FITS))).outlet
    whole = data.draw(stations(outlet))
    names = [field.name for field in fields(Own)]
    blanks = data.draw(st.sets(st.sampled_from(names), min_size=1))
    blank = replace(whole, **dict.fromkeys(blanks))
    with_blank, filled = own_station(outlet, blank), own_station(outlet, whole)
    if with_blank.verdict == "not refused":
        assert filled.verdict == "not refused"
    if with_blank.verdict == "no":
        assert filled.verdict == "no"


def test_every_field_but_power_is_needed_somewhere():
    one = design(J2)  # its plug carries less than the charger may give
    own = own_of(one.fit)
    needed = {"window_min_V": "OV-02", "start_V": "OV-02", "window_max_V": "OV-02",
              "absolute_V": "OV-01", "input_A": "OV-10", "connector": "OV-08",
              "polarity": "OV-12"}  # fmt: skip
    for name, code in needed.items():
        answer = own_station(one.outlet, replace(own, **{name: None}))
        assert answer.verdict == "unknown", name
        assert code in codes(answer, Said.UNKNOWN), name
    without_power = own_station(one.outlet, replace(own, input_W=None))
    assert codes(without_power, Said.UNKNOWN) == ["CA-01"]


@pytest.mark.parametrize(
    ("changes", "said"),
    [
        ({"input_A": 4.0, "input_W": 400.0}, []),  # it draws no more than the lead brings
        ({"input_A": 9.0, "input_W": 5.0 * 40.0}, []),  # 5 A at the setting
        ({"input_A": 9.0, "input_W": 400.0}, [(Said.NO, "OV-07")]),
        ({"input_A": 4.0, "input_W": None}, []),
        ({"input_A": None, "input_W": 400.0}, [(Said.UNKNOWN, "OV-07")]),
        ({"input_A": 9.0, "input_W": None}, [(Said.UNKNOWN, "OV-07")]),
    ],
)
def test_a_lead_that_drops_too_much_for_a_larger_station(changes, said):
    one = design(J9B)
    outlet = replace(one.outlet, lead_A=5.0, set_V=40.0, full_W=400.0, charger_A=9.0)
    answer = own_station(outlet, replace(own_of(one.fit), **changes))
    assert [(r.said, r.code) for r in answer.reasons if r.code == "OV-07"] == said


def test_more_power_than_the_input_side_was_judged_for_is_unknown():
    one = design(J2)
    assert one.outlet.counted_W < one.outlet.full_W
    more = replace(own_of(one.fit), input_W=one.outlet.counted_W + 1)
    assert codes(own_station(one.outlet, more), Said.UNKNOWN) == ["CA-01"]
    few_amps = replace(more, input_A=one.outlet.counted_W / one.outlet.high_V - 0.01)
    assert own_station(one.outlet, few_amps).verdict == "not refused"


@pytest.mark.parametrize(
    ("wired", "entered", "said"),
    [
        ("by pin", "by pin", None),
        ("centre positive", "centre positive", None),
        ("centre negative", "centre negative", Said.HOLD),
        ("centre negative", "centre positive", Said.NO),
        ("centre positive", "centre negative", Said.NO),
        ("by pin", "centre positive", Said.NO),
        ("unknown", "centre positive", Said.HOLD),
        ("unknown", None, Said.UNKNOWN),
        ("by pin", "unknown", Said.UNKNOWN),
    ],
)
def test_a_plug_that_is_wired_the_other_way_round_is_refused(wired, entered, said):
    one = design(J9B)
    answer = own_station(
        replace(one.outlet, polarity=wired), replace(own_of(one.fit), polarity=entered)
    )
    assert [r.said for r in answer.reasons if r.code == "OV-12"] == ([said] if said else [])
    assert wired in {word.value for word in Polarity}


@pytest.mark.parametrize("change", [{"start_V": 200.0}, {"absolute_V": 0.0}, {"input_W": -1.0}])
def test_figures_that_contradict_each_other_tell_nothing(change):
    one = design(J9B)
    answer = own_station(one.outlet, replace(own_of(one.fit), **change))
    assert answer.verdict != "not refused"
    assert "DA-15" in codes(answer, Said.UNKNOWN)


def test_a_default_from_the_box_above_the_absolute_maximum_is_a_hold():
    one = design(J9B)
    outlet = replace(one.outlet, default_after_reset=False, default_high_V=101.0)
    answer = own_station(outlet, own_of(one.fit))
    assert codes(answer, Said.HOLD) == ["OV-05", "OV-09"]
    back = own_station(replace(outlet, default_after_reset=True), own_of(one.fit))
    assert codes(back, Said.NO) == ["OV-03"]


def test_the_lead_carries_up_to_its_drop_and_no_further():
    one = design(J9B)
    thin = job(one.fit, output_length=quantity(one.fit.job.output_length, 30.0))
    long = replace(work_out(thin, one.choice), settings=one.settings)
    limit = lead_limit(long)
    assert limit < one.fit.charger.output_current.value
    for amps, code in ((limit - 1e-6, []), (limit + 1e-6, ["OV-07"])):
        sheet = station(long.fit, input_current=quantity(long.fit.station.input_current, amps))
        strong = charger(sheet, output_power=quantity(sheet.charger.output_power, 5000.0))
        choice = replace(one.choice, power_W=5000.0)
        full = station(strong, input_power=quantity(sheet.station.input_power, 5000.0))
        bare = work_out(full, choice)
        assert [c for c in ("OV-07",) if list(RULES[c](bare))] == code


def test_a_guide_for_a_battery_has_no_such_form():
    assert choose(example_fit("tavlow-camber/j8"), judge).outlet is None
