"""The charts of a worked-out design: points of the same functions that its figures come from."""

from __future__ import annotations

from baybook.chart import Chart
from baybook.design import Design
from baybook.sizing.chart_opening import opening_charts
from baybook.sizing.chart_power import power_chart
from baybook.sizing.chart_voltage import voltage_chart


def charts(design: Design) -> tuple[Chart, ...]:
    """Return the charts; those for which there are no figures are absent.

    [shop-rule]

    Power against set voltage; voltage along the run, where the power arrives at all; the
    opening of each protection against the withstand of what it protects.
    """
    return (power_chart(design), *voltage_chart(design), *opening_charts(design))
