"""Every figure and chart of the guides' designs, a line each: value, ends, decimals, inputs."""

from collections.abc import Iterator
from functools import singledispatch

from baybook.chart import Chart
from baybook.checks import judge
from baybook.design import Design
from baybook.figure import Figure
from baybook.finding import Amount, Listing, Message
from baybook.quantity import Quantity
from baybook.sizing.choose import choose
from compose.jobs import GUIDES
from workbooks import example_fit

OTHERS = ("brunsall-tansy/j2", "pellmare-mirren/j5", "tavlow-camber/j8", "tessick-orlet/j7")
FITS = (*GUIDES, *OTHERS)


def reckoned() -> dict[str, str]:
    """Return golden file name → the figures of a fit."""
    return dict(map(golden, FITS))


def golden(fit: str) -> tuple[str, str]:
    return f"{fit.replace('/', '-')}.txt", "\n".join(lines(fit)) + "\n"


def lines(fit: str) -> Iterator[str]:
    design = choose(example_fit(fit), judge)
    assert isinstance(design, Design), fit
    yield from map(figure, design.figures)
    for chart in design.charts:
        yield from drawn(chart)
    for cascade in design.cascades:
        yield f"cascade: {shown(cascade)}"
    for substitute in design.substitutes:
        yield f"substitute: {substitute.kind} {shown(substitute.candidate.choice)}"


def figure(one: Figure) -> str:
    inputs = ", ".join(
        f"{i.symbol} {i.value:.9g}{' ' + i.end if i.end else ''}" for i in one.inputs
    )
    ends = f"{one.low:.9g} to {one.high:.9g}"
    return f"{one.name}: {one.value:.9g} ({ends}) {one.unit} .{one.digits}; {inputs}"


def drawn(chart: Chart) -> Iterator[str]:
    for name, axis in (("x", chart.x), ("y", chart.y)):
        ticks = " ".join(f"{tick.value:.6g}" for tick in axis.ticks)
        yield f"{chart.id} {name}: {axis.low:.9g} to {axis.high:.9g}; {ticks}"
    for band in chart.bands:
        yield f"{chart.id} band {band.style}: {band.low:.9g} to {band.high:.9g}"
    for place in chart.places:
        dots = " ".join(f"{dot:.9g}" for dot in place.dots)
        yield f"{chart.id} place {place.style}: {place.at:.9g} {dots}".rstrip()
    for curve in chart.curves:
        x, y = (sum(along) for along in zip(*curve.points, strict=True))
        yield f"{chart.id} curve {curve.style}: {len(curve.points)} points, sums {x:.9g} {y:.9g}"
    for line in chart.lines:
        yield f"{chart.id} says {shown(line)}"


@singledispatch
def shown(node: object) -> str:
    """Return a tree of values and words in one line, floats as they can be told apart."""
    if hasattr(node, "__dataclass_fields__"):
        return shown(tuple(getattr(node, name) for name in node.__dataclass_fields__))
    return str(node)


@shown.register
def _(node: float) -> str:
    return f"{node:.9g}"


@shown.register
def _(node: Message) -> str:
    return f"{node.id}({', '.join(f'{name} {shown(value)}' for name, value in node.values)})"


@shown.register
def _(node: Quantity) -> str:
    return f"{node.value:.9g} {node.unit}"


@shown.register
def _(node: Amount) -> str:
    return f"{node.value:.9g} {node.unit} .{node.digits}"


@shown.register
def _(node: Listing) -> str:
    return " + ".join(map(shown, node.items))


@shown.register
def _(node: tuple) -> str:
    return f"[{'; '.join(map(shown, node))}]"
