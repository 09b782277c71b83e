"""`baybook commission`: the readings of a finished fit, judged, and the as-built record kept."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from datetime import date
from pathlib import Path
from typing import Any

import click

from baybook.book import Outcome
from baybook.checks import judge
from baybook.checks.commission import judge_readings
from baybook.decide import decide
from baybook.design import CheckedDesign, Design
from baybook.desk.asking import ask
from baybook.desk.report import catalogue, print_findings, select
from baybook.desk.writing import write_record
from baybook.finding import Amount, Finding, Name, Verdict
from baybook.guide import Guide
from baybook.intake.commission import belongs, readings_of
from baybook.intake.document import Document, read_record
from baybook.intake.read import read_workbook
from baybook.intake.texts import Texts, read_texts
from baybook.publish.typeset import PrintError
from baybook.record import AsBuilt, Judged, Record, ToolUsed
from baybook.shop import Shop
from baybook.sizing.measured import as_measured, measured_ways
from baybook.wording.catalogue import Catalogue
from baybook.wording.tell import tell


@dataclass(frozen=True, slots=True, kw_only=True)
class _Job:
    """A fit that has a guide, so that something can be read on it."""

    outcome: Outcome
    design: Design
    guide: Guide
    texts: Mapping[str, Texts]  # by language of the shop after the first


def run_commission(
    workbook: Path, fit_id: str, path: Path | None, output: Path, *, today: date
) -> int:
    """Judge the readings, write the record, say what happened; return the exit status.

    path    the readings file; None: every reading is asked for, and the file is kept in `output`
    output  folder of the records
    """
    words = catalogue()
    job = _job(workbook, fit_id, today, words)
    if job is None:
        return 1
    if path is None:
        path = ask(job.guide, job.outcome, job.design.fit, output, today, words)
    document, values = _read(job, path, words)
    if document is None:
        return 1
    record = make_record(job.design, job.guide, document.model, values)
    _say(record, words)
    try:
        shop = job.design.fit.shop
        written = write_record(record, document.model, shop, output, words, texts=job.texts)
    except (OSError, PrintError) as cause:
        click.echo(f"the record was not written: {cause}", err=True)
        return 1
    click.echo(f"record: {', '.join(str(file) for file in written)}")
    return 0 if record.passed else 1


def _job(workbook: Path, fit_id: str, today: date, words: Catalogue) -> _Job | None:
    book, problems = read_workbook(workbook, [fit_id])
    print_findings(problems, words)
    if book is None:
        return None
    by_id = {fit.id: fit for fit in book.fits}
    (name,) = select(list(by_id), [fit_id])
    outcome = decide(by_id[name], today)
    result, guide = outcome.result, outcome.content
    if isinstance(result, CheckedDesign) and isinstance(guide, Guide):
        texts, missing = read_texts(workbook, book, whole=False)
        print_findings(missing, words)  # a language that lacks a text has no print
        whole = {} if missing else texts
        return _Job(outcome=outcome, design=result.design, guide=guide, texts=whole)
    print_findings((*outcome.findings, *outcome.faults), words)
    click.echo(f"{name} has no guide: there is nothing to read on it", err=True)
    return None


def _read(
    job: _Job, path: Path, words: Catalogue
) -> tuple[Document[AsBuilt] | None, dict[str, Amount]]:
    """Return the readings file and its values, or none and every fault said."""
    document, findings = read_record(path)
    values: dict[str, Amount] = {}
    if document is not None:
        fit = job.design.fit
        values, findings = readings_of(document, job.guide.readings)
        segments = len(fit.vehicle.routes[fit.job.route].segments)
        figures = job.outcome.figures
        findings += belongs(document, fit=fit.id, figures=figures, shop=fit.shop, segments=segments)
    print_findings(findings, words)
    return (None if findings else document), values


def make_record(
    design: Design, guide: Guide, built: AsBuilt, values: Mapping[str, Amount]
) -> Record:
    """Return the as-built record: readings judged, ways compared, the rules asked again.

    values  what was read, by id, one for each reading of the guide
    """
    read = {row.name: values[row.id].value for row in guide.readings}
    low, high = _volts(design, built, read)
    here = as_measured(design, (low, high), built.lengths)
    outside = tuple(f for f in judge(here) if f.verdict is Verdict.REFUSED)
    return Record(
        identity=guide.identity,
        figures=built.figures,
        vin=Name(built.vin),
        on=built.on.isoformat(),
        fitted_by=Name(built.fitted_by),
        checked_by=Name(built.checked_by),
        charger_serial=Name(built.serials.charger),
        station_serial=Name(built.serials.station),
        tools=_tools(design.fit.shop, built),
        readings=tuple(_bare(one) for one in judge_readings(guide, values)),
        ways=measured_ways(design, read),
        outside=outside,
        deviations=tuple(Name(text) for text in built.deviations),
    )


def _volts(design: Design, built: AsBuilt, read: Mapping[str, float]) -> tuple[float, float]:
    """Lowest and highest running volts of this vehicle; the meter may be off to either side."""
    off = design.fit.shop.meter.voltage.value
    loaded = read["input"] + read["positive"] + read["return"]
    low, high = min(read["running"], loaded) / (1 - off), max(read["running"], loaded) / (1 + off)
    supply = built.supply
    if supply is not None:
        lows = [q.low for q in (supply.low, supply.typical, supply.high) if q is not None]
        highs = [q.high for q in (supply.low, supply.typical, supply.high) if q is not None]
        low, high = min(low, *lows), max(high, *highs)
    return low, high


def _bare(one: Judged) -> Judged:
    return replace(one, row=replace(one.row, hold=None))  # it was signed on the sheet


def _tools(shop: Shop, built: AsBuilt) -> tuple[ToolUsed, ...]:
    by_id = {tool.id: tool for tool in shop.tools}
    return tuple(
        ToolUsed(
            id=one,
            name=Name(by_id[one].name),
            due=due.isoformat() if (due := by_id[one].due) else "",
            overdue=due is not None and due < built.on,
        )
        for one in built.tools
    )


# --------------------------------------------------------------------------- at the terminal


def _say(record: Record, words: Catalogue) -> None:
    told = tell(record, words)
    for one in told["readings"]:
        click.echo(f"{one['row']['id']:>4}  {_line(one)}")
    for way in told["ways"]:
        mark = "in" if way["inside"] else "OUT"
        between = f"{way['low']['text']} to {way['high']['text']}"
        click.echo(f"      {way['what']['text']}: {way['measured']['text']}, {between}: {mark}")
    _say_outside(record.outside, words)
    for tool in record.tools:
        if tool.overdue:
            click.echo(f"{tool.id}: its calibration was due {tool.due}", err=True)
    click.echo("as built: all in" if record.passed else "as built: NOT all in")


def _line(one: dict[str, Any]) -> str:
    row = one["row"]
    ends = (("from", row["low"]), ("to", row["high"]))
    limits = " ".join(f"{word} {end['text']}" for word, end in ends if end)
    text = f"{row['what']['text']}: {one['read']['text']} ({limits})"
    if not one["miss"]:
        return f"{text} in"
    way = "".join(f" {number} >" for number in one["way"])
    said = one["answer"]["text"] if one["answer"] else f"go on at question {one['ask']}"
    return f"{text} {one['miss'].upper()}; question{way} {said}"


def _say_outside(outside: tuple[Finding, ...], words: Catalogue) -> None:
    if outside:
        click.echo("this vehicle lies outside what the guide holds for:", err=True)
        print_findings(outside, words)
