"""How far a conductor may run unprotected by published rules."""

from __future__ import annotations

from baybook.sizing.validity import listed
from baybook.standards.rule_sets import rule_sets

# Read once on import, so that the function below opens no file.
_DISTANCE = rule_sets().distance


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
