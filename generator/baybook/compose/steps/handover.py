"""What the customer must know, and what the shop keeps."""

from __future__ import annotations

from collections.abc import Iterator

from baybook.compose.action import act
from baybook.compose.limits import most
from baybook.compose.practice import MINUTES, RETORQUE_KM, RETORQUE_MONTHS
from baybook.compose.reading_ids import reading_ids
from baybook.compose.work import Work, device, reading, step
from baybook.finding import Amount, Name, say
from baybook.step import Phase, Step

PHASE = Phase.HANDOVER


def hand_over(work: Work) -> tuple[Step, ...]:
    """Return the steps that end the job."""
    return (*_restore(work), *_show(work), *_papers(), *_body_again(work))


def _restore(work: Work) -> Iterator[Step]:
    last = reading_ids(work)["asleep"]
    for number, item in enumerate(work.fit.vehicle.preserve, 1):
        yield act(
            f"restore.{number}",
            PHASE,
            say("do.preserve", how=Name(item.how))
            if item.when == "after"
            else say("do.restore", what=Name(item.what), step=step(f"preserve.{number}")),
            value_note=say("note.keeps", what=Name(item.what)) if item.when == "after" else None,
            needs=(
                f"reading:{last}",
                *((f"preserved:{number}",) if item.when == "before" else ()),
            ),
            makes=(f"restored:{number}",),
        )


def _show(work: Work) -> Iterator[Step]:
    last = reading_ids(work)["asleep"]
    kept = tuple(f"restored:{n}" for n, _ in enumerate(work.fit.vehicle.preserve, 1))
    yield act(
        "show.off",
        PHASE,
        say("do.show.off", fuse=device(work.fuse.tag)),
        minutes=MINUTES["talk"],
        needs=(f"reading:{last}", *kept),
        makes=("shown-off",),
    )
    if work.has("idle_day") and work.design.figure("idle_night").value < 0:
        yield act(
            "show.idle",
            PHASE,
            say("do.show.idle"),
            value=work.amount("idle_night", digits=1),
            value_note=say("note.idle-night"),
            needs=("shown-off",),
            makes=("shown-idle",),
        )
    share = work.fit.shop.limits.standby_share.value
    yield act(
        "show.standing",
        PHASE,
        say("do.show.standing"),
        value=work.amount("standby_days", digits=0),
        value_note=say("note.standing", share=Amount(share.value, "1", 0)),
        needs=("shown-off",),
        makes=("shown-standing",),
    )
    yield act(
        "show.jump",
        PHASE,
        say("do.show.jump", fuse=device(work.fuse.tag)),
        value=Amount.of(work.fit.charger.input_max),
        value_note=say("note.charger-most"),
        needs=("shown-off",),
        makes=("shown-jump",),
    )
    yield act(
        "show.station",
        PHASE,
        say("do.show.station"),
        needs=("shown-off",),
        makes=("shown-station",),
    )


def _body_again(work: Work) -> Iterator[Step]:
    """A joint of the body goes bad unseen; its drop shows it."""
    one = reading_ids(work).get("body")
    if one is not None:
        yield act(
            "body.again",
            PHASE,
            say("do.body-again", reading=reading(one)),
            value=most(work, "body", 0, "mV"),
            value_note=say("note.at-most"),
            needs=("visit-booked",),
            makes=("body-told",),
        )


def _papers() -> Iterator[Step]:
    yield act("insurer", PHASE, say("do.insurer"), needs=("shown-off",), makes=("insurer-told",))
    yield act(
        "retorque",
        PHASE,
        say("do.retorque"),
        value=RETORQUE_KM.amount,
        value_note=say("note.months", count=RETORQUE_MONTHS),
        needs=("shown-off",),
        makes=("visit-booked",),
    )
    yield act(
        "sign",
        PHASE,
        say("do.sign"),
        minutes=MINUTES["sign"],
        needs=(
            "insurer-told",
            "visit-booked",
            "shown-station",
            "shown-jump",
            "shown-standing",
        ),
        makes=("signed",),
    )
