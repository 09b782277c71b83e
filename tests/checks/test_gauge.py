"""The gauge that a cable's sheet names: AWG and SAE share their numbers, not their copper."""

from dataclasses import replace

import pytest

from baybook.checks.gauge import sae_area_mm2
from baybook.finding import Verdict
from baybook.sizing.conductor import awg_area_mm2
from baybook.standards import load
from checks.asking import design, found, word
from variants import quantity
from workbooks import example_fit

J1 = "brunsall-tansy/j1"
SAE = sorted(load().sae_area_cmil)


def named(area_mm2, gauge, **update):
    """The design of J1 with a cable whose second size has this area and is called so."""
    one = design(J1)
    cable = one.fit.cable
    size = cable.sizes[1].model_copy(
        update={"area": replace(quantity(cable.sizes[1].area, area_mm2), **update)}
        | {"nearest_awg": gauge}
    )
    sizes = (cable.sizes[0], size, *cable.sizes[2:])
    return replace(one, fit=replace(one.fit, cable=cable.model_copy(update={"sizes": sizes})))


@pytest.mark.parametrize(
    ("area", "gauge", "told"),
    [
        (8.37, "AWG 8", None),  # ASTM B258: 8.37 mm²
        (8.30, "AWG 8", None),  # within 1 %, as areas are printed
        (8.20, "AWG 8", "less"),
        (7.50, "AWG 8", "sae"),  # SAE J1127: 14 810 cmil are 7.50 mm²
        (7.50, "8 AWG", "sae"),
        (6.00, "AWG 8", "less"),
        (31.6, "AWG 2", "sae"),
        (16.0, "AWG 5", "less"),  # there is no SAE 5
        (63.4, "AWG 2/0", "sae"),
    ],
)
def test_less_copper_than_the_gauge_it_is_sold_under(area, gauge, told):
    faults = found("CA-13", named(area, gauge))
    assert [word(fault.values["what"]) for fault in faults] == ([told] if told else [])
    assert all(fault.verdict is Verdict.CAUTION for fault in faults)


def test_how_much_copper_is_missing():
    # 14 810 of 16 510 circular mils: 10.3 % less
    (fault,) = found("CA-13", named(7.504, "AWG 8"))
    values = dict(fault.values["what"].values)
    assert values["short"].value == pytest.approx(1 - 14810 / 16510, abs=0.0005)
    assert values["number"].text == "8"
    assert fault.allowed.value == pytest.approx(8.366, abs=0.001)


def test_a_tolerance_that_reaches_the_gauge_is_believed():
    assert found("CA-13", named(8.0, "AWG 8"))
    assert not found("CA-13", named(8.0, "AWG 8", high=8.4))


def test_the_lead_s_sheet_is_looked_at_too():
    one = design(J1)
    lead = one.fit.output_cable
    size = lead.sizes[0].model_copy(update={"nearest_awg": "AWG 10"})
    changed = replace(one.fit, output_cable=lead.model_copy(update={"sizes": (size,)}))
    (fault,) = found("CA-13", replace(one, fit=changed))
    assert fault.values["cable"].text == lead.name


@pytest.mark.parametrize("cable", ["cable", "output_cable"])
def test_metric_sizes_of_the_example_have_the_copper_of_their_gauge(cable):
    one = design(J1)
    assert getattr(example_fit(J1), cable).sizes
    assert not found("CA-13", one)


@pytest.mark.parametrize("gauge", SAE)
def test_sae_never_flatters(gauge):
    assert sae_area_mm2(gauge) < awg_area_mm2(gauge)


def test_a_higher_sae_gauge_is_a_thinner_wire():
    areas = [sae_area_mm2(gauge) for gauge in SAE]
    assert areas == sorted(areas, reverse=True)


def test_a_gauge_that_the_table_does_not_list_has_no_sae_area():
    assert sae_area_mm2(3) is None
