"""The readings at load: current, drops, and volts at both ends of the charger."""

from __future__ import annotations

from collections.abc import Iterator

from baybook.compose.limits import at_most, least, most
from baybook.compose.practice import RUN_SPEED, RUN_TIME
from baybook.compose.reading_line import letters, line
from baybook.compose.work import Work, at, device, start_word, wire
from baybook.finding import Amount, Message, say
from baybook.guide import ReadingLine


def loaded(work: Work) -> Iterator[ReadingLine]:
    """Yield the rows; which of them this vehicle has is decided by their ids."""
    yield _source_current(work)
    if not work.fuse.factory:
        yield _fuse_drop(work)
    yield _positive_drop(work)
    yield _return_drop(work)
    if work.body is not None:
        yield _body_drop(work)
    yield _charger_input(work)
    yield _output_loaded(work)
    yield _output_current(work)
    if work.has("least_display"):
        yield _display(work)


def _loaded_state(work: Work) -> Message:
    return say(f"state.loaded.{start_word(work)}", speed=RUN_SPEED.amount, time=RUN_TIME.amount)


def _source_current(work: Work) -> ReadingLine:
    return line(
        "current",
        say("reading.source-current", wire=wire(work.run[0].tag)),
        _loaded_state(work),
        letters(work, "source+"),
        work.amount("current_typ", digits=1),
        least(work, "current", 1),
        most(work, "current", 1),
        say("if.current-low"),
        say("if.current-high"),
    )


def _fuse_drop(work: Work) -> ReadingLine:
    fuse = work.fuse
    return line(
        "fuse",
        say("reading.fuse-drop", fuse=device(fuse.tag)),
        _loaded_state(work),
        (fuse.start, fuse.end),
        work.amount("fuse_drop_typ", digits=0, show="mV"),
        None,
        most(work, "fuse", 0, "mV"),
        None,
        say("if.fuse-drop"),
    )


def _positive_drop(work: Work) -> ReadingLine:
    source, end = letters(work, "source+", "in+")
    return line(
        "positive",
        say("reading.positive-drop"),
        _loaded_state(work),
        (source, end),
        work.amount("positive_drop_typ", digits=2),
        None,
        most(work, "positive", 2),
        None,
        say("if.positive-drop.whole")
        if work.fuse.factory
        else say("if.positive-drop", start=at(source), middle=at(work.fuse.end), end=at(end)),
    )


def _return_drop(work: Work) -> ReadingLine:
    start, joint = letters(work, "in-", "return")
    return line(
        "return",
        say("reading.return-drop"),
        _loaded_state(work),
        (start, work.ground.letter),
        work.amount("return_drop_typ", digits=2),
        None,
        most(work, "return", 2),
        None,
        say("if.return-drop", joint=at(joint)),
    )


def _body_drop(work: Work) -> ReadingLine:
    """The body alone, between the points of the survey: its measurement is taken again."""
    near = work.joint("return").letter
    return line(
        "body",
        say("reading.body-drop"),
        _loaded_state(work),
        (near, work.ground.letter),
        work.amount("body_drop_typ", digits=0, show="mV"),
        None,
        most(work, "body", 0, "mV"),
        None,
        say("if.body-drop", near=at(near), far=at(work.ground.letter)),
    )


def _charger_input(work: Work) -> ReadingLine:
    charger = work.fit.charger
    cut_out = charger.cut_out if work.voltage_cue else charger.cut_out_run
    return line(
        "input",
        say("reading.charger-input"),
        _loaded_state(work),
        letters(work, "in+", "in-"),
        work.amount("charger_voltage_typ", digits=2),
        least(work, "input", 2),
        most(work, "input", 2),
        say("if.charger-low", cut_out=Amount.of(cut_out)),
        say("if.charger-high"),
    )


def _output_loaded(work: Work) -> ReadingLine:
    at_load = ("plug+", "plug-") if work.fit.second is None else ("load+", "load-")
    return line(
        "output",
        say("reading.output-loaded"),
        _loaded_state(work),
        letters(work, *at_load),
        work.amount("station_voltage", digits=1),
        least(work, "output", 2),
        at_most(work, "output", 2),
        say("if.output-loaded-low"),
        say("if.output-loaded-high"),
    )


def _output_current(work: Work) -> ReadingLine:
    out = next(c.tag for c in work.new if c.use == "output+")
    return line(
        "output_current",
        say("reading.output-current", wire=wire(out)),
        _loaded_state(work),
        letters(work, "out+"),
        work.amount("station_current", digits=1),
        least(work, "output_current", 1),
        most(work, "output_current", 1),
        say("if.output-current-low"),
        say("if.output-current-high"),
    )


def _display(work: Work) -> ReadingLine:
    return line(
        "display",
        say("reading.display"),
        _loaded_state(work),
        (),
        work.amount("station_power", digits=0),
        least(work, "display", 0),
        most(work, "display", 0),
        say("if.display-low"),
        say("if.display-high"),
    )
