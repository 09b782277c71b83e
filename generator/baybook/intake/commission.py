"""A readings file against the sheet it belongs to: each reading in its unit, none left out."""

from __future__ import annotations

from collections.abc import Sequence

from baybook.finding import Amount, Finding, Name, Value
from baybook.guide import ReadingLine
from baybook.intake.document import Document
from baybook.intake.problems import nearest, problem, shown
from baybook.quantity import Mark
from baybook.record import AsBuilt
from baybook.shop import Shop
from baybook.units import FigureError, read

_SIGNS = ("-", "\N{MINUS SIGN}")


def unit_of(row: ReadingLine) -> str:
    """Return the inside unit that a reading is taken in."""
    return next(a.unit for a in (row.high, row.low, row.predicted) if a is not None)


def reading_value(row: ReadingLine, text: str) -> Amount:
    """Return what was read, as written; FigureError for what is no figure in its unit.

    A current that flows out of the battery is written with a minus.
    """
    written = " ".join(text.split())
    negative = row.name == "idle" and written.startswith(_SIGNS)
    interval = read(written[1:].strip() if negative else written, unit_of(row))
    value = -interval.value if negative else interval.value
    return Amount(value, unit_of(row), 3, written)


def readings_of(
    document: Document[AsBuilt], rows: Sequence[ReadingLine]
) -> tuple[dict[str, Amount], list[Finding]]:
    """Return what was read by id, and a finding for each id that is strange, absent or no figure.

    rows  the readings of the guide that the file names
    """
    by_id = {row.id: row for row in rows}
    values: dict[str, Amount] = {}
    findings: list[Finding] = []
    for one, text in document.model.readings.items():
        mark, at = document.mark(f"readings.{one}"), f"record.readings.{one}"
        if one not in by_id:
            near = nearest(one, by_id)
            findings.append(problem("DA-07", "key", mark, at=at, found=Name(one), near=near))
            continue
        try:
            values[one] = reading_value(by_id[one], text)
        except FigureError as wrong:
            reason = f"figure.{wrong.reason}"
            put: dict[str, Value] = dict(wrong.values)
            findings.append(problem("DA-10", reason, mark, at=at, found=shown(text), **put))
    place = document.mark("readings")
    for one in by_id:
        if one not in document.model.readings:
            at = f"record.readings.{one}"
            findings.append(problem("DA-06", "key-missing", place, at=at, key=Name(one)))
    return values, findings


def belongs(
    document: Document[AsBuilt], *, fit: str, figures: str, shop: Shop, segments: int
) -> list[Finding]:
    """Return what keeps a readings file from belonging to this sheet.

    figures   fingerprint of the guide's figures; the file gives its beginning
    segments  how many lengths the route has
    """
    record, findings = document.model, []
    if record.fit != fit:
        findings.append(_wrong(document, "fit", record.fit, fit))
    if len(record.figures) < _SHORTEST or not figures.startswith(record.figures):
        findings.append(_wrong(document, "figures", record.figures, figures[:_PRINTED]))
    tools = {tool.id for tool in shop.tools}
    for place, tool in enumerate(record.tools):
        if tool not in tools:
            near = nearest(tool, tools)
            mark, at = document.mark(f"tools.{place}"), f"record.tools.{place}"
            findings.append(problem("DA-14", "tool", mark, at=at, found=Name(tool), near=near))
    if record.lengths is not None and len(record.lengths) != segments:
        found = Amount(len(record.lengths), "1", 0, show="1")
        mark, count = document.mark("lengths"), Amount(segments, "1", 0, show="1")
        findings.append(
            problem("DA-15", "lengths-count", mark, at="record.lengths", found=found, number=count)
        )
    return findings


_OTHER = {"fit": "record-fit", "figures": "record-figures"}  # the reason, by key
_SHORTEST, _PRINTED = 8, 12  # characters of a fingerprint


def _wrong(document: Document[AsBuilt], key: str, found: str, right: str) -> Finding:
    mark: Mark = document.mark(key)
    at, value = f"record.{key}", Name(found)
    return problem("DA-15", _OTHER[key], mark, at=at, found=value, right=Name(right))
