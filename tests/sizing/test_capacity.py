"""What a cable carries by the source that the profile names: its sheet, or 33 CFR 183.425."""

import math
from dataclasses import replace
from functools import cache

import pytest
from hypothesis import given
from hypothesis import strategies as st

from baybook.checks import judge
from baybook.design import Design
from baybook.quantity import Basis, Mark, Quantity, State
from baybook.sizing.ampacity import cfr183_ampacity
from baybook.sizing.capacity import Around, by_table, capacity, gauge_within
from baybook.sizing.choose import choose
from baybook.sizing.conductor import awg_area_mm2
from baybook.sizing.traces import figures
from baybook.sizing.validity import OutOfRange
from baybook.sizing.work_out import work_out
from baybook.terms import AmpacitySource
from variants import quantity, vehicle
from workbooks import SHOP, example_fit, spoilt_fit

CFR = AmpacitySource.CFR_183_425
J9B = "dunstrel-cobble/j9b"


def by_cfr(fit):
    return replace(fit, shop=fit.shop.model_copy(update={"ampacity": CFR}))


def size(fit, area):
    return next(s for s in fit.cable.sizes if s.area.value == area)


def around(ambient=30.0, *, engine=False, bundled=2):
    return Around(ambient_C=ambient, engine_space=engine, bundled=bundled)


def rated(cable, degrees):
    return cable.model_copy(update={"conductor_max": quantity(cable.conductor_max, degrees)})


@pytest.mark.parametrize(("area", "gauge", "source"), [
    (6.0, 10, "6 mm² has the 5.26 mm² of AWG 10, not the 6.63 of AWG 9 which the table skips"),
    (10.0, 8, "8.37"), (16.0, 6, "13.30"), (25.0, 4, "21.15"), (35.0, 2, "33.62"),
    (33.6, 2, "printed digits of AWG 2"), (21.1, 4, "printed digits of AWG 4"),
    (107.2, -3, "printed digits of AWG 4/0"), (500.0, -3, "nothing thicker is in the table"),
    (13.2, 8, "0.8 % short of AWG 6: the next thinner gauge"),
])  # fmt: skip
def test_the_gauge_that_an_area_has(area, gauge, source):
    assert gauge_within(area) == gauge, source


def test_a_gauge_has_itself():
    for gauge in (18, 16, 14, 12, 10, 8, 6, 4, 3, 2, 1, 0, -1, -2, -3):
        assert gauge_within(awg_area_mm2(gauge)) == gauge


def test_thinner_than_the_table_is_refused():
    with pytest.raises(OutOfRange, match="Table 5 begins at AWG 18"):
        gauge_within(0.5)


@pytest.mark.parametrize(
    ("degrees", "here", "amps", "source"),
    [
        (105, around(), 160.0, "33 CFR 183.425 Table 5, AWG 4, 105 °C"),
        (110, around(), 160.0, "between two columns: the lower one"),
        (60, around(), 105.0, "Table 5, AWG 4, 60 °C"),
        (80, around(), 130.0, "Table 5, AWG 4, 80 °C"),
        (105, around(20), 160.0, "a cooler ambient gives nothing more"),
        (105, around(50, engine=True), 160 * 0.85, "note 1; the root law gives 0.856, the lower"),
        (
            105,
            around(70, engine=True),
            160 * math.sqrt(35 / 75),
            "hotter than note 1: the root law",
        ),
        (105, around(50), 160 * math.sqrt(55 / 75), "50 °C outside an engine space: the root law"),
        (105, around(bundled=3), 160 * 0.7, "note 2, taken below 50 V too"),
        (105, around(bundled=4), 160 * 0.6, "note 2"),
        (105, around(50, engine=True, bundled=7), 160 * 0.85 * 0.5, "notes 1 and 2"),
    ],
)
def test_table_5_by_hand(degrees, here, amps, source):
    fit = example_fit(J9B)
    read = by_table(rated(fit.cable, degrees), size(fit, 25.0), here)
    assert read.gauge == 4
    assert read.carries() == pytest.approx(amps), source
    if here.ambient_C in {30, 50} and here.engine_space == (here.ambient_C == 50):
        by_note = cfr183_ampacity(4, read.insulation_C, here.engine_space, here.bundled)
        assert read.carries() == pytest.approx(by_note)


@pytest.mark.parametrize(
    ("degrees", "here", "why"),
    [
        (50, around(), "Table 5 begins at 60 °C"),
        (105, around(105), "must be below 105 °C"),
        (80, around(50, engine=True), "no engine-space factor known for 80 °C"),
        (105, around(bundled=0), "bundled conductors"),
    ],
)
def test_what_table_5_does_not_give_is_refused(degrees, here, why):
    fit = example_fit(J9B)
    with pytest.raises(OutOfRange, match=why):
        by_table(rated(fit.cable, degrees), size(fit, 25.0), here)


def test_the_profile_names_the_source():
    fit = example_fit(J9B)
    own = size(fit, 25.0)
    assert fit.shop.ampacity is AmpacitySource.SHEET
    assert capacity(fit, fit.cable, own, around(30)) == 135
    assert capacity(by_cfr(fit), fit.cable, own, around(30)) == 160
    assert capacity(by_cfr(fit), fit.cable, own, around(110)) == 0


def test_bundling_counts_for_the_sheet_too():
    fit = example_fit(J9B)
    own = size(fit, 25.0)
    assert capacity(fit, fit.cable, own, around(30, bundled=3)) == pytest.approx(135 * 0.7)


@given(
    st.floats(-40, 104),
    st.floats(0, 60),
    st.booleans(),
    st.integers(2, 30),
    st.sampled_from(tuple(AmpacitySource)),
    st.sampled_from([6.0, 10.0, 16.0, 25.0, 35.0]),
)
def test_a_hotter_or_fuller_place_never_carries_more(  # noqa: PLR0917 - the place
    cool, more, engine, bundled, source, area
):
    fit = example_fit(J9B)
    fit = replace(fit, shop=fit.shop.model_copy(update={"ampacity": source}))
    own = size(fit, area)
    here = capacity(fit, fit.cable, own, around(cool, engine=engine, bundled=bundled))
    hotter = around(cool + more, engine=engine, bundled=bundled)
    fuller = around(cool, engine=True, bundled=bundled + 1)
    assert capacity(fit, fit.cable, own, hotter) <= here
    assert capacity(fit, fit.cable, own, fuller) <= here


@given(st.sampled_from([6.0, 10.0, 16.0, 25.0]), st.floats(-40, 104))
def test_a_thicker_conductor_never_carries_less(area, ambient):
    fit = by_cfr(example_fit(J9B))
    sizes = [s for s in fit.cable.sizes if s.area.value >= area]
    carried = [capacity(fit, fit.cable, s, around(ambient)) for s in sizes]
    assert carried == sorted(carried)


# ------------------------------------------------------------------------- in a whole design


@cache
def designed():
    return choose(by_cfr(example_fit(J9B)), judge)


def reckon(figure):
    known = {entry.symbol: entry.value for entry in figure.inputs}
    text = figure.formula.partition(" = ")[2].replace("·", "*").replace("√", "sqrt")
    return eval(text, {"__builtins__": {}}, {"sqrt": math.sqrt, "min": min, **known})  # noqa: S307


def test_a_shop_that_works_by_33_cfr(tmp_path):
    named = ("lengths:\n  segment", "ampacity: 33 CFR 183.425\n\nlengths:\n  segment")
    engine = ("name: Cabin\n", "name: Cabin\n    engine_space: true\n")
    fit = spoilt_fit(tmp_path, J9B, (SHOP, *named), (SHOP, *engine))
    assert fit.shop.ampacity is CFR
    assert fit.shop.zones["cabin"].engine_space
    assert not fit.shop.zones["sill"].engine_space
    assert isinstance(choose(fit, judge), Design)


def test_the_trace_shows_table_and_notes():
    design = designed()
    assert isinstance(design, Design)
    named = [f for f in design.figures if f.name.startswith("ampacity")]
    assert len(named) > 1
    for figure in named:
        assert figure.sources == ("cfr183-425", "heat-balance")
        assert reckon(figure) == pytest.approx(figure.value)
        assert {entry.symbol for entry in figure.inputs} >= {"I_5", "c_e", "c_b", "T_a"}


def test_the_trace_of_a_place_without_a_figure():
    fit = by_cfr(example_fit(J9B))
    zones = {
        name: zone.model_copy(update={"temperature": quantity(zone.temperature, 110.0)})
        for name, zone in fit.shop.zones.items()
    }
    hot = replace(fit, shop=fit.shop.model_copy(update={"zones": zones}))
    named = {f.name: f for f in figures(work_out(hot, designed().choice), ())}
    assert named["ampacity"].formula == "I_T = 0"
    assert named["ampacity"].sources == ("cfr183-425",)


def test_the_trace_of_a_bundle():
    fit = example_fit(J9B)
    route = fit.vehicle.routes[fit.job.route]
    segments = tuple(s.model_copy(update={"bundled": 2}) for s in route.segments)
    full = vehicle(
        fit,
        routes={
            **fit.vehicle.routes,
            fit.job.route: route.model_copy(update={"segments": segments}),
        },
    )
    choice = choose(fit, judge).choice
    free, tight = (
        {f.name: f for f in figures(work_out(one, choice), ())}["ampacity"] for one in (fit, full)
    )
    assert tight.value == pytest.approx(0.6 * free.value)
    assert reckon(tight) == pytest.approx(tight.value)
    assert "cfr183-425" in tight.sources


def test_a_cable_by_gauge_is_the_cable_by_its_area():
    """AWG 4 by ASTM B258 is 21.15 mm²: sized, looked up and crimped as that."""
    mark = Mark(file="x", line=1, column=1)
    area = awg_area_mm2(4)
    written = Quantity(
        value=area,
        low=area,
        high=area,
        unit="mm2",
        written="AWG 4",
        basis=Basis(state=State.PAPER),
        where=mark,
    )
    fit = example_fit(J9B)
    own = size(fit, 25.0).model_copy(update={"area": written})
    assert by_table(fit.cable, own, around()).gauge == 4
