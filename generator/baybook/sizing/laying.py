"""How a cable is laid by published rules: how tight it bends, where an edge needs a grommet.

The bend radius of the cable's own sheet comes first; these are the rules of its class.
"""

from __future__ import annotations

from baybook.sizing.validity import above, listed, within
from baybook.standards import load
from baybook.standards.handbook import handbook
from baybook.standards.rule_sets import rule_sets

# Read once on import, so that the functions below open no file.
_BEND = handbook().bend_diameters
_SUPPORT_M = rule_sets().support_m
_DISTANCE = rule_sets().distance
_GROMMET_M = load().constants["grommet_clearance"]


def least_bend_radius(cable: str, diameter_m: float) -> float:
    """Smallest bend radius of a cable by the rule of its kind. [m]

    r = n D        n of the kind: [tm1-1500-204], [bs7211], [en50618]

    cable       kind of cable as in the table, "wire or bundle"
    diameter_m  outside diameter, of the largest cable in a bundle, above 0 [m]

    Raises:
        OutOfRange: a kind that the table does not list, a diameter outside its range.
    """
    above(diameter_m, 0, "outside diameter", "m")
    return listed(_BEND, cable, "bend radius of") * diameter_m


def most_support_pitch(rule: str) -> float:
    """Largest distance between two supports by a published rule. [m]

    [iso10133], [iso10133-7-3], [faa-ac43-13-1b], [abyc-e11], [cfr46-183-340]

    rule  id of the register

    Raises:
        OutOfRange: a rule that the table does not list.
    """
    return listed(_SUPPORT_M, rule, "distance of supports by")


def most_unprotected_length(rule: str, enclosed: bool) -> float:
    """Longest conductor from its source to its protection by a published rule. [m]

    [cfr183-455], [as-nzs3001-2]

    rule      id of the register
    enclosed  true: all of it sheathed or in a conduit

    Raises:
        OutOfRange: a rule that the table does not list.
    """
    distance = listed(_DISTANCE, rule, "distance of a protection by")
    return distance.enclosed_m if enclosed else distance.plain_m


def needs_grommet(edge_m: float) -> bool:
    """Whether a cable in an opening lies so near its edge that the edge must be covered.

    Nearer than 3/8 in        [faa-ac43-13-1b], 11-115

    edge_m  from cable to edge, 0 or more [m]

    Raises:
        OutOfRange: a distance outside its range.
    """
    within(edge_m, 0, float("inf"), "distance to the edge", "m")
    return edge_m < _GROMMET_M
