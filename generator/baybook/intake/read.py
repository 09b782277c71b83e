"""A folder → a workbook, or everything that is wrong in it."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from pathlib import Path

from pydantic import BaseModel

from baybook.finding import Finding, Name
from baybook.fit import Workbook
from baybook.intake.document import Document, read_sheet, read_shop, read_vehicle
from baybook.intake.join import join
from baybook.intake.plausible import implausible
from baybook.intake.problems import nearest, problem
from baybook.intake.profile import profile_faults
from baybook.intake.references import Bench, Shelf, sheet_faults, stock_faults, vehicle_faults
from baybook.intake.source import leads_out, shown_name
from baybook.quantity import Mark
from baybook.second import BatterySheet
from baybook.sheet import (
    CableSheet,
    ChargerSheet,
    ConnectorSheet,
    LugSheet,
    PassageSheet,
    ProtectionSheet,
    StationSheet,
    SundrySheet,
)
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


def read_workbook(root: Path) -> tuple[Workbook | None, tuple[Finding, ...]]:
    """Read a workbook, the folder that holds `shop.yaml`.

    Returns the workbook and no finding, or no workbook and every fault of every file, in the order
    of files and lines. Each file is read once; nothing outside `root` is read, nothing is written.
    """
    findings: list[Finding] = []
    shop = _shop(root, findings)
    shelf = _shelf(root, findings)
    vehicles = _vehicles(root, shelf, findings)
    findings.extend(sheet_faults(shelf))
    if shop:
        findings.extend(stock_faults(shop, shelf))
    benches = [
        Bench(slug, vehicle, shop, shelf) for slug, vehicle in vehicles.items() if shop and vehicle
    ]
    for bench in benches:
        findings.extend(vehicle_faults(bench))
    findings.extend(_codes_twice(vehicles.values()))
    if findings or shop is None:
        return None, tuple(sorted(dict.fromkeys(findings), key=_order))
    fits = [fit for bench in benches for fit in join(bench)]
    book = Workbook(
        shop=shop.model,
        fits=tuple(sorted(fits, key=lambda fit: fit.id)),
        chargers=shelf.models("charger"),
        stations=shelf.models("station"),
        connectors=shelf.models("connector"),
    )
    return book, ()


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


def _vehicles(
    root: Path, shelf: Shelf, findings: list[Finding]
) -> dict[str, Document[Vehicle] | None]:
    vehicles: dict[str, Document[Vehicle] | None] = {}
    for folder in _children(root / "vehicles", root, findings):
        if folder.is_file():
            findings.append(_stray(folder, root, "vehicle-folder", ()))
            continue
        if not _ID.fullmatch(folder.name):
            findings.append(_misnamed(folder, root))
            continue
        document, found = read_vehicle(folder / "vehicle.yaml", root, shelf.ids)
        findings.extend(found)
        vehicles[folder.name] = document
        if document:
            findings.extend(implausible(document))
    return vehicles


def _codes_twice(vehicles: Iterable[Document[Vehicle] | None]) -> Iterator[Finding]:
    """Yield vehicles under the short name of another: their sheets could be taken for its."""
    first: dict[str, Document[Vehicle]] = {}
    for document in vehicles:
        if document is None:
            continue
        code = document.model.code
        if code.casefold() in first:
            other = Name(first[code.casefold()].mark("code").file)
            mark = document.mark("code")
            yield problem(
                "DA-16", "code-twice", mark, at="vehicle.code", found=Name(code), other=other
            )
        first.setdefault(code.casefold(), document)


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
