"""Figures of what is held, what holds it, and what the vehicle still carries."""

from __future__ import annotations

from collections.abc import Iterator

from baybook.design import Design
from baybook.figure import Figure, Input
from baybook.quantity import Quantity
from baybook.route import Mount
from baybook.sizing.heat import held, loads_in_g
from baybook.sizing.trace import LAWS, SHEET, SHOP_RULE, constant, figure, given
from baybook.standards import load
from baybook.terms import Fastener

# Read once on import, so that the functions below open no file.
_CONSTANTS = load().constants
_WAYS = ("forward", "rearward", "sideways", "upward")


def fixing_figures(design: Design) -> Iterator[Figure]:
    """Forces by direction, their share at a fixing, what it holds, how far a screw stands out.

    [shop-rule]
    """
    mount = design.fit.vehicle.mounts[design.fit.job.mount]
    yield from _forces(design)
    yield from _share(design, mount)
    yield from _held(mount)
    yield figure(
        "tip_protrusion",
        design.solved.place.tip_m,
        "m",
        1,
        "l_tip = l_screw - t",
        given("l_screw", mount.screw_length, mount.screw_length.high),
        given("t", mount.panel, mount.panel.low),
        sources=(SHEET,),
    )


def case_figures(design: Design) -> Iterator[Figure]:
    """How warm the charger's case gets, where its sheet says by how much for each watt.

    [shop-rule]
    """
    thermal = design.fit.charger.thermal
    if thermal is None:
        return
    zone = design.fit.shop.zones[design.fit.vehicle.mounts[design.fit.job.mount].zone]
    heat = design.solved.place.heat_W
    yield figure(
        "case_temperature",
        zone.temperature.high + thermal.high * heat,
        "degC",
        0,
        "T_case = T_zone + R_th·P_loss",
        given("T_zone", zone.temperature, zone.temperature.high),
        given("R_th", thermal, thermal.high),
        Input(symbol="P_loss", value=heat, unit="W", figure="heat"),
        sources=(LAWS, SHEET),
    )


def payload_figures(design: Design) -> Iterator[Figure]:
    """What the fit adds, and what the vehicle may still carry.

    [shop-rule]
    """
    fit, payload = design.fit, design.solved.payload
    if payload.cable_kg is None or payload.added_kg is None:
        return
    cable = Input(symbol="m_cable", value=payload.cable_kg, unit="kg", source=SHEET)
    added = figure(
        "mass_added",
        payload.added_kg,
        "kg",
        1,
        "m_added = m_charger + m_station + m_cable",
        given("m_charger", fit.charger.mass, fit.charger.mass.high),
        given("m_station", fit.station.mass, fit.station.mass.high),
        cable,
        sources=(SHEET,),
    )
    yield added
    masses = fit.vehicle.masses
    kerb, gross = (masses.kerb, masses.gross) if masses else (None, None)
    left = payload.left_kg
    if masses and left is not None and isinstance(kerb, Quantity) and isinstance(gross, Quantity):
        yield figure(
            "payload_left",
            left,
            "kg",
            0,
            "m_left = m_gross - m_kerb - m_aboard - m_added",
            given("m_gross", gross, gross.low),
            given("m_kerb", kerb, kerb.high),
            given("m_aboard", masses.aboard, masses.aboard.high),
            Input(symbol="m_added", value=added.value, unit="kg", figure=added.name),
            sources=(SHOP_RULE,),
        )


def _forces(design: Design) -> Iterator[Figure]:
    fit, place = design.fit, design.solved.place
    restraint = fit.shop.restraint
    gravity = constant("g_n", _CONSTANTS["standard_gravity"], "m/s2", "cgpm-1901")
    forces = {
        "forward": (place.charger_N, place.station_N),
        "rearward": place.rearward,
        "sideways": place.sideways,
        "upward": place.upward,
    }
    stated = {
        "forward": restraint.forward,
        "rearward": restraint.rearward or restraint.other,
        "sideways": restraint.sideways or restraint.other,
        "upward": restraint.upward or restraint.other,
    }
    for way in _WAYS:
        for name, mass, force in zip(
            ("charger", "station"), (fit.charger.mass, fit.station.mass), forces[way], strict=True
        ):
            yield figure(
                f"force_{name}_{way}",
                force,
                "N",
                0,
                "F = m·a·g_n",
                given("m", mass, mass.high),
                given("a", stated[way]),
                gravity,
                sources=("cgpm-1901", SHOP_RULE),
            )


def _share(design: Design, mount: Mount) -> Iterator[Figure]:
    fit, restraint = design.fit, design.fit.shop.restraint
    if mount.fixings <= restraint.fixings_lost:
        return
    loads = loads_in_g(restraint)
    worst = max(_WAYS, key=lambda way: loads[way])
    forces = {"forward": design.solved.place.charger_N}
    forces |= {way: getattr(design.solved.place, way)[0] for way in _WAYS[1:]}
    yield figure(
        "force_fixing",
        design.solved.place.fixing_N,
        "N",
        0,
        "F_1 = F / (n - n_lost)",
        Input(symbol="F", value=forces[worst], unit="N", figure=f"force_charger_{worst}"),
        Input(
            symbol="n",
            value=float(mount.fixings),
            unit="1",
            where=fit.mark(f"vehicle.mounts.{fit.job.mount}.fixings"),
        ),
        Input(symbol="n_lost", value=float(restraint.fixings_lost), unit="1", source=SHOP_RULE),
        sources=(SHOP_RULE,),
    )


def _held(mount: Mount) -> Iterator[Figure]:
    """What one fixing holds: its maker's figure, or the pull-out of a self-tapping screw."""
    holds = held(mount)
    stated = mount.holds if isinstance(mount.holds, Quantity) else None
    if holds is None:
        return
    more = (given("F_maker", stated, stated.low),) if stated else ()
    if mount.fastener is Fastener.SELF_TAPPING and mount.screw and mount.sheet_strength:
        strength = mount.sheet_strength
        inputs = (
            constant("c", _CONSTANTS["pull_out"], "1", "aisi-s100"),
            Input(symbol="t", value=1000 * mount.panel.low, unit="mm", basis=mount.panel.basis),
            Input(symbol="d", value=1000 * mount.screw.low, unit="mm", basis=mount.screw.basis),
            given("F_u", strength, strength.low),
            constant("n_s", _CONSTANTS["screw_safety"], "1", "aisi-s100"),
        )
        pull_out = "c·t·d·F_u / n_s"
        formula = f"F_a = min({pull_out}, F_maker)" if stated else f"F_a = {pull_out}"
        yield figure(
            "fixing_holds", holds, "N", 0, formula, *inputs, *more, sources=("aisi-s100", SHEET)
        )
    else:  # held by its maker's figure alone, so there is one
        yield figure("fixing_holds", holds, "N", 0, "F_a = F_maker", *more, sources=(SHEET,))
