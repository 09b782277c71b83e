"""A folder → a workbook, or everything that is wrong in it."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path

from pydantic import BaseModel

from baybook.finding import Finding, Name
from baybook.fit import Fit, Workbook
from baybook.intake.document import Document, read_sheet, read_shop, read_vehicle
from baybook.intake.join import join
from baybook.intake.pictures import picture_faults, read_pictures
from baybook.intake.plausible import implausible
from baybook.intake.problems import nearest, problem
from baybook.intake.profile import profile_faults
from baybook.intake.references import Bench, Shelf, sheet_faults, stock_faults, vehicle_faults
from baybook.intake.source import leads_out, shown_name
from baybook.intake.tree import texts_in
from baybook.part import (
    CableSheet,
    ConnectorSheet,
    LugSheet,
    PassageSheet,
    ProtectionSheet,
    SundrySheet,
)
from baybook.photo import Picture
from baybook.quantity import Mark
from baybook.second import BatterySheet
from baybook.sheet import ChargerSheet, StationSheet
from baybook.shop import Shop
from baybook.vehicle import Vehicle

# The folders under datasheets/, and what lies in them.
SHEETS: dict[str, type[BaseModel]] = {
    "charger": ChargerSheet,
    "station": StationSheet,
    "battery": BatterySheet,
    "cable": CableSheet,
    "protection": ProtectionSheet,
    "lug": LugSheet,
    "passage": PassageSheet,
    "connector": ConnectorSheet,
    "sundry": SundrySheet,
}

_ID = re.compile(r"[a-z0-9][a-z0-9-]{0,63}")


@dataclass(frozen=True, slots=True, kw_only=True)
class Opened:
    """A workbook whose shop profile and data sheets are read, and whose vehicles are not yet."""

    root: Path
    shop: Document[Shop] | None
    shelf: Shelf
    slugs: tuple[str, ...]  # the folders of its vehicles
    findings: tuple[Finding, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class ReadVehicle:
    """One vehicle file, read: its fits, or everything that is wrong in it."""

    slug: str
    code: str  # its short name; "" if it cannot be read
    code_at: Mark | None
    fits: tuple[Fit, ...]
    findings: tuple[Finding, ...]
    # What it was read from, and what would be read if it were there, as marks name files.
    files: frozenset[str] = frozenset()


def read_workbook(
    root: Path, wanted: Sequence[str] = ()
) -> tuple[Workbook | None, tuple[Finding, ...]]:
    """Read a workbook, the folder that holds `shop.yaml`.

    wanted  the fits that are asked for: no other vehicle is read, unless one of them is not there.
            Without one, all.

    Returns the workbook and no finding, or no workbook and every fault of every file, in the order
    of files and lines. Each file is read once; nothing outside `root` is read, nothing is written.
    """
    opened = open_workbook(root)
    slugs = {fit.partition("/")[0] for fit in wanted} & set(opened.slugs)
    vehicles = [read_vehicle_of(opened, slug) for slug in sorted(slugs)]
    there = {fit.id for vehicle in vehicles for fit in vehicle.fits}
    if not wanted or not (there.issuperset(wanted) or any(v.findings for v in vehicles)):
        vehicles = [read_vehicle_of(opened, slug) for slug in opened.slugs]
    findings = faults_of(opened, vehicles)
    if findings or opened.shop is None:
        return None, findings
    return workbook_of(opened, [fit for vehicle in vehicles for fit in vehicle.fits]), ()


def workbook_of(opened: Opened, fits: Iterable[Fit]) -> Workbook:
    """Return a workbook of these fits with the shop profile and everything that can be paired."""
    if opened.shop is None:
        raise ValueError("a workbook without a shop profile is none")
    shelf = opened.shelf
    return Workbook(
        shop=opened.shop.model,
        fits=tuple(sorted(fits, key=lambda fit: fit.id)),
        chargers=shelf.models("charger"),
        stations=shelf.models("station"),
        connectors=shelf.models("connector"),
    )


def open_workbook(root: Path) -> Opened:
    """Read the shop profile and all data sheets, and find the vehicles."""
    findings: list[Finding] = []
    shop = _shop(root, findings)
    shelf = _shelf(root, findings)
    slugs = tuple(_slugs(root, findings))
    findings.extend(sheet_faults(shelf))
    if shop:
        findings.extend(stock_faults(shop, shelf))
    return Opened(root=root, shop=shop, shelf=shelf, slugs=slugs, findings=tuple(findings))


def read_vehicle_of(opened: Opened, slug: str) -> ReadVehicle:
    """Read one vehicle of a workbook."""
    path = opened.root / "vehicles" / slug / "vehicle.yaml"
    document, findings = read_vehicle(path, opened.root, opened.shelf.ids)
    if document is None:
        return ReadVehicle(slug=slug, code="", code_at=None, fits=(), findings=tuple(findings))
    findings.extend(implausible(document))
    findings.extend(picture_faults(document))
    pictures, faults = read_pictures(document, opened.root)
    findings.extend(faults)
    fits: tuple[Fit, ...] = ()
    if opened.shop:
        bench = Bench(slug, document, opened.shop, opened.shelf)
        findings.extend(vehicle_faults(bench))
        fits = () if findings or opened.findings else tuple(join(bench, pictures))
    return ReadVehicle(
        slug=slug,
        code=document.model.code,
        code_at=document.mark("code"),
        fits=fits,
        findings=tuple(findings),
        files=frozenset(_read_from(opened, slug, document, pictures)),
    )


def _read_from(
    opened: Opened, slug: str, document: Document[Vehicle], pictures: Mapping[str, Picture]
) -> Iterator[str]:
    """Yield a vehicle's file, that of its base, its pictures, each data sheet that it may name."""
    yield from (picture.file for picture in pictures.values())
    root = opened.root.resolve().name
    yield f"{root}/vehicles/{slug}/vehicle.yaml"
    if base := document.model.variant_of:
        yield f"{root}/vehicles/{base}/vehicle.yaml"
    for job in document.model.fits:  # a sheet that is added may be meant from then on
        yield from (
            f"{root}/datasheets/{kind}/{job.station}.yaml" for kind in ("station", "battery")
        )
    named = set(texts_in(document.tree))
    for kind, sheets in opened.shelf.sheets.items():
        yield from (f"{root}/datasheets/{kind}/{name}.yaml" for name in named & sheets.keys())


def faults_of(opened: Opened, vehicles: Sequence[ReadVehicle]) -> tuple[Finding, ...]:
    """Return every fault of a workbook once, in the order of files and lines."""
    findings = [*opened.findings, *(f for vehicle in vehicles for f in vehicle.findings)]
    findings.extend(_codes_twice(vehicles))
    return tuple(sorted(dict.fromkeys(findings), key=_order))


def _order(finding: Finding) -> tuple[str, int, int, str]:
    where = finding.where
    return where.file, where.line, where.column, finding.code


def _shop(root: Path, findings: list[Finding]) -> Document[Shop] | None:
    document, found = read_shop(root / "shop.yaml", root)
    findings.extend(found)
    if document:
        findings.extend(implausible(document))
        findings.extend(profile_faults(document))
    return document


def _shelf(root: Path, findings: list[Finding]) -> Shelf:
    shelf = Shelf()
    for folder in _children(root / "datasheets", root, findings):
        if folder.name not in SHEETS:
            findings.append(_stray(folder, root, "sheet-folder", SHEETS))
            continue
        shelf.sheets[folder.name] = {}
        for path in _children(folder, root, findings):
            if found := _misnamed_sheet(path, root):
                findings.append(found)
            else:
                shelf.sheets[folder.name][path.stem] = _sheet(path, root, findings)
    return shelf


def _sheet(path: Path, root: Path, findings: list[Finding]) -> Document[BaseModel] | None:
    kind = path.parent.name
    document, found = read_sheet(path, root, SHEETS[kind], kind)
    findings.extend(found)
    if document:
        findings.extend(implausible(document))
    return document


def _slugs(root: Path, findings: list[Finding]) -> Iterator[str]:
    for folder in _children(root / "vehicles", root, findings):
        if folder.is_file():
            findings.append(_stray(folder, root, "vehicle-folder", ()))
        elif not _ID.fullmatch(folder.name):
            findings.append(_misnamed(folder, root))
        else:
            yield folder.name


def _codes_twice(vehicles: Iterable[ReadVehicle]) -> Iterator[Finding]:
    """Yield vehicles under the short name of another: their sheets could be taken for its."""
    first: dict[str, Mark] = {}
    for vehicle in vehicles:
        if vehicle.code_at is None:
            continue
        code, mark = vehicle.code, vehicle.code_at
        if code.casefold() in first:
            other = Name(first[code.casefold()].file)
            yield problem(
                "DA-16", "code-twice", mark, at="vehicle.code", found=Name(code), other=other
            )
        first.setdefault(code.casefold(), mark)


def _children(folder: Path, root: Path, findings: list[Finding]) -> Iterator[Path]:
    """Yield what lies in a folder, by name; hidden files are the editor's, not the shop's."""
    where = Mark(shown_name(folder, root), 1, 1)
    if leads_out(folder, root):
        findings.append(problem("DA-01", "outside", where))
    elif not folder.is_dir():
        findings.append(problem("DA-01", "no-folder", where))
    else:
        yield from (path for path in sorted(folder.iterdir()) if not path.name.startswith("."))


def _misnamed_sheet(path: Path, root: Path) -> Finding | None:
    if path.suffix != ".yaml":
        return _stray(path, root, "suffix", (f"{path.stem}.yaml",))
    return None if _ID.fullmatch(path.stem) else _misnamed(path, root)


def _stray(path: Path, root: Path, reason: str, valid: Iterable[str]) -> Finding:
    where = Mark(shown_name(path, root), 1, 1)
    near = nearest(path.name, valid)
    return problem("DA-07", reason, where, found=Name(path.name), near=near)


def _misnamed(path: Path, root: Path) -> Finding:
    where = Mark(shown_name(path, root), 1, 1)
    return problem("DA-16", "id-form", where, found=Name(path.stem))
