"""The pull that a made joint must stand: a crimp on a sample, a cable in a screw clamp."""

from __future__ import annotations

from baybook.sizing.lengths import round_up
from baybook.sizing.validity import above, listed
from baybook.standards import load
from baybook.standards.handbook import handbook

# Read once on import, so that the functions below open no file.
_TABLES = handbook()
_GRAVITY = load().constants["standard_gravity"]
SCALE_STEP_KG = 0.1  # a hanging scale shows a tenth of a kilogram


def crimp_pull_out(awg: int) -> float:
    """Least force at which a crimp on a copper conductor may come off. [N]

    [ul486a-pull], commercial grade; at 25.4 mm/min, on a sample

    awg  26 to 2/0 as listed; 2/0 is -1

    Raises:
        OutOfRange: a size that was not read.
    """
    return listed(_TABLES.crimp_N, awg, "crimp, AWG")


def clamp_pull(area_mm2: float) -> float:
    """Pull that a conductor must stand in a tightened screw clamp. [N]

    [iec60947-1], Table 5; not for a crimp

    area_mm2  nominal area as listed, 1.5 to 25 [mm2]

    Raises:
        OutOfRange: an area that the table does not list.
    """
    return listed(_TABLES.clamp_N, float(area_mm2), "screw clamp, mm²")


def scale_reading(force_N: float) -> float:
    """What a hanging scale shows at this pull, rounded up to the tenth that it shows. [kg]

    m = F / 9.80665 m/s2        [cgpm-1901]

    force_N  above 0 [N]

    Raises:
        OutOfRange: a force outside its range.
    """
    above(force_N, 0, "pull", "N")
    return round_up(force_N / _GRAVITY, SCALE_STEP_KG)
