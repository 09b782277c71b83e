"""The pull that a made joint must stand on a sample: crimp, screw clamp."""

from __future__ import annotations

from enum import StrEnum

from baybook.sizing.validity import listed
from baybook.standards.handbook import handbook

# Read once on import, so that the functions below open no file.
_TABLES = handbook()


class Grade(StrEnum):
    """Columns of the table of crimps."""

    COMMERCIAL = "commercial"
    MILITARY = "military"


def crimp_pull_out(awg: int, grade: Grade) -> float:
    """Least force at which a crimp on a copper conductor may come off. [N]

    [ul486a-pull] commercial, [mil-t-7928] military; at 25.4 mm/min, on a sample

    awg    26 to 2/0 as listed; 2/0 is -1
    grade  column of the table

    Raises:
        OutOfRange: a size that was not read in this grade.
    """
    return listed(_TABLES.crimp_N, (awg, grade.value), "crimp, AWG and grade")


def clamp_pull(area_mm2: float) -> float:
    """Pull that a conductor must stand in a tightened screw clamp. [N]

    [iec60947-1], Table 5; not for a crimp

    area_mm2  nominal area as listed, 1.5 to 25 [mm2]

    Raises:
        OutOfRange: an area that the table does not list.
    """
    return listed(_TABLES.clamp_N, float(area_mm2), "screw clamp, mm²")
