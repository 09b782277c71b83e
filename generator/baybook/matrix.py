"""Every vehicle with every charger and every station, by the same rules as a guide.

    workbook ─tasks─▶ one task a vehicle ─blocks─▶ any Executor ─judge_block─▶ pairings, in order

A pairing takes a fit of the vehicle as its pattern: route, source, protection, cable, mount and
lead are the fit's, charger and station are swapped. What a guide shows besides its verdict (the
other sizes, charts, the envelope) is left out; no rule is.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from concurrent.futures import Executor
from dataclasses import dataclass, replace
from itertools import groupby
from math import ceil

from baybook.checks.remembering import Remembering
from baybook.compose.identity import identify
from baybook.finding import Amount, Finding, Listing, Message, Name, Verdict, say, worst
from baybook.fit import Fit, Workbook
from baybook.job import Asked
from baybook.pairing import Limit, Pairing, PairingLine, Standing, Taken
from baybook.part import ConnectorSheet
from baybook.sheet import ChargerSheet, StationSheet
from baybook.sizing.choose import Trial, least_wrong, settle
from baybook.sizing.output import offer
from baybook.sizing.recall import Memory, Parts
from baybook.sizing.source_point import as_asked
from baybook.sizing.validity import OutOfRange
from baybook.sizing.weighed import Way
from baybook.terms import CueKind

MOST_LINES = 2000  # of a page: a longer list is for a machine
_BLOCKS, _MOST = 32, 25  # blocks to aim at, and vehicles in one: the same whatever the workers
# Which limit a refusal of a higher power step speaks of, by its code or the letters of it.
_BINDS = {
    "SU-02": Limit.ALLOWANCE,
    "SU": Limit.SUPPLY,
    "OC": Limit.FUSE,
    "CA": Limit.CABLE,
    "OV": Limit.WINDOW,
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Sheets:
    """What is paired, by id, in the order of the rows."""

    chargers: Mapping[str, ChargerSheet]
    stations: Mapping[str, StationSheet]
    connectors: Mapping[str, ConnectorSheet]

    @classmethod
    def of(cls, book: Workbook) -> Sheets:
        return cls(chargers=book.chargers, stations=book.stations, connectors=book.connectors)


@dataclass(frozen=True, slots=True, kw_only=True)
class Task:
    """All pairings of one vehicle: the pattern, and the fits written for one of the pairings."""

    pattern: Fit
    written: Mapping[tuple[str, str], Fit]  # by charger and station


def tasks(book: Workbook, patterns: Sequence[str] = ()) -> tuple[Task, ...]:
    """Return one task a vehicle, sorted by its name.

    patterns  fits that are to be the pattern of their vehicle
    """
    fits = sorted(book.fits, key=lambda fit: (fit.slug, fit.id))
    by_vehicle = groupby(fits, key=lambda fit: fit.slug)
    return tuple(_task(list(own), patterns) for _, own in by_vehicle)


def _task(fits: list[Fit], patterns: Sequence[str]) -> Task:
    named = [fit for fit in fits if fit.id in patterns]
    written: dict[tuple[str, str], Fit] = {}
    for fit in sorted(fits, key=_reluctance):
        if fit.second is None and fit.job.charger_units == 1:
            written.setdefault((fit.job.charger, fit.job.station), _bare(fit))
    return Task(pattern=_bare(named[0] if named else min(fits, key=_reluctance)), written=written)


def _reluctance(fit: Fit) -> tuple[bool, bool, bool, str]:
    """Rank fits as patterns: a station as load, no pair of chargers, not kept as a refusal."""
    job = fit.job
    return fit.second is not None, job.charger_units != 1, job.refused is not None, fit.id


def _bare(fit: Fit) -> Fit:
    """Leave out where everything stands in the files: no verdict rests on it, and it is long."""
    return replace(fit, marks={})


def pairings(
    work: Sequence[Task], sheets: Sheets, executor: Executor | None = None
) -> Iterator[Pairing]:
    """Yield every pairing, by vehicle, charger and station: the same in any executor."""
    each = max(1, min(_MOST, ceil(len(work) / _BLOCKS)))
    blocks = [(tuple(work[at : at + each]), sheets) for at in range(0, len(work), each)]
    judged = executor.map(judge_block, blocks) if executor else map(judge_block, blocks)
    for rows in judged:
        yield from rows


def judge_block(block: tuple[tuple[Task, ...], Sheets]) -> tuple[Pairing, ...]:
    """Judge all pairings of some vehicles: one job of an executor."""
    work, sheets = block
    shared: dict[int, Parts] = {}
    return tuple(row for task in work for row in _judge_task(task, sheets, shared))


def _judge_task(task: Task, sheets: Sheets, shared: dict[int, Parts]) -> Iterator[Pairing]:
    # What charger and station decide between them rests on the shop's limits alone.
    of_shop = shared.setdefault(id(task.pattern.shop.limits), {})
    way = Way(judge=Remembering(), recall=Memory(of_shop), whole=False)
    for charger in sheets.chargers:
        for station in sheets.stations:
            fit = task.written.get((charger, station))
            if fit is None:
                yield judge_pairing(task.pattern, charger, station, sheets, way)
            else:
                own = Way(judge=Remembering(), recall=Memory(of_shop), whole=False)
                yield _judged(fit, fit, own, (), written=True)


def judge_pairing(pattern: Fit, charger: str, station: str, sheets: Sheets, way: Way) -> Pairing:
    """Put charger and station to the vehicle of a pattern, and let the rules judge.

    way  its memory may serve all pairings of one pattern, and no other's
    """
    fit, taken = paired(pattern, charger, station, sheets)
    reason = unsaid(pattern, fit)
    if reason is not None:
        return Pairing(
            vehicle=pattern.slug,
            charger=charger,
            station=station,
            pattern=pattern.id,
            written=False,
            verdict=Standing.UNKNOWN,
            codes=(),
            why=say(
                f"matrix.unknown.{reason}", fit=Name(pattern.id), charger=Name(fit.charger.name)
            ),
            taken=taken,
        )
    return _judged(fit, pattern, way, taken, written=False)


def paired(
    pattern: Fit, charger: str, station: str, sheets: Sheets
) -> tuple[Fit, tuple[Taken, ...]]:
    """Return the pattern with this charger and station, and what of it was not written for them.

    The connector is the pattern's where it mates with the station's half, else the other half
    of that one; the cue is the pattern's, or the vehicle's voltage cue for a charger that has
    no signal input. What the pattern alone asks for, or is refused for, does not go with it.
    """
    sheet, load, job = sheets.chargers[charger], sheets.stations[station], pattern.job
    taken = [Taken.FIXINGS, Taken.OUTPUT_LEAD] if charger != job.charger else []
    taken += [Taken.STATION_PLACE] if station != job.station else []
    connector, plug = job.connector, pattern.connector
    half = load.connector
    mates = plug is not None and (half == connector or half in plug.mates_with)
    if plug is not None and not mates and half in sheets.connectors:
        connector, plug = half, sheets.connectors[half]
        taken.append(Taken.CONNECTOR)
    cue = _voltage_cue(pattern) if sheet.cue is None else None
    if cue is not None and cue != job.cue:
        taken.append(Taken.CUE)
    own = job.model_copy(
        update={
            "charger": charger,
            "station": station,
            "connector": connector,
            "cue": cue or job.cue,
            "charger_units": 1,
            "pairing": "parallel",
            "asked": Asked(),
            "refused": None,
            "approvals": (),
        }
    )
    swapped = replace(pattern, job=own, charger=sheet, station=load, connector=plug)
    return swapped, tuple(taken)


def _voltage_cue(pattern: Fit) -> str | None:
    cues = pattern.vehicle.cues
    if cues[pattern.job.cue].kind is CueKind.VOLTAGE:
        return pattern.job.cue
    return next((name for name, cue in cues.items() if cue.kind is CueKind.VOLTAGE), None)


def unsaid(pattern: Fit, fit: Fit) -> str | None:
    """Return what the shop has not written for this pairing, None where it is enough to judge."""
    if pattern.second is not None:
        return "battery"  # where a station would stand, and how long its lead is
    by_voltage = fit.vehicle.cues[fit.job.cue].kind is CueKind.VOLTAGE
    if fit.charger.cue is None and not by_voltage:
        return "cue"
    return None


def _judged(
    fit: Fit, pattern: Fit, way: Way, taken: tuple[Taken, ...], *, written: bool
) -> Pairing:
    try:
        trials = settle(as_asked(fit), way)
    except OutOfRange as beyond:
        return Pairing(
            vehicle=fit.slug,
            charger=fit.job.charger,
            station=fit.job.station,
            pattern=pattern.id,
            written=written,
            verdict=Standing.UNKNOWN,
            codes=(),
            why=say("matrix.unknown.range", what=Name(str(beyond))),
            taken=taken,
        )
    passes = trials[-1].passes
    trial = trials[-1] if passes else least_wrong(trials)
    verdict = worst([finding.verdict for finding in trial.best.findings])
    decisive = [f for f in trial.best.findings if f.verdict is verdict is not Verdict.OK]
    output = trial.best.design.solved.output
    return Pairing(
        vehicle=fit.slug,
        charger=fit.job.charger,
        station=fit.job.station,
        pattern=pattern.id,
        written=written,
        verdict=Standing(verdict.value),
        codes=tuple(dict.fromkeys(finding.code for finding in decisive)),
        why=decisive[0].title if decisive else None,
        set_V=trial.best.design.choice.set_V if passes else None,
        power_W=output.power_W if passes else None,
        limit=binds(trials) if passes else None,
        taken=taken,
    )


def binds(trials: Sequence[Trial]) -> Limit:
    """Return what keeps the power of a design that passes from being higher.

    A power step above it that was refused: what refused it. Else a set voltage that would give
    more and may not be set; else what binds at the set voltage.
    """
    if len(trials) > 1:
        return _of_refusal(trials[0].best.refused)
    design = trials[-1].best.design
    fit, choice, output = design.fit, design.choice, design.solved.output
    better = (offer(fit.charger, fit.station, choice.power_W, V) for V in trials[-1].passed_over)
    if any(other.sure_W > output.sure_W for other in better):
        return Limit.WINDOW
    if output.limit == "charger power" and choice.power_W < fit.charger.output_power.value:
        return Limit.CHARGER_STEP
    return Limit(output.limit)


def _of_refusal(refused: Iterable[Finding]) -> Limit:
    codes = [finding.code for finding in refused]
    named = (_BINDS[key] for key in _BINDS for code in codes if key in (code, code[:2]))
    return next(named, Limit.RULE)


def lines(book: Workbook) -> tuple[PairingLine, ...]:
    """Return every pairing of a workbook for its readers."""
    work = tasks(book)
    named = {fit.slug: identify(fit) for fit in book.fits}
    fits: dict[tuple[str, str, str], list[str]] = {}
    for fit in book.fits:
        if fit.second is None and fit.job.charger_units == 1:
            fits.setdefault((fit.slug, fit.job.charger, fit.job.station), []).append(fit.id)
    return tuple(
        PairingLine(
            slug=row.vehicle,
            vehicle=say(
                "page.home.entry",
                vehicle=named[row.vehicle].vehicle,
                variant=named[row.vehicle].variant,
            ),
            charger=Name(book.chargers[row.charger].name),
            station=Name(book.stations[row.station].name),
            verdict=str(row.verdict),
            set_voltage=None if row.set_V is None else Amount(row.set_V, "V", 1),
            power=None if row.power_W is None else Amount(row.power_W, "W", 0),
            limit=_word("limit", row.limit) if row.limit else None,
            codes=row.codes,
            why=row.why,
            pattern=row.pattern,
            taken=Listing(tuple(_word("taken", part) for part in row.taken)) if row.taken else None,
            fits=tuple(fits.get((row.vehicle, row.charger, row.station), ())),
        )
        for row in pairings(work, Sheets.of(book))
    )


def readable(vehicles: int, book: Workbook) -> bool:
    """Tell whether the pairings of so many vehicles are few enough for a page."""
    return 0 < vehicles * len(book.chargers) * len(book.stations) <= MOST_LINES


def _word(kind: str, word: str) -> Message:
    return say(f"matrix.{kind}.{word.replace(' ', '-')}")
