"""Self-tapping screws in sheet steel beside their pull-out: the head, the edge, the next screw."""

from __future__ import annotations

from baybook.sizing.validity import above, within
from baybook.standards import load

# Read once on import, so that the functions below open no file.
_CONSTANTS = load().constants
_PULL_OVER = _CONSTANTS["pull_over"]
_SAFETY = _CONSTANTS["screw_safety"]
_EDGE = _CONSTANTS["screw_edge"]
_PITCH = _CONSTANTS["screw_pitch"]
_HEAD_MM = _CONSTANTS["screw_head"]
_HEAD_COUNTED_MM = _CONSTANTS["screw_head_counted"]
_THINNEST_MM, _THICKEST_MM = 2.03, 6.35  # [aisi-s100], the screws of the clause


def pull_over_allowable(sheet_mm: float, head_mm: float, tensile_MPa: float) -> float:
    """Allowable pull on a screw before its head draws through the upper sheet. [N]

    P_a = 1.5 t_1 d_w F_u1 / 3.0        [aisi-s100], screw pull-over with safety factor 3.0

    sheet_mm     thickness of the sheet under the head, above 0 [mm]
    head_mm      diameter of head or washer, 7.94 to 12.7 [mm]
    tensile_MPa  tensile strength F_u1 of that sheet, above 0 [MPa]

    Leaves out: pull-out of the thread, to be held against it.

    Raises:
        OutOfRange: an argument outside its range.
    """
    above(sheet_mm, 0, "sheet thickness", "mm")
    within(head_mm, _HEAD_MM, _HEAD_COUNTED_MM, "head or washer", "mm")
    above(tensile_MPa, 0, "tensile strength", "MPa")
    return _PULL_OVER * sheet_mm * head_mm * tensile_MPa / _SAFETY


def least_screw_pitch(screw_mm: float) -> float:
    """Smallest distance between the centres of two screws. [mm]

    3 d        [aisi-s100]

    screw_mm  nominal screw diameter, 2.03 to 6.35 [mm]

    Raises:
        OutOfRange: a diameter outside the clause.
    """
    within(screw_mm, _THINNEST_MM, _THICKEST_MM, "screw diameter", "mm")
    return _PITCH * screw_mm


def least_screw_edge(screw_mm: float) -> float:
    """Smallest distance from the centre of a screw to the edge of the sheet. [mm]

    1.5 d        [aisi-s100]

    screw_mm  nominal screw diameter, 2.03 to 6.35 [mm]

    Raises:
        OutOfRange: a diameter outside the clause.
    """
    within(screw_mm, _THINNEST_MM, _THICKEST_MM, "screw diameter", "mm")
    return _EDGE * screw_mm
