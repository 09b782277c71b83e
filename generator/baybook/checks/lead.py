"""OV: the lead to the station, its connector, and how the station takes a constant voltage."""

from __future__ import annotations

from collections.abc import Iterator

from baybook.checks.found import PRACTICE, SHEET, SHOP_RULE, Found, amps, share, volts
from baybook.design import Design
from baybook.finding import Amount, Name, Verdict, say
from baybook.terms import Polarity, YesNoUnknown


def output_drop(design: Design) -> Iterator[Found]:
    """Keep the drop of the output lead within the shop's share of the set voltage. [shop-rule]"""
    limit = design.fit.shop.limits.output_drop.value
    if design.solved.output.drop > limit.value:
        yield Found(
            verdict=Verdict.REFUSED,
            place="circuit.W4.drop",
            where=design.fit.mark("fit.output_length"),
            found=share(design.solved.output.drop),
            allowed=Amount.of(limit),
            sources=(SHOP_RULE,),
            values={
                "drop": share(design.solved.output.drop),
                "limit": Amount.of(limit),
                "current": amps(design.solved.output.current_A),
            },
        )


def connector_halves(design: Design) -> Iterator[Found]:
    """Mate only halves of one family, or families whose sheet says they mate. [fit-sheet]

    The station's half unknown: hold, and replace both halves.
    """
    fit = design.fit
    half = fit.station.connector
    if fit.connector is None:
        return
    if half == fit.job.connector or half in fit.plug.mates_with:
        return
    unknown = half == "unknown"
    yield Found(
        verdict=Verdict.HOLD if unknown else Verdict.REFUSED,
        place="circuit.station.connector",
        where=fit.mark("fit.connector"),
        found=say("rule.OV-08.unknown") if unknown else Name(half),
        allowed=Name(fit.plug.name),
        sources=(SHEET,),
        values={"connector": Name(fit.plug.name), "station": Name(fit.station.name)},
    )


def constant_voltage_trial(design: Design) -> Iterator[Found]:
    """Hold for a trial in the bay where nobody has run the station on a constant voltage.

    A solar input looks for the bend of a panel; on a stiff source it may hunt or latch.
    [common-practice]
    """
    fit = design.fit
    if fit.station.constant_voltage_tested is not YesNoUnknown.YES:
        yield Found(
            verdict=Verdict.HOLD,
            place="fit.station.constant_voltage_tested",
            where=fit.mark("fit.station"),
            found=say(f"rule.OV-09.{fit.station.constant_voltage_tested.value}"),
            allowed=say("rule.OV-09.yes"),
            sources=(PRACTICE,),
            values={"station": Name(fit.station.name)},
        )


def polarity(design: Design) -> Iterator[Found]:
    """Hold where the station's inlet is turned, centre minus, or where nobody knows it.

    A round plug goes in either way round, and no input is proof against reverse volts.
    [common-practice]
    """
    fit = design.fit
    found = fit.station.polarity
    if found in {Polarity.CENTRE_NEGATIVE, Polarity.UNKNOWN}:
        turned = "turned" if found is Polarity.CENTRE_NEGATIVE else "unknown"
        yield Found(
            verdict=Verdict.HOLD,
            place="circuit.station.polarity",
            where=fit.mark("station.polarity"),
            found=say(f"rule.OV-12.{turned}"),
            allowed=say("rule.OV-12.metered"),
            sources=(PRACTICE, SHEET),
            values={
                "polarity": say(f"rule.OV-12.{turned}"),
                "plus": say(f"rule.OV-12.{turned}.plus"),
                "station": Name(fit.station.name),
                "connector": Name(fit.plug.name),
            },
        )


def output_rating(design: Design) -> Iterator[Found]:
    """Keep the lead above the charger's current limit, the connector above current and voltage.

    I_T(lead) ≥ I_out,max; I_connector ≥ min(I_out,max, I_station); U_connector ≥ U_set (1 + tol) +
    overshoot        [fit-sheet]
    """
    fit, output = design.fit, design.solved.output
    plug = fit.connector
    limits = [("lead", amps, fit.charger.output_current.high, output.lead_carries_A)]
    if plug:
        limits.append(("connector", amps, output.most_A, plug.current.low))
        limits.append(("connector", volts, output.high_V, plug.voltage.low))
    for part, told, wanted, has in limits:
        if wanted > has:
            yield Found(
                verdict=Verdict.REFUSED,
                place=f"circuit.output.{part}",
                where=fit.mark("fit.connector" if part == "connector" else "fit.output_cable"),
                found=told(has),
                allowed=told(wanted),
                sources=(SHEET,),
                values={
                    "part": say(f"rule.OV-10.{part}"),
                    "wanted": told(wanted),
                    "has": told(has),
                },
            )


def terminal(design: Design) -> Iterator[Found]:
    """Take no output lead that the charger's output terminal does not take. [fit-sheet]"""
    fit = design.fit
    wanted, most = fit.job.output_area, fit.charger.output.area_max
    if wanted.value > most.low:
        yield Found(
            verdict=Verdict.REFUSED,
            place="circuit.W4.area",
            where=wanted.where,
            found=Amount.of(wanted, 1).plain(),
            allowed=Amount.of(most, 1).at_most(),
            sources=(SHEET,),
            values={
                "area": Amount.of(wanted, 1).plain(),
                "most": Amount.of(most, 1).at_most(),
                "charger": Name(fit.charger.name),
            },
        )
