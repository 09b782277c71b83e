"""How a cable is laid by published rules: how tight it bends, how far it runs unprotected.

The bend radius of the cable's own sheet comes first; these are the rules of its class.
"""

from __future__ import annotations

from baybook.sizing.validity import above, listed
from baybook.standards.handbook import handbook
from baybook.standards.rule_sets import rule_sets

# Read once on import, so that the functions below open no file.
_BEND = handbook().bend_diameters
_DISTANCE = rule_sets().distance


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
