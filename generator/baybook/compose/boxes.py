"""Safety panels: hazard, consequence, avoidance, where the hazard bites.

Signal words by meaning (ANSI Z535, ISO 3864): death or serious injury will, could; minor
injury; property only. At most three in a chapter: what is left over is merged into the last,
under the gravest word of what it holds.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace

from baybook.compose.practice import STOP_PAST_PANEL
from baybook.compose.route_hazards import PIPES, RESTRAINT, caution_ids, crush_ids, restrained
from baybook.compose.work import Work, at, device, hold, millimetres
from baybook.finding import Amount, Listing, Message, Name, Value, say
from baybook.quantity import Unknown
from baybook.route import Hazard
from baybook.step import Box, Phase, Signal, Step
from baybook.terms import HazardKind

MOST = 3  # panels in a chapter

# Where the vehicle's own cautions of a chapter stand, by the first letters of the step's id.
_ANCHOR = {
    Phase.PREPARE: ("dangerous-goods", "vin"),
    Phase.ISOLATE: ("battery.off",),
    Phase.DRY_FIT: ("open.",),
    Phase.DRILL: ("drill.",),
    Phase.ROUTE: ("lay.",),
    Phase.CONNECT: ("clean.return", "join."),
    Phase.COMMISSION: ("start.load",),
}


def with_cautions(work: Work, steps: Iterable[Step]) -> tuple[Step, ...]:
    """Return the steps with the vehicle's own cautions among their hazards."""
    found = tuple(steps)
    more: dict[str, tuple[str, ...]] = {}
    held_up = crush_ids(work)
    for phase in Phase:
        for one in caution_ids(work, phase):
            anchor = _where_it_bites(work, one, phase) or _anchor(phase, found)
            more[anchor] = (*more.get(anchor, ()), one)
    if held_up:
        closing = _closing(work) or next(s.id for s in found if s.id.startswith("close."))
        more[closing] = (*more.get(closing, ()), *held_up)
    nobody = frozenset() if work.fit.vehicle.supply.engine else frozenset({"fumes"})
    return tuple(_warned(step, nobody, more.get(step.id, ())) for step in found)


def _warned(step: Step, nobody: frozenset[str], more: tuple[str, ...]) -> Step:
    hazards = (*(h for h in step.hazards if h not in nobody), *more)
    return step if hazards == step.hazards else replace(step, hazards=hazards)


def _where_it_bites(work: Work, caution_id: str, phase: Phase) -> str:
    """The step of the segment that a caution is about, if its sign says which; else ""."""
    symbol = work.fit.vehicle.cautions[int(caution_id.partition(":")[2]) - 1].symbol
    number = {"crush": _lifted(work), "airbag": restrained(work)}.get(symbol, 0)
    verb = {Phase.DRY_FIT: "open", Phase.ROUTE: "lay"}.get(phase)
    return f"{verb}.{number}" if number and verb else ""


def _closing(work: Work) -> str:
    number = _lifted(work)
    return f"close.{number}" if number else ""


def _lifted(work: Work) -> int:
    """The number of the segment that stands open on a prop; 0: none says so."""
    return next((n for n, s in enumerate(work.segments, 1) if s.shut_to_run), 0)


def _anchor(phase: Phase, steps: Iterable[Step]) -> str:
    here = [step.id for step in steps if step.phase is phase]
    for start in _ANCHOR.get(phase, ()):
        for step_id in here:
            if step_id.startswith(start):
                return step_id
    return here[0]


def with_boxes(work: Work, steps: tuple[Step, ...]) -> tuple[Step, ...]:
    """Return the steps of one chapter with each panel above the first step it concerns."""
    hazards = list(dict.fromkeys(hazard for step in steps for hazard in step.hazards))
    above: dict[str, list[Box]] = {}
    for box in _capped([_box(work, hazard) for hazard in hazards]):
        above.setdefault(_first(box, steps), []).append(box)
    return tuple(
        replace(step, boxes=tuple(above[step.id])) if step.id in above else step for step in steps
    )


def _first(box: Box, steps: tuple[Step, ...]) -> str:
    return next(step.id for step in steps if set(step.hazards) & set(box.covers))


def _capped(boxes: list[Box]) -> list[Box]:
    ranked = sorted(boxes, key=lambda box: list(Signal).index(box.signal))
    if len(ranked) <= MOST:
        return ranked
    rest = ranked[MOST - 1 :]
    merged = replace(
        rest[0],
        id="+".join(box.id for box in rest),
        hazard=_joined("box.merged", [box.hazard for box in rest]),
        consequence=_joined("box.joined", [box.consequence for box in rest]),
        avoidance=_joined("box.joined", [box.avoidance for box in rest]),
        covers=tuple(hazard for box in rest for hazard in box.covers),
    )
    return [*ranked[: MOST - 1], merged]


def _joined(how: str, sentences: list[Message]) -> Message:
    told = sentences[0]
    for sentence in sentences[1:]:
        told = say(how, first=told, second=sentence)
    return told


def _box(work: Work, hazard: str) -> Box:
    if hazard.startswith("caution:"):
        return _caution(work, hazard)
    signal, symbol, values = _KINDS[hazard]
    filled = values(work)
    return Box(
        id=hazard,
        signal=signal,
        symbol=symbol,
        hazard=say(f"box.{hazard}.hazard"),
        consequence=say(f"box.{hazard}.consequence", **filled),
        avoidance=say(f"box.{hazard}.avoidance", **filled),
        covers=(hazard,),
    )


def _caution(work: Work, hazard: str) -> Box:
    caution = work.fit.vehicle.cautions[int(hazard.partition(":")[2]) - 1]
    return Box(
        id=hazard,
        signal=Signal(caution.signal),
        symbol=caution.symbol,
        hazard=say("plain", text=Name(caution.hazard)),
        consequence=say("plain", text=Name(caution.consequence)),
        avoidance=say("plain", text=Name(caution.avoidance)),
        covers=(hazard,),
    )


def _nothing(_work: Work) -> dict[str, Value]:
    return {}


def _arc(work: Work) -> dict[str, Value]:
    return {"plus": at(work.joint("source+").letter)}


def _sensor(work: Work) -> dict[str, Value]:
    return {"minus": at(work.negative.letter), "body": at(work.joint("return").letter)}


def _drill(work: Work) -> dict[str, Value]:
    mount = work.fit.vehicle.mounts[work.fit.job.mount]
    depth: Value = (
        say("box.drill.unknown")
        if isinstance(mount.free_depth, Unknown)
        else Amount.of(mount.free_depth).at_most()
    )
    stop = millimetres(mount.panel.value + STOP_PAST_PANEL.value, 1).at_most()
    return {"depth": depth, "stop": stop, "hold": hold("behind-screws")}


def _met(work: Work, kinds: frozenset[HazardKind]) -> dict[str, Value]:
    found: list[Hazard] = [
        hazard for segment in work.segments for hazard in segment.hazards if hazard.kind in kinds
    ]
    return {"what": Listing(tuple(Name(hazard.what) for hazard in found))}


def _voltage(work: Work) -> dict[str, Value]:
    station = work.fit.station
    return {
        "absolute": Amount.of(station.absolute),
        "hold": hold("set-voltage"),
        "fuse": device(work.fuse.tag),
    }


_KINDS = {
    "arc": (Signal.WARNING, "arc", _arc),
    "fumes": (Signal.DANGER, "fumes", _nothing),
    "restraint": (Signal.WARNING, "airbag", lambda work: _met(work, RESTRAINT)),
    "high-voltage": (
        Signal.DANGER,
        "arc",
        lambda work: _met(work, frozenset({HazardKind.HIGH_VOLTAGE})),
    ),
    "high-voltage-out": (Signal.DANGER, "arc", _nothing),
    "exhaust": (
        Signal.CAUTION,
        "hot",
        lambda work: _met(work, frozenset({HazardKind.EXHAUST})),
    ),
    "pipes": (Signal.WARNING, "chafe", lambda work: _met(work, PIPES)),
    "moving": (
        Signal.WARNING,
        "moving",
        lambda work: _met(
            work, frozenset({HazardKind.MOVING, HazardKind.STEERING, HazardKind.PEDALS})
        ),
    ),
    "drill": (Signal.WARNING, "drill", _drill),
    "sensor": (Signal.NOTICE, "sensor", _sensor),
    "overvoltage": (Signal.NOTICE, "arc", _voltage),
}
