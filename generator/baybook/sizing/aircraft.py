"""The aircraft circular's wire and nut tables, cell by cell: a second opinion, never a default.

Its wire is thinner than ASTM B258's solid round of the same number in some sizes and thicker
in others, and its resistances are of tin-plated strands: a gauge of one table is never read
in another.
"""

from __future__ import annotations

from baybook.sizing.validity import listed
from baybook.standards import load
from baybook.standards.handbook import handbook

# Read once on import, so that the functions below open no file.
_TABLES = handbook()
_CONSTANTS = load().constants
_CIRCULAR_MIL_MM2 = _CONSTANTS["circular_mil"]
_NEWTON_METRE_PER_LBF_INCH = _CONSTANTS["lbf_inch"]
_METRES_PER_KFT = 304.8  # [unit-definitions]


def aircraft_wire_r20(awg: int) -> float:
    """Highest resistance at 20 °C of tin-plated aircraft wire. [ohm/m]

    [faa-ac43-13-1b], Table 11-9, converted from ohm per 1000 ft

    awg  24 to 4/0, the even ones and 1; 1/0 is 0, 4/0 is -3

    Raises:
        OutOfRange: a gauge that the table does not list.
    """
    return listed(_TABLES.aircraft_r20_ohm_per_kft, awg, "aircraft wire, AWG") / _METRES_PER_KFT


def aircraft_wire_area_mm2(awg: int) -> float:
    """Nominal conductor area of aircraft wire. [mm2]

    [faa-ac43-13-1b], Table 11-9, converted from circular mils [unit-definitions]

    awg  24 to 4/0, the even ones and 1; 1/0 is 0, 4/0 is -3

    Raises:
        OutOfRange: a gauge that the table does not list.
    """
    return _CIRCULAR_MIL_MM2 * listed(_TABLES.aircraft_area_cmil, awg, "aircraft wire, AWG")


def aircraft_bundle_current(awg: int, conductor_C: float) -> float:
    """Continuous current of an aircraft wire in a bundle at 70 °C. [A]

    [faa-ac43-13-1b], Table 11-9; 33 wires or more (9 from size 8 up), a fifth of them loaded

    awg          24 to 4/0, the even ones and 1; 1/0 is 0, 4/0 is -3
    conductor_C  conductor rating, a column of the table: 105, 150 or 200 [°C]

    Leaves out: the chart for altitude, which the table already holds at 60 000 ft.

    Raises:
        OutOfRange: a gauge or a column that the table does not list.
    """
    return listed(
        _TABLES.aircraft_current_A, (awg, float(conductor_C)), "aircraft wire, AWG and °C"
    )


def aircraft_nut_torque(thread: str, nut: str) -> tuple[float, float]:
    """Recommended torque of a dry cadmium-plated steel nut, from and to. [N m]

    [faa-ac43-13-1b-7], Table 7-1, converted from lbf in [unit-definitions]

    thread  inch thread as printed, "10-32"
    nut     "tension" or "shear"

    Leaves out: the friction drag of a self-locking nut, to be added.

    Raises:
        OutOfRange: a pair that the table does not list, a metric thread among them.
    """
    low, high = listed(_TABLES.nut_torque_lbfin, (thread, nut), "aircraft nut")
    return _NEWTON_METRE_PER_LBF_INCH * low, _NEWTON_METRE_PER_LBF_INCH * high
