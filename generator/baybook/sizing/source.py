"""The supply that the charger sees: a constant-power load behind a resistance.

As the voltage sags the charger draws more, so P / U is not the current. Of the two
solutions the one with the higher voltage is the working point; the other is the collapse.
"""

from __future__ import annotations

import math

from baybook.sizing.validity import OutOfRange, above


class NoSolution(OutOfRange):
    """The power cannot arrive through this resistance, whatever the current."""


def constant_power(U: float, R: float, P: float) -> tuple[float, float]:
    """Current in the loop and voltage at the load. [A, V]

    U_t = (U + √(U² - 4 R P)) / 2,  I = P / U_t, the same as (U - U_t) / R        [circuit-laws]

    U  source voltage, above 0 [V]
    R  resistance of the whole loop, out and back, above 0 [ohm]
    P  power at the load, above 0 [W]

    Leaves out: the source's own resistance; U is the voltage at its posts under load.

    Raises:
        NoSolution: U² < 4 R P.
        OutOfRange: an argument outside its range.
    """
    above(U, 0, "source voltage", "V")
    above(R, 0, "loop resistance", "ohm")
    above(P, 0, "power", "W")
    square = U**2 - 4 * R * P
    if square < 0:
        raise NoSolution(f"power {P:g} W: at most {U**2 / (4 * R):g} W arrives over {R:g} ohm")
    U_t = (U + math.sqrt(square)) / 2
    return P / U_t, U_t


def prospective_current(U: float, R: float) -> float:
    """Current of a dead short. [A]

    I = U / R        [circuit-laws]

    U  source voltage, above 0 [V]
    R  everything between source and short, the source's own resistance included, above 0 [ohm]

    Leaves out: inductance, which only slows the rise.

    Raises:
        OutOfRange: an argument outside its range.
    """
    above(U, 0, "source voltage", "V")
    above(R, 0, "resistance", "ohm")
    return U / R
