"""A vehicle's jobs joined with shop and data sheets: the hand-over from intake to sizing."""

from __future__ import annotations

from collections import ChainMap
from collections.abc import Iterator, Mapping
from typing import Any

from baybook.fit import Fit
from baybook.intake.document import Document, marks_of
from baybook.intake.references import Bench, Shelf, load_kind
from baybook.intake.tree import Row
from baybook.job import Job
from baybook.photo import Picture
from baybook.quantity import Mark
from baybook.route import Route
from baybook.second import BatterySheet


def join(bench: Bench, pictures: Mapping[str, Picture]) -> Iterator[Fit]:
    """Yield a vehicle's fits. Every id leads somewhere: `vehicle_faults` found none."""
    shop = bench.shop.model.model_copy(update={"zones": dict(bench.zones)})
    vehicle = bench.vehicle.model
    shared = (_zone_marks(bench), bench.vehicle.marks("vehicle"), bench.shop.marks("shop"))
    for index, job in enumerate(vehicle.fits):
        sheets = _sheets(bench.shelf, job, vehicle.routes[job.route])
        entry = bench.vehicle.tree["fits"]
        own = dict(marks_of(entry[index], "fit")) if isinstance(entry, Row) else {}
        layers = (sheet.marks(name) for name, sheet in sheets.items())
        yield Fit(
            id=f"{bench.slug}/{job.id}",
            slug=bench.slug,
            shop=shop,
            vehicle=vehicle,
            job=job,
            photos=pictures,
            marks=ChainMap(own, *shared, *layers),
            **_models(sheets, job),
        )


def _models(sheets: Mapping[str, Document[Any]], job: Job) -> dict[str, Any]:
    """Return the fields of a fit that are data sheets."""
    single = ("charger", "station", "cable", "output_cable", "lugs", "connector", "clips", "shrink")
    models: dict[str, Any] = {name: sheets[name].model for name in single if name in sheets}
    models.setdefault("connector", None)
    if isinstance(models["station"], BatterySheet):
        models["second"] = models["station"]
        models["station"] = models["second"].as_load()
    ours = job.second.protection if job.second else ()
    models["second_protections"] = tuple(sheets[f"protection.{name}"].model for name in ours)
    models["protections"] = tuple(sheets[f"protection.{name}"].model for name in job.protection)
    models["other_cables"] = tuple(sheets[f"other_cable.{name}"].model for name in job.other_cables)
    for field in ("sundries", "passages"):
        models[field] = {
            name.removeprefix(f"{field}."): sheet.model
            for name, sheet in sheets.items()
            if name.startswith(f"{field}.")
        }
    return models


def _sheets(shelf: Shelf, job: Job, route: Route) -> dict[str, Document[Any]]:
    """Return every data sheet that a job needs, under the name it has in paths."""
    wanted = {
        "charger": ("charger", job.charger),
        "station": (load_kind(shelf, job), job.station),
        "cable": ("cable", job.cable),
        "output_cable": ("cable", job.output_cable),
        "lugs": ("lug", job.lugs),
        "clips": ("sundry", job.clips),
    }
    if job.connector is not None:
        wanted["connector"] = ("connector", job.connector)
    if job.shrink is not None:
        wanted["shrink"] = ("sundry", job.shrink)
    wanted |= {f"other_cable.{name}": ("cable", name) for name in job.other_cables}
    fuses = (*job.protection, *(job.second.protection if job.second else ()))
    wanted |= {f"protection.{name}": ("protection", name) for name in fuses}
    shields = [h.shield for segment in route.segments for h in segment.hazards if h.shield]
    sundries = [*shields, job.conduit] if job.conduit else shields
    wanted |= {f"sundries.{name}": ("sundry", name) for name in sundries}
    families = [segment.passage.family for segment in route.segments if segment.passage]
    wanted |= {f"passages.{name}": ("passage", name) for name in families}
    found = {prefix: shelf.get(kind, name) for prefix, (kind, name) in wanted.items()}
    return {prefix: sheet for prefix, sheet in found.items() if sheet}


def _zone_marks(bench: Bench) -> dict[str, Mark]:
    """Return the places of the zones that stand in the vehicle file."""
    zones = bench.vehicle.tree.get("zones")
    return dict(marks_of(zones, "shop.zones")) if zones else {}
