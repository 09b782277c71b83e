"""A judge with a memory says what `judge` says, and knows all that a rule looks at."""

from dataclasses import replace

import pytest

from baybook.checks import judge
from baybook.checks.reads import BAND, READS, SETTING
from baybook.checks.registry import RULES
from baybook.checks.remembering import Remembering
from baybook.checks.subjects import codes_about
from baybook.sizing.choose import _areas, _at_least, _size, settle
from baybook.sizing.output import power_steps
from baybook.sizing.recall import AFRESH, Memory
from baybook.sizing.source_point import as_asked
from baybook.sizing.weighed import Way
from drawn import drawn
from workbooks import example

# A whole of these hangs together: what is inside needs no path of its own.
_WHOLE = ("fit.charger", "fit.station", "fit.connector")
# The job's own, and so the same for all fits of one pattern.
_PATTERN = ("fit.",)
SUBJECTS = ("setting", "band", "lead", "plug", "fitted", "beside")
_BAND = {"high_V", "low_V", "default_high_V", "default_low_V"}


class Watched:
    """Stands for a thing and writes down what is asked of it, three steps deep."""

    __slots__ = ("_path", "_seen", "_thing")

    def __init__(self, thing, path, seen):
        self._thing, self._path, self._seen = thing, path, seen

    @property
    def __class__(self):
        return type(self._thing)

    def __getattr__(self, name):
        member = type(self._thing).__dict__.get(name)
        if isinstance(member, property):
            return member.fget(self)
        value = getattr(self._thing, name)
        if callable(value) and hasattr(value, "__func__"):
            return lambda *args, **named: value.__func__(self, *args, **named)
        path = f"{self._path}.{name}".lstrip(".")
        self._seen.add(path)
        deep = path.count(".") >= 2 or not hasattr(type(value), "__dataclass_fields__")
        return value if deep else Watched(value, path, self._seen)


def designs():
    """Every design that is weighed for some fits."""
    kept = []

    def keep(design, about=""):
        kept.append(design)
        return judge(design, about)

    for fit in (*example().fits, *map(drawn, range(40))):
        settle(as_asked(fit), Way(judge=keep))
    return kept[::7]


def looked_at(rule, design):
    seen = set()
    list(rule(Watched(design, "", seen)))
    return seen


def is_declared(path, reads):
    if path in {"fit", "choice", "circuit", "solved"} or path in reads:
        return True
    if path.startswith("fit."):
        return (path not in _WHOLE and not path.startswith(tuple(f"{one}." for one in _WHOLE))) or (
            ".".join(path.split(".")[:2]) in reads
        )
    return any(path.startswith(f"{read}.") or read.startswith(f"{path}.") for read in reads)


@pytest.fixture(scope="module")
def weighed():
    return designs()


def test_no_rule_looks_at_more_than_it_says(weighed):
    for code, rule in RULES.items():
        seen = set().union(*(looked_at(rule, design) for design in weighed[::5]))
        assert [
            path for path in sorted(seen) if not is_declared(path, READS.get(code, ()))
        ] == [], code


def test_the_band_is_all_that_the_rules_of_the_band_see_of_the_output(weighed):
    for code in BAND:
        seen = set().union(*(looked_at(RULES[code], design) for design in weighed[::5]))
        of_output = {path.rpartition(".")[2] for path in seen if path.startswith("solved.output.")}
        assert of_output <= _BAND, code
        assert not {path for path in seen if path.startswith(("circuit", "solved.feed"))}, code


def test_every_named_rule_is_a_rule():
    assert set(READS) <= set(RULES)
    assert BAND <= SETTING <= set(RULES)


def test_the_subjects_part_the_rules():
    setting, beside, fitted = (set(codes_about(one)) for one in ("setting", "beside", "fitted"))
    assert sorted([*setting, *beside, *fitted]) == sorted(RULES)
    of_output = [set(codes_about(one)) for one in ("band", "lead", "plug")]
    assert sorted(code for own in of_output for code in own) == sorted(codes_about("OV"))


def test_a_size_is_refused_no_less_with_any_station_than_by_what_is_fitted():
    loads = [fit for fit in map(drawn, range(60)) if fit.second is None]
    for fit in loads[:12]:
        way = Way(judge=Remembering(), recall=Memory(), whole=False)
        for other in loads[::6]:
            swapped = replace(fit, station=other.station)
            for step in power_steps(fit.charger, other.station.input_power.value):
                for area in _areas(fit):
                    least = _at_least(swapped, step, area, way)
                    alone = _size(swapped, step, 20.0, area, Way(judge=judge))
                    assert least <= len(alone.refused)


def test_it_finds_what_the_judge_finds_in_the_same_order(weighed):
    by_fit = {}
    for design in weighed:
        by_fit.setdefault(id(design.fit), []).append(design)
    for own in by_fit.values():
        remembering = Remembering()
        for design in (*own, *own):
            for about in ("", "OV", "OC", "SB", *SUBJECTS):
                assert remembering(design, about) == judge(design, about)


def outcome(fit, way):
    trials = settle(as_asked(fit), way)
    best = min(trials, key=lambda trial: len(trial.best.refused)).best
    best = trials[-1].best if trials[-1].passes else best
    return best.findings, best.design.choice, best.design.solved, best.design.circuit


def test_the_way_through_the_options_does_not_change_what_is_decided():
    fits = [drawn(seed) for seed in range(30)]
    loads = [fit for fit in fits if fit.second is None]
    for fit in loads[:4]:
        lean = Way(judge=Remembering(), recall=Memory(), whole=False)
        for other in loads[::5]:
            swapped = replace(fit, charger=other.charger, station=other.station)
            whole = Way(judge=judge, recall=AFRESH)
            assert outcome(swapped, lean) == outcome(swapped, whole)
