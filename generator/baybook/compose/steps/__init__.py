"""What has to be done, by chapter. Each file gives steps in no order; `compose.order` finds it."""

from __future__ import annotations

from baybook.compose.steps.commission import commission
from baybook.compose.steps.connect import connect
from baybook.compose.steps.drill import drill
from baybook.compose.steps.dry_fit import dry_fit
from baybook.compose.steps.first_power import first_power
from baybook.compose.steps.handover import hand_over
from baybook.compose.steps.isolate import isolate
from baybook.compose.steps.prepare import prepare
from baybook.compose.steps.route import route
from baybook.compose.steps.second import for_second
from baybook.compose.steps.terminate import terminate
from baybook.compose.work import Work
from baybook.step import Step


def all_steps(work: Work) -> tuple[Step, ...]:
    """Return every step of the job, unnumbered."""
    return for_second(work, _of_any(work))


def _of_any(work: Work) -> tuple[Step, ...]:
    return (
        *prepare(work),
        *isolate(work),
        *dry_fit(work),
        *drill(work),
        *route(work),
        *terminate(work),
        *connect(work),
        *first_power(work),
        *commission(work),
        *hand_over(work),
    )
