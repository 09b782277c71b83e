"""SU: what the vehicle has to give, and what it has not."""

from __future__ import annotations

from collections.abc import Iterator

from baybook.checks.found import SHEET, SHOP_RULE, Found, amps, pieces, setting, watts
from baybook.design import Design
from baybook.finding import Amount, Message, Name, Verdict, say
from baybook.fit import Fit
from baybook.quantity import Quantity
from baybook.standards import load
from baybook.terms import SupplyKind

# Read once on import, so that the rules below open no file.
_HIGHEST_SUPPLY_V = load().highest_supply_V


def voltage_class(design: Design) -> Iterator[Found]:
    """Join a charger only to the supply class it is made for, within its input range.

    [fit-sheet]
    """
    supply, charger = design.fit.vehicle.supply, design.fit.charger
    faults = (
        (supply.nominal.value != charger.nominal.value, supply.nominal, charger.nominal),
        (supply.low.low < charger.input_min.high, supply.low, charger.input_min),
        (supply.high.high > charger.input_max.low, supply.high, charger.input_max),
    )
    for wrong, found, allowed in faults:
        if wrong:
            yield Found(
                verdict=Verdict.REFUSED,
                place="vehicle.supply",
                where=found.where,
                found=Amount.of(found),
                allowed=Amount.of(allowed),
                sources=(SHEET,),
                values={
                    "charger": Name(charger.name),
                    "wants": Amount.of(charger.nominal, 0),
                    "nominal": Amount.of(supply.nominal, 0),
                    "low": Amount.of(supply.low),
                    "high": Amount.of(supply.high),
                    "input_min": Amount.of(charger.input_min),
                    "input_max": Amount.of(charger.input_max),
                },
            )
            return


def allowance(design: Design) -> Iterator[Found]:
    """Hold the vehicle maker's limit for added loads against the design current.

    I_B ≤ I_allowed        [fit-sheet]
    """
    allowed = design.fit.vehicle.supply.allowance
    if allowed is not None and design.choice.input_limit_A > allowed.low:
        yield Found(
            verdict=Verdict.REFUSED,
            place="vehicle.supply.allowance",
            where=allowed.where,
            found=amps(design.choice.input_limit_A),
            allowed=Amount.of(allowed),
            sources=(SHEET,),
            values={
                "current": amps(design.choice.input_limit_A),
                "allowed": Amount.of(allowed),
                "power": Amount(design.choice.power_W, "W", 0),
            },
        )


def step_kept_down(design: Design) -> Iterator[Found]:
    """Say that the power step must stay where it is: a higher one breaks the vehicle's limit.

    I_B,step ≤ I_allowed < I_B,highest step        [fit-sheet]
    """
    power, allowed = design.fit.charger.power, _limit(design.fit)
    if power is None or allowed is None:
        return
    highest = max(power.steps, key=lambda step: step.input_limit.value)
    if highest.input_limit.high > allowed.low >= design.choice.input_limit_A:
        yield Found(
            verdict=Verdict.CAUTION,
            place="circuit.charger.power",
            where=allowed.where,
            found=Amount.of(highest.input_limit),
            allowed=Amount.of(allowed),
            sources=(SHEET,),
            values={
                "step": Amount(design.choice.power_W, "W", 0),
                "current": amps(design.choice.input_limit_A),
                "highest": Amount.of(highest.power),
                "most": Amount.of(highest.input_limit),
                "allowed": Amount.of(allowed),
            },
        )


def direct_use(design: Design) -> Iterator[Found]:
    """Join no load to a battery whose posts the vehicle's maker keeps for itself. [fit-sheet]"""
    fit = design.fit
    source = fit.job.source
    for role, name in (("positive", source.positive), ("negative", source.negative)):
        point = fit.vehicle.points[name]
        if point.at_post and not fit.vehicle.battery.direct_use:
            yield Found(
                verdict=Verdict.REFUSED,
                place=f"circuit.source.{role}",
                where=fit.mark(f"fit.source.{role}"),
                found=Name(point.what),
                allowed=say("rule.SU-08.stud"),
                sources=(SHEET,),
                values={"point": Name(point.what), "model": Name(fit.vehicle.model)},
            )


def _limit(fit: Fit) -> Quantity | None:
    """The vehicle maker's limit for this load: its allowance, or its fused point's if smaller."""
    fused = fit.vehicle.points[fit.job.source.positive].factory_fuse
    limits = [fit.vehicle.supply.allowance, fused.continuous if fused else None]
    return min((q for q in limits if q is not None), key=lambda q: q.low, default=None)


def idle_deficit(design: Design) -> Iterator[Found]:
    """Say what the battery loses while the engine idles; refuse it where the profile says so.

    headroom · I_hot,idle - I_base - I ≥ 0, by day and in a winter night        [shop-rule]
    """
    budget = design.solved.budget
    refused = design.fit.shop.limits.deficit_refused
    yield from _deficit(
        design,
        "idle",
        (budget.idle_day_A, budget.idle_night_A),
        Verdict.REFUSED if refused else Verdict.CAUTION,
    )


def cruise_deficit(design: Design) -> Iterator[Found]:
    """Refuse a fit whose demand the supply does not cover while driving.

    headroom · I_hot,cruise - I_base - I ≥ 0, by day and in a winter night        [shop-rule]
    """
    budget = design.solved.budget
    yield from _deficit(
        design, "cruise", (budget.cruise_day_A, budget.cruise_night_A), Verdict.REFUSED
    )


def spare_known(design: Design) -> Iterator[Found]:
    """Say where nobody states what the supply has to spare; hold where it is a converter.

    An alternator by its hot figures, a converter by its maker's allowance or the continuous
    current of the fused point: one of them, or nothing was held against the charger.
    [shop-rule]
    """
    fit, supply = design.fit, design.fit.vehicle.supply
    converter = supply.kind is SupplyKind.CONVERTER
    hot = supply.hot_idle is not None and supply.hot_cruise is not None
    if hot or (converter and _limit(fit) is not None):
        return
    yield Found(
        verdict=Verdict.HOLD if converter else Verdict.CAUTION,
        place="vehicle.supply.allowance" if converter else "vehicle.supply.hot_cruise",
        where=fit.mark("vehicle.supply"),
        found=say("rule.SU-11.unknown"),
        allowed=say(f"rule.SU-11.{'allowance' if converter else 'hot'}"),
        sources=(SHOP_RULE,),
        values={
            "wanted": say(f"rule.SU-11.{'allowance' if converter else 'hot'}"),
            "current": amps(design.choice.input_limit_A),
        },
    )


def single_charger(design: Design) -> Iterator[Found]:
    """Refuse more than one charger: two feeds and two limits are not worked out here.

    Where the maker's pair rule forbids it, it would be refused anyway.        [fit-sheet]
    """
    fit = design.fit
    if fit.job.charger_units != 1:
        yield Found(
            verdict=Verdict.REFUSED,
            place="fit.charger_units",
            where=fit.mark("fit.charger_units"),
            found=pieces(fit.job.charger_units),
            allowed=pieces(1),
            sources=(SHEET, SHOP_RULE),
            values={
                "units": fit.job.charger_units,
                "charger": Name(fit.charger.name),
                "pairing": Name(fit.charger.pairing),
            },
        )


def series_isolated(design: Design) -> Iterator[Found]:
    """Put outputs in series only where each is isolated from its input.

    IN - and OUT - joined inside: the lower charger is shorted through the vehicle. [circuit-laws]
    """
    fit = design.fit
    if fit.job.charger_units > 1 and fit.job.pairing == "series" and not fit.charger.isolated:
        yield Found(
            verdict=Verdict.REFUSED,
            place="circuit.charger.output",
            where=fit.mark("fit.pairing"),
            found=say("rule.SU-09.joined"),
            allowed=say("rule.SU-09.isolated"),
            sources=("circuit-laws", SHEET),
            values={"charger": Name(fit.charger.name)},
        )


def pair_gain(design: Design) -> Iterator[Found]:
    """Refuse a second charger that the station leaves little to do.

    P_pair - P_one ≥ share · P_one        [shop-rule]
    """
    fit, limit = design.fit, design.fit.shop.limits.pair_gain
    units = fit.job.charger_units
    if units == 1:
        return
    one = min(fit.charger.output_power.value / units, fit.station.input_power.value)
    gain, least = design.solved.output.power_W - one, limit.value.value * one
    if gain < least:
        yield Found(
            verdict=Verdict.REFUSED,
            place="circuit.charger.P",
            where=fit.mark("fit.charger_units"),
            found=watts(gain),
            allowed=watts(least),
            sources=(limit.source.replace(" ", "-"), SHEET),
            values={
                "gain": watts(gain),
                "least": watts(least),
                "power": watts(design.solved.output.power_W),
                "whole": Amount.of(fit.charger.output_power, 0),
                "set": setting(design.choice.set_V),
                "most": Amount.of(fit.station.input_current),
                "station": Name(fit.station.name),
            },
        )


def class_known(design: Design) -> Iterator[Found]:
    """Take only a supply class whose highest voltage is tabulated. [iso16750-2]"""
    nominal = design.fit.vehicle.supply.nominal
    if nominal.value not in _HIGHEST_SUPPLY_V:
        listed = ", ".join(f"{row:g}" for row in _HIGHEST_SUPPLY_V)
        yield Found(
            verdict=Verdict.REFUSED,
            place="vehicle.supply.nominal",
            where=nominal.where,
            found=Amount.of(nominal, 0),
            allowed=Name(f"{listed} V"),
            sources=("iso16750-2",),
            values={"nominal": Amount.of(nominal, 0)},
        )


def _deficit(
    design: Design, state: str, spare: tuple[float | None, float | None], verdict: Verdict
) -> Iterator[Found]:
    day, night = spare
    if day is None or night is None or min(day, night) >= 0:
        return
    low = design.solved.feed.low
    yield Found(
        verdict=verdict,
        place=f"vehicle.supply.hot_{state}",
        where=design.fit.mark(f"vehicle.supply.hot_{state}"),
        found=amps(min(day, night)),
        allowed=amps(0.0),
        sources=(SHOP_RULE,),
        values={
            "balance": _balance(state, day, night),
            "day": amps(day),
            "night": amps(night),
            "current": amps(low.current_A if low else 0.0),
        },
    )


def _balance(state: str, day: float, night: float) -> Message:
    verb = "loses" if state == "idle" else "drive"
    if day < 0 and night < 0:
        return say(f"rule.SU-03.{verb}_both", day=amps(-day), night=amps(-night))
    if day < 0:
        return say(f"rule.SU-03.{verb}_day", day=amps(-day), night=amps(night))
    return say(f"rule.SU-03.{verb}_night", day=amps(day), night=amps(-night))
