"""Who, with what, for how long; and what everybody is told once."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from math import ceil

from baybook.compose.work import Work, at, count
from baybook.finding import Amount, Message, Name, say
from baybook.step import Step

_HOUR = 60
_NO_TOOL = frozenset({"tool.hand", "tool.meters"})  # the two meters stand there by themselves


def people(work: Work, steps: Iterable[Step]) -> tuple[Message, ...]:
    """Return who may do this, and how many."""
    most = max(step.people for step in steps)
    found = [say("people.fitter"), say("people.second", count=count(most))]
    if work.holds:
        found.append(say("people.signs"))
    if work.fit.vehicle.supply.rated is None:
        found.append(say("people.high-voltage"))
    return tuple(found)


def working_minutes(steps: Iterable[Step]) -> float:
    """Return hands-on and waiting time together."""
    return sum(step.minutes for step in steps)


def time(steps: tuple[Step, ...]) -> Message:
    """Return the working time, with what of it is waiting."""
    waiting = sum(step.minutes for step in steps if step.people == 0)
    working = working_minutes(steps) - waiting
    quarters = ceil(working / 15) * 15
    return say(
        "time",
        hours=Amount(quarters / _HOUR, "h", 1 if quarters % _HOUR in {0, 30} else 2),
        waiting=Amount(ceil(waiting / 5) * 5, "min", 0, show="min"),
    )


def tools(steps: Iterable[Step]) -> tuple[Message, ...]:
    """Return what blocks the wheels, then every tool that a step names, in order of use.

    A hand is none.
    """
    named = dict.fromkeys(step.tool for step in steps if step.tool is not None)
    return (say("tool.chocks"), *(tool for tool in named if tool.id not in _NO_TOOL))


def cautions(work: Work) -> tuple[Message, ...]:
    """Return the general cautions, local code and licensed practice first."""
    return tuple(_cautions(work))


def _cautions(work: Work) -> Iterator[Message]:
    fit = work.fit
    yield say("caution.code")
    yield say("caution.licence")
    yield say(
        "caution.checked",
        by=Name(fit.job.checked.by),
        rule_set=Name(fit.shop.rule_set),
        on=Name(fit.job.checked.on.isoformat()),
    )
    if fit.vehicle.supply.engine:
        yield say("caution.monoxide")
    yield say(
        "caution.station",
        mass=Amount.of(fit.station.mass).at_least(),
        restraint=Name(fit.shop.restraint.basis),
    )
    yield say(
        "caution.lithium",
        low=Amount.of(fit.station.charge_min).at_least(),
        high=Amount.of(fit.station.charge_max).at_most(),
    )
    yield say("caution.never-load")
    yield say("caution.under")
    yield say("caution.ask-first")
    yield say("caution.insurer")
    yield say("caution.warranty")
    yield say("caution.mark", charger=Name(fit.charger.name), approvals=Name(fit.charger.approvals))
    if fit.vehicle.outline == "lorry":
        yield say("caution.dangerous-goods")
    if fit.vehicle.battery.units > 1:
        yield say("caution.pair", plus=at(work.joint("source+").letter))
