"""What is printed on each label that stays in the vehicle."""

from __future__ import annotations

from math import ceil

from baybook.compose import limits
from baybook.compose.ends import End, all_ends
from baybook.compose.practice import JUMP_BOOST
from baybook.compose.reading_ids import reading_ids
from baybook.compose.route_cable import gauged
from baybook.compose.work import Work, at, by_start, device, reading, step
from baybook.finding import Amount, Listing, Message, Name, Ref, Value, say
from baybook.fit import has_high_voltage


def labels(work: Work) -> tuple[tuple[Message, ...], ...]:
    """Return the labels, each as its lines."""
    fuse, fit = work.fuse, work.fit
    rating = Amount(fuse.rating_A, "A", 0, fuse.rating_written)
    setting = work.setting
    return (
        (
            say("label.fuse", fuse=device(fuse.tag), rating=rating),
            say("label.fuse.factory")
            if fuse.factory
            else say("label.fuse.only", family=Name(fuse.family)),
            say("label.feeds", charger=Name(fit.charger.name)),
            *_step_label(work),
        ),
        *_second_label(work),
        (
            say("label.battery", source=at(work.joint("source+").letter)),
            say("label.battery.fuse", fuse=device(fuse.tag)),
        ),
        (
            say("label.plug", absolute=Amount.of(fit.station.absolute)),
            *_polarity(work),
            say("label.plug.set", setting=setting),
            say("label.plug.reset", default=Amount.of(fit.charger.output_default))
            if fit.charger.default_after_reset
            and fit.charger.output_default.value != work.design.choice.set_V
            else say("label.plug.kept"),
        ),
        (
            say("label.off"),
            _off_line(work),
            say("label.off.load"),
        ),
        (
            say("label.guide", code=Name(fit.id)),
            say("label.guide.shop", shop=Name(fit.shop.name)),
        ),
    )


def end_labels(work: Work) -> tuple[tuple[Message, ...], ...]:
    """Return a label for both ends of each cable, and of the cue lead: where it is joined."""
    return (*(_end_label(work, end) for end in all_ends(work)), *_cue_labels(work))


def _end_label(work: Work, end: End) -> tuple[Message, ...]:
    wire = end.wire
    here = end.joint.letter
    other = wire.end if here == wire.start else wire.start
    return (
        say("label.end", wire=Ref("conductor", wire.tag), here=at(here)),
        say("label.end.place", place=Name(work.at(here).place)),
        say("label.end.other", other=at(other), place=Name(work.at(other).place)),
        say("label.end.cable", colour=say(f"colour.{wire.colour}"), area=gauged(wire)),
    )


def _cue_labels(work: Work) -> tuple[tuple[Message, ...], ...]:
    if work.voltage_cue:
        return ()
    cue = Name(work.fit.vehicle.cues[work.fit.job.cue].where)
    charger = Name(work.fit.charger.name)
    ends = ((charger, cue), (cue, charger))
    return tuple(
        (
            say("label.cue"),
            say("label.end.place", place=here),
            say("label.cue.other", place=there),
        )
        for here, there in ends
    )


def _second_label(work: Work) -> tuple[tuple[Message, ...], ...]:
    if work.fit.second is None:
        return ()
    fuse = work.second_fuse
    rating = Amount(fuse.rating_A, "A", 0, fuse.rating_written)
    return (
        (
            say("label.fuse", fuse=device(fuse.tag), rating=rating),
            say("label.fuse.only", family=Name(fuse.family)),
            say("label.second"),
        ),
    )


def _step_label(work: Work) -> tuple[Message, ...]:
    """A power step that the vehicle's limit rests on stands on the label."""
    if not any(finding.code == "SU-07" for finding in work.checked.findings):
        return ()
    return (say("label.step", power=Amount(work.design.choice.power_W, "W", 0)),)


def _polarity(work: Work) -> tuple[Message, ...]:
    """Return the line for a plug that fits either way round."""
    contact = work.contact("plus")
    return (say(f"label.plug.{contact}"),) if contact else ()


def _off_line(work: Work) -> Message:
    isolator = work.fit.vehicle.isolator
    if isolator is not None:
        return say("undo.off.isolator", place=Name(isolator.place))
    if work.stays_on:
        return say(
            "undo.off.fuse", fuse=device(work.fuse.tag), place=Name(work.joint("source+").place)
        )
    if work.voltage_cue:
        return say("undo.off.voltage", cut_out=Amount.of(work.fit.charger.cut_out))
    return say(by_start(work, "undo.off.cue"))


def undo(work: Work) -> tuple[Message, ...]:
    """Return how to be off in ten seconds, how to leave it at any step, how to take it out."""
    fuse = device(work.fuse.tag)
    minus = at(work.negative.letter)
    rating = Amount(work.fuse.rating_A, "A", 0, work.fuse.rating_written)
    source = at(work.joint("source+").letter)
    return (
        say("undo.off", how=_off_line(work)),
        say("undo.leave", fuse=fuse, minus=minus),
        say(by_start(work, "undo.leave.power"), fuse=fuse),
        say("undo.remove", minus=minus, fuse=fuse, source=source),
        *_high_voltage(work),
        *_out_too(work),
        say("undo.holes"),
        say("undo.remove.last", minus=minus),
        say("undo.fuse.factory", fuse=fuse, rating=rating)
        if work.fuse.factory
        else say("undo.fuse", fuse=fuse, rating=rating, family=Name(work.fuse.family)),
        *_in_series(work),
        *_jump(work),
        *_new_battery(work),
        say("undo.crash", fuse=fuse, source=source),
    )


def _out_too(work: Work) -> tuple[Message, ...]:
    """Say what else comes out with the feed, and what goes back in its place."""
    found = () if work.voltage_cue else (say("undo.remove.cue"),)
    if work.fit.vehicle.split_relay is not None:
        charger = Name(work.fit.charger.name)
        return (*found, say("undo.remove.relay", charger=charger))
    return found


def _high_voltage(work: Work) -> tuple[Message, ...]:
    """Say what comes before a cover is opened again, on a vehicle with a traction side."""
    if not has_high_voltage(work.fit):
        return ()
    values: dict[str, Value] = {"off": step("hv.open"), "back": step("hv.close")}
    return (say("undo.high-voltage", minus=at(work.negative.letter), **values),)


def _in_series(work: Work) -> tuple[Message, ...]:
    """Say which of two fuses opens first, where the vehicle's maker has one before ours."""
    first = work.fit.vehicle.points[work.fit.job.source.positive].upstream
    if first is None:
        return ()
    both = any(finding.code == "OC-22" for finding in work.checked.findings)
    return (
        say(
            "undo.series.both" if both else "undo.series.ours",
            fuse=device(work.fuse.tag),
            first=Amount.of(first.rating, 0),
            place=Name(first.place),
        ),
    )


def _jump(work: Work) -> tuple[Message, ...]:
    """Say what a starter from outside may do, and what a booster for lorries would."""
    fit = work.fit
    most, boost = fit.charger.input_max, JUMP_BOOST.amount
    values: dict[str, Value] = {
        "fuse": device(work.fuse.tag),
        "charger": Name(fit.charger.name),
        "most": Amount.of(most),
    }
    if boost.value <= most.value:
        return (say("undo.jump", **values),)
    return (say("undo.jump", **values), say("undo.jump.boost", **values, boost=boost))


def _new_battery(work: Work) -> tuple[Message, ...]:
    """Return how the battery is changed with the fit aboard, and how strong the new one may be."""
    minus, fuse = at(work.negative.letter), device(work.fuse.tag)
    changed = say("undo.battery", fuse=fuse, minus=minus)
    low, high = limits.output_open(work)
    after = say(
        "undo.battery.after", reading=reading(reading_ids(work)["open"]), low=low, high=high
    )
    forgotten = tuple(Name(item.what) for item in work.fit.vehicle.preserve)
    kept = (say("undo.battery.settings", what=Listing(forgotten)),) if forgotten else ()
    if not work.has("battery_least"):
        return (changed, after, *kept)
    bare = work.design.figure("battery_least").value
    least = Amount(ceil(bare * 1e4 - 1e-6) / 1e4, "ohm", 1)  # a minimum: never rounded down
    breaking = Amount.of(work.fuse.breaking)
    return (
        changed,
        after,
        *kept,
        say("undo.battery.least", fuse=fuse, least=least, breaking=breaking),
    )
