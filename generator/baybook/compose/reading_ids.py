"""Which readings this vehicle has, and the id of each: R1 is the first that is taken.

A reading is left out where it has no meaning: rest volts of a battery that is no lead-acid
battery, the drop over a fuse of the vehicle's maker, the display of a load that has none, the
case of a charger whose sheet gives no thermal resistance, idling without a figure for it.
"""

from __future__ import annotations

from baybook.compose.work import Work

# In the order in which they are taken.
_ORDER = (
    "running", "sleep", "rest",
    "open",
    "current", "fuse", "positive", "return", "body", "input", "output",
    "output_current", "display",
    "joints", "case", "idle", "restarts", "noise", "stopped",
    "codes", "asleep",
)  # fmt: skip
LOADED = (
    "current", "fuse", "positive", "return", "body", "input", "output", "output_current",
    "display",
)  # fmt: skip


def reading_ids(work: Work) -> dict[str, str]:
    """Return the id of each reading that this vehicle has, by its name, in the order of work."""
    there = {figure.name for figure in work.design.figures}
    absent = {name for name, figure in _NEEDS.items() if figure not in there}
    if work.fuse.factory:
        absent.add("fuse")  # no joints of ours to read between
    names = (name for name in _ORDER if name not in absent)
    return {name: f"R{number}" for number, name in enumerate(names, 1)}


_NEEDS = {
    "body": "most_body",
    "rest": "least_rest",
    "display": "least_display",
    "case": "most_case",
    "idle": "least_idle",
}


def loaded_ids(work: Work) -> tuple[str, ...]:
    """Return the ids of the readings at load, in the order of work."""
    ids = reading_ids(work)
    return tuple(ids[name] for name in LOADED if name in ids)
