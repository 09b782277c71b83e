"""NE: where the return may join the vehicle."""

from __future__ import annotations

from collections.abc import Iterator

from baybook.checks.found import PRACTICE, SHEET, SHOP_RULE, Found, amps
from baybook.design import Design
from baybook.finding import Amount, Name, Verdict, say
from baybook.fit import Fit
from baybook.point import Point
from baybook.quantity import Mark, State
from baybook.terms import JointKind, YesNoUnknown
from baybook.vehicle import BodyLoop


def sensor_on_post(design: Design) -> Iterator[Found]:
    """Keep the return off a post with a current sensor, or with one that nobody ruled out.

    A return on the post goes round the sensor: wrong charge state, codes. [common-practice]
    """
    fit = design.fit
    point, sensor = fit.vehicle.points[fit.job.source.negative], fit.vehicle.battery.sensor
    if point.at_post and sensor is not YesNoUnknown.NO:
        yield Found(
            verdict=Verdict.REFUSED,
            place="circuit.return",
            where=fit.mark("fit.source.negative"),
            found=Name(point.what),
            allowed=say("rule.NE-01.body"),
            sources=(PRACTICE,),
            values={"point": Name(point.what), "sensor": say(f"rule.NE-01.{sensor.value}")},
        )


def mid_tap(design: Design) -> Iterator[Found]:
    """Take nothing from between two batteries in series. [common-practice]

    The tapped battery is emptied and the other overcharged; both die.
    """
    fit = design.fit
    point = fit.vehicle.points[fit.job.source.positive]
    if point.tap:
        low = design.solved.feed.low
        yield Found(
            verdict=Verdict.REFUSED,
            place="circuit.source",
            where=fit.mark("fit.source.positive"),
            found=Name(point.what),
            allowed=say("rule.NE-03.whole"),
            sources=(PRACTICE,),
            values={
                "point": Name(point.what),
                "count": fit.vehicle.battery.units,
                "current": amps(low.current_A if low else design.choice.input_limit_A),
            },
        )


def reverse_feed(design: Design) -> Iterator[Found]:
    """Tap no battery below a negative isolator: opened, it turns the feed round.

    With the isolator open the body hangs on the vehicle's loads from the top of the pair; their
    current flows back through the charger's input into the tap, reversed.  [circuit-laws]
    """
    fit = design.fit
    isolator, point = fit.vehicle.isolator, fit.vehicle.points[fit.job.source.positive]
    if isolator is not None and isolator.lead == "negative" and point.tap:
        yield Found(
            verdict=Verdict.REFUSED,
            place="circuit.isolator",
            where=fit.mark("fit.source.positive"),
            found=say("rule.NE-04.tap"),
            allowed=say("rule.NE-03.whole"),
            sources=("circuit-laws", PRACTICE),
            values={
                "place": Name(isolator.place),
                "point": Name(point.what),
                "charger": Name(fit.charger.name),
            },
        )


def chassis_return(design: Design) -> Iterator[Found]:
    """Let the chassis carry the return only where its maker allows it and its loop is measured.

    Measured: the drop between the point near the charger and the battery's body point, both on
    the body, with at least I_B through it: R_b = U_b / I_b. A body that is bonded, glued or a
    tray bolted on carries current over joints that nobody made for it.        [shop-rule]
    """
    fit = design.fit
    if fit.job.source.return_path != "chassis":
        return
    loop = fit.body_loop
    fault = next(_not_allowed(fit), None)
    if fault is None and loop is not None:
        fault = next(_not_measured(design, loop), None)
    if fault is None:
        return
    reason, where = fault
    yield Found(
        verdict=Verdict.REFUSED,
        place="circuit.return",
        where=where,
        found=say("rule.NE-05.chassis"),
        allowed=say("rule.NE-05.conductor"),
        sources=(SHOP_RULE,),
        values={
            "body": say(
                f"rule.NE-05.{reason}",
                point=Name(fit.vehicle.points[fit.job.source.negative].what),
                measured=Amount.of(loop.current) if loop else say("rule.NE-05.chassis"),
                current=amps(design.choice.input_limit_A),
            )
        },
    )


def _not_allowed(fit: Fit) -> Iterator[tuple[str, Mark]]:
    """Yield why nothing is known that could carry the return, and where that stands."""
    here = fit.mark("fit.source.return_path")
    if fit.vehicle.body_return is not YesNoUnknown.YES:
        yield fit.vehicle.body_return.value, here
    if fit.job.source.return_length is None:
        yield "no_length", here
    if fit.body_loop is None:
        yield "not_measured", here


def _not_measured(design: Design, loop: BodyLoop) -> Iterator[tuple[str, Mark]]:
    """Yield why the measurement says nothing of this return, and where it stands."""
    if any(_not_body(design.fit.vehicle.points[point]) for point in (loop.start, loop.end)):
        yield "not_body", loop.drop.where
    for read in (loop.drop, loop.current):
        if read.basis.state is not State.MEASURED:
            yield "guessed", read.where
    if loop.current.low < design.choice.input_limit_A:
        yield "too_little", loop.current.where


def _not_body(point: Point) -> bool:
    return point.at_post or point.kind is not JointKind.BODY


def isolator(design: Design) -> Iterator[Found]:
    """Join the feed on the isolator's switched side, and hold for the customer's letter.

    The wrong side, an unknown side or no letter: refused.        [fit-sheet]
    """
    fit = design.fit
    found = fit.vehicle.isolator
    if found is None:
        return
    source = fit.job.source
    point = fit.vehicle.points[source.negative if found.lead == "negative" else source.positive]
    switched = point.switched_side is True
    held = switched and source.letter
    state = "letter" if held else "no_letter" if switched else "wrong_side"
    yield Found(
        verdict=Verdict.HOLD if held else Verdict.REFUSED,
        place="circuit.isolator",
        where=fit.mark("vehicle.isolator" if held else "fit.source"),
        found=say(f"rule.NE-02.{state}"),
        allowed=say("rule.NE-02.allowed"),
        sources=(SHEET,),
        values={
            "fault": say(f"rule.NE-02.{state}"),
            "place": Name(found.place),
            "letter": Name(found.letter),
            "lead": say(f"rule.NE-02.{found.lead}"),
            "way": say(f"rule.NE-02.{'read' if held else 'join'}"),
            "point": Name(point.what),
        },
    )
