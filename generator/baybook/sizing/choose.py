"""Weigh what may be decided, in the order power, setting, size, protection.

No rule is written here: every option is worked out and put before the judge. The letters
of a finding's code tell which decision it speaks of: OV the setting, OC the protection.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace

from baybook.design import Choice, Design, Refusal, SettingOption
from baybook.finding import Amount, Finding, Verdict, say
from baybook.fit import Fit
from baybook.job import Asked
from baybook.sizing.cascade import cascade
from baybook.sizing.charts import charts
from baybook.sizing.envelope import envelope
from baybook.sizing.outlet import outlet
from baybook.sizing.output import (
    Step,
    in_order_of_choice,
    miss,
    offer,
    power_steps,
    set_voltages,
    solve_output,
)
from baybook.sizing.protection import options
from baybook.sizing.recall import AFRESH, Recall
from baybook.sizing.second import second_options
from baybook.sizing.source_point import as_asked
from baybook.sizing.substitutes import substitutes
from baybook.sizing.traces import figures
from baybook.sizing.weighed import Judge, Weighed, candidate, weigh
from baybook.sizing.work_out import with_setting, work_out

# What a judge may be asked about, beside the letters of a code; see `checks/judge.py`.
BAND, SETTING = "band", "setting"
_OUTPUT, _PROTECTION, _SECOND = "OV", "OC", "SB"


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
    trials = settle(fit, Way(judge=judge))
    if trials[-1].passes:
        return _finish(trials[-1], judge)
    return _refuse(fit, least_wrong(trials), judge)


@dataclass(frozen=True, slots=True, kw_only=True)
class Way:
    """How the options are gone through; what is decided does not depend on it."""

    judge: Judge
    recall: Recall = AFRESH
    whole: bool = True  # also what comes after the first that passes, for a guide to show


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
    dial = _Dial(fit=fit, step=step, way=way, probe=_probe(fit, step, areas[0], way))
    order = _order(fit, step, way.recall)
    fitting = (set_V for set_V in order if dial.fits(set_V))
    chosen = next(fitting, None)
    settings = tuple(map(dial.option, sorted(order))) if way.whole else ()
    if chosen is None:
        return Trial(best=dial.nearest(order), sizes=(), settings=settings)
    sizes: list[Weighed] = []
    for area in areas:
        sizes.append(_size(fit, step, chosen, area, way))
        if not way.whole and not sizes[-1].refused:
            break
    passing = [weighed for weighed in sizes if not weighed.refused]
    best = passing[0] if passing else _least(sizes)
    return Trial(
        best=best,
        sizes=tuple(sizes),
        settings=settings,
        passed_over=tuple(order[: order.index(chosen)]),
    )


def _probe(fit: Fit, step: Step, area_mm2: float, way: Way) -> Design:
    return work_out(fit, _start(fit, step, area_mm2, way.recall), way.recall)


class _Dial:
    """The settings of the charger at one power step, each worked out when it is looked at."""

    def __init__(self, *, fit: Fit, step: Step, way: Way, probe: Design) -> None:
        self._fit, self._step, self._way, self._probe = fit, step, way, probe
        self._at: dict[float, Design] = {}
        self._sheets = way.recall.sheet(fit.charger), way.recall.sheet(fit.station)

    def at(self, set_V: float) -> Design:
        if set_V not in self._at:
            recall = self._way.recall
            output = recall(
                ("output", *self._sheets, self._step.power_W, set_V),
                lambda: solve_output(self._fit, self._step.power_W, set_V),
            )
            self._at[set_V] = with_setting(self._probe, set_V, output, recall)
        return self._at[set_V]

    def fits(self, set_V: float) -> bool:
        """Tell whether no rule of the output refuses; its band is the same with every lead."""
        in_band = not self._band(set_V)[0]
        return in_band and _keeps(self.at(set_V), self._way.judge, _OUTPUT)

    def option(self, set_V: float) -> SettingOption:
        output = self.at(set_V).solved.output
        return SettingOption(
            set_V=set_V, power_W=output.sure_W, limit=output.limit, fits=self.fits(set_V)
        )

    def nearest(self, order: Sequence[float]) -> Weighed:
        """Return the setting with the fewest refusals; of equals the nearest to the window.

        What the band alone earns is the least that a setting earns, so the search ends as soon
        as no other can come before the best.
        """
        least = sorted((*self._band(set_V), at) for at, set_V in enumerate(order))
        best: tuple[int, float, int] | None = None
        for count, away_V, at in least:
            if best is not None and (count, away_V, at) >= best:
                break
            found = _of_output(self._way.judge(self.at(order[at]), SETTING))
            whole = (len(_refused(found)), away_V, at)
            best = whole if best is None else min(best, whole)
        assert best is not None  # noqa: S101 - a charger has at least its default
        weighed = weigh(self.at(order[best[2]]), self._way.judge)
        return replace(weighed, findings=_of_output(weighed.findings))

    def _band(self, set_V: float) -> tuple[int, float]:
        """Return how many rules refuse the band of a setting, and how far it is off [V]."""

        def make() -> tuple[int, float]:
            design = self.at(set_V)
            refused = _refused(self._way.judge(design, BAND))
            return len(refused), miss(self._fit.station, design.solved.output)

        return self._way.recall.shared(("band", *self._sheets, set_V), make)


def _order(fit: Fit, step: Step, recall: Recall) -> list[float]:
    """Set voltages in the order they are to be tried."""

    def make() -> list[float]:
        offers = [
            (set_V, offer(fit.charger, fit.station, step.power_W, set_V))
            for set_V in set_voltages(fit.charger)
        ]
        return in_order_of_choice(offers, fit.charger.output_default.value)

    sheets = recall.sheet(fit.charger), recall.sheet(fit.station)
    return recall.shared(("order", sheets, step.power_W), make)


def _size(fit: Fit, step: Step, set_V: float, area_mm2: float, way: Way) -> Weighed:
    """Weigh one size with each protection; the first that protects, else the least wrong."""
    judge, tried = way.judge, []
    start = replace(_start(fit, step, area_mm2, way.recall), set_V=set_V)
    for choice in _protected(fit, start, way.recall):
        design = work_out(fit, choice, way.recall)
        if _keeps(design, judge, _PROTECTION) and _keeps(design, judge, _SECOND):
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


def _keeps(design: Design, judge: Judge, subject: str) -> bool:
    """Tell whether no rule of one subject refuses; the others need not be asked for that."""
    return not _refused(judge(design, subject))


def _of_output(findings: Iterable[Finding]) -> tuple[Finding, ...]:
    """Leave out what hangs on cable and protection: none was chosen yet."""
    later = {"CA", _PROTECTION, _SECOND}
    return tuple(f for f in findings if f.code.partition("-")[0] not in later)


def _refused(findings: Iterable[Finding]) -> tuple[Finding, ...]:
    return tuple(f for f in findings if f.verdict is Verdict.REFUSED)


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
    area = Amount(passing.design.choice.area_mm2, "mm2", 0)
    return replace(finding, way_out=say("rule.CA.way_out_size", area=area))
