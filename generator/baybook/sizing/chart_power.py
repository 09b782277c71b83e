"""Power against set voltage: what limits it, where the station takes it, what was set."""

from __future__ import annotations

from collections.abc import Iterator

from baybook.chart import Band, Chart, Curve, Place
from baybook.design import Design
from baybook.finding import Amount, Message, say
from baybook.fit import Fit
from baybook.quantity import Quantity
from baybook.sizing.chart_axis import end_of, linear, shown
from baybook.sizing.output import full_power, most_current, power_at

_BEYOND = 0.6  # of the settable span: as far as that, what bounds the window is on the scale
_BEYOND_LEAST = 0.1  # of the highest setting
_AIR = 0.04  # of the axis, beside what stands outermost
_HEAD = 1.08  # the y axis reaches so far over the highest limit


def power_chart(design: Design) -> Chart:
    """Return power over set voltage with every limit, the window, and the setting.

    P = min(step, charger's watts, load's watts, U · smaller current limit)        [fit-sheet]
    """
    fit, choice = design.fit, design.choice
    window, places = _window(fit)
    low, high = _ends(fit, window)
    limits = tuple(_limits(fit, choice.power_W))
    top = max(P for curve in limits for _, P in curve.points)
    return Chart(
        id="power",
        title=say("chart.power.title"),
        x=linear(say("chart.axis.setting"), low, high, "V"),
        y=linear(say("chart.axis.power"), 0.0, _HEAD * top, "W"),
        bands=(*_outside(fit, low, high), _tolerance(design)),
        places=(*_on_scale(places, low, high), _chosen(design)),
        curves=(*limits, _given(design)),
        lines=tuple(_lines(design)),
    )


def _who(fit: Fit) -> str:
    """What takes the power has its own words: a station, or a second battery."""
    return "station" if fit.second is None else "battery"


def _window(fit: Fit) -> tuple[tuple[float, ...], tuple[tuple[str, Quantity, float], ...]]:
    """Return the bounds of the window, and each with its name: the ends that the rules hold to."""
    station = fit.station
    runs, starts = station.window_min, station.start
    lower = (("runs", runs, runs.high), ("starts", starts, starts.high))
    places = (
        # A load that starts where it runs has one bound, not two.
        *(lower if starts.high > runs.high else lower[:1]),
        ("ends", station.window_max, station.window_max.low),
        ("absolute", station.absolute, station.absolute.low),
    )
    return tuple(value for _, _, value in places), places


def _ends(fit: Fit, bounds: tuple[float, ...]) -> tuple[float, float]:
    """Ends of the x axis: all settings, and what bounds the window not too far from them."""
    low, high = fit.charger.output_min.value, fit.charger.output_max.value
    reach = max(_BEYOND * (high - low), _BEYOND_LEAST * high)
    near = [U for U in bounds if low - reach <= U <= high + reach]
    low, high = min(low, *near, high), max(high, *near, low)
    air = _AIR * max(high - low, _BEYOND_LEAST * high)
    return low - air, high + air


def _on_scale(
    places: tuple[tuple[str, Quantity, float], ...], low: float, high: float
) -> Iterator[Place]:
    for name, quantity, value in places:
        inside = low <= value <= high
        words = f"chart.power.{name}" if inside else f"chart.power.{name}.beyond"
        yield Place(
            label=say(words, voltage=end_of(quantity, value)),
            at=min(max(value, low), high),
            style="bound" if inside else "beyond",
        )


def _outside(fit: Fit, low: float, high: float) -> Iterator[Band]:
    station = fit.station
    if station.window_min.high > low:
        yield Band(low=low, high=min(station.window_min.high, high), style="outside")
    if station.window_max.low < high:
        yield Band(low=max(station.window_max.low, low), high=high, style="outside")


def _tolerance(design: Design) -> Band:
    output = design.solved.output
    return Band(low=output.low_V, high=output.high_V, style="tolerance")


def _limits(fit: Fit, step_W: float) -> Iterator[Curve]:
    charger, station, who = fit.charger, fit.station, _who(fit)
    ends = charger.output_min.value, charger.output_max.value
    for name, current in (
        ("charger.current", charger.output_current),
        (f"{who}.current", station.input_current),
    ):
        points = tuple((U, U * current.value) for U in ends)
        label = say(f"chart.limit.{name}", current=Amount.of(current))
        yield Curve(label=label, style="bound", points=points)
    watts = [
        ("charger.power", charger.output_power.value),
        (f"{who}.power", station.input_power.value),
    ]
    if step_W < charger.output_power.value:
        watts.append(("step", step_W))
    for name, power in watts:
        label = say(f"chart.limit.{name}", power=shown(power, "W", 0))
        yield Curve(label=label, style="limit", points=tuple((U, power) for U in ends))


def _given(design: Design) -> Curve:
    """What is given at each setting; it bends where the current limit gives way to the power."""
    fit, step = design.fit, design.choice.power_W
    charger, station = fit.charger, fit.station
    low, high = charger.output_min.value, charger.output_max.value
    bend = full_power(charger, station, step) / most_current(charger, station)
    volts = sorted({low, min(max(bend, low), high), high})
    points = tuple((U, power_at(charger, station, step, U)) for U in volts)
    return Curve(label=say("chart.power.given"), style="main", points=points)


def _setting(design: Design) -> dict[str, Amount]:
    output = design.solved.output
    return {
        "setting": shown(design.choice.set_V, "V"),
        "power": shown(output.power_W, "W", 0),
        "low": Amount(output.low_V, "V", 2),
        "high": Amount(output.high_V, "V", 2),
    }


def _chosen(design: Design) -> Place:
    return Place(
        label=say("chart.power.chosen", **_setting(design)),
        at=design.choice.set_V,
        style="chosen",
        dots=(design.solved.output.power_W,),
    )


def _lines(design: Design) -> Iterator[Message]:
    fit, output = design.fit, design.solved.output
    who, station = _who(fit), fit.station
    limit = output.limit.replace("station", who)
    yield say("chart.power.says", **_setting(design))
    yield say(
        "chart.power.sure",
        sure=shown(output.sure_W, "W", 0),
        low=Amount(output.low_V, "V", 2),
        binds=say(f"chart.binds.{limit.replace(' ', '-')}"),
    )
    yield say(
        f"chart.power.window.{who}",
        runs=end_of(station.window_min, station.window_min.high),
        starts=end_of(station.start, station.start.high),
        ends=end_of(station.window_max, station.window_max.low),
        absolute=end_of(station.absolute, station.absolute.low),
    )
    for curve in _limits(fit, design.choice.power_W):
        yield say("chart.limit.line", limit=curve.label)
