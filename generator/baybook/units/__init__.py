"""The doors of figures: what a person wrote, and what a reader of other units is told."""

from baybook.units.table import EXAMPLES, RANGES, UNITS, Unit, awg_area_mm2, convert
from baybook.units.written import FigureError, Interval, gauge_named, is_awg, read

__all__ = [
    "EXAMPLES",
    "RANGES",
    "UNITS",
    "FigureError",
    "Interval",
    "Unit",
    "awg_area_mm2",
    "convert",
    "gauge_named",
    "is_awg",
    "read",
]
