"""Every figure of every example can be worked out again from its own trace."""

import math
import re
from dataclasses import replace

import pytest

from baybook.checks import judge
from baybook.quantity import State
from baybook.sizing.choose import choose
from baybook.sizing.traces import figures
from baybook.sizing.work_out import work_out
from baybook.standards import register
from baybook.terms import AmpacitySource
from variants import charger, quantity, supply
from workbooks import example_fit

GUIDES = ("brunsall-tansy/j1", "ostrigg-drey/j3", "dunstrel-cobble/j9b", "tavlow-camber/j8")
REFUSALS = ("ostrigg-drey/j4", "dunstrel-cobble/j9")

PROMISED = {
    *("supply_low", "supply_typ", "supply_high", "supply_rest", "input_power", "design_current"),
    *("loop_resistance", "conductor_temperature", "current_low", "charger_voltage_low"),
    *("drop_low", "margin_low", "current_typ", "charger_voltage_typ", "drop_typ", "ampacity"),
    *("fuse_carries", "fault_near", "fault_far", "opening_time", "withstand_near"),
    *("withstand_far", "overload_ratio", "set_voltage", "output_low", "output_high"),
    *("station_voltage", "station_current", "station_power", "output_drop"),
    *("positive_drop_typ", "return_drop_typ", "fuse_drop_typ", "idle_day", "idle_night"),
    *("cruise_day", "cruise_night", "heat", "sleep_after", "standby_days", "charge_time"),
    *("cut_W1", "cut_W2", "cut_W3", "cut_W4", "cut_W5", "force_charger_forward"),
    *("force_station_forward", "force_fixing", "tip_protrusion", "envelope_length"),
    "envelope_supply",
}


def all_figures():
    for fit in (*GUIDES, *REFUSALS):
        for figure in choose(example_fit(fit), judge).figures:
            yield pytest.param(figure, id=f"{fit}-{figure.name}")


FIGURES = tuple(all_figures())


def reckon(figure):
    """Reckon the right side of the formula with the inputs that the trace shows."""
    known = {entry.symbol: entry.value for entry in figure.inputs}
    step = known.get("step", 1.0)
    text = figure.formula.partition(" = ")[2]
    for sign, python in (("·", "*"), ("²", "**2"), ("√", "sqrt"), ("−", "-")):
        text = text.replace(sign, python)
    assert set(re.findall(r"[A-Za-z_]\w*", text)) - {
        "sqrt",
        "ln",
        "min",
        "max",
        "ceil",
        "up",
        "exp",
    } <= set(known), figure.formula
    names = {
        "sqrt": math.sqrt,
        "ln": math.log,
        "exp": math.exp,
        "min": min,
        "max": max,
        "ceil": lambda x: math.ceil(round(x, 6)),
        "up": lambda x: math.ceil(round(x / step, 9)) * step,
    }
    return eval(text, {"__builtins__": {}}, {**names, **known})  # noqa: S307 - our own formulas


@pytest.mark.parametrize("figure", FIGURES)
def test_formula_gives_the_figure(figure):
    assert reckon(figure) == pytest.approx(figure.value, rel=1e-6, abs=1e-9)


@pytest.mark.parametrize("figure", FIGURES)
def test_a_symbol_has_one_index_at_most(figure):
    """Pages and prints set one index low and no second one."""
    assert not re.findall(r"\w+_\w+_\w+", figure.formula)


@pytest.mark.parametrize("figure", FIGURES)
def test_every_input_leads_somewhere(figure):
    for entry in figure.inputs:
        assert entry.figure or entry.basis or entry.source or entry.where, entry


@pytest.mark.parametrize("figure", FIGURES)
def test_sources_are_registered(figure):
    cited = {*figure.sources, *(entry.source for entry in figure.inputs if entry.source)}
    assert figure.sources
    assert cited <= set(register())


@pytest.mark.parametrize("fit", [*GUIDES, *REFUSALS])
def test_inputs_agree_with_the_figures_they_name(fit):
    figures = {figure.name: figure for figure in choose(example_fit(fit), judge).figures}
    for figure in figures.values():
        for entry in figure.inputs:
            if entry.figure:
                assert entry.value == pytest.approx(figures[entry.figure].value), figure.name


@pytest.mark.parametrize("fit", GUIDES)
def test_promised_figures_are_there(fit):
    names = [figure.name for figure in choose(example_fit(fit), judge).figures]
    assert set(names) >= PROMISED
    assert len(names) == len(set(names))


def test_an_estimate_shows_its_factor():
    design = choose(example_fit("ostrigg-drey/j3"), judge)
    for name, factor in (("internal_resistance_low", 0.7), ("internal_resistance_high", 1.5)):
        figure = design.figure(name)
        assert figure.inputs[0].value == factor
        assert figure.inputs[1].basis.state is State.ESTIMATED
        assert figure.end == "end.estimated"


def test_what_is_unknown_has_no_figure():
    fit = example_fit("brunsall-tansy/j1")
    no_alternator = choose(supply(fit, hot_idle=None, hot_cruise=None), judge)
    assert not {"idle_day", "cruise_day"} & {figure.name for figure in no_alternator.figures}


def test_no_power_takes_no_time():
    fit = example_fit("dunstrel-cobble/j9b")
    none = charger(fit, output_power=quantity(fit.charger.output_power, 0.0))
    assert "charge_time" not in {figure.name for figure in choose(none, judge).figures}


@pytest.mark.parametrize("source", AmpacitySource)
def test_a_cable_in_a_zone_hotter_than_itself_carries_nothing(source):
    fit = example_fit("brunsall-tansy/j1")
    hot = {
        name: zone.model_copy(update={"temperature": quantity(zone.temperature, 110.0)})
        for name, zone in fit.shop.zones.items()
    }
    shop = fit.shop.model_copy(update={"zones": hot, "ampacity": source})
    bare = work_out(replace(fit, shop=shop), choose(fit, judge).choice)
    found = next(f for f in figures(bare, ()) if f.name.startswith("ampacity_"))
    assert (found.value, found.formula, found.digits) == (0, "I_T = 0", 1)


def test_a_figure_is_found_by_name_only():
    design = choose(example_fit("brunsall-tansy/j1"), judge)
    with pytest.raises(KeyError):
        design.figure("nonsense")
