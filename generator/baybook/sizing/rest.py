"""What a lead-acid battery shows at rest. For a reading, never for a margin."""

from __future__ import annotations

from baybook.sizing.validity import listed
from baybook.standards.handbook import handbook

# Read once on import, so that the functions below open no file.
_REST_V = handbook().rest_V


def rest_voltage(charge: float) -> float:
    """Rest volts of a 12 V lead-acid battery at a state of charge. [V]

    [rest-voltage], the table's own row; sources differ by 0.1 V

    charge  state of charge as listed, 0.25 to 1 [1]

    Raises:
        OutOfRange: a state of charge that the table does not list.
    """
    return listed(_REST_V, float(charge), "rest volts at a charge of")
