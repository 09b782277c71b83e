"""CA: the input cable, its drop, its distance to the cut-out, and the parts that take it."""

from __future__ import annotations

from collections.abc import Iterator

from baybook.checks.found import SHEET, Found, amps, area, degrees, share, volts, watts
from baybook.checks.torque import points
from baybook.design import Design
from baybook.finding import Amount, Name, Ref, Value, Verdict, say, term
from baybook.part import CableSize, PassageSize
from baybook.route import Passage as Wall
from baybook.terms import CueKind, JointKind, PassageKind, TableKind

_RUN = "circuit.input"
_LUGGED = (JointKind.STUD, JointKind.BODY, JointKind.POST, JointKind.ISOLATOR)
# Lines that tell that the supply runs.
RUNNING = frozenset({CueKind.RUN, CueKind.READY, CueKind.DRIVE})


def no_solution(design: Design) -> Iterator[Found]:
    """Let the power arrive at all: U² ≥ 4 R P at the lowest supply voltage. [circuit-laws]"""
    feed = design.solved.feed
    if feed.low is None and feed.carries_A > 0:
        lowest = design.fit.vehicle.supply.low
        yield _found(
            design,
            "I",
            found=say("rule.CA-03.none"),
            allowed=watts(feed.power_W),
            sources=("circuit-laws",),
            power=watts(feed.power_W),
            supply=Amount.of(lowest),
        )


def drop(design: Design) -> Iterator[Found]:
    """Keep the drop of the input within the shop's share of the lowest supply voltage.

    (U - U_t) / U ≤ limit        [shop-rule]
    """
    low, limit = design.solved.feed.low, design.fit.shop.limits.input_drop
    if low is not None and low.drop > limit.value.value:
        yield _found(
            design,
            "drop",
            found=share(low.drop),
            allowed=Amount.of(limit.value),
            sources=(limit.source.replace(" ", "-"),),
            drop=share(low.drop),
            limit=Amount.of(limit.value),
            supply=Amount.of(design.fit.vehicle.supply.low),
            current=amps(low.current_A),
        )


def hunting(design: Design) -> Iterator[Found]:
    """Keep the charger's volts above its cut-out by the shop's margin, while driving.

    U_t - U_cut-out ≥ margin, the cut-out that belongs to the start cue        [shop-rule]
    """
    feed, limit = design.solved.feed, design.fit.shop.limits.cut_out_margin
    if feed.low is None:
        return
    margin = feed.low.charger_V - feed.cut_out_V
    if margin < limit.value.value:
        yield _found(
            design,
            "margin",
            found=volts(margin),
            allowed=Amount.of(limit.value),
            sources=(limit.source.replace(" ", "-"), SHEET),
            voltage=volts(feed.low.charger_V),
            cut_out=volts(feed.cut_out_V),
            margin=say(f"rule.CA-02.{'over' if margin >= 0 else 'under'}", gap=volts(abs(margin))),
            limit=Amount.of(limit.value),
            supply=Amount.of(design.fit.vehicle.supply.low),
            charger=Name(design.fit.charger.name),
            way=say(f"rule.CA-02.{'line' if _waits_for_line(design) else 'shorten'}"),
        )


def terminal(design: Design) -> Iterator[Found]:
    """Take no size that the charger's input terminal does not take. [fit-sheet]"""
    most = design.fit.charger.input.area_max
    if design.choice.area_mm2 > most.low:
        yield _found(
            design,
            "area",
            found=chosen_area(design),
            allowed=Amount.of(most, 0).at_most(),
            sources=(SHEET,),
            most=Amount.of(most, 0).at_most(),
            charger=Name(design.fit.charger.name),
        )


def parts_take_it(design: Design) -> Iterator[Found]:
    """Find lug, die, heat-shrink, clip, sleeve and passage for the size: all follow the cable.

    [fit-sheet]
    """
    for part, wanted in _missing(design):
        yield _found(
            design,
            "parts",
            found=wanted,
            allowed=part,
            sources=(SHEET,),
            part=part,
            wanted=wanted,
        )


def stud_carries(design: Design) -> Iterator[Found]:
    """Draw no more through a stud, or the lugs that it clamps, than its table rates it for.

    I_B ≤ I of thread and material; at a point that others draw from, with their current
    [din46200] for brass and copper, [clamping-stud] for lug on lug under steel
    """
    low = design.solved.feed.low
    for joint, point in points(design):
        if low is None or point.table is None or joint.carries_A is None:
            continue
        through_A = low.shared_amps if point.line else low.current_A
        clamps = point.table.kind is TableKind.STEEL
        if through_A > joint.carries_A:
            yield _found(
                design,
                "stud",
                found=amps(through_A),
                allowed=amps(joint.carries_A),
                sources=("clamping-stud" if clamps else "din46200",),
                joint=Ref("joint", joint.letter),
                stud=Name(joint.what),
                thread=Name(point.thread),
                role=say(
                    f"rule.CA-12.{'clamps' if clamps else 'carries'}", table=term(point.table.kind)
                ),
                way=say(f"rule.CA-12.{'thicker' if clamps else 'or_clamps'}"),
                current=amps(through_A),
                carries=amps(joint.carries_A),
            )


def capacity_known(design: Design) -> Iterator[Found]:
    """Know what the size carries in every zone of the route. [fit-sheet]"""
    feed = design.solved.feed
    if feed.carries_A <= 0:
        zone = design.fit.shop.zones[feed.zone]
        yield _found(
            design,
            "I_T",
            found=degrees(zone.temperature.high),
            allowed=say(
                "rule.CA-07.below", limit=Amount.of(design.fit.cable.conductor_max, 0).at_most()
            ),
            sources=(SHEET,),
            zone=Name(zone.name),
            ambient=degrees(zone.temperature.high),
            cable=Name(design.fit.cable.name),
        )


def size_of(design: Design) -> CableSize:
    """Return the chosen size as its sheet lists it.

    [fit-sheet]
    """
    sizes = design.fit.cable.sizes
    return next(size for size in sizes if size.area.value == design.choice.area_mm2)


def chosen_area(design: Design) -> Amount:
    """Return the area of the feed as a rule tells it, with the gauge that its sheet names.

    [fit-sheet]
    """
    size = size_of(design)
    return area(size.area.value, size.nearest_awg)


def takes(size: PassageSize, wall: Wall, diameter_m: float, sharing: int) -> bool:
    """Tell whether a passage is of the wanted form and takes the cable; the hole aside.

    [fit-sheet]

    diameter_m  over the insulation, any [m]
    sharing     conductors of the run that share a passage, any
    """
    return (
        size.form is wall.form
        and size.conductors == (1 if wall.each else sharing)
        and size.diameter_min.value <= diameter_m <= size.diameter_max.value
    )


def _waits_for_line(design: Design) -> bool:
    """Tell whether the fit goes by voltage though the vehicle has a line to go by."""
    cues = design.fit.vehicle.cues
    by_voltage = cues[design.fit.job.cue].kind is CueKind.VOLTAGE
    return by_voltage and any(cue.kind in RUNNING for cue in cues.values())


def _missing(design: Design) -> Iterator[tuple[Value, Value]]:
    """Yield (what is missing, what it should take)."""
    fit, size = design.fit, size_of(design)
    diameter = Amount(size.diameter.value, "m", 1, show="mm").plain()
    yield from _lug(design)
    if fit.shrink is not None and not design.circuit.shrink:
        yield say("rule.CA-05.shrink", family=Name(fit.shrink.name)), diameter
    if not design.circuit.clip:
        yield say("rule.CA-05.clip", family=Name(fit.clips.name)), diameter
    for fitting in design.circuit.fittings:
        if not fitting.part and fitting.kind in {"sleeve", "conduit"}:
            yield say(f"rule.CA-05.{fitting.kind}"), diameter
    for wall in _walls(design):
        family = fit.passages[wall.family]
        if not any(
            takes(listed, wall, size.diameter.value, design.fit.in_run) for listed in family.sizes
        ):
            yield say("rule.CA-05.passage", family=Name(family.name)), diameter


def _lug(design: Design) -> Iterator[tuple[Value, Value]]:
    """Yield what is missing at the ends: the lug, its stud hole, the die that presses it."""
    lugs, wanted = design.fit.lugs, design.choice.area_mm2
    lug = next((lug for lug in lugs.sizes if lug.area.value == wanted), None)
    if lug is None:
        yield say("rule.CA-05.lug", family=Name(lugs.name)), chosen_area(design)
        return
    for thread in _threads(design):
        if thread not in lug.studs:
            yield say("rule.CA-05.lug", family=Name(lugs.name)), Name(thread)
    owned = {die for tool in design.fit.shop.tools for die in tool.dies}
    if owned and lug.die not in owned:  # a shop that lists none has not said
        yield say("rule.CA-05.die", die=Name(lug.die)), chosen_area(design)


def _threads(design: Design) -> tuple[str, ...]:
    points = (design.circuit.joint("source+"), design.circuit.joint("return"))
    return tuple(point.thread for point in points if point.thread and point.kind in _LUGGED)


def _walls(design: Design) -> Iterator[Wall]:
    for segment in design.fit.vehicle.routes[design.fit.job.route].segments:
        if segment.passage is not None and segment.passage.form is not PassageKind.OPEN:
            yield segment.passage


def _found(
    design: Design,
    what: str,
    *,
    found: Value,
    allowed: Value,
    sources: tuple[str, ...],
    **values: Value,
) -> Found:
    asked = design.fit.job.asked.area
    return Found(
        verdict=Verdict.REFUSED,
        place=f"{_RUN}.{what}",
        where=asked.where if asked is not None else design.fit.mark("fit.cable"),
        found=found,
        allowed=allowed,
        sources=sources,
        values={"area": chosen_area(design), **values},
    )
