"""Cut, sleeve and lay the cables, from the charger to the source, ends capped."""

from __future__ import annotations

from collections.abc import Iterator

from baybook.compose.action import act
from baybook.compose.practice import FIRST_CLIP, MINUTES
from baybook.compose.steps.stretch import in_stretch, one_stretch, wires_of
from baybook.compose.work import Work, at, count, wire
from baybook.finding import Amount, Listing, Message, Name, say
from baybook.step import Phase, Step

PHASE = Phase.ROUTE
_CLOSE = 1e-6  # m: two places on the route are the same


def route(work: Work) -> tuple[Step, ...]:
    """Return the steps from the drum to the last clip."""
    return (
        *_cut(work),
        *(step for n in range(len(work.stretches), 0, -1) for step in one_stretch(work, n)),
        *_source(work),
        *_to_body(work),
        *_output(work),
        *_cue(work),
        _near_joints(work),
    )


def _cut(work: Work) -> Iterator[Step]:
    tags = tuple(c.tag for c in work.new)
    yield act(
        "cut",
        PHASE,
        say("do.cut", wires=wires_of(tags)),
        value=Amount(sum(c.cut_m for c in work.new), "m", 2).at_least(),
        value_note=say("note.in-all"),
        tool=say("tool.cutter"),
        minutes=MINUTES["cut"] * len(tags),
        needs=("route-measured", "kit-complete"),
        makes=tuple(f"{tag}.cut" for tag in tags),
    )
    yield act(
        "label.ends",
        PHASE,
        say("do.label.ends", wires=wires_of(tags)),
        value=count(2 * len(tags)),
        value_note=say("note.labels"),
        minutes=len(tags),
        needs=tuple(f"{tag}.cut" for tag in tags),
        makes=tuple(f"{tag}.labelled" for tag in tags),
    )
    yield act(
        "cap.ends",
        PHASE,
        say("do.cap.ends"),
        value=count(2 * len(tags)),
        value_note=say("note.ends"),
        tool=say("tool.tape"),
        needs=tuple(f"{tag}.labelled" for tag in tags),
        makes=("ends-capped",),
    )


def _source(work: Work) -> Iterator[Step]:
    """W1 lies between the battery and the protection, both ends free and capped."""
    for conductor in (c for c in work.run if c.use == "source"):
        yield act(
            "lay.source",
            PHASE,
            say(
                "do.lay.source",
                wire=wire(conductor.tag),
                end=at(conductor.end),
                start=at(conductor.start),
            ),
            minutes=MINUTES["fit"],
            needs=("ends-capped", f"{work.fuse.tag}.fixed", "laid:1"),
            makes=(f"{conductor.tag}.laid",),
        )


def _to_body(work: Work) -> Iterator[Step]:
    """A return to the body lies in no stretch: it ends beside the charger."""
    if work.body is not None:
        conductor = work.circuit.conductor("return")
        yield act(
            "lay.return",
            PHASE,
            say(
                "do.lay.source",
                wire=wire(conductor.tag),
                start=at(conductor.end),
                end=at(conductor.start),
            ),
            value=_to_body_length(work),
            minutes=MINUTES["fit"],
            needs=("ends-capped", "charger-fixed"),
            makes=(f"{conductor.tag}.laid",),
        )


def _to_body_length(work: Work) -> Amount | None:
    length = work.fit.job.source.return_length
    return Amount.of(length).at_least() if length is not None else None


def _output(work: Work) -> Iterator[Step]:
    tags = tuple(c.tag for c in work.new if c.use.startswith("output"))
    if tags:
        yield act(
            "lay.output",
            PHASE,
            say("do.lay.output", wires=wires_of(tags)),
            value=Amount.of(work.fit.job.output_length).plain(),
            minutes=MINUTES["fit"],
            needs=("ends-capped", "charger-fixed", "station-placed"),
            makes=tuple(f"{tag}.laid" for tag in tags),
        )


def _cue(work: Work) -> Iterator[Step]:
    """The cue lead goes with the cables, and is joined at neither end yet."""
    if not work.voltage_cue:
        cue = work.fit.vehicle.cues[work.fit.job.cue]
        tags = tuple(c.tag for c in work.long)
        yield act(
            "lay.cue",
            PHASE,
            _cue_way(work, wires_of(tags)),
            value=Amount.of(cue.length).at_least() if cue.length is not None else None,
            value_note=_cue_area(work),
            minutes=MINUTES["lay"],
            needs=("charger-fixed", "laid:1"),
            makes=("cue-laid",),
        )


def _cue_way(work: Work, wires: Listing) -> Message:
    path = work.fit.vehicle.cues[work.fit.job.cue].path
    if path is None:
        return say("do.lay.cue", wires=wires)
    return say("do.lay.cue.path", wires=wires, path=Name(path))


def _cue_area(work: Work) -> Message | None:
    cue = work.fit.charger.cue
    return say("note.cue.area", area=Amount.of(cue.area).at_least()) if cue is not None else None


def _near_joints(work: Work) -> Step:
    """No joint carries the weight of its cable: the first clip of an end sits close to it."""
    clipped = (
        f"clipped:{n}" for n, stretch in enumerate(work.stretches, 1) if in_stretch(work, stretch)
    )
    laid = (f"{c.tag}.laid" for c in work.new)
    return act(
        "clip.ends",
        PHASE,
        say("do.clip.ends", near=FIRST_CLIP.amount.at_most()),
        value=FIRST_CLIP.amount.at_most(),
        value_note=say("note.at-most"),
        tool=say("tool.rule"),
        minutes=MINUTES["clip"] * len(work.new),
        needs=(*clipped, *laid),
        makes=("ends-clipped",),
    )
