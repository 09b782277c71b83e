"""The example workbook for tests: whole, or copied and spoilt by editing its text.

book = example_copy(tmp_path)
edit(book, TANSY, "low: 12.3 V", "low: 12,3 V")
"""

from __future__ import annotations

import re
import shutil
from functools import cache
from pathlib import Path

from baybook.fit import Fit, Workbook
from baybook.intake.read import read_workbook

EXAMPLE = Path(__file__).resolve().parents[1] / "fits"

SHOP = "shop.yaml"
TANSY = "vehicles/brunsall-tansy/vehicle.yaml"
DREY = "vehicles/ostrigg-drey/vehicle.yaml"
MIRREN = "vehicles/pellmare-mirren/vehicle.yaml"
ORLET = "vehicles/tessick-orlet/vehicle.yaml"
CAMBER = "vehicles/tavlow-camber/vehicle.yaml"
COBBLE = "vehicles/dunstrel-cobble/vehicle.yaml"


def copy_workbook(folder: Path) -> Path:
    """Copy the example workbook, to be read from `folder`, and return that path.

    The copy speaks English only: a text may then be spoilt without a word on its translation.
    """
    root = Path(shutil.copytree(EXAMPLE, folder, ignore=shutil.ignore_patterns("issued")))
    edit(root, SHOP, "languages: [en, de]", "languages: [en]")
    return root


def edit(root: Path, name: str, old: str, new: str, *, count: int = 1) -> Path:
    """Replace text in a file of a workbook; it must stand there exactly `count` times."""
    path = root / name
    text = path.read_text(encoding="utf-8")
    assert text.count(old) == count, f"{old!r} stands {text.count(old)} times in {name}"
    path.write_text(text.replace(old, new), encoding="utf-8")
    return path


def edit_first(root: Path, name: str, old: str, new: str) -> Path:
    """Replace the first of several like texts: two jobs of a vehicle may share a line."""
    path = root / name
    text = path.read_text(encoding="utf-8")
    assert old in text, f"{old!r} does not stand in {name}"
    path.write_text(text.replace(old, new, 1), encoding="utf-8")
    return path


def alone(path: Path, job: str) -> None:
    """Leave only one entry under `fits:` of a vehicle file, so that its text stands there once."""
    head, fits, entries = path.read_text(encoding="utf-8").partition("\nfits:\n")
    own = [entry for entry in re.split(r"(?m)^(?=  - id: )", entries) if _id_of(entry) == job]
    assert len(own) == 1, f"{job} stands {len(own)} times in {path.name}"
    entry = re.sub(r"(?m)^      instead: .*\n", "", own[0])  # the fit it offers is gone
    path.write_text(head + fits + entry, encoding="utf-8")


def leave_only(root: Path, *slugs: str) -> None:
    """Leave of the vehicles only these."""
    for vehicle in (root / "vehicles").iterdir():
        if vehicle.name not in slugs:
            shutil.rmtree(vehicle)


def _id_of(entry: str) -> str:
    return entry.partition("\n")[0].removeprefix("  - id: ")


def load(root: Path) -> Workbook:
    """Read a workbook that is expected to be whole."""
    workbook, findings = read_workbook(root)
    assert workbook is not None, findings
    return workbook


@cache
def example() -> Workbook:
    """Return the example workbook, read once."""
    return load(EXAMPLE)


def example_fit(fit_id: str) -> Fit:
    """Return one fit of the example: `dunstrel-cobble/j9b`."""
    return next(fit for fit in example().fits if fit.id == fit_id)


def spoilt_fit(folder: Path, fit_id: str, *changes: tuple[str, str, str]) -> Fit:
    """Return a fit of a copy with changes made: (file in the workbook, old text, new text)."""
    root = copy_workbook(folder / "fits")
    vehicle, _, job = fit_id.partition("/")
    alone(root / "vehicles" / vehicle / "vehicle.yaml", job)
    for name, old, new in changes:
        edit(root, name, old, new)
    return next(fit for fit in load(root).fits if fit.id == fit_id)
