"""Marine charts by their own formula, and breakers by cold cranking current."""

import re

import pytest

from baybook.checks.gauge import sae_area_mm2
from baybook.sizing.conductor import awg_area_mm2
from baybook.sizing.source import prospective_current
from chart_gauges import AWG, SAE, circular_mils, smallest

DROP = 0.36  # V, 3 % of 12 V
CHART_AWG = tuple(gauge for gauge in AWG if gauge != 3)  # the charts know no 3 AWG


def by_formula(row):
    """Return the gauge that the chart's formula asks for, by AWG and by SAE area."""
    needed = circular_mils(row.number("I"), row.number("L_total_ft"), DROP)
    return smallest(CHART_AWG, awg_area_mm2, needed), smallest(SAE, sae_area_mm2, needed)


@pytest.mark.rows("marine_chart", "E11-F")
def test_formula_of_the_chart(row):
    assert row["conditions"].startswith("CM = K*I*L/E, K=10.75"), row
    assert circular_mils(10, 30, DROP) == pytest.approx(10.75 * 10 * 30 / DROP), row


@pytest.mark.rows("marine_chart", "E11-T3-*")
def test_a_cell_against_its_formula(row, as_gauge):
    awg, sae = by_formula(row)
    noted = re.search(r"AWG ([\d/]+) / SAE ([\d/]+)", row["remark"]).groups()
    assert [as_gauge(gauge) for gauge in noted] == [awg, sae], row
    printed = as_gauge(row["value"])
    if row["kind"] == "table":
        assert printed in {awg, sae}, row
    else:  # the page itself errs, to either side
        assert printed not in {awg, sae}, row


@pytest.mark.rows("marine_chart", "E11-AIC-*-[012]")
def test_breakers_by_cold_cranking_current(row):
    # the table is entered by its highest battery: what that delivers is what the breaker must break
    most_cca = {"650 CCA or less": 650, "651-1100 CCA": 1100, "over 1100 CCA": 2200}
    cca = most_cca[row["conditions"]]
    current = prospective_current(12.6, (12.6 - 7.2) / cca)
    # a rating by this table alone may be too small: ours is held against the measured
    # resistance, or 0.7 times an estimated one
    assert row.value <= current, row


@pytest.mark.rows("marine_chart", "E11-AIC-lim")
def test_the_table_of_breakers_ends_where_its_battery_ends(row):
    assert row["value"] == "2200 CCA or 500 Ah", row
    assert prospective_current(12.6, (12.6 - 7.2) / 2200) > 5000, row
