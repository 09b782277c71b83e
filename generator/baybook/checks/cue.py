"""CU: what starts the charger and what stops it."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from types import MappingProxyType

from baybook.checks.found import PRACTICE, SHEET, SHOP_RULE, Found, amps, volts
from baybook.design import Design
from baybook.finding import Amount, Name, Verdict, say
from baybook.terms import CueKind, SupplyKind

_PLACE = "circuit.charger.cue"


def voltage_with_converter(design: Design) -> Iterator[Found]:
    """Never start by voltage behind a converter: it holds the same volts parked and driving.

    [common-practice]
    """
    fit = design.fit
    if _says(design) == "never":
        yield Found(
            verdict=Verdict.REFUSED,
            place=_PLACE,
            where=fit.mark("fit.cue"),
            found=say("rule.CU-01.voltage"),
            allowed=say("rule.CU-01.line"),
            sources=(PRACTICE,),
            values={"charger": Name(fit.charger.name)},
        )


def thresholds(design: Design) -> Iterator[Found]:
    """Keep cut-in and cut-out of the voltage cue at or under the lowest running voltage.

    U_cut-in ≤ U_low and U_cut-out ≤ U_low: a controlled alternator lets the rail fall.
    [fit-sheet]
    """
    fit = design.fit
    lowest = fit.vehicle.supply.low
    if not _by_voltage(design):
        return
    for name, threshold in (("cut_out", fit.charger.cut_out), ("cut_in", fit.charger.cut_in)):
        if threshold.high > lowest.low:
            yield Found(
                verdict=Verdict.REFUSED,
                place=_PLACE,
                where=fit.mark("fit.cue"),
                found=Amount.of(threshold),
                allowed=Amount.of(lowest),
                sources=(SHEET,),
                values={
                    "threshold": say(f"rule.CU-02.{name}"),
                    "value": Amount.of(threshold),
                    "lowest": Amount.of(lowest),
                    "charger": Name(fit.charger.name),
                },
            )
            return


def stops_at_rest(design: Design) -> Iterator[Found]:
    """Say how long the battery lasts where the voltage cue does not stop the charger at rest.

    U_rest ≤ U_cut-out, else t = Q_usable / I        [shop-rule]
    """
    fit, budget = design.fit, design.solved.budget
    if budget.standing_A is None:
        return
    hours = budget.usable_Ah / budget.standing_A
    yield Found(
        verdict=Verdict.CAUTION,
        place=_PLACE,
        where=fit.vehicle.supply.rest.where,
        found=Amount.of(fit.vehicle.supply.rest),
        allowed=volts(design.solved.feed.cut_out_V),
        sources=(SHOP_RULE, SHEET),
        values={
            "rest": Amount.of(fit.vehicle.supply.rest),
            "cut_out": volts(design.solved.feed.cut_out_V),
            "current": amps(budget.standing_A),
            "hours": Amount(hours, "h", 1),
            "days": Amount(budget.standby_d, "d", 0),
            "way": say(f"rule.CU-03.{'line' if _has_line(design) else 'off'}"),
        },
    )


def ignition_alone(design: Design) -> Iterator[Found]:
    """Say that a feed from ignition runs with the engine stopped. [common-practice]"""
    fit = design.fit
    if _says(design) == "forgotten":
        low = design.solved.feed.low
        yield Found(
            verdict=Verdict.CAUTION,
            place=_PLACE,
            where=fit.mark("fit.cue"),
            found=say("rule.CU-04.ignition"),
            allowed=say("rule.CU-01.line"),
            sources=(PRACTICE,),
            values={"current": amps(low.current_A if low else 0.0)},
        )


# What a cue says about each kind of supply: does it stop the charger when the supply stops?
# "ok": yes. "volts": only as far as the thresholds do. "forgotten": it stays on with the supply
# stopped. "foreign": it follows something else than this supply. "never": it tells nothing.
# Source: common-practice.
CUES: Mapping[tuple[SupplyKind, CueKind], str] = MappingProxyType(
    {
        (SupplyKind.FIXED, CueKind.RUN): "ok",
        (SupplyKind.FIXED, CueKind.READY): "foreign",
        (SupplyKind.FIXED, CueKind.DRIVE): "foreign",
        (SupplyKind.FIXED, CueKind.IGNITION): "forgotten",
        (SupplyKind.FIXED, CueKind.VOLTAGE): "volts",
        (SupplyKind.CONTROLLED, CueKind.RUN): "ok",
        (SupplyKind.CONTROLLED, CueKind.READY): "foreign",
        (SupplyKind.CONTROLLED, CueKind.DRIVE): "foreign",
        (SupplyKind.CONTROLLED, CueKind.IGNITION): "forgotten",
        (SupplyKind.CONTROLLED, CueKind.VOLTAGE): "volts",
        (SupplyKind.CONVERTER, CueKind.RUN): "foreign",
        (SupplyKind.CONVERTER, CueKind.READY): "ok",
        (SupplyKind.CONVERTER, CueKind.DRIVE): "ok",
        (SupplyKind.CONVERTER, CueKind.IGNITION): "forgotten",
        (SupplyKind.CONVERTER, CueKind.VOLTAGE): "never",
    }
)


def foreign_line(design: Design) -> Iterator[Found]:
    """Say that the line follows something else than the supply of this vehicle.

    An engine-run line stops while a converter feeds on; a Ready line knows no alternator.
    [common-practice]
    """
    fit = design.fit
    if _says(design) == "foreign":
        yield Found(
            verdict=Verdict.CAUTION,
            place=_PLACE,
            where=fit.mark("fit.cue"),
            found=say(f"rule.CU-05.{_cue(design).name.lower()}"),
            allowed=say(f"rule.CU-05.for_{fit.vehicle.supply.kind.name.lower()}"),
            sources=(PRACTICE,),
            values={
                "line": say(f"rule.CU-05.{_cue(design).name.lower()}"),
                "supply": say(f"rule.CU-05.supply_{fit.vehicle.supply.kind.name.lower()}"),
            },
        )


def _cue(design: Design) -> CueKind:
    return design.fit.vehicle.cues[design.fit.job.cue].kind


def _says(design: Design) -> str:
    return CUES[design.fit.vehicle.supply.kind, _cue(design)]


def _has_line(design: Design) -> bool:
    """Tell whether the vehicle has a line that says that its supply runs."""
    kind = design.fit.vehicle.supply.kind
    return any(CUES[kind, cue.kind] == "ok" for cue in design.fit.vehicle.cues.values())


def _by_voltage(design: Design) -> bool:
    return design.fit.vehicle.cues[design.fit.job.cue].kind is CueKind.VOLTAGE
