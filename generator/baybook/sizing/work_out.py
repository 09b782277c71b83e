"""One choice worked out to a bare design: circuit and plain numbers, no figures yet.

This is what the rules judge. It is made for every option that is weighed, so it stays cheap.
"""

from __future__ import annotations

from dataclasses import replace

from baybook.circuit import Circuit, Leg
from baybook.design import Choice, Design
from baybook.fit import Fit
from baybook.part import CableSize
from baybook.quantity import Quantity
from baybook.sizing.budget import solve_budget
from baybook.sizing.capacity import current_limits
from baybook.sizing.circuit import build, with_run, with_station
from baybook.sizing.feed import make_loop, solve_feed
from baybook.sizing.heat import solve_place
from baybook.sizing.lengths import Run, lay
from baybook.sizing.output import lead_capacity, solve_output
from baybook.sizing.overload import Lain, hottest
from baybook.sizing.payload import solve_payload
from baybook.sizing.protection import Behind, holds_of, solve_fault
from baybook.sizing.recall import AFRESH, Recall
from baybook.sizing.second import second_overload, solve_second
from baybook.sizing.validity import above, within
from baybook.solved import Budget, Fault, Feed, Output, Overload, Place, Solved


def work_out(fit: Fit, choice: Choice, recall: Recall = AFRESH) -> Design:
    """Return the bare design of one choice.

    [shop-rule]

    choice  its area must be a size of the fit's cable
    recall  hands out the parts of it, made now or before

    Raises:
        StopIteration: the cable has no such size.
    """
    size = size_of(fit, choice.area_mm2)
    charger, load = recall.sheet(fit.charger), recall.sheet(fit.station)
    plug, wired = recall.sheet(fit.connector), _wired(choice)
    run = recall(("run", wired[0]), lambda: lay(fit, protected=not choice.family))
    output = output_at(fit, choice.power_W, choice.set_V, recall)
    feed, fault, budget, overload = _input(fit, choice, size, run, recall=recall)
    circuit = with_station(
        recall(("circuit", charger, plug, wired), lambda: build(fit, choice, size, run)), fit
    )
    pieces = recall.sheet(circuit.conductors)
    solved = Solved(
        feed=feed,
        fault=fault,
        output=output,
        budget=budget,
        place=place_at(fit, output.power_W, recall),
        payload=recall(
            ("payload", charger, load, pieces), lambda: solve_payload(fit, circuit.conductors)
        ),
        second=solve_second(fit, choice),
        overload=overload,
        second_overload=second_overload(fit, choice),
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


def _wired(choice: Choice) -> tuple[str, float, float, str, float]:
    """Return what of a choice is cut and fitted."""
    return (
        choice.family,
        choice.rating_A,
        choice.area_mm2,
        choice.second_family,
        choice.second_rating_A,
    )


def output_at(fit: Fit, step_W: float, set_V: float, recall: Recall = AFRESH) -> Output:
    """Work out the output side at one set voltage, remembered.

    [circuit-laws]

    step_W  power step, 0 or more [W]
    set_V   set voltage, above 0 [V]

    Raises:
        OutOfRange: an argument outside its range.
    """
    lead_A = recall(("lead",), lambda: lead_capacity(fit))
    key = ("output", recall.sheet(fit.charger), recall.sheet(fit.station), step_W, set_V)
    return recall(key, lambda: solve_output(fit, step_W, set_V, lead_A))


def place_at(fit: Fit, output_W: float, recall: Recall = AFRESH) -> Place:
    """Heat, derating and forces at the charger's place, remembered. [W]

    [shop-rule]

    output_W  power at the charger's output, 0 or more [W]

    Raises:
        OutOfRange: an argument outside its range.
    """
    key = ("place", recall.sheet(fit.charger), recall.sheet(fit.station), output_W)
    return recall(key, lambda: solve_place(fit, output_W))


def _input(  # noqa: PLR0913 - the input side rests on all of this
    fit: Fit,
    choice: Choice,
    size: CableSize,
    run: Run,
    *,
    lowest_only: bool = False,
    recall: Recall = AFRESH,
) -> tuple[Feed, Fault, Budget, Overload | None]:
    """Solve the input side: what supply voltage and cut lengths decide."""
    laid = (choice.area_mm2, choice.family)
    legs = (*run.source, *run.feed, *run.back)
    limits = recall(("limits", laid), lambda: current_limits(fit, size, legs))
    loop = recall(("loop", laid), lambda: make_loop(fit, run, size, limits))
    charger = recall.sheet(fit.charger)
    power_W = input_power(fit, choice.power_W)
    feed = recall(
        ("feed", charger, laid, power_W),
        lambda: solve_feed(fit, power_W, loop, limits, lowest_only=lowest_only),
    )
    behind = _behind(fit, choice, recall(("hot", laid), loop.at_most), feed)
    fault = recall(
        ("fault", laid, choice.rating_A, behind.others_A), lambda: solve_fault(fit, choice, behind)
    )
    budget = recall(("budget", charger, laid, power_W), lambda: solve_budget(fit, feed))
    overload = recall(
        ("overload", laid, choice.rating_A), lambda: _overload(fit, choice, size, legs, limits)
    )
    return feed, fault, budget, overload


def _overload(
    fit: Fit, choice: Choice, size: CableSize, legs: tuple[Leg, ...], limits: dict[str, float]
) -> Overload | None:
    """Work out how warm the input cable gets under what its protection may hold."""
    ambients = {leg.zone: leg.ambient_C for leg in legs}
    lain = (
        Lain(zone=zone, ambient_C=ambients[zone], carries_A=carried)
        for zone, carried in limits.items()
    )
    return hottest(holds_of(fit, choice.family), choice.rating_A, lain, fit.cable, size)


def _behind(fit: Fit, choice: Choice, loop_ohm: float, feed: Feed) -> Behind:
    return Behind(
        others_A=feed.low.line.others_A if feed.low and feed.low.line else 0.0,
        loop_ohm=loop_ohm,
        area_mm2=choice.area_mm2,
        carries_A=feed.carries_A,
        theta_max_C=fit.cable.conductor_max.value,
        short_circuit_C=fit.cable.short_circuit.value,
    )


def with_supply(design: Design, fit: Fit) -> Design:
    """Return the bare design at another supply voltage; nothing is cut or fitted otherwise.

    [shop-rule]

    fit  that of the design but for `vehicle.supply`
    """
    run = lay(fit, protected=not design.choice.family)
    return _again(design, fit, run, design.circuit)


def with_battery(design: Design, fit: Fit) -> Design:
    """Return the bare design with another battery or highest voltage: its faults differ.

    [shop-rule]

    fit  that of the design but for `vehicle.battery` and `vehicle.supply.high`
    """
    behind = _behind(fit, design.choice, design.solved.fault.far_ohm, design.solved.feed)
    fault = solve_fault(fit, design.choice, behind)
    return replace(design, fit=fit, solved=replace(design.solved, fault=fault), figures=())


def with_loads(design: Design, fit: Fit) -> Design:
    """Return the bare design with other loads of the vehicle: what is spare differs.

    [shop-rule]

    fit  that of the design but for the loads in `vehicle.supply`
    """
    budget = solve_budget(fit, design.solved.feed)
    return replace(design, fit=fit, solved=replace(design.solved, budget=budget), figures=())


def with_ambient(design: Design, fit: Fit, zone: str) -> Design:
    """Return the bare design with another temperature of one zone.

    [shop-rule]

    fit   that of the design but for `shop.zones`
    zone  id of the zone
    """
    again = with_supply(design, fit)
    if zone != fit.vehicle.mounts[fit.job.mount].zone:
        return again
    output = output_at(fit, design.choice.power_W, design.choice.set_V)
    solved = replace(
        again.solved,
        output=output,
        place=solve_place(fit, output.power_W),
        second=solve_second(fit, design.choice),
        second_overload=second_overload(fit, design.choice),
    )
    return replace(again, solved=solved)


def with_route(design: Design, fit: Fit) -> Design:
    """Return the bare design with other lengths of the route; the output stays as it is.

    [shop-rule]

    fit  that of the design but for the lengths of its route's segments
    """
    run = lay(fit, protected=not design.choice.family)
    if fit.vehicle.masses is None:
        return _again(design, fit, run, design.circuit)  # no rule looks at the cut pieces
    size = size_of(fit, design.choice.area_mm2)
    return _again(design, fit, run, with_run(design.circuit, fit, size, run))


def _again(design: Design, fit: Fit, run: Run, circuit: Circuit) -> Design:
    """Solve the input side again, as far as a refusal may rest on it."""
    size = size_of(fit, design.choice.area_mm2)
    feed, fault, budget, overload = _input(fit, design.choice, size, run, lowest_only=True)
    payload = solve_payload(fit, circuit.conductors)
    solved = replace(
        design.solved, feed=feed, fault=fault, budget=budget, payload=payload, overload=overload
    )
    return replace(design, fit=fit, circuit=circuit, solved=solved, figures=())


def with_protection(design: Design, choice: Choice) -> Design:
    """Return the bare design with another protection; the input loop stays as it is.

    [shop-rule]

    choice  that of the design but for `family` and `rating_A`
    """
    fit = design.fit
    size, run = size_of(fit, choice.area_mm2), lay(fit, protected=not choice.family)
    behind = _behind(fit, choice, design.solved.fault.far_ohm, design.solved.feed)
    legs = (*run.source, *run.feed, *run.back)
    overload = _overload(fit, choice, size, legs, current_limits(fit, size, legs))
    solved = replace(design.solved, fault=solve_fault(fit, choice, behind), overload=overload)
    circuit = build(fit, choice, size, run)
    return replace(design, choice=choice, circuit=circuit, solved=solved, figures=())


def with_setting(design: Design, set_V: float, output: Output, recall: Recall = AFRESH) -> Design:
    """Return the bare design at another set voltage; nothing else of it depends on it.

    [shop-rule]

    set_V   set voltage, above 0 [V]
    output  solved at that voltage
    recall  hands out the parts of it, made now or before

    Raises:
        OutOfRange: an argument outside its range.
    """
    above(set_V, 0, "set voltage", "V")
    place = place_at(design.fit, output.power_W, recall)
    return replace(
        design,
        choice=replace(design.choice, set_V=set_V),
        solved=replace(design.solved, output=output, place=place),
    )


def input_power(fit: Fit, step_W: float) -> float:
    """Power at the charger's input, whatever the set voltage: the most that it may be. [W]

    P = min(step, station) / efficiency        [shop-rule]

    step_W  power step, 0 or more [W]

    Raises:
        OutOfRange: an argument outside its range.
    """
    return input_power_ends(fit, step_W)[1]


def input_power_ends(fit: Fit, step_W: float) -> tuple[float, float]:
    """Least and most power at the charger's input, by the tolerances of its sheets. [W]

    [circuit-laws], [fit-sheet]

    step_W  power step, 0 or more [W]

    Raises:
        OutOfRange: an argument outside its range.
    """
    within(step_W, 0, float("inf"), "power step", "W")
    charger = fit.charger
    limits = (step_of(fit, step_W), charger.output_power, fit.station.input_power)
    efficiency = charger.efficiency
    least, most = min(limit.low for limit in limits), min(limit.high for limit in limits)
    return least / efficiency.high, most / efficiency.low


def step_of(fit: Fit, step_W: float) -> Quantity:
    """Return the power step as the sheet writes it, or its full power. [W]

    [fit-sheet]

    step_W  power step, 0 or more; its full power where the sheet has no such step [W]

    Raises:
        OutOfRange: an argument outside its range.
    """
    within(step_W, 0, float("inf"), "power step", "W")
    charger = fit.charger
    steps = charger.power.steps if charger.power else ()
    written = (step.power for step in steps if step.power.value == step_W)
    return next(written, charger.output_power)


def size_of(fit: Fit, area_mm2: float) -> CableSize:
    """Size of the fit's cable by its area.

    [fit-sheet]

    area_mm2  nominal area as listed on the sheet of the cable [mm2]

    Raises:
        StopIteration: the cable has no such size.
    """
    return next(size for size in fit.cable.sizes if size.area.value == area_mm2)
