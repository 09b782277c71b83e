"""SB: a second battery as the load: it feeds back, so its own end is protected too."""

from __future__ import annotations

from collections.abc import Iterator

from baybook.checks.found import (
    PRACTICE,
    SHEET,
    SHOP_RULE,
    Found,
    amps,
    kiloamps,
    millimetres,
    share,
    whole_amps,
)
from baybook.checks.protection import distances
from baybook.circuit import Protection
from baybook.design import Design
from baybook.finding import Amount, Name, Ref, Value, Verdict, say
from baybook.quantity import State, Unknown
from baybook.standards import load

_HIGHEST_SUPPLY_V = load().highest_supply_V


def fused_at_its_end(design: Design) -> Iterator[Found]:
    """Protect the run at both ends where both can feed it. [common-practice]"""
    if design.fit.second is not None and _part(design) is None:
        yield _found(
            design,
            "F2",
            found=say("rule.SB-01.none"),
            allowed=say("rule.SB-01.both"),
            sources=(PRACTICE,),
        )


def carries_output(design: Design) -> Iterator[Found]:
    """Carry the charger's output for good, and protect the cable behind.

    I_out ≤ I_n k d;  I_n ≤ I_T;  1.35 I_n ≤ 1.45 I_T
    [iec60364-4-43] 433.1, [iso8820-3], k [shop-rule], d [fit-sheet]
    """
    part, second = _part(design), design.solved.second
    if part is None or second is None:
        return
    wanted, cable = design.fit.charger.output_current.high, design.solved.output.lead_carries_A
    limits = (
        ("small", amps(second.carries_A or 0.0), amps(wanted), (second.carries_A or 0.0) < wanted),
        ("large", whole_amps(part.rating_A), amps(cable), part.rating_A > cable),
        ("overload", share(second.overload, 0), share(1, 0), second.overload > 1),
    )
    for what, found, allowed, wrong in limits:
        if wrong:
            yield _found(
                design,
                "F2.I_n",
                found=found,
                allowed=allowed,
                sources=("iec60364-4-43", "iso8820-3", SHOP_RULE, SHEET),
                what=say(f"rule.SB-02.{what}", found=found, allowed=allowed),
            )


def breaks_its_short(design: Design) -> Iterator[Found]:
    """Break the second battery's own short circuit, at a voltage above the supply class.

    I = U_set,max / R_int,min ≤ I_cn;  U_n > highest of the class
    [circuit-laws] [iso16750-2]; unknown resistance: hold
    """
    part, second, battery = _part(design), design.solved.second, design.fit.second
    if part is None or second is None or battery is None:
        return
    measured = battery.internal.basis.state is State.MEASURED
    if isinstance(battery.internal, Unknown):
        yield _found(
            design,
            "battery.internal",
            verdict=Verdict.HOLD,
            found=say("rule.SB-03.unknown"),
            allowed=kiloamps(part.breaking.low),
            sources=(SHOP_RULE,),
            fault=say("rule.SB-03.unknown"),
            way=say("rule.SB-03.measure"),
        )
    elif second.near_A is not None and second.near_A > part.breaking.low:
        yield _found(
            design,
            "F2.I_cn",
            found=kiloamps(second.near_A),
            allowed=kiloamps(part.breaking.low),
            sources=("circuit-laws", SHEET),
            fault=kiloamps(second.near_A),
            way=say(f"rule.SB-03.{'part' if measured else 'measure'}"),
        )


def voltage_class(design: Design) -> Iterator[Found]:
    """Rate the part at the second battery strictly above the class's highest. [iso16750-2]"""
    part = _part(design)
    highest = _HIGHEST_SUPPLY_V.get(design.fit.vehicle.supply.nominal.value)
    if part is not None and highest is not None and part.voltage.low <= highest:
        yield _found(
            design,
            "F2.U_n",
            found=Amount.of(part.voltage, 0),
            allowed=Amount(highest, "V", 0),
            sources=("iso16750-2", SHEET),
            highest=Amount(highest, "V", 0),
        )


def opens_and_withstands(design: Design) -> Iterator[Found]:
    """Open on a short at the charger's output before the cable is harmed.

    I_far ≥ the lowest sure-opening multiple;  I² t ≤ k² S², near and far
    [circuit-laws] [iec60364-4-43] 434.5.2
    """
    part, second = _part(design), design.solved.second
    if part is None or second is None or second.far_A is None:
        return
    if second.opens_far_s is None:
        yield _found(
            design,
            "F2.opening",
            found=whole_amps(second.far_A),
            allowed=say("rule.SB-05.sure"),
            sources=("circuit-laws", SHEET),
            fault=whole_amps(second.far_A),
        )
    worst = max(second.withstand, default=0.0)
    if worst > 1:
        yield _found(
            design,
            "F2.withstand",
            found=share(worst, 0),
            allowed=share(1, 0),
            sources=("iec60364-4-43", "iec60364-5-54", SHEET),
            fault=whole_amps(second.far_A),
        )


def distance(design: Design) -> Iterator[Found]:
    """Protect the conductor close to the second battery, by the rule that the profile names.

    [shop-rule], [cfr183-455], [as-nzs3001-2]
    """
    choice, (plain, _, named) = design.fit.job.second, distances(design.fit.shop.limits)
    if design.fit.second is None or choice is None or _part(design) is None:
        return
    if choice.fuse_at.high > plain:
        yield _found(
            design,
            "F2.distance",
            found=millimetres(choice.fuse_at.high).plain(),
            allowed=millimetres(plain).at_most(),
            sources=(named,),
            distance=millimetres(choice.fuse_at.high).plain(),
            limit=millimetres(plain).at_most(),
        )


def charge_current(design: Design) -> Iterator[Found]:
    """Charge the second battery with no more than its maker allows. [fit-sheet]"""
    battery, most = design.fit.second, design.fit.charger.output_current
    if battery is not None and most.high > battery.charge_current.low:
        yield _found(
            design,
            "battery.I",
            found=Amount.of(most),
            allowed=Amount.of(battery.charge_current),
            sources=(SHEET,),
            current=Amount.of(most),
            limit=Amount.of(battery.charge_current),
        )


def cold_charge(design: Design) -> Iterator[Found]:
    """Never charge a frozen lithium battery: its own stop, and the charger's lead on it.

    Neither: refused. One of the two: a caution.        [fit-sheet] [common-practice]
    """
    fit, choice = design.fit, design.fit.job.second
    if fit.second is None or choice is None:
        return
    stop = fit.second.low_stop is not None
    lead = fit.charger.temperature_lead and choice.temperature_lead
    if stop and lead:
        return
    state = "stop" if stop else "lead" if lead else "none"
    yield _found(
        design,
        "battery.temperature",
        verdict=Verdict.REFUSED if state == "none" else Verdict.CAUTION,
        found=say(f"rule.SB-08.{state}"),
        allowed=say("rule.SB-08.both"),
        sources=(SHEET, PRACTICE),
        state=say(f"rule.SB-08.{state}"),
        low=Amount.of(fit.second.charge_min),
        way=say(f"rule.SB-08.way_{state}"),
    )


def split_relay(design: Design) -> Iterator[Found]:
    """Say that an old split relay comes out: it would join both batteries past the charger.

    [common-practice]
    """
    relay = design.fit.vehicle.split_relay
    if design.fit.second is not None and relay is not None:
        yield _found(
            design,
            "relay",
            verdict=Verdict.CAUTION,
            found=Name(relay.place),
            allowed=say("rule.SB-09.out"),
            sources=(PRACTICE,),
            relay=Name(relay.place),
        )


def _part(design: Design) -> Protection | None:
    return next((part for part in design.circuit.protections if part.tag == "F2"), None)


def _found(  # noqa: PLR0913 - what a finding about the second battery is made of
    design: Design,
    at: str,
    *,
    found: Value,
    allowed: Value,
    sources: tuple[str, ...],
    verdict: Verdict = Verdict.REFUSED,
    **values: Value,
) -> Found:
    part, battery = _part(design), design.fit.second
    named: dict[str, Value] = {
        "fuse": Ref("device", "F2"),
        "battery": Name(battery.name if battery else ""),
        "family": Name(part.family if part else ""),
        "rating": whole_amps(part.rating_A if part else 0.0),
        "capacity": kiloamps(part.breaking.low if part else 0.0),
    }
    return Found(
        verdict=verdict,
        place=f"circuit.{at}",
        where=design.fit.mark("fit.second"),
        found=found,
        allowed=allowed,
        sources=sources,
        values={**named, **values},
    )
