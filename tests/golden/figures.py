"""Every figure and chart of the guides' designs, a line each: value, ends, decimals, inputs."""

from collections.abc import Callable, Iterator
from dataclasses import replace
from functools import singledispatch
from pathlib import Path

from baybook.chart import Chart
from baybook.checks import judge
from baybook.design import Design
from baybook.figure import Figure
from baybook.finding import Amount, Listing, Message
from baybook.fit import Fit
from baybook.quantity import Quantity
from baybook.sizing.choose import choose
from baybook.terms import AmpacitySource
from chassis import chassis_fit
from compose.jobs import GUIDES, behind_a_factory_fuse
from shared_line import shared_fit
from variants import vehicle
from workbooks import example_fit

OTHERS = ("brunsall-tansy/j2", "pellmare-mirren/j5", "tavlow-camber/j8", "tessick-orlet/j7")
# Ways that no guide of the example takes, each on the estate.
VARIANTS: dict[str, Callable[[Path], Fit]] = {
    "body return": chassis_fit,
    "shared line": shared_fit,
    "fuse of the vehicle": lambda _: behind_a_factory_fuse(),
    "bundled": lambda _: bundled(example_fit(GUIDES[0])),
    "boat table": lambda _: by_boat_table(example_fit(GUIDES[0])),
}
FITS = (*GUIDES, *OTHERS, *VARIANTS)


def bundled(fit: Fit) -> Fit:
    way = fit.vehicle.routes[fit.job.route]
    six = tuple(segment.model_copy(update={"bundled": 6}) for segment in way.segments)
    routes = {**fit.vehicle.routes, fit.job.route: way.model_copy(update={"segments": six})}
    return vehicle(fit, routes=routes)


def by_boat_table(fit: Fit) -> Fit:
    table = {"ampacity": AmpacitySource.CFR_183_425}
    return replace(fit, shop=fit.shop.model_copy(update=table))


def reckoned(folder: Path) -> dict[str, str]:
    """Return golden file name → the figures of a fit."""
    return dict(golden(name, folder / str(at)) for at, name in enumerate(FITS))


def golden(name: str, folder: Path) -> tuple[str, str]:
    fit = VARIANTS[name](folder) if name in VARIANTS else example_fit(name)
    return f"{name.replace('/', '-').replace(' ', '-')}.txt", "\n".join(lines(fit)) + "\n"


def lines(fit: Fit) -> Iterator[str]:
    design = choose(fit, judge)
    assert isinstance(design, Design), fit.id
    yield from map(figure, design.figures)
    for chart in design.charts:
        yield from drawn(chart)
    for cascade in design.cascades:
        yield f"cascade: {shown(cascade)}"
    for substitute in design.substitutes:
        yield f"substitute: {substitute.kind} {shown(substitute.candidate.choice)}"


def figure(one: Figure) -> str:
    parts = (
        f"{i.symbol} {i.value:.9g} {i.end} {i.source} {i.where.path if i.where else ''}"
        for i in one.inputs
    )
    inputs = ", ".join(" ".join(part.split()) for part in parts)
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
