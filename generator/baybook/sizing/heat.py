"""Where the charger is fixed: its heat, what it still gives when warm, what pulls at it."""

from __future__ import annotations

from baybook.fit import Fit
from baybook.sheet import Derating
from baybook.sizing.restraint import force_per_fixing, holding_force
from baybook.sizing.validity import OutOfRange
from baybook.solved import Place


def heat_loss(output_W: float, efficiency: float) -> float:
    """Heat that the charger gives off. [W]

    P (1/efficiency - 1)        [circuit-laws]

    output_W    power at its output, 0 or more [W]
    efficiency  above 0 to 1 [1]
    """
    return output_W * (1 / efficiency - 1)


def derated_share(derating: Derating, ambient_C: float) -> float:
    """Share of its power that the charger gives at an ambient; 0 from its stop on. [1]

    1 - s (theta - theta_full)        [fit-sheet]

    ambient_C  at the charger [°C]
    """
    if ambient_C >= derating.stop.value:
        return 0.0
    over_K = max(0.0, ambient_C - derating.full_to.value)
    return max(0.0, 1 - derating.per_kelvin.value * over_K)


def solve_place(fit: Fit, output_W: float) -> Place:
    """Work out heat, derating, fixing load and screw tips at the mount.

    output_W  power at the charger's output [W]
    """
    mount, restraint = fit.vehicle.mounts[fit.job.mount], fit.shop.restraint
    ambient = fit.shop.zones[mount.zone].temperature.high
    charger_N = holding_force(fit.charger.mass.high, restraint.forward.value)
    return Place(
        heat_W=heat_loss(output_W, fit.charger.efficiency.low),
        derated=derated_share(fit.charger.derating, ambient),
        charger_N=charger_N,
        station_N=holding_force(fit.station.mass.high, restraint.forward.value),
        fixing_N=_at_one_fixing(charger_N, mount.fixings, restraint.fixings_lost),
        tip_m=mount.screw_length.high - mount.panel.low,
    )


def _at_one_fixing(force_N: float, fixings: int, lost: int) -> float:
    """Force at one fixing; infinite where none is left, for a rule to refuse."""
    try:
        return force_per_fixing(force_N, fixings, lost)
    except OutOfRange:
        return float("inf")
