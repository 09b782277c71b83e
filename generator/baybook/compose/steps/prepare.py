"""Before a tool touches the vehicle: the right job, and how the vehicle is before it."""

from __future__ import annotations

from collections.abc import Iterator

from baybook.compose import holds
from baybook.compose.action import act
from baybook.compose.practice import KEY_AWAY, MINUTES, SLEEP_WAIT, VIN_END
from baybook.compose.reading_ids import reading_ids
from baybook.compose.steps.settle import settle
from baybook.compose.terms import applies
from baybook.compose.work import Work, at, count, hold, reading, start_word
from baybook.finding import Amount, Name, say
from baybook.step import Phase, Step
from baybook.vehicle import Preserve

PHASE = Phase.PREPARE


def prepare(work: Work) -> tuple[Step, ...]:
    """Return the steps up to the sleeping vehicle."""
    return (
        *_this_vehicle(work),
        _parts(work),
        *settle(work, PHASE, needs=("hold:right-parts",)),
        *_baseline(work),
        *_preserve(work),
        *_asleep(work),
    )


def _this_vehicle(work: Work) -> Iterator[Step]:
    vehicle = work.fit.vehicle
    yield act(
        "vin",
        PHASE,
        say("do.vin"),
        value=VIN_END.amount,
        value_note=say("note.vin"),
        tool=say("tool.pen"),
        makes=("vin-read",),
    )
    yield act(
        "variant",
        PHASE,
        say("do.variant"),
        value=count(len(applies(work))),
        value_note=say("note.questions"),
        minutes=MINUTES["look"],
        needs=("vin-read",),
        makes=("variant-known",),
    )
    if vehicle.outline == "lorry":
        yield act(
            "dangerous-goods",
            PHASE,
            say("do.dangerous-goods"),
            needs=("vin-read",),
            makes=("no-dangerous-goods",),
        )


def _parts(work: Work) -> Step:
    fit = work.fit
    carries = ("no-dangerous-goods",) if fit.vehicle.outline == "lorry" else ()
    return act(
        "parts",
        PHASE,
        say(
            "do.parts",
            hold=hold("right-parts"),
            charger=Name(fit.charger.name),
            station=Name(fit.station.name),
        ),
        minutes=MINUTES["look"],
        needs=("variant-known", *carries),
        makes=("hold:right-parts",),
        hold=holds.right_parts(work),
    )


def _baseline(work: Work) -> Iterator[Step]:
    yield act("bag", PHASE, say("do.bag"), needs=("hold:right-parts",), makes=("kit-complete",))
    yield act(
        "scan.before",
        PHASE,
        say("do.scan.before"),
        tool=say("tool.scanner"),
        minutes=MINUTES["scan"],
        needs=("hold:right-parts",),
        makes=("scan-before",),
    )
    yield act(
        "photos",
        PHASE,
        say("do.photos"),
        tool=say("tool.camera"),
        needs=("hold:right-parts",),
        makes=("damage-recorded",),
    )
    reached: tuple[str, ...] = ()
    if work.fit.vehicle.battery.access is not None:
        reached = ("battery-reached",)
        yield act(
            "battery.reach",
            PHASE,
            say("do.open", access=Name(work.fit.vehicle.battery.access)),
            value_note=say("note.battery", place=Name(work.fit.vehicle.battery.place)),
            needs=("scan-before", "damage-recorded"),
            makes=reached,
        )
    # Before the first probe touches a post, with the engine running.
    yield act(
        "rings",
        PHASE,
        say("do.rings"),
        tool=say("tool.eyes"),
        needs=("scan-before", "damage-recorded", *reached),
        makes=("metal-off",),
    )
    plus, minus = work.joint("source+"), work.negative
    yield act(
        "running-voltage",
        PHASE,
        say(f"do.running-voltage.{start_word(work)}", plus=at(plus.letter), minus=at(minus.letter),
            reading=reading(reading_ids(work)["running"])),
        value=work.amount("supply_typ", digits=1),
        value_note=say("note.running"),
        tool=say("tool.meter"),
        minutes=10,
        needs=("metal-off",),
        makes=(_taken(work, "running"),),
        hazards=("fumes",),
    )  # fmt: skip


def _preserve(work: Work) -> Iterator[Step]:
    for number, item in kept_before(work):
        yield act(
            f"preserve.{number}",
            PHASE,
            say("do.preserve", how=Name(item.how)),
            value_note=say("note.keeps", what=Name(item.what)),
            needs=(_taken(work, "running"),),
            makes=(f"preserved:{number}",),
        )


def kept_before(work: Work) -> tuple[tuple[int, Preserve], ...]:
    """Return what is saved before the negative comes off, with its number."""
    return tuple(
        (number, item)
        for number, item in enumerate(work.fit.vehicle.preserve, 1)
        if item.when == "before"
    )


def _asleep(work: Work) -> Iterator[Step]:
    kept = tuple(f"preserved:{n}" for n, _ in kept_before(work))
    yield act(
        "key",
        PHASE,
        say("do.key", away=KEY_AWAY.amount.at_least()),
        value=KEY_AWAY.amount.at_least(),
        value_note=say("note.at-least"),
        needs=(_taken(work, "running"), *kept),
        makes=("key-away",),
    )
    yield act(
        "sleep.wait",
        PHASE,
        say("do.sleep.wait"),
        value=SLEEP_WAIT.amount,
        people=0,
        minutes=SLEEP_WAIT.value,
        needs=("key-away", "kit-complete"),
        makes=("asleep",),
    )
    yield act(
        "sleep.before",
        PHASE,
        say(
            "do.sleep.before",
            minus=at(work.negative.letter),
            reading=reading(reading_ids(work)["sleep"]),
        ),
        value=_sleeping(work),
        value_note=say("note.survey"),
        tool=work.sleep_meter,
        minutes=MINUTES["measure"],
        needs=("asleep",),
        makes=(_taken(work, "sleep"),),
    )
    ids = reading_ids(work)
    if "rest" in ids:
        plus, minus = work.joint("source+"), work.negative
        yield act(
            "rest.before",
            PHASE,
            say(
                "do.rest",
                plus=at(plus.letter),
                minus=at(minus.letter),
                reading=reading(ids["rest"]),
            ),
            value=work.amount("supply_rest", digits=2),
            value_note=say("note.survey"),
            tool=say("tool.meter"),
            minutes=MINUTES["measure"],
            needs=(_taken(work, "sleep"),),
            makes=(_taken(work, "rest"),),
        )


def _taken(work: Work, name: str) -> str:
    return f"reading:{reading_ids(work)[name]}"


def _sleeping(work: Work) -> Amount:
    sleep = work.fit.vehicle.supply.sleep
    return Amount(sleep.value, sleep.unit, 0, sleep.written, show="" if sleep.written else "mA")
