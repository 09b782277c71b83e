"""Tightening torque of a joint of a known kind. Never a default.

RULES.md's order stands with the caller: the maker of what is clamped comes first. A table
here serves only its own kind of joint: steel bolt in steel, current-carrying brass or
copper stud, screw clamp by wire size. A rivet nut, a battery post, plastic: no table, a hold.
"""

from __future__ import annotations

from collections.abc import Mapping
from enum import StrEnum
from typing import TypeVar

from baybook.sizing.validity import OutOfRange, above, listed, within
from baybook.standards import load
from baybook.standards.handbook import handbook

# Read once on import, so that the functions below open no file.
_STANDARDS = load()
_HANDBOOK = handbook()
_PRELOAD_SHARE = _STANDARDS.constants["preload_share"]
_NEWTON_METRE_PER_LBF_INCH = _STANDARDS.constants["lbf_inch"]

_Key = TypeVar("_Key", tuple[str, str], tuple[int, str])


class Screw(StrEnum):
    """Heads of a screw clamp that the table by wire size tells apart."""

    NARROW_SLOT = "narrow slot"  # slot up to 1.2 mm wide and 6.4 mm long
    WIDE_SLOT = "wide slot"
    SPLIT_BOLT = "split bolt"
    HEX = "hex"


def bolt_torque(K: float, d_m: float, F_N: float) -> float:
    """Tightening torque of a steel bolt, short form. [N m]

    T = K d F        [nasa-rp-1228]

    K    nut factor, 0.1 to 0.3: thread and bearing friction in one [1]
    d_m  nominal diameter, above 0 [m]
    F_N  preload, above 0 [N]

    Leaves out: scatter of a hand wrench, ± 30 %.

    Raises:
        OutOfRange: an argument outside its range.
    """
    within(K, 0.1, 0.3, "nut factor")
    above(d_m, 0, "nominal diameter", "m")
    above(F_N, 0, "preload", "N")
    return K * d_m * F_N


def preload(proof_load_N: float) -> float:
    """Preload of a steel joint that is to be opened again. [N]

    F = 0.75 F_p        [shigley-preload]

    proof_load_N  proof load of the bolt, above 0 [N]

    Raises:
        OutOfRange: an argument outside its range.
    """
    above(proof_load_N, 0, "proof load", "N")
    return _PRELOAD_SHARE * proof_load_N


def proof_load(thread: str, property_class: str) -> float:
    """Proof load of a coarse steel bolt: the table's own row. [N]

    [iso898-1], table of proof loads

    thread          "M4" to "M16"
    property_class  "4.6", "5.8", "8.8" or "10.9"

    Raises:
        OutOfRange: a pair that the table does not list.
    """
    return _listed(_STANDARDS.proof_load_N, (thread, property_class), "steel bolt")


def steel_torque(thread: str, property_class: str, K: float) -> float:
    """Tightening torque of a steel bolt in steel, the smaller of formula and table. [N m]

    min(K d 0.75 F_p, M_A)        [nasa-rp-1228], [iso898-1]; M_A at mu 0.14 [vdi2230]
    At K = 0.20 the formula alone exceeds the table by up to 5 %.

    thread          "M4" to "M12"
    property_class  "8.8" or "10.9": no table was read for the softer classes
    K               nut factor, 0.1 to 0.3 [1]

    Never for a rivet nut, a brass or copper stud, a lead post or plastic.

    Raises:
        OutOfRange: a pair that a table does not list, or K outside its range.
    """
    by_formula = bolt_torque(K, _diameter_m(thread), preload(proof_load(thread, property_class)))
    limit = _listed(_STANDARDS.steel_torque_Nm, (thread, property_class), "steel bolt")
    return min(by_formula, limit)


def stud_torque(thread: str, material: str) -> float:
    """Torque of a stud of brass or copper that itself carries the current. [N m]

    [din46200], rows as tabulated for terminal boards

    thread    "M4" to "M36x3", as listed for the material
    material  "brass" or "copper"

    Raises:
        OutOfRange: a pair that the table does not list.
    """
    return _listed(_STANDARDS.stud_torque_Nm, (thread, material), "current-carrying stud")


def screw_clamp_torque(awg: int, screw: Screw) -> float:
    """Torque of a screw clamp by wire size, where its maker gives none. [N m]

    Converted from the table's lbf in, which stay the control value. [ul486a], Table I.1

    awg    18 to 4/0; 1/0 is 0, 4/0 is -3
    screw  head of the clamp's screw

    Raises:
        OutOfRange: a pair that the table does not list.
    """
    in_lbf_inch = _listed(_STANDARDS.clamp_torque_lbfin, (awg, screw.value), "screw clamp")
    return _NEWTON_METRE_PER_LBF_INCH * in_lbf_inch


def socket_torque(across_in: str) -> float:
    """Torque of a screw clamp with an internal hexagon, where its maker gives none. [N m]

    Converted from the table's lbf in, which stay the control value. [ul486a], Table I.3

    across_in  inches across flats as written, "3/16"

    Raises:
        OutOfRange: a size that was not read.
    """
    return _NEWTON_METRE_PER_LBF_INCH * listed(
        _HANDBOOK.socket_lbfin, across_in, "internal hexagon, in"
    )


def stud_current(thread: str, material: str) -> float:
    """Rated current of a stud of brass or copper that itself carries it. [A]

    [din46200], rows as tabulated for terminal boards

    thread    "M4" to "M36x3", as listed for the material
    material  "brass" or "copper"

    Raises:
        OutOfRange: a pair that the table does not list.
    """
    return listed(_HANDBOOK.stud_A, (thread, material), "current-carrying stud")


def clamping_stud_current(thread: str) -> float:
    """Rated current of lugs face to face on a steel stud that only clamps them. [A]

    [clamping-stud]

    thread  "M4" to "M16", as listed

    Raises:
        OutOfRange: a thread that was not read.
    """
    return listed(_HANDBOOK.clamping_stud_A, thread, "clamping stud")


def nut_factor(surface: str) -> float:
    """Nut factor K of a steel joint by its surface, the lower of the printed ones. [1]

    [nut-factors]

    surface  "dry plain steel", "zinc plated, light oil", "lubricated" or "anti-seize"

    Raises:
        OutOfRange: a surface that the table does not list.
    """
    return listed(_HANDBOOK.nut_factor, surface, "nut factor,")


def _diameter_m(thread: str) -> float:
    return float(thread.removeprefix("M")) / 1000


def _listed(table: Mapping[_Key, float], key: _Key, what: str) -> float:
    if key not in table:
        raise OutOfRange(f"{what} {key[0]}, {key[1]}: not in the table for this kind of joint")
    return table[key]
