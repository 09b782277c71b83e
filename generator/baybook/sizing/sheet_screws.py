"""Self-tapping screws in sheet steel beside their pull-out: the edge, the next screw."""

from __future__ import annotations

from baybook.sizing.validity import within
from baybook.standards import load

# Read once on import, so that the functions below open no file.
_CONSTANTS = load().constants
_EDGE = _CONSTANTS["screw_edge"]
_PITCH = _CONSTANTS["screw_pitch"]
_THINNEST_MM, _THICKEST_MM = 2.03, 6.35  # [aisi-s100], the screws of the clause


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
