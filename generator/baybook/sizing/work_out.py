"""One choice worked out to a bare design: circuit and plain numbers, no figures yet.

This is what the rules judge. It is made for every option that is weighed, so it stays cheap.
"""

from __future__ import annotations

from dataclasses import replace

from baybook.circuit import Circuit
from baybook.design import Choice, Design
from baybook.fit import Fit
from baybook.quantity import Quantity
from baybook.sheet import CableSize
from baybook.sizing.budget import solve_budget
from baybook.sizing.capacity import current_limits
from baybook.sizing.circuit import build
from baybook.sizing.feed import make_loop, solve_feed
from baybook.sizing.heat import solve_place
from baybook.sizing.lengths import Run, lay
from baybook.sizing.output import solve_output
from baybook.sizing.payload import solve_payload
from baybook.sizing.protection import Behind, solve_fault
from baybook.sizing.second import solve_second
from baybook.solved import Budget, Fault, Feed, Output, Solved


def work_out(fit: Fit, choice: Choice) -> Design:
    """Return the bare design of one choice.

    choice  its area must be a size of the fit's cable

    Raises:
        StopIteration: the cable has no such size.
    """
    size, run = size_of(fit, choice.area_mm2), lay(fit, protected=not choice.family)
    output = solve_output(fit, choice.power_W, choice.set_V)
    feed, fault, budget = _input(fit, choice, size, run)
    circuit = build(fit, choice, size, run)
    solved = Solved(
        feed=feed,
        fault=fault,
        output=output,
        budget=budget,
        place=solve_place(fit, output.power_W),
        payload=solve_payload(fit, circuit.conductors),
        second=solve_second(fit, choice),
    )
    return Design(
        fit=fit,
        choice=choice,
        circuit=circuit,
        figures=(),
        candidates=(),
        settings=(),
        solved=solved,
    )


def _input(
    fit: Fit, choice: Choice, size: CableSize, run: Run, *, lowest_only: bool = False
) -> tuple[Feed, Fault, Budget]:
    """Solve the input side: what supply voltage and cut lengths decide."""
    limits = current_limits(fit, size, (*run.source, *run.feed, *run.back))
    loop = make_loop(fit, run, size, limits)
    power_W = input_power(fit, choice.power_W)
    feed = solve_feed(fit, power_W, loop, limits, lowest_only=lowest_only)
    behind = _behind(fit, choice, loop.at_most(), feed.carries_A)
    return feed, solve_fault(fit, choice, behind), solve_budget(fit, feed)


def _behind(fit: Fit, choice: Choice, loop_ohm: float, carries_A: float) -> Behind:
    return Behind(
        loop_ohm=loop_ohm,
        area_mm2=choice.area_mm2,
        carries_A=carries_A,
        theta_max_C=fit.cable.conductor_max.value,
        short_circuit_C=fit.cable.short_circuit.value,
    )


def with_supply(design: Design, fit: Fit) -> Design:
    """Return the bare design at another supply voltage; nothing is cut or fitted otherwise.

    fit  that of the design but for `vehicle.supply`
    """
    run = lay(fit, protected=not design.choice.family)
    return _again(design, fit, run, design.circuit)


def with_battery(design: Design, fit: Fit) -> Design:
    """Return the bare design with another battery or highest voltage: its faults differ.

    fit  that of the design but for `vehicle.battery` and `vehicle.supply.high`
    """
    behind = _behind(fit, design.choice, design.solved.fault.far_ohm, design.solved.feed.carries_A)
    fault = solve_fault(fit, design.choice, behind)
    return replace(design, fit=fit, solved=replace(design.solved, fault=fault), figures=())


def with_loads(design: Design, fit: Fit) -> Design:
    """Return the bare design with other loads of the vehicle: what is spare differs.

    fit  that of the design but for the loads in `vehicle.supply`
    """
    budget = solve_budget(fit, design.solved.feed)
    return replace(design, fit=fit, solved=replace(design.solved, budget=budget), figures=())


def with_ambient(design: Design, fit: Fit, zone: str) -> Design:
    """Return the bare design with another temperature of one zone.

    fit   that of the design but for `shop.zones`
    zone  id of the zone
    """
    again = with_supply(design, fit)
    if zone != fit.vehicle.mounts[fit.job.mount].zone:
        return again
    output = solve_output(fit, design.choice.power_W, design.choice.set_V)
    solved = replace(
        again.solved,
        output=output,
        place=solve_place(fit, output.power_W),
        second=solve_second(fit, design.choice),
    )
    return replace(again, solved=solved)


def with_route(design: Design, fit: Fit) -> Design:
    """Return the bare design with other lengths of the route; the output stays as it is.

    fit  that of the design but for the lengths of its route's segments
    """
    run = lay(fit, protected=not design.choice.family)
    if fit.vehicle.masses is None:
        return _again(design, fit, run, design.circuit)  # no rule looks at the cut pieces
    size = size_of(fit, design.choice.area_mm2)
    return _again(design, fit, run, build(fit, design.choice, size, run))


def _again(design: Design, fit: Fit, run: Run, circuit: Circuit) -> Design:
    """Solve the input side again, as far as a refusal may rest on it."""
    size = size_of(fit, design.choice.area_mm2)
    feed, fault, budget = _input(fit, design.choice, size, run, lowest_only=True)
    payload = solve_payload(fit, circuit.conductors)
    solved = replace(design.solved, feed=feed, fault=fault, budget=budget, payload=payload)
    return replace(design, fit=fit, circuit=circuit, solved=solved, figures=())


def with_protection(design: Design, choice: Choice) -> Design:
    """Return the bare design with another protection; the input loop stays as it is.

    choice  that of the design but for `family` and `rating_A`
    """
    fit = design.fit
    size, run = size_of(fit, choice.area_mm2), lay(fit, protected=not choice.family)
    behind = _behind(fit, choice, design.solved.fault.far_ohm, design.solved.feed.carries_A)
    solved = replace(design.solved, fault=solve_fault(fit, choice, behind))
    circuit = build(fit, choice, size, run)
    return replace(design, choice=choice, circuit=circuit, solved=solved, figures=())


def with_setting(design: Design, set_V: float, output: Output) -> Design:
    """Return the bare design at another set voltage; nothing else of it depends on it.

    output  solved at that voltage
    """
    place = solve_place(design.fit, output.power_W)
    return replace(
        design,
        choice=replace(design.choice, set_V=set_V),
        solved=replace(design.solved, output=output, place=place),
    )


def input_power(fit: Fit, step_W: float) -> float:
    """Power at the charger's input, whatever the set voltage: the most that it may be. [W]

    P = min(step, station) / efficiency        [shop-rule]

    step_W  power step [W]
    """
    return input_power_ends(fit, step_W)[1]


def input_power_ends(fit: Fit, step_W: float) -> tuple[float, float]:
    """Least and most power at the charger's input, by the tolerances of its sheets. [W]

    step_W  power step [W]
    """
    charger = fit.charger
    limits = (step_of(fit, step_W), charger.output_power, fit.station.input_power)
    efficiency = charger.efficiency
    least, most = min(limit.low for limit in limits), min(limit.high for limit in limits)
    return least / efficiency.high, most / efficiency.low


def step_of(fit: Fit, step_W: float) -> Quantity:
    """Return the power step as the sheet writes it, or its full power. [W]"""
    charger = fit.charger
    steps = charger.power.steps if charger.power else ()
    written = (step.power for step in steps if step.power.value == step_W)
    return next(written, charger.output_power)


def size_of(fit: Fit, area_mm2: float) -> CableSize:
    """Size of the fit's cable by its area."""
    return next(size for size in fit.cable.sizes if size.area.value == area_mm2)
