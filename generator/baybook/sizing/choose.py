"""Weigh what may be decided, in the order power, setting, size, protection.

No rule is written here: every option is worked out and put before the judge. The letters
of a finding's code tell which decision it speaks of: OV the setting, OC the protection.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace

from baybook.design import Choice, Design, Refusal, SettingOption
from baybook.finding import Amount, Finding, say
from baybook.fit import Fit
from baybook.job import Asked
from baybook.sizing.cascade import cascade
from baybook.sizing.charts import charts
from baybook.sizing.dial import Dial, order_of
from baybook.sizing.envelope import envelope
from baybook.sizing.least import first_of_least
from baybook.sizing.outlet import outlet
from baybook.sizing.output import Step, power_steps
from baybook.sizing.protection import options
from baybook.sizing.recall import Memory, Recall
from baybook.sizing.second import second_options
from baybook.sizing.shared import line_of
from baybook.sizing.source_point import as_asked
from baybook.sizing.substitutes import substitutes
from baybook.sizing.traces import figures
from baybook.sizing.weighed import (
    FITTED,
    PROTECTION,
    SECOND,
    Judge,
    Way,
    Weighed,
    candidate,
    keeps,
    weigh,
)
from baybook.sizing.work_out import input_power, size_of, work_out


@dataclass(frozen=True, slots=True, kw_only=True)
class Trial:
    """Everything that was weighed at one power step."""

    best: Weighed
    sizes: tuple[Weighed, ...]  # empty where no setting fits: no cable was weighed
    settings: tuple[SettingOption, ...]
    passed_over: tuple[float, ...] = ()  # set voltages before the chosen one, which do not fit

    @property
    def passes(self) -> bool:
        return bool(self.sizes) and not self.best.refused


def choose(fit: Fit, judge: Judge) -> Design | Refusal:
    """Return the first design that passes, or why there is none and the way out.

    Power: the lowest step that gives the station's full power, else the highest that
    passes. Setting: the default if it serves, else the lowest with full power. Size: the
    smallest that passes; an asked size is the only candidate. [shop-rule]

    judge  returns what all rules find in a bare design, the gravest first
    """
    fit = as_asked(fit)
    trials = settle(fit, Way(judge=judge, recall=Memory()))
    if trials[-1].passes:
        return _finish(trials[-1], judge)
    return _refuse(fit, least_wrong(trials), judge)


def settle(fit: Fit, way: Way) -> tuple[Trial, ...]:
    """Weigh the power steps up to the first that passes; all of them where none does.

    [shop-rule]

    fit  as it is asked for: a pair of chargers as one
    """
    trials = []
    for step in power_steps(fit.charger, fit.station.input_power.value):
        trials.append(_try(fit, step, way))
        if trials[-1].passes:
            break
    return tuple(trials)


def least_wrong(trials: Iterable[Trial]) -> Trial:
    """Return the trial with the fewest refusals, the first of equals.

    [shop-rule]
    """
    return min(trials, key=lambda trial: len(trial.best.refused))


def _try(fit: Fit, step: Step, way: Way) -> Trial:
    areas = _areas(fit)
    dial = Dial(fit=fit, step=step, way=way, probe=_probe(fit, step, areas[0], way))
    order = order_of(fit, step, way.recall)
    fitting = (set_V for set_V in order if dial.fits(set_V))
    chosen = next(fitting, None)
    settings = tuple(map(dial.option, sorted(order))) if way.whole else ()
    if chosen is None:
        return Trial(best=dial.nearest(order), sizes=(), settings=settings)
    sizes = _sizes(fit, step, chosen, areas, way)
    return Trial(
        best=_least(sizes),
        sizes=sizes,
        settings=settings,
        passed_over=tuple(order[: order.index(chosen)]),
    )


def _probe(fit: Fit, step: Step, area_mm2: float, way: Way) -> Design:
    return work_out(fit, _start(fit, step, area_mm2, way.recall), way.recall)


def _sizes(
    fit: Fit, step: Step, set_V: float, areas: Sequence[float], way: Way
) -> tuple[Weighed, ...]:
    """Weigh the sizes: all of them, or no more than it takes to have the best one among them."""
    if way.whole or fit.second is not None:  # what protects a second battery hangs on the setting
        return tuple(_size(fit, step, set_V, area, way) for area in areas)
    weighed: dict[int, Weighed] = {}

    def refused(at: int) -> int:
        weighed[at] = _size(fit, step, set_V, areas[at], way)
        return len(weighed[at].refused)

    at_least = [_at_least(fit, step, area, way) for area in areas]
    return (weighed[first_of_least(at_least, refused)],)


def _at_least(fit: Fit, step: Step, area_mm2: float, way: Way) -> int:
    """Count what refuses a size with every station, and so at least with this one."""

    def make() -> int:
        start = _start(fit, step, area_mm2, way.recall)
        counts = []
        for choice in _protected(fit, start, way.recall):
            design = work_out(fit, choice, way.recall)
            counts.append(len(weigh(design, way.judge, FITTED).refused))
            if not counts[-1]:
                break
        return min(counts)

    recall = way.recall
    parts = recall.sheet(fit.charger), recall.sheet(fit.connector)
    # What others draw on a line of the vehicle hangs on the power, and loads its fuse.
    through_W = input_power(fit, step.power_W) if line_of(fit) else 0.0
    return recall(("least", *parts, step.power_W, step.input_limit_A, through_W, area_mm2), make)


def _size(fit: Fit, step: Step, set_V: float, area_mm2: float, way: Way) -> Weighed:
    """Weigh one size with each protection; the first that protects, else the least wrong."""
    judge, tried = way.judge, []
    start = replace(_start(fit, step, area_mm2, way.recall), set_V=set_V)
    for choice in _protected(fit, start, way.recall):
        design = work_out(fit, choice, way.recall)
        if keeps(design, judge, PROTECTION) and keeps(design, judge, SECOND):
            return weigh(design, judge)
        tried.append(design)
    return _least([weigh(design, judge) for design in tried])


def _areas(fit: Fit) -> tuple[float, ...]:
    """Sizes to weigh: the asked one only, else the whole stock, the smallest first."""
    if fit.job.asked.area is not None:
        return (fit.job.asked.area.value,)
    return tuple(sorted(size.area.value for size in fit.cable.sizes))


def _start(fit: Fit, step: Step, area_mm2: float, recall: Recall) -> Choice:
    family, rating = _options(fit, step.input_limit_A, recall)[0]
    second_family, second_rating = next(second_options(fit))
    return Choice(
        power_W=step.power_W,
        input_limit_A=step.input_limit_A,
        power_kept=step.kept,
        set_V=fit.charger.output_default.value,
        area_mm2=area_mm2,
        family=family,
        rating_A=rating,
        second_family=second_family,
        second_rating_A=second_rating,
    )


def _options(fit: Fit, input_limit_A: float, recall: Recall) -> tuple[tuple[str, float], ...]:
    def make() -> tuple[tuple[str, float], ...]:
        return tuple((family, rating.value) for family, rating in options(fit, input_limit_A))

    return recall(("options", input_limit_A), make)


def _protected(fit: Fit, choice: Choice, recall: Recall) -> Iterator[Choice]:
    for family, rating in _options(fit, choice.input_limit_A, recall):
        for name, amperes in second_options(fit):
            yield replace(
                choice,
                family=family,
                rating_A=rating,
                second_family=name,
                second_rating_A=amperes,
            )


def _least(weighed: Iterable[Weighed]) -> Weighed:
    """Return the one with the fewest refusals, the first of equals."""
    return min(weighed, key=lambda one: len(one.refused))


def _finish(trial: Trial, judge: Judge) -> Design:
    bare = replace(
        trial.best.design,
        candidates=tuple(candidate(weighed) for weighed in trial.sizes),
        settings=trial.settings,
        cascades=tuple(cascade(weighed.design) for weighed in trial.sizes),
    )
    bounds = envelope(bare, judge)
    instead = substitutes(bare, judge)
    told = replace(bare, figures=figures(bare, bounds), charts=charts(bare))
    return replace(told, bounds=bounds, substitutes=instead, outlet=outlet(bare))


def _refuse(fit: Fit, trial: Trial, judge: Judge) -> Refusal:
    thicker = _way_out(fit, trial, judge) if trial.sizes else ()
    passing = next((weighed for weighed in thicker if not weighed.refused), None)
    refused = trial.best.refused
    if passing is not None:
        refused = tuple(_with_size(finding, passing) for finding in refused)
    return Refusal(
        fit=fit,
        findings=refused,
        candidates=tuple(candidate(weighed) for weighed in (*trial.sizes, *thicker)),
        figures=figures(trial.best.design, ()),
        charts=charts(trial.best.design),
        cascades=tuple(cascade(weighed.design) for weighed in (*trial.sizes, *thicker)),
    )


def _way_out(fit: Fit, trial: Trial, judge: Judge) -> tuple[Weighed, ...]:
    """Weigh the sizes above an asked one, up to the first that passes."""
    asked, choice = fit.job.asked.area, trial.best.design.choice
    if asked is None:
        return ()
    free = replace(fit, job=fit.job.model_copy(update={"asked": Asked()}))
    step = Step(power_W=choice.power_W, input_limit_A=choice.input_limit_A, kept=choice.power_kept)
    weighed: list[Weighed] = []
    for area in _areas(free):
        if area > choice.area_mm2 and not any(not one.refused for one in weighed):
            weighed.append(_size(free, step, choice.set_V, area, Way(judge=judge)))
    return tuple(weighed)


def _with_size(finding: Finding, passing: Weighed) -> Finding:
    """Name the size that passes as the way out of a finding about the cable."""
    if finding.code.partition("-")[0] != "CA":
        return finding
    size = size_of(passing.design.fit, passing.design.choice.area_mm2)
    area = Amount.area(size.area.value, size.nearest_awg)
    return replace(finding, way_out=say("rule.CA.way_out_size", area=area))
