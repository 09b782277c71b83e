"""Figures that cannot both be true, and figures that cannot be nought: shop and data sheets.

What only a vehicle file can get wrong stands in `plausible_vehicle`.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from itertools import pairwise
from typing import Any

from baybook.finding import Finding, Name
from baybook.intake.document import Document
from baybook.intake.faults import empty, judge_at
from baybook.intake.plausible_vehicle import vehicle_faults
from baybook.intake.problems import problem
from baybook.part import CableSheet, PassageSheet, ProtectionSheet, SundrySheet
from baybook.quantity import Quantity
from baybook.sheet import ChargerSheet, StationSheet
from baybook.shop import Shop
from baybook.units import is_awg
from baybook.vehicle import Vehicle

# Read from left to right, the figures of a row may not fall.
_RISING: dict[type, tuple[tuple[str, ...], ...]] = {
    ChargerSheet: (
        ("input_min", "cut_out_run", "cut_out", "cut_in", "input_max"),
        ("output_min", "output_default", "output_max"),
        ("derating.full_to", "derating.stop"),
    ),
    StationSheet: (
        ("window_min", "start", "window_max", "absolute"),
        ("charge_min", "charge_max"),
    ),
    Vehicle: (
        ("supply.low", "supply.typical", "supply.high"),
        ("supply.hot_idle", "supply.hot_cruise", "supply.rated"),
        ("supply.base_day", "supply.base_night"),
    ),
    Shop: (
        ("limits.fuse_distance", "limits.fuse_distance_conduit"),
        ("joints.protection", "joints.positive"),
    ),
    CableSheet: (("reference_ambient", "conductor_max", "short_circuit"),),
}

# Formulas divide by these, or nothing could work with nought.
_ABOVE_NOUGHT: dict[type, tuple[str, ...]] = {
    ChargerSheet: (
        "nominal",
        "input_min",
        "input_current",
        "output_min",
        "output_step",
        "output_current",
        "output_power",
        "efficiency",
        "upstream_max",
        "mass",
    ),
    StationSheet: ("input_current", "input_power", "energy", "efficiency", "mass"),
    ProtectionSheet: ("voltage", "breaking"),
    Vehicle: ("supply.nominal", "supply.low", "battery.capacity", "battery.internal"),
    Shop: (
        "limits.input_drop.value",
        "limits.output_drop.value",
        "limits.continuous_factor.value",
        "limits.alternator_headroom.value",
        "lengths.cutting_step",
        "spacing.clip_pitch",
        "restraint.forward",
    ),
}

_MOST_SETTINGS = 10_000
_NOT_COPPER = re.compile(r"\bCCA\b|\bclad\b|alumini?um", re.IGNORECASE)

# A share of a whole.
_AT_MOST_ONE: dict[type, tuple[str, ...]] = {
    ChargerSheet: ("efficiency", "output_tolerance"),
    StationSheet: ("efficiency",),
    Shop: (
        "limits.input_drop.value",
        "limits.output_drop.value",
        "limits.absolute_margin.value",
        "limits.continuous_factor.value",
        "limits.alternator_headroom.value",
        "limits.standby_share.value",
        "lengths.segment_tolerance",
        "meter.voltage",
        "meter.current",
    ),
}


def implausible(document: Document[Any]) -> Iterator[Finding]:
    """Yield what cannot be, within one file."""
    kind = type(document.model)
    for row in _RISING.get(kind, ()):
        yield from _falls(document, row)
    for path in _ABOVE_NOUGHT.get(kind, ()):
        yield from _judge(document, path, "nought", lambda figure: figure.low > 0)
    for path in _AT_MOST_ONE.get(kind, ()):
        yield from _judge(document, path, "over-one", lambda figure: figure.high <= 1)
    yield from _MORE.get(kind, _nothing)(document)


def _falls(document: Document[Any], row: tuple[str, ...]) -> Iterator[Finding]:
    figures = [(path, _figure(document.model, path)) for path in row]
    known = [(path, figure) for path, figure in figures if figure]
    for (below, low), (above, high) in pairwise(known):
        if low.value > high.value:
            yield problem(
                "DA-15",
                "falls",
                document.mark(above),
                at=f"{document.prefix}.{above}",
                found=Name(high.written),
                above=Name(above),
                below=Name(below),
                least=Name(low.written),
            )


def _judge(
    document: Document[Any], path: str, reason: str, holds: Callable[[Quantity], bool]
) -> Iterator[Finding]:
    figure = _figure(document.model, path)
    if figure and not holds(figure):
        at, found = f"{document.prefix}.{path}", Name(figure.written)
        yield problem("DA-15", reason, document.mark(path), at=at, found=found)


def _figure(model: Any, path: str) -> Quantity | None:  # noqa: ANN401  any model of fit.py
    """Return the figure at a path; None where there is none or nobody knows it."""
    for step in path.split("."):
        model = getattr(model, step)
        if model is None:
            return None
    return model if isinstance(model, Quantity) else None


def _nothing(_: Document[Any]) -> Iterator[Finding]:
    return iter(())


def _cable(document: Document[CableSheet]) -> Iterator[Finding]:
    """Sizes grow, and with them what they carry; each is a real conductor of copper."""
    sizes = document.model.sizes
    yield from _copper(document)
    if not sizes:
        yield empty(document, "sizes")
    for index in range(len(sizes)):
        at = f"sizes.{index}"
        gauge = sizes[index].nearest_awg
        if not is_awg(gauge):
            path, mark = f"{document.prefix}.{at}.nearest_awg", document.mark(f"{at}.nearest_awg")
            example = Name("AWG 6")
            yield problem(
                "DA-10", "figure.unnamed-gauge", mark, at=path, found=Name(gauge), example=example
            )
        if not sizes[index].ampacity:
            yield empty(document, f"{at}.ampacity")
        for path in ("area", "resistance", "diameter"):
            yield from judge_at(document, f"{at}.{path}", getattr(sizes[index], path))
        if index and sizes[index].area.value <= sizes[index - 1].area.value:
            yield _order(document, f"{at}.area", sizes[index].area, sizes[index - 1].area)


def _copper(document: Document[CableSheet]) -> Iterator[Finding]:
    """Refuse aluminium, by whatever line of the sheet it gives itself away."""
    sheet = document.model
    lines = (("material", sheet.material), ("standard", sheet.standard), ("name", sheet.name))
    for path, text in lines:
        if _NOT_COPPER.search(text):
            at = f"{document.prefix}.{path}"
            yield problem("DA-18", "clad", document.mark(path), at=at, found=Name(text))


def _protection(document: Document[ProtectionSheet]) -> Iterator[Finding]:
    sheet = document.model
    if not sheet.ratings:
        yield empty(document, "ratings")
    for rating in sheet.ratings[:1]:  # the others are more
        yield from judge_at(document, "ratings.0", rating)
    for index in range(1, len(sheet.ratings)):
        if sheet.ratings[index].value <= sheet.ratings[index - 1].value:
            at = f"ratings.{index}"
            yield _order(document, at, sheet.ratings[index], sheet.ratings[index - 1])
    for index, point in enumerate(sheet.derating):
        yield from judge_at(document, f"derating.{index}.factor", point.factor)


def _sundry(document: Document[SundrySheet]) -> Iterator[Finding]:
    for index, size in enumerate(document.model.sizes):
        least = size.diameter_min
        if least is not None and least.value > size.diameter_max.value:
            at = f"sizes.{index}.diameter_max"
            yield _order(document, at, size.diameter_max, least)


def _passage(document: Document[PassageSheet]) -> Iterator[Finding]:
    for index, size in enumerate(document.model.sizes):
        if size.diameter_min.value > size.diameter_max.value:
            at = f"sizes.{index}.diameter_max"
            yield _order(document, at, size.diameter_max, size.diameter_min)


def _order(document: Document[Any], path: str, found: Quantity, before: Quantity) -> Finding:
    return problem(
        "DA-15",
        "order",
        document.mark(path),
        at=f"{document.prefix}.{path}",
        found=Name(found.written),
        least=Name(before.written),
    )


def _charger(document: Document[ChargerSheet]) -> Iterator[Finding]:
    """A setting is looked for step by step; no charger has so many."""
    sheet = document.model
    if sheet.output_step.low <= 0:
        return  # told as nought
    steps = (sheet.output_max.value - sheet.output_min.value) / sheet.output_step.value
    if steps > _MOST_SETTINGS:
        at, found = f"{document.prefix}.output_step", Name(sheet.output_step.written)
        mark = document.mark("output_step")
        yield problem("DA-15", "settings", mark, at=at, found=found, most=_MOST_SETTINGS)


_MORE: dict[type, Callable[[Document[Any]], Iterator[Finding]]] = {
    CableSheet: _cable,
    ChargerSheet: _charger,
    ProtectionSheet: _protection,
    PassageSheet: _passage,
    SundrySheet: _sundry,
    Vehicle: vehicle_faults,
}
