"""Torque of a joint whose maker states none, from the published table of its own kind.

The maker of what is clamped comes first. A table serves only where the shop's profile
allows it, and only the kind of joint that it was made for.
"""

from __future__ import annotations

from baybook.fit import Fit
from baybook.part import CableSize
from baybook.point import Point, TorqueTable
from baybook.quantity import Basis, Mark, Quantity, State, Unknown
from baybook.sheet import Terminal
from baybook.sizing.bolts import (
    Screw,
    clamping_stud_current,
    screw_clamp_torque,
    socket_torque,
    steel_torque,
    stud_current,
    stud_torque,
)
from baybook.sizing.validity import OutOfRange
from baybook.standards import load
from baybook.terms import JointKind, TableKind
from baybook.units import gauge_named

# Read once on import, so that the functions below open no file.
_LBF_INCH = load().constants["lbf_inch"]
_BOLTED = (JointKind.STUD, JointKind.BODY, JointKind.ISOLATOR)
_CARRYING = (TableKind.BRASS, TableKind.COPPER)
_SOCKET = "socket "  # begins a head whose torque goes by its own size
_SOCKETS = "UL 486A-486B, Table I.3: table of socket heads by size across flats"
_DOCUMENTS = {
    TableKind.STEEL: "ISO 898-1 proof loads and VDI 2230, friction 0.14: table, the smaller",
    TableKind.BRASS: "DIN 46200 pattern: table of current-carrying brass studs",
    TableKind.COPPER: "DIN 46200 pattern: table of current-carrying copper studs",
    TableKind.CLAMP: "UL 486A-486B, Table I.1: table of screw clamps by wire size",
}


def at_point(fit: Fit, point: Point) -> Quantity | Unknown:
    """Torque of a point of the vehicle: its maker's, else that of its table.

    A table never serves a lead post, a rivet nut or plastic, nor a joint of another kind than
    its own; then, and where no table holds the thread, the torque stays unknown.
    [iso898-1], [vdi2230], [din46200]
    """
    stated, table = point.torque, point.table
    if isinstance(stated, Quantity) or table is None or point.kind not in _BOLTED:
        return stated
    if table.kind not in fit.shop.torque_tables:
        return stated
    try:
        found = _bolted(point.thread, table)
    except OutOfRange:
        return stated
    return _from_table(found, "N·m", found, _DOCUMENTS[table.kind], stated.where)


def carried_at_point(point: Point) -> float | None:
    """Rated current of a point: of its stud, or of lugs that it clamps; else None. [A]

    [din46200] where a stud of brass or copper carries it, [clamping-stud] where one of steel
    clamps lug on lug
    """
    table = point.table
    if table is None or table.kind not in (*_CARRYING, TableKind.STEEL):
        return None
    try:
        if table.kind is TableKind.STEEL:
            return clamping_stud_current(point.thread)
        return stud_current(point.thread, _material(table.kind))
    except OutOfRange:
        return None


def at_terminal(fit: Fit, terminal: Terminal, size: CableSize) -> Quantity | Unknown | None:
    """Torque of a charger's clamp: its maker's, else by wire size, or by its socket. [ul486a]

    The unit of the table, lbf in, stays the control value.
    """
    stated = terminal.torque
    allowed = TableKind.CLAMP in fit.shop.torque_tables
    if not isinstance(stated, Unknown) or terminal.screw is None or not allowed:
        return stated
    if terminal.kind is not JointKind.CLAMP:
        return stated
    try:
        newton_metres = _clamped(terminal.screw, size)
    except OutOfRange:
        return stated
    printed = newton_metres / _LBF_INCH
    by_socket = terminal.screw.startswith(_SOCKET)
    document = _SOCKETS if by_socket else _DOCUMENTS[TableKind.CLAMP]
    return _from_table(newton_metres, "lbf·in", printed, document, stated.where)


def _clamped(head: str, size: CableSize) -> float:
    """Torque by the socket's own size, else by the size of the wire under the screw. [N m]"""
    if head.startswith(_SOCKET):
        return socket_torque(head.removeprefix(_SOCKET).removesuffix(" in"))
    return screw_clamp_torque(gauge_named(size.nearest_awg), Screw(head))


def _bolted(thread: str, table: TorqueTable) -> float:
    """Torque by the table of the joint's kind. [N m]

    Raises:
        OutOfRange: not in the table, or the joint is not described well enough for it.
    """
    if table.kind is TableKind.STEEL:
        if table.into != "steel":
            raise OutOfRange("the table of steel bolts serves threads of steel alone")
        if table.property_class is None or table.nut_factor is None:
            raise OutOfRange("a steel bolt needs its property class and its nut factor")
        found = steel_torque(thread, table.property_class, table.nut_factor.value)
        return int(found * 10) / 10  # never rounded up
    if table.kind is TableKind.CLAMP:
        raise OutOfRange("a table of clamps does not serve a bolted joint")
    return stud_torque(thread, _material(table.kind))


def _material(kind: TableKind) -> str:
    return kind.value.removesuffix(" stud")


def _from_table(
    newton_metres: float, unit: str, printed: float, document: str, where: Mark
) -> Quantity:
    return Quantity(
        value=newton_metres,
        low=newton_metres,
        high=newton_metres,
        unit="N*m",
        written=f"{printed:.1f} {unit}",
        basis=Basis(state=State.PAPER, document=document),
        where=where,
    )
