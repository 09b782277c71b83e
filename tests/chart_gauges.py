"""Gauges in their order and the marine chart's formula, for the pages that choose a size."""

import math

CIRCULAR_MIL = math.pi / 4 * 0.0254**2  # mm2, by definition
AWG = (18, 16, 14, 12, 10, 8, 6, 4, 3, 2, 1, 0, -1, -2, -3)
SAE = (18, 16, 14, 12, 10, 8, 6, 4, 2, 1, 0, -1, -2, -3)


def circular_mils(current_A, total_ft, drop_V):
    """Return what the marine chart's own formula asks for."""
    return 10.75 * current_A * total_ft / drop_V


def smallest(gauges, area_mm2, needed_cmil):
    """Return the first gauge that is large enough."""
    return next(gauge for gauge in gauges if area_mm2(gauge) >= needed_cmil * CIRCULAR_MIL)
