"""Take the power away, wait, and prove that it is gone."""

from __future__ import annotations

from collections.abc import Iterator

from baybook.compose import holds
from baybook.compose.action import act
from baybook.compose.practice import DEAD_BELOW, DISCHARGE_WAIT, MINUTES, RESTRAINT_WAIT
from baybook.compose.reading_ids import reading_ids
from baybook.compose.steps.settle import settled
from baybook.compose.work import Work, at, start_word
from baybook.finding import Amount, Name, say
from baybook.fit import has_high_voltage
from baybook.quantity import Unknown
from baybook.step import Phase, Step

PHASE = Phase.ISOLATE


def isolate(work: Work) -> tuple[Step, ...]:
    """Return the steps that make the vehicle dead: the negative first, then the proof."""
    return (*_off(work), *_wait(work), _proof(work))


def _off(work: Work) -> Iterator[Step]:
    post, ids = work.negative, reading_ids(work)
    before = tuple(f"reading:{ids[name]}" for name in ("sleep", "rest") if name in ids)
    first = ("metal-off", *before)
    opened: tuple[str, ...] = ()
    if start_word(work) == "ready":
        opened = ("ready-out",)
        yield act(
            "ready.out",
            PHASE,
            say("do.ready.out"),
            value_note=say("note.ready.out"),
            needs=first,
            makes=opened,
        )
    isolator = work.fit.vehicle.isolator
    if isolator is not None:
        opened = (*opened, "isolator-open")
        yield act(
            "isolator.open",
            PHASE,
            say("do.isolator.open", place=Name(isolator.place)),
            tool=say("tool.padlock"),
            needs=first,
            makes=("isolator-open",),
        )
    yield act(
        "battery.off",
        PHASE,
        say("do.battery.off", minus=at(post.letter)),
        tool=work.post_tool,
        needs=(*first, "hold:right-parts", *opened, *settled(work, Phase.PREPARE)),
        makes=("negative-off",),
        hazards=("arc",),
        photo=Name(post.photo) if post.photo else None,
    )
    yield act(
        "battery.cover",
        PHASE,
        say("do.battery.cover"),
        tool=say("tool.cap"),
        needs=("negative-off",),
        makes=("negative-tied",),
    )


def _wait(work: Work) -> Iterator[Step]:
    """What keeps a charge is waited for, and first the high-voltage side taken apart."""
    if has_high_voltage(work.fit):
        yield _disconnected(work)
        yield _discharged(work)
    yield from _restraint_wait(work)


def _disconnected(work: Work) -> Step:
    """Whoever is trained for it takes the service disconnect out; nobody else touches it."""
    traction = work.fit.vehicle.high_voltage
    return act(
        "hv.open",
        PHASE,
        say("do.hv.open")
        if traction is None
        else say("do.hv.open.at", place=Name(traction.disconnect)),
        value_note=say("note.hv.open"),
        tool=say("tool.padlock"),
        needs=("negative-tied",),
        makes=("hv-open",),
        hazards=("high-voltage-out",),
    )


def _discharged(work: Work) -> Step:
    """Its capacitors keep the full voltage for a while; the vehicle's maker says how long."""
    traction = work.fit.vehicle.high_voltage
    wait = None if traction is None or isinstance(traction.wait, Unknown) else traction.wait
    return act(
        "hv.wait",
        PHASE,
        say("do.hv.wait"),
        value=_minutes(wait.value, wait.written) if wait else DISCHARGE_WAIT.amount,
        value_note=say("note.maker") if wait else say("note.practice"),
        people=0,
        minutes=wait.value / 60 if wait else DISCHARGE_WAIT.value,
        needs=("hv-open",),
        makes=("hv-waited",),
    )


def _restraint_wait(work: Work) -> Iterator[Step]:
    """The restraint system keeps its charge for a while; the vehicle's maker says how long."""
    wait = work.fit.vehicle.restraints.wait
    if not needs_wait(work):
        return
    known = not isinstance(wait, Unknown)
    value = (
        RESTRAINT_WAIT.amount if isinstance(wait, Unknown) else _minutes(wait.value, wait.written)
    )
    yield act(
        "restraint.wait",
        PHASE,
        say("do.restraint.wait"),
        value=value,
        value_note=say("note.maker") if known else say("note.practice"),
        people=0,
        minutes=RESTRAINT_WAIT.value if isinstance(wait, Unknown) else wait.value / 60,
        needs=("negative-tied",),
        makes=("restraint-waited",),
    )


def needs_wait(work: Work) -> bool:
    """Whether anything keeps a charge: a wait of 0 s says that there is nothing."""
    wait = work.fit.vehicle.restraints.wait
    return isinstance(wait, Unknown) or wait.value > 0


def _minutes(seconds: float, written: str) -> Amount:
    return Amount(seconds, "s", 0, written)


def _proof(work: Work) -> Step:
    plus, body = work.joint("source+"), work.ground
    return act(
        "dead",
        PHASE,
        say(
            "do.dead" if work.has_joint("source-") else "do.dead.clamp",
            plus=at(plus.letter),
            body=at(body.letter),
        ),
        value=DEAD_BELOW.amount,
        value_note=say("note.below"),
        tool=say("tool.meter"),
        minutes=MINUTES["measure"],
        needs=(
            *(("restraint-waited",) if needs_wait(work) else ("negative-tied",)),
            *(("hv-waited",) if has_high_voltage(work.fit) else ()),
        ),
        makes=("hold:proved-dead",),
        hold=holds.proved_dead(work),
    )
