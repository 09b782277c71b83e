"""SU: what the vehicle has to give, and what it has not."""

from __future__ import annotations

from collections.abc import Iterator

from baybook.checks.found import SHEET, SHOP_RULE, Found, amps
from baybook.design import Design
from baybook.finding import Amount, Message, Name, Value, Verdict, say
from baybook.standards import load

# Read once on import, so that the rules below open no file.
_HIGHEST_SUPPLY_V = load().highest_supply_V


def voltage_class(design: Design) -> Iterator[Found]:
    """Join a charger only to the supply class it is made for, within its input range.

    [fit-sheet]
    """
    supply, charger = design.fit.vehicle.supply, design.fit.charger
    values: dict[str, Value] = {
        "charger": Name(charger.name),
        "wants": Amount.of(charger.nominal, 0),
        "nominal": Amount.of(supply.nominal, 0),
        "low": Amount.of(supply.low),
        "high": Amount.of(supply.high),
        "input_min": Amount.of(charger.input_min),
        "input_max": Amount.of(charger.input_max),
    }
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
                values=values,
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
            found=fit.job.charger_units,
            allowed=1,
            sources=(SHEET, SHOP_RULE),
            values={
                "units": fit.job.charger_units,
                "charger": Name(fit.charger.name),
                "pairing": Name(fit.charger.pairing),
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
