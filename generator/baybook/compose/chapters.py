"""The ordered steps as chapters: title, what is true before, panels."""

from __future__ import annotations

from itertools import groupby

from baybook.compose.boxes import with_boxes, with_cautions
from baybook.compose.order import put_in_order
from baybook.compose.steps import all_steps
from baybook.compose.work import Work, at, device, step
from baybook.finding import Message, Ref, say
from baybook.step import Chapter, Phase, Step


def chapters(work: Work) -> tuple[Chapter, ...]:
    """Return the work in chapters, in the order that its steps ask for."""
    steps = put_in_order(with_cautions(work, all_steps(work)))
    found = []
    done: list[Step] = []
    for phase, group in groupby(steps, key=lambda one: one.phase):
        here = tuple(group)
        found.append(
            Chapter(
                phase=phase,
                title=say(f"chapter.{phase.name.lower()}"),
                true_before=_true_before(work, phase, done),
                steps=with_boxes(work, here),
            )
        )
        done.extend(here)
    return tuple(found)


def _true_before(work: Work, phase: Phase, done: list[Step]) -> tuple[Message, ...]:
    """Return the states that hold at the head of a chapter, of those that keep a hand whole."""
    made = {state: one.id for one in done for state in one.makes}
    over = {state for one in done for state in one.breaks}
    if phase is Phase.PREPARE:
        return (say("true.parked"),)
    # What was done from below was done on a lift, where no engine is started.
    grounded = (say("true.grounded"),) if phase in _RUNNING else ()
    return grounded + tuple(
        say(f"true.{words}", step=step(made[state]), **values)
        for state, words, values in _told(work)
        if state in made and state not in over and not (state in _DRY and phase not in _DRY_WORK)
    )


_RUNNING = frozenset({Phase.FIRST_POWER, Phase.COMMISSION})
_DRY = frozenset({"charger-fixed", "key-away"})
_DRY_WORK = frozenset({Phase.ISOLATE, Phase.DRILL, Phase.ROUTE, Phase.TERMINATE, Phase.CONNECT})


def _told(work: Work) -> tuple[tuple[str, str, dict[str, Ref]], ...]:
    fuse = work.fuse.tag
    minus = at(work.negative.letter)
    return (
        ("key-away", "key-away", {}),
        ("negative-off", "negative-off", {"minus": minus}),
        ("isolator-open", "isolator-open", {}),
        ("hv-open", "hv-open", {}),
        ("negative-on", "negative-on", {"minus": minus}),
        (f"{fuse}.out", "fuse-out", {"fuse": device(fuse)}),
        (f"{fuse}.in", "fuse-in", {"fuse": device(fuse)}),
        *((("second-off", "second-off", {}),) if work.fit.second is not None else ()),
        ("station-plugged", "plugged", {}),
        ("charger-fixed", "charger-fixed", {}),
        ("ends-capped", "ends-capped", {}),
    )
