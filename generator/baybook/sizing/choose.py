"""Weigh what may be decided, in the order power, setting, size, protection.

No rule is written here: every option is worked out and put before the judge. The letters
of a finding's code tell which decision it speaks of: OV the setting, OC the protection.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace

from baybook.design import Choice, Design, Refusal, SettingOption
from baybook.finding import Amount, Finding, Verdict, say
from baybook.fit import Fit
from baybook.sizing.cascade import cascade
from baybook.sizing.charts import charts
from baybook.sizing.envelope import envelope
from baybook.sizing.output import (
    Step,
    in_order_of_choice,
    miss,
    power_steps,
    set_voltages,
    solve_output,
)
from baybook.sizing.protection import options
from baybook.sizing.second import second_options
from baybook.sizing.source_point import as_asked
from baybook.sizing.substitutes import substitutes
from baybook.sizing.traces import figures
from baybook.sizing.weighed import Judge, Weighed, candidate, weigh
from baybook.sizing.work_out import with_setting, work_out
from baybook.vehicle import Asked

_OUTPUT, _PROTECTION, _SECOND = "OV", "OC", "SB"


@dataclass(frozen=True, slots=True, kw_only=True)
class Trial:
    """Everything that was weighed at one power step."""

    best: Weighed
    sizes: tuple[Weighed, ...]  # empty where no setting fits: no cable was weighed
    settings: tuple[SettingOption, ...]


def choose(fit: Fit, judge: Judge) -> Design | Refusal:
    """Return the first design that passes, or why there is none and the way out.

    Power: the lowest step that gives the station's full power, else the highest that
    passes. Setting: the default if it serves, else the lowest with full power. Size: the
    smallest that passes; an asked size is the only candidate. [shop-rule]

    judge  returns what all rules find in a bare design, the gravest first
    """
    fit = as_asked(fit)
    trials = []
    for step in power_steps(fit.charger, fit.station.input_power.value):
        trial = _try(fit, step, judge)
        if trial.sizes and not trial.best.refused:
            return _finish(trial, judge)
        trials.append(trial)
    return _refuse(fit, min(trials, key=lambda trial: len(trial.best.refused)), judge)


def _try(fit: Fit, step: Step, judge: Judge) -> Trial:
    areas = _areas(fit)
    probe = work_out(fit, _start(fit, step, areas[0]))
    outputs = [
        (set_V, solve_output(fit, step.power_W, set_V)) for set_V in set_voltages(fit.charger)
    ]
    tried = {set_V: with_setting(probe, set_V, output) for set_V, output in outputs}
    settings = tuple(
        SettingOption(
            set_V=set_V,
            power_W=output.sure_W,
            limit=output.limit,
            fits=_keeps(tried[set_V], judge, _OUTPUT),
        )
        for set_V, output in outputs
    )
    order = in_order_of_choice(outputs, fit.charger.output_default.value)
    fitting = {option.set_V for option in settings if option.fits}
    chosen = next((set_V for set_V in order if set_V in fitting), None)
    if chosen is None:
        best = _nearest(fit, [_of_output(weigh(tried[set_V], judge)) for set_V in order])
        return Trial(best=best, sizes=(), settings=settings)
    sizes = tuple(_size(fit, step, chosen, area, judge) for area in areas)
    passing = [weighed for weighed in sizes if not weighed.refused]
    return Trial(best=passing[0] if passing else _least(sizes), sizes=sizes, settings=settings)


def _size(fit: Fit, step: Step, set_V: float, area_mm2: float, judge: Judge) -> Weighed:
    """Weigh one size with each protection; the first that protects, else the least wrong."""
    tried = []
    for choice in _protected(fit, replace(_start(fit, step, area_mm2), set_V=set_V)):
        design = work_out(fit, choice)
        if _keeps(design, judge, _PROTECTION) and _keeps(design, judge, _SECOND):
            return weigh(design, judge)
        tried.append(design)
    return _least([weigh(design, judge) for design in tried])


def _areas(fit: Fit) -> tuple[float, ...]:
    """Sizes to weigh: the asked one only, else the whole stock, the smallest first."""
    if fit.job.asked.area is not None:
        return (fit.job.asked.area.value,)
    return tuple(sorted(size.area.value for size in fit.cable.sizes))


def _start(fit: Fit, step: Step, area_mm2: float) -> Choice:
    family, rating = next(options(fit, step.input_limit_A))
    second_family, second_rating = next(second_options(fit))
    return Choice(
        power_W=step.power_W,
        input_limit_A=step.input_limit_A,
        power_kept=step.kept,
        set_V=fit.charger.output_default.value,
        area_mm2=area_mm2,
        family=family,
        rating_A=rating.value,
        second_family=second_family,
        second_rating_A=second_rating,
    )


def _protected(fit: Fit, choice: Choice) -> Iterator[Choice]:
    for family, rating in options(fit, choice.input_limit_A):
        for name, amperes in second_options(fit):
            yield replace(
                choice,
                family=family,
                rating_A=rating.value,
                second_family=name,
                second_rating_A=amperes,
            )


def _keeps(design: Design, judge: Judge, subject: str) -> bool:
    """Tell whether no rule of one subject refuses; the others need not be asked for that."""
    return all(finding.verdict is not Verdict.REFUSED for finding in judge(design, subject))


def _of_output(weighed: Weighed) -> Weighed:
    """Leave out what hangs on cable and protection: none was chosen yet."""
    later = {"CA", _PROTECTION, _SECOND}
    kept = [f for f in weighed.findings if f.code.partition("-")[0] not in later]
    return replace(weighed, findings=tuple(kept))


def _least(weighed: Iterable[Weighed]) -> Weighed:
    """Return the one with the fewest refusals, the first of equals."""
    return min(weighed, key=lambda one: len(one.refused))


def _nearest(fit: Fit, weighed: Iterable[Weighed]) -> Weighed:
    """Return the setting with the fewest refusals; of equals the nearest to the window."""

    def rank(one: Weighed) -> tuple[int, float]:
        return len(one.refused), miss(fit.station, one.design.solved.output)

    return min(weighed, key=rank)


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
    return replace(told, bounds=bounds, substitutes=instead)


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
            weighed.append(_size(free, step, choice.set_V, area, judge))
    return tuple(weighed)


def _with_size(finding: Finding, passing: Weighed) -> Finding:
    """Name the size that passes as the way out of a finding about the cable."""
    if finding.code.partition("-")[0] != "CA":
        return finding
    area = Amount(passing.design.choice.area_mm2, "mm2", 0)
    return replace(finding, way_out=say("rule.CA.way_out_size", area=area))
