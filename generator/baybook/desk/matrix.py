"""`baybook matrix`: every vehicle with every charger and station, as a table, CSV or JSON."""

from __future__ import annotations

import csv
import io
import json
import shutil
from collections import Counter
from collections.abc import Callable, Iterable, Iterator, Sequence
from concurrent.futures import Executor, ProcessPoolExecutor
from contextlib import contextmanager
from functools import cache
from itertools import groupby
from multiprocessing import get_context
from pathlib import Path
from textwrap import wrap
from typing import Any

import click

from baybook.desk.report import catalogue, flat_text, print_findings, select
from baybook.finding import Message
from baybook.fit import Workbook
from baybook.intake.read import read_workbook
from baybook.matrix import Sheets, pairings, tasks
from baybook.pairing import Pairing
from baybook.sweeping import sweep_rarely

FORMAT = 1
COLUMNS = (
    "vehicle", "charger", "station", "verdict", "set_V", "power_W", "limit", "codes", "reason",
    "fit", "written", "taken",
)  # fmt: skip
_COLOURS = {"ok": "green", "caution": "yellow", "hold": "magenta", "refused": "red", "unknown": ""}
_WIDE = 100  # columns of a terminal from which a pairing stands on one line
_PATIENCE_S = 10  # until a cluster counts as not there

Reason = Callable[[Pairing], str]


def run_matrix(
    workbook: Path, patterns: Sequence[str], *, form: str, workers: int, cluster: str | None
) -> int:
    """Judge every pairing and print all of them; return the exit status.

    patterns  fits that are to be the pattern of their vehicle
    form      what is written to stdout: text, csv or json
    """
    book, problems = read_workbook(workbook)
    if book is None:
        print_findings(problems, catalogue())
        return 1
    if patterns:
        _require_one_each(select([fit.id for fit in book.fits], patterns))
    with _executor(workers, cluster) as executor:
        rows = pairings(tasks(book, patterns), Sheets.of(book), executor)
        for text in _FORMS[form](rows, book, _reasons()):
            click.echo(text, nl=False)
    return 0


def _require_one_each(patterns: Sequence[str]) -> None:
    for vehicle, named in groupby(sorted(patterns), key=lambda fit: fit.partition("/")[0]):
        fits = list(named)
        if len(fits) > 1:
            raise click.UsageError(
                f"one pattern a vehicle: {vehicle} has {' and '.join(fits)}; name one of them"
            )


@contextmanager
def _executor(workers: int, cluster: str | None) -> Iterator[Executor | None]:
    if cluster is not None:
        with _client(cluster) as client:
            yield client.get_executor()
    elif workers == 1:
        yield None
    else:
        with started(workers) as pool:
            yield pool


def started(workers: int) -> ProcessPoolExecutor:
    """Return processes that judge pairings."""
    return ProcessPoolExecutor(workers, get_context("spawn"), sweep_rarely)


def _client(cluster: str) -> Any:  # noqa: ANN401 - the extra may be missing
    try:
        from distributed import Client  # noqa: PLC0415
    except ModuleNotFoundError:
        raise click.UsageError(
            "--cluster needs the extra `cluster`: pip install 'baybook[cluster]'"
        ) from None
    try:
        return Client(cluster, timeout=_PATIENCE_S)  # type: ignore[no-untyped-call]
    except (OSError, ValueError) as fault:
        raise click.UsageError(
            f"no cluster answers at {cluster}; give the scheduler's address, "
            f"such as tcp://10.0.0.5:8786 ({type(fault).__name__})"
        ) from None


def _reasons() -> Reason:
    words = catalogue()

    @cache
    def told(message: Message) -> str:
        return flat_text(message, words)

    return lambda pairing: told(pairing.why) if pairing.why else ""


def row_of(pairing: Pairing, reason: Reason) -> dict[str, Any]:
    """Return one pairing as the object that JSON and CSV hold."""
    return {
        "vehicle": pairing.vehicle,
        "charger": pairing.charger,
        "station": pairing.station,
        "verdict": str(pairing.verdict),
        "set_V": pairing.set_V,
        "power_W": None if pairing.power_W is None else round(pairing.power_W, 1),
        "limit": pairing.limit and str(pairing.limit),
        "codes": list(pairing.codes),
        "reason": reason(pairing),
        "fit": pairing.pattern,
        "written": pairing.written,
        "taken": [str(part) for part in pairing.taken],
    }


def _json(rows: Iterable[Pairing], book: Workbook, reason: Reason) -> Iterator[str]:
    """Yield one object, a pairing a line, so that a million need no more memory than one."""
    shop = json.dumps(book.shop.name, ensure_ascii=False)
    demonstration = json.dumps(book.shop.demonstration)
    yield f'{{"format": {FORMAT}, "shop": {shop}, "demonstration": {demonstration}, "pairings": ['
    comma = "\n"
    for row in rows:
        yield comma + json.dumps(row_of(row, reason), ensure_ascii=False, allow_nan=False)
        comma = ",\n"
    yield "\n]}\n"


def _csv(rows: Iterable[Pairing], _book: Workbook, reason: Reason) -> Iterator[str]:
    yield _csv_line(COLUMNS)
    for pairing in rows:
        row = row_of(pairing, reason)
        cells = [
            " ".join(map(_dashed, cell)) if isinstance(cell, list) else cell
            for cell in row.values()
        ]
        yield _csv_line(["" if c is None else str(c).lower() if c is True or c is False else c
                         for c in cells])  # fmt: skip


def _dashed(word: str) -> str:
    return word.replace(" ", "-")


def _csv_line(cells: Sequence[object]) -> str:
    line = io.StringIO()
    csv.writer(line, lineterminator="\n").writerow(cells)
    return line.getvalue()


def _text(rows: Iterable[Pairing], book: Workbook, reason: Reason) -> Iterator[str]:
    wide = shutil.get_terminal_size().columns
    pads = tuple(max(map(len, names), default=0) for names in (book.chargers, book.stations))
    counts: Counter[str] = Counter()
    for vehicle, own in groupby(rows, key=lambda row: row.vehicle):
        yield click.style(vehicle, bold=True) + "\n"
        for row in own:
            counts[str(row.verdict)] += 1
            yield _line(row, reason, pads, wide) if wide >= _WIDE else _lines(row, reason, wide)
    told = ", ".join(f"{count} {verdict}" for verdict, count in counts.items())
    summary = f"{counts.total()} pairings: {told}" if told else "nothing to pair"
    yield "\n".join(wrap(summary, wide, subsequent_indent="  ")) + "\n"


def _line(row: Pairing, reason: Reason, pads: tuple[int, ...], wide: int) -> str:
    charger, station = f"{row.charger:<{pads[0]}}", f"{row.station:<{pads[1]}}"
    start = f"  {charger}  {station}  "
    rest = wide - len(start) - 9
    return f"{start}{_verdict(row, 7)}  {_cut(_said(row, reason), rest)}".rstrip() + "\n"


def _lines(row: Pairing, reason: Reason, wide: int) -> str:
    head = _cut(f"{row.charger} + {row.station}", wide - 2)
    said = _cut(_said(row, reason), wide - 13)
    return f"  {head}\n    {_verdict(row, 7)}  {said}".rstrip() + "\n"


def _verdict(row: Pairing, pad: int) -> str:
    return click.style(f"{row.verdict:<{pad}}", fg=_COLOURS[row.verdict] or None)


def _said(row: Pairing, reason: Reason) -> str:
    """Set voltage, power and limit where it passes, and the codes; else codes and the reason."""
    codes = " ".join(row.codes)
    if row.set_V is None or row.power_W is None:
        return f"{codes}: {reason(row)}" if codes else reason(row)
    return f"{row.set_V:4.1f} V  {row.power_W:4.0f} W  {row.limit or '':<18}  {codes}".rstrip()


def _cut(text: str, most: int) -> str:
    return text if len(text) <= most else f"{text[: max(1, most - 1)].rstrip()}…"


_FORMS: dict[str, Callable[[Iterable[Pairing], Workbook, Reason], Iterator[str]]] = {
    "text": _text,
    "csv": _csv,
    "json": _json,
}
