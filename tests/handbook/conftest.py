"""The printed page beside the test: `@pytest.mark.rows("torque", "TQ05*")` runs a test on each row.

The rows stand in tests/references/, one CSV by subject, copied with their source columns. A
row that was not read in a text says `from memory`; it is compared too, but no safety margin
rests on it alone. `row.printed` is the value within half its last printed digit, or within
the tolerance that the page states.
"""

import csv
from dataclasses import dataclass
from fnmatch import fnmatchcase
from functools import cache
from pathlib import Path

import pytest

REFERENCES = Path(__file__).parents[1] / "references"
GAUGES = {"1/0": 0, "2/0": -1, "3/0": -2, "4/0": -3}


def gauge(text):
    """Return the number of a gauge as written; 1/0 is 0, 4/0 is -3."""
    return GAUGES.get(text) if text in GAUGES else int(text)


def half_last_digit(text):
    """Return half of the last digit that was printed."""
    return 0.5 * 10.0 ** -len(text.partition(".")[2])


@dataclass(frozen=True)
class Row:
    """One row of a published page."""

    cells: dict

    def __getitem__(self, column):
        return self.cells[column]

    @property
    def id(self):
        return self.cells["id"]

    @property
    def value(self):
        return float(self.cells["value"])

    @property
    def printed(self):
        tolerance = self.cells.get("tolerance", "exact")
        if tolerance.endswith("%"):
            return pytest.approx(self.value, rel=float(tolerance.removesuffix("%")) / 100)
        if tolerance == "exact":
            return pytest.approx(self.value, abs=1.0001 * half_last_digit(self.cells["value"]))
        return pytest.approx(self.value, abs=float(tolerance))

    @property
    def given(self):
        """The conditions as `name: text`."""
        pairs = (part.split("=", 1) for part in self.cells["conditions"].split(";") if "=" in part)
        return dict(pairs)

    def number(self, name):
        """Return a condition as a number, a gauge as its number, without its unit."""
        text = self.given[name].split()[0]
        return gauge(text) if name in {"awg", "gauge"} else float(text)

    def __str__(self):
        how = self.cells.get("how") or self.cells.get("how_obtained")
        place = self.cells.get("location") or self.cells.get("locator")
        return f"{self.id}: {self.cells['source']}, {place} ({how})"


@cache
def page(subject):
    """Return all rows of one subject."""
    with (REFERENCES / f"{subject}.csv").open(encoding="utf-8", newline="") as file:
        return tuple(Row(cells) for cells in csv.DictReader(file))


def pytest_configure(config):
    config.addinivalue_line("markers", "rows(subject, *patterns): run on these published rows")


def pytest_generate_tests(metafunc):
    marker = metafunc.definition.get_closest_marker("rows")
    if marker is None:
        return
    subject, *patterns = marker.args
    chosen = [row for row in page(subject) if any(fnmatchcase(row.id, p) for p in patterns)]
    assert chosen, f"{subject} has no row {patterns}"
    metafunc.parametrize("row", chosen, ids=lambda row: row.id)


@pytest.fixture
def rows():
    """Return a function that gives the rows of a subject by their ids."""

    def by_id(subject):
        return {row.id: row for row in page(subject)}

    return by_id


@pytest.fixture
def as_gauge():
    """Return the function that numbers a gauge as written."""
    return gauge
