"""Radial DC networks: one source, lines that branch, loads of constant power or current.

Ground rules of this file:
- A line is its way out and its way back in one; R = R_0 + c I², because copper warms with the
  square of its current. Contacts and protections are part of R_0.
- One load of constant power has a closed form for each resistance. More loads are swept:
  backward to add up the currents, forward to take off the voltages.
- The sweep starts from the source's voltage at every node, above any solution. Lower voltages
  draw more current, and more current lowers voltages, so the voltages only ever fall: they end
  at the working point with the highest voltages, or fall through nought where there is none.
- Settled: no node moved by more than 1e-9 V + 1e-12 of the source's voltage in a sweep, within
  2000 sweeps. Within about 1e-5 of the greatest load that can be fed the sweep is slower than
  that, and the answer is a refusal.
"""

# ruff: noqa: E741 - I is the letter of IEC for a current

from __future__ import annotations

from collections.abc import Sequence

from baybook.sizing.source import NoSolution, constant_power
from baybook.sizing.validity import OutOfRange, above, within
from baybook.solved import Flow, Line, Load, Network, Node

SETTLED_V = 1e-9
SETTLED = 1e-12
SWEEPS = 2000
_ROUNDS = 200  # of the closed form, which settles faster
_SETTLED_A = 1e-9

SOURCE = ""


def solve(network: Network) -> Flow:
    """Return the working point with the highest voltages.

    I_line = Σ (P / U + I) of all loads behind it,  U = U_parent - I (R_0 + c I²)  [circuit-laws]

    network  source above 0 [V]; every R_0 and c 0 or more, their sum above 0; loads 0 or more

    Leaves out: the source's own resistance; its voltage is that at its posts under load.

    Raises:
        NoSolution: the loads cannot be fed; or so nearly not that the sweep does not settle.
        OutOfRange: a value outside its range; a line or load that hangs on nothing; a loop.
    """
    above(network.supply_V, 0, "source voltage", "V")
    lines = _outward(network.lines)
    _hang_on(network.loads, lines)
    alone = _alone(network.loads)
    if alone is not None:
        return _one_load(network.supply_V, _path(lines, alone.node), lines, alone)
    return _sweep(network, lines)


def one_load(U: float, P: float, idle_ohm: float, warming: float) -> float:
    """Current of a single load of constant power. [A]

    I = P / U_t by the closed form at R = R_0 + c I², from cold copper upwards until I stands
    still within 1e-9 A [circuit-laws] [heat-balance]

    U         source voltage, above 0 [V]
    P         power at the load, above 0 [W]
    idle_ohm  R_0, resistance of the loop without current, above 0 [ohm]
    warming   c, what the current adds to it, 0 or more [ohm/A²]

    Raises:
        NoSolution: no current exists at which the power arrives, or it does not settle.
        OutOfRange: an argument outside its range.
    """
    I = 0.0
    for _ in range(_ROUNDS):
        following, _ = constant_power(U, idle_ohm + warming * I**2, P)
        if abs(following - I) < _SETTLED_A:
            return following
        I = following
    raise NoSolution(f"current does not settle at {U:g} V")


def _one_load(U: float, path: Sequence[Line], lines: Sequence[Line], load: Load) -> Flow:
    idle, warming = sum(line.idle_ohm for line in path), sum(line.warming for line in path)
    I = one_load(U, load.power_W, idle, warming)
    fed = {line.node for line in path}
    return _flow(U, lines, {line.node: I if line.node in fed else 0.0 for line in lines}, sweeps=1)


def _sweep(network: Network, lines: Sequence[Line]) -> Flow:
    U = network.supply_V
    volts = {line.node: U for line in lines}
    for sweep in range(1, SWEEPS + 1):
        currents = _backward(network.loads, lines, volts)
        flow = _flow(U, lines, currents, sweeps=sweep)
        following = {node.name: node.voltage_V for node in flow.nodes}
        moved = max((abs(volts[name] - following[name]) for name in volts), default=0.0)
        if moved <= SETTLED_V + SETTLED * U:
            return flow
        volts = following
    raise NoSolution(f"voltages do not settle at {U:g} V: the loads are at the limit of the lines")


def _backward(
    loads: Sequence[Load], lines: Sequence[Line], volts: dict[str, float]
) -> dict[str, float]:
    """Add up the currents from the ends to the source. [A]"""
    currents = {line.node: 0.0 for line in lines}
    for load in loads:
        currents[load.node] += load.power_W / volts[load.node] + load.current_A
    for line in reversed(lines):
        if line.parent != SOURCE:
            currents[line.parent] += currents[line.node]
    return currents


def _flow(U: float, lines: Sequence[Line], currents: dict[str, float], *, sweeps: int) -> Flow:
    """Take off the voltages from the source outwards."""
    volts = {SOURCE: U}
    nodes = []
    for line in lines:
        I = currents[line.node]
        ohm = line.idle_ohm + line.warming * I**2
        volts[line.node] = volts[line.parent] - I * ohm
        if volts[line.node] <= 0:
            raise NoSolution(f"no voltage is left at {line.node}: the loads cannot be fed")
        nodes.append(Node(name=line.node, voltage_V=volts[line.node], current_A=I, ohm=ohm))
    given = sum(currents[line.node] for line in lines if line.parent == SOURCE)
    return Flow(nodes=tuple(nodes), current_A=given, sweeps=sweeps)


def _outward(lines: Sequence[Line]) -> tuple[Line, ...]:
    """Order the lines so that each comes after the one it starts from."""
    for line in lines:
        within(line.idle_ohm, 0, float("inf"), f"resistance of the line to {line.node}", "ohm")
        within(line.warming, 0, float("inf"), f"warming of the line to {line.node}", "ohm/A²")
        above(line.idle_ohm + line.warming, 0, f"resistance of the line to {line.node}", "ohm")
    reached, ordered, left = {SOURCE}, [], list(lines)
    while left:
        near = [line for line in left if line.parent in reached]
        if not near:
            lost = ", ".join(line.node for line in left)
            raise OutOfRange(f"lines that no source feeds, or a loop: {lost}")
        for line in near:
            if line.node in reached:
                raise OutOfRange(f"two lines end at {line.node or 'the source'}: not radial")
            reached.add(line.node)
            ordered.append(line)
        left = [line for line in left if line not in near]
    return tuple(ordered)


def _hang_on(loads: Sequence[Load], lines: Sequence[Line]) -> None:
    nodes = {line.node for line in lines}
    for load in loads:
        if load.node not in nodes:
            raise OutOfRange(f"load at {load.node}: no line ends there")
        within(load.power_W, 0, float("inf"), f"power at {load.node}", "W")
        within(load.current_A, 0, float("inf"), f"current at {load.node}", "A")


def _alone(loads: Sequence[Load]) -> Load | None:
    """Return the only load that draws anything, if its power is constant."""
    drawing = [load for load in loads if load.power_W > 0 or load.current_A > 0]
    if len(drawing) == 1 and drawing[0].current_A == 0:
        return drawing[0]
    return None


def _path(lines: Sequence[Line], node: str) -> list[Line]:
    """Return the lines from the source to a node, the last one first."""
    by_node = {line.node: line for line in lines}
    path = []
    while node != SOURCE:
        path.append(by_node[node])
        node = by_node[node].parent
    return path
