"""What the fit adds to the vehicle's mass, and what payload is left."""

from __future__ import annotations

from collections.abc import Iterable

from baybook.circuit import Conductor
from baybook.fit import Fit
from baybook.part import CableSheet, CableSize
from baybook.quantity import Quantity
from baybook.solved import Payload


def solve_payload(fit: Fit, conductors: Iterable[Conductor]) -> Payload:
    """Weigh charger, station and cable against what the vehicle may still carry. [kg]

    m_left = m_gross - m_kerb - m_aboard - (m_charger + m_station + sum l m')    [shop-rule]

    Masses at their high end, the gross mass at its low end. Small parts are left out.

    conductors  of the finished circuit; those that are in the vehicle already weigh nothing
    """
    cable = cable_mass(fit, conductors)
    added = None if cable is None else fit.charger.mass.high + fit.station.mass.high + cable
    return Payload(cable_kg=cable, added_kg=added, left_kg=_left(fit, added))


def cable_mass(fit: Fit, conductors: Iterable[Conductor]) -> float | None:
    """Mass of all cut pieces, None where a sheet states none for its size. [kg]

    [fit-sheet]
    """
    pieces = [(_per_metre(fit, piece), piece.cut_m) for piece in conductors if not piece.existing]
    known = [per_metre * cut_m for per_metre, cut_m in pieces if per_metre is not None]
    return sum(known) if len(known) == len(pieces) else None


def _per_metre(fit: Fit, piece: Conductor) -> float | None:
    sheet = fit.output_cable if piece.use.startswith("output") else fit.cable
    mass = _size(sheet, piece.area_mm2).mass
    return mass.high if mass else None


def _size(sheet: CableSheet, area_mm2: float) -> CableSize:
    return next(size for size in sheet.sizes if size.area.value == area_mm2)


def _left(fit: Fit, added: float | None) -> float | None:
    masses = fit.vehicle.masses
    if masses is None or added is None:
        return None
    if not isinstance(masses.kerb, Quantity) or not isinstance(masses.gross, Quantity):
        return None
    return masses.gross.low - masses.kerb.high - masses.aboard.high - added
