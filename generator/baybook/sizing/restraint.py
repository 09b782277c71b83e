"""How hard a thing pulls at what holds it.

Cargo-securing figures (0.8 g) are not crash figures (10 to 20 g): the load in g is the
shop profile's choice, and the caller states it.
"""

from __future__ import annotations

from baybook.sizing.validity import OutOfRange, above, within
from baybook.standards import load

# Read once on import, so that the functions below open no file.
_CONSTANTS = load().constants
_GRAVITY = _CONSTANTS["standard_gravity"]
_PULL_OUT = _CONSTANTS["pull_out"]
_SCREW_SAFETY = _CONSTANTS["screw_safety"]


def holding_force(mass_kg: float, g: float) -> float:
    """Force that must hold a mass under a load given in g. [N]

    F = m · a · 9.80665 m/s2        standard gravity [cgpm-1901]

    mass_kg  above 0 [kg]
    g        load factor, above 0 [multiples of standard gravity]

    Raises:
        OutOfRange: an argument outside its range.
    """
    above(mass_kg, 0, "mass", "kg")
    above(g, 0, "load factor", "g")
    return mass_kg * g * _GRAVITY


def force_per_fixing(force: float, fixings: int, lost: int) -> float:
    """Share of the force at one fixing when some are taken as lost. [N]

    F / (n - n_lost)        even split, no friction credit [shop-rule]

    force    the whole force, above 0 [N]
    fixings  number fitted, 1 or more
    lost     number taken as lost, 0 or more and fewer than fitted

    Leaves out: prying and eccentricity.

    Raises:
        OutOfRange: an argument outside its range, or no fixing left.
    """
    above(force, 0, "force", "N")
    within(fixings, 1, float("inf"), "fixings")
    within(lost, 0, float("inf"), "fixings lost")
    if lost >= fixings:
        raise OutOfRange(f"{lost} of {fixings} fixings lost: none is left to hold")
    return force / (fixings - lost)


def pull_out_allowable(sheet_mm: float, screw_mm: float, tensile_MPa: float) -> float:
    """Allowable pull on a self-tapping screw in sheet steel before its thread strips. [N]

    P_a = 0.85 t d F_u / 3.0        [aisi-s100], screw pull-out with safety factor 3.0

    sheet_mm     thickness of the sheet that holds the thread, above 0 [mm]
    screw_mm     nominal screw diameter, 2.03 to 6.35, the range of the clause [mm]
    tensile_MPa  tensile strength F_u of the sheet, above 0 [MPa]

    Leaves out: pull-over of the head, shear, edge distance under 1.5 d.

    Raises:
        OutOfRange: an argument outside its range.
    """
    above(sheet_mm, 0, "sheet thickness", "mm")
    within(screw_mm, 2.03, 6.35, "screw diameter", "mm")
    above(tensile_MPa, 0, "tensile strength", "MPa")
    return _PULL_OUT * sheet_mm * screw_mm * tensile_MPa / _SCREW_SAFETY
