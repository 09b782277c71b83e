"""The readings at load: current, drops, and volts at both ends of the charger."""

from __future__ import annotations

from collections.abc import Callable

from baybook.compose import limits
from baybook.compose.practice import CURRENT_BAND, DISPLAY_BAND, DROP_BAND, RUN_SPEED, RUN_TIME
from baybook.compose.reading_line import amp_share, figure, letters, line, volt_share
from baybook.compose.work import Work, at, device, start_word, wire
from baybook.finding import Amount, Message, say
from baybook.guide import ReadingLine


def _loaded_state(work: Work) -> Message:
    return say(f"state.loaded.{start_word(work)}", speed=RUN_SPEED.amount, time=RUN_TIME.amount)


def _source_current(work: Work, one: str) -> ReadingLine:
    # At constant power the current falls as the supply rises.
    typical, most = figure(work, "current_typ"), figure(work, "current_low")
    least = typical * figure(work, "supply_typ") / figure(work, "supply_high")
    meter = amp_share(work)
    return line(
        one,
        say("reading.source-current", wire=wire(work.run[0].tag)),
        _loaded_state(work),
        letters(work, "source+"),
        work.amount("current_typ", digits=1),
        Amount(least * (1 - meter - CURRENT_BAND.value), "A", 1),
        Amount(most * (1 + meter), "A", 1),
        say("if.current-low"),
        say("if.current-high"),
    )


def _drop(work: Work, name: str) -> tuple[Amount, Amount]:
    """Predicted at the typical supply; at most what the highest current gives, and a band."""
    ratio = figure(work, "current_low") / figure(work, "current_typ")
    most = figure(work, name) * ratio * (1 + DROP_BAND.value + volt_share(work))
    return work.amount(name, digits=2), limits.volts(most, 2)


def _fuse_drop(work: Work, one: str) -> ReadingLine:
    predicted, high = (
        Amount(amount.value, "V", 0, show="mV") for amount in _drop(work, "fuse_drop_typ")
    )
    fuse = work.fuse
    return line(
        one,
        say("reading.fuse-drop", fuse=device(fuse.tag)),
        _loaded_state(work),
        (fuse.start, fuse.end),
        predicted,
        None,
        high,
        None,
        say("if.fuse-drop"),
    )


def _positive_drop(work: Work, one: str) -> ReadingLine:
    predicted, high = _drop(work, "positive_drop_typ")
    source, end = letters(work, "source+", "in+")
    return line(
        one,
        say("reading.positive-drop"),
        _loaded_state(work),
        (source, end),
        predicted,
        None,
        high,
        None,
        say("if.positive-drop.whole")
        if work.fuse.factory
        else say("if.positive-drop", start=at(source), middle=at(work.fuse.end), end=at(end)),
    )


def _return_drop(work: Work, one: str) -> ReadingLine:
    predicted, high = _drop(work, "return_drop_typ")
    start, joint = letters(work, "in-", "return")
    return line(
        one,
        say("reading.return-drop"),
        _loaded_state(work),
        (start, work.ground.letter),
        predicted,
        None,
        high,
        None,
        say("if.return-drop", joint=at(joint)),
    )


def _body_drop(work: Work, one: str) -> ReadingLine:
    """The body alone, between the points of the survey: its measurement is taken again."""
    predicted, high = (
        Amount(amount.value, "V", 0, show="mV") for amount in _drop(work, "body_drop_typ")
    )
    near = work.joint("return").letter
    return line(
        one,
        say("reading.body-drop"),
        _loaded_state(work),
        (near, work.ground.letter),
        predicted,
        None,
        high,
        None,
        say("if.body-drop", near=at(near), far=at(work.ground.letter)),
    )


def _charger_input(work: Work, one: str) -> ReadingLine:
    charger, shop = work.fit.charger, work.fit.shop
    cut_out = charger.cut_out if work.voltage_cue else charger.cut_out_run
    low = cut_out.value + shop.limits.cut_out_margin.value.value
    high = figure(work, "supply_high") * (1 + volt_share(work))
    return line(
        one,
        say("reading.charger-input"),
        _loaded_state(work),
        letters(work, "in+", "in-"),
        work.amount("charger_voltage_typ", digits=2),
        limits.volts(low, 2),
        limits.volts(high, 2),
        say("if.charger-low", cut_out=Amount.of(cut_out)),
        say("if.charger-high"),
    )


def _at_load(work: Work) -> tuple[str, str]:
    return ("plug+", "plug-") if work.fit.second is None else ("load+", "load-")


def _output_loaded(work: Work, one: str) -> ReadingLine:
    spread = work.fit.charger.output_tolerance.value + volt_share(work)
    drop = figure(work, "output_drop")
    station = figure(work, "station_voltage")
    return line(
        one,
        say("reading.output-loaded"),
        _loaded_state(work),
        letters(work, *_at_load(work)),
        work.amount("station_voltage", digits=1),
        limits.volts(station * (1 - spread - drop * DROP_BAND.value)),
        limits.volts(figure(work, "set_voltage") * (1 + spread)),
        say("if.output-loaded-low"),
        say("if.output-loaded-high"),
    )


def _output_current(work: Work, one: str) -> ReadingLine:
    current, meter = figure(work, "station_current"), amp_share(work)
    out = next(c.tag for c in work.new if c.use == "output+")
    return line(
        one,
        say("reading.output-current", wire=wire(out)),
        _loaded_state(work),
        letters(work, "out+"),
        work.amount("station_current", digits=1),
        Amount(current * (1 - CURRENT_BAND.value - meter), "A", 1),
        Amount(current * (1 + CURRENT_BAND.value + meter), "A", 1),
        say("if.output-current-low"),
        say("if.output-current-high"),
    )


def _display(work: Work, one: str) -> ReadingLine:
    power = figure(work, "station_power")
    return line(
        one,
        say("reading.display"),
        _loaded_state(work),
        (),
        work.amount("station_power", digits=0),
        Amount(power * (1 - DISPLAY_BAND.value), "W", 0),
        Amount(power * (1 + DISPLAY_BAND.value), "W", 0),
        say("if.display-low"),
        say("if.display-high"),
    )


_LOADED = (
    _source_current,
    _fuse_drop,
    _positive_drop,
    _return_drop,
    _body_drop,
    _charger_input,
    _output_loaded,
    _output_current,
    _display,
)


def loaded(work: Work) -> tuple[Callable[[Work, str], ReadingLine], ...]:
    """Return what makes each row; a fuse of the vehicle has no joints of ours to read between."""
    left_out = {_fuse_drop} if work.fuse.factory else set()
    if work.body is None:
        left_out.add(_body_drop)
    if work.fit.second is not None:
        left_out.add(_display)  # a battery shows no watts
    return tuple(make for make in _LOADED if make not in left_out)
