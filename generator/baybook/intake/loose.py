"""Ids of data sheets in a vehicle file that has other faults: told with them, not a round later."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator

from baybook.finding import Finding, Name
from baybook.intake.problems import nearest, problem
from baybook.intake.tree import Branch, Node, Row, Scalar

# Keys of a job that name a data sheet, and the folder it lies in.
SHEET_KEYS = {
    "charger": "charger",
    "station": "station",
    "cable": "cable",
    "output_cable": "cable",
    "other_cables": "cable",
    "lugs": "lug",
    "connector": "connector",
    "protection": "protection",
    "clips": "sundry",
    "shrink": "sundry",
    "conduit": "sundry",
}


def loose_faults(tree: Branch, ids: Callable[[str], Iterable[str]]) -> Iterator[Finding]:
    """Yield the sheet ids under `fits:` that lead nowhere.

    tree   a vehicle file that is not whole, so that no model of it exists
    ids    the ids of one kind of data sheet
    """
    jobs = tree.get("fits")
    entries = [job for job in jobs if isinstance(job, Branch)] if isinstance(jobs, Row) else []
    for job in entries:
        for key, kind in SHEET_KEYS.items():
            valid = tuple(ids(kind)) + (tuple(ids("battery")) if key == "station" else ())
            for scalar in _scalars(job.get(key)):
                if scalar not in valid and not scalar.told:
                    at, found = f"vehicle.{scalar.mark.path}", Name(str(scalar))
                    near = nearest(str(scalar), valid)
                    yield problem("DA-14", "id", scalar.mark, at=at, found=found, near=near)


def _scalars(node: Node | None) -> Iterator[Scalar]:
    if isinstance(node, Scalar):
        yield node
    elif isinstance(node, Row):
        yield from (item for item in node if isinstance(item, Scalar))
