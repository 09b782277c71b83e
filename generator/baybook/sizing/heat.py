"""Where the charger is fixed: its heat, what it still gives when warm, what pulls at it."""

from __future__ import annotations

from baybook.fit import Fit
from baybook.quantity import Quantity
from baybook.route import Mount
from baybook.sheet import Derating
from baybook.shop import Restraint
from baybook.sizing.restraint import force_per_fixing, holding_force, pull_out_allowable
from baybook.sizing.sheet_screws import least_screw_edge, least_screw_pitch
from baybook.sizing.validity import OutOfRange, above, within
from baybook.solved import Place
from baybook.terms import Fastener


def heat_loss(output_W: float, efficiency: float) -> float:
    """Heat that the charger gives off. [W]

    P (1/efficiency - 1)        [circuit-laws]

    output_W    power at its output, 0 or more [W]
    efficiency  above 0, and 0 to 1 [1]

    Raises:
        OutOfRange: an argument outside its range.
    """
    within(output_W, 0, float("inf"), "output power", "W")
    above(efficiency, 0, "efficiency")
    within(efficiency, 0, 1, "efficiency")
    return output_W * (1 / efficiency - 1)


def derated_share(derating: Derating, ambient_C: float) -> float:
    """Share of its power that the charger gives at an ambient; 0 from its stop on. [1]

    1 - s (theta - theta_full)        [fit-sheet]

    ambient_C  at the charger, any: 1 up to its full power, 0 from its stop on [°C]
    """
    if ambient_C >= derating.stop.value:
        return 0.0
    over_K = max(0.0, ambient_C - derating.full_to.value)
    return max(0.0, 1 - derating.per_kelvin.value * over_K)


def solve_place(fit: Fit, output_W: float) -> Place:
    """Work out heat, derating, fixing load and screw tips at the mount.

    [circuit-laws], [cgpm-1901], [shop-rule]

    output_W  power at the charger's output, 0 or more [W]

    Raises:
        OutOfRange: an argument outside its range.
    """
    mount, restraint = fit.vehicle.mounts[fit.job.mount], fit.shop.restraint
    ambient = fit.shop.zones[mount.zone].temperature.high
    charger_kg, station_kg = fit.charger.mass.high, fit.station.mass.high
    loads = loads_in_g(restraint)
    forces = {
        way: (holding_force(charger_kg, g), holding_force(station_kg, g))
        for way, g in loads.items()
    }
    worst_N = max(charger_N for charger_N, _ in forces.values())
    return Place(
        heat_W=heat_loss(output_W, fit.charger.efficiency.low),
        derated=derated_share(fit.charger.derating, ambient),
        charger_N=forces["forward"][0],
        station_N=forces["forward"][1],
        rearward=forces["rearward"],
        sideways=forces["sideways"],
        upward=forces["upward"],
        fixing_N=_at_one_fixing(worst_N, mount.fixings, restraint.fixings_lost),
        held_N=held(mount),
        tip_m=mount.screw_length.high - mount.panel.low,
        spacing_m=spacing(mount),
    )


def loads_in_g(restraint: Restraint) -> dict[str, float]:
    """Load of each direction as the shop's basis states it. [multiples of standard gravity]

    [shop-rule]
    """
    other = restraint.other
    return {
        "forward": restraint.forward.value,
        "rearward": (restraint.rearward or other).value,
        "sideways": (restraint.sideways or other).value,
        "upward": (restraint.upward or other).value,
    }


def held(mount: Mount) -> float | None:
    """What one fixing may be pulled with, None where nobody states it. [N]

    A stated figure is its maker's. A self-tapping screw in sheet steel is also held to its
    pull-out, and the smaller counts [aisi-s100]. A through-bolt or a rivet nut has no
    figure but its maker's [fit-sheet].
    """
    stated = mount.holds.low if isinstance(mount.holds, Quantity) else None
    if mount.fastener is not Fastener.SELF_TAPPING:
        return stated
    if mount.screw is None or mount.sheet_strength is None:
        return None
    try:
        bites = pull_out_allowable(
            1000 * mount.panel.low, 1000 * mount.screw.low, mount.sheet_strength.low
        )
    except OutOfRange:
        return None
    return bites if stated is None else min(bites, stated)


def spacing(mount: Mount) -> tuple[float, float] | None:
    """How far a self-tapping screw stays from an edge and from the next; else None. [m]

    [aisi-s100]
    """
    if mount.fastener is not Fastener.SELF_TAPPING or mount.screw is None:
        return None
    screw_mm = 1000 * mount.screw.high
    try:
        return least_screw_edge(screw_mm) / 1000, least_screw_pitch(screw_mm) / 1000
    except OutOfRange:
        return None


def _at_one_fixing(force_N: float, fixings: int, lost: int) -> float:
    """Force at one fixing; infinite where none is left, for a rule to refuse."""
    try:
        return force_per_fixing(force_N, fixings, lost)
    except OutOfRange:
        return float("inf")
