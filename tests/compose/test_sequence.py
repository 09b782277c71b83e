"""What must hold for every order of work: over the example's guides, and over made-up vehicles.

The model that the work is done on (`bench.py`) shares no code with the tool's own walk. It passes
every guide, and it meets the same spoilt guides as the walk.
"""

from dataclasses import replace
from functools import cache

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from baybook.checks import approve, judge
from baybook.compose import compose
from baybook.design import Refusal
from baybook.quantity import Unknown
from baybook.route import Hazard
from baybook.sizing.choose import choose
from baybook.terms import HazardKind, YesNoUnknown
from baybook.wording.tell import tell
from checks.test_release import SABOTAGE, number_twice
from compose.invariants import RULES, wrongs
from compose.jobs import OTHERS, check, english
from variants import job, quantity, supply, vehicle
from workbooks import example, example_fit

FITS = tuple(fit.id for fit in example().fits if fit.job.refused is None)


def work(fit):
    """Return the checked design and its guide; None for a fit that the rules refuse."""
    found = choose(fit, judge)
    made = found if isinstance(found, Refusal) else approve(found)
    return None if isinstance(made, Refusal) else (made, compose(made))


@cache
def worked(name):
    return work(example_fit(name))


@pytest.mark.parametrize("rule", RULES, ids=[rule.__name__ for rule in RULES])
@pytest.mark.parametrize("name", FITS)
def test_the_work_keeps_the_rule(name, rule):
    assert not {what for broken, what in wrongs(*worked(name)) if broken == rule.__name__}


@pytest.mark.parametrize("name", FITS)
def test_a_joint_s_step_says_what_its_data_says(name):
    """The data that is walked and the sentence that is read are one: tag, letter and torque."""
    checked, guide = worked(name)
    torques = {row.letter: row.torque for row in guide.torques}
    told = tell(guide, english())
    steps = [step for chapter in told["chapters"] for step in chapter["steps"]]
    for step in steps:
        for end in step["joins"]:
            tag, letter = end.split("@")
            runs = step["action"]["runs"]
            assert {"kind": "strong", "text": tag} in runs
            assert {"kind": "letter", "text": letter} in runs
            if letter in step["torques"]:
                assert tell(torques[letter], english())["text"] in step["action"]["text"]
    assert sum(len(step["joins"]) for step in steps) == 2 * len(guide.cuts)
    assert checked.design.circuit.joints


# ------------------------------------------------------------------ made-up vehicles

CLEAR = 0.5  # m: beyond every least distance of the shop


def hazard(segment, kind, like, at):
    """Return the segment with one more hazard on it, at a distance that passes."""
    one = Hazard(
        kind=kind, what=f"{kind.value} here", distance=quantity(like, CLEAR), at=quantity(like, at)
    )
    met = sorted((*segment.hazards, one), key=lambda found: found.at.value)
    return segment.model_copy(update={"hazards": tuple(met)})


@st.composite
def vehicles(draw):
    """A fit of the example with its route, restraints, cue, mount and supply drawn anew."""
    name = draw(st.sampled_from((*FITS, *OTHERS)))
    fit = OTHERS[name]() if name in OTHERS else example_fit(name)
    old = fit.vehicle
    route = old.routes[fit.job.route]
    by = draw(st.floats(0.6, 1.1))
    segments, start = [], 0.0
    for segment in route.segments:
        length = segment.length.value * by
        made = segment.model_copy(
            update={
                "length": quantity(segment.length, length),
                "hazards": tuple(
                    h.model_copy(update={"at": quantity(h.at, h.at.value * by)})
                    for h in segment.hazards
                ),
            }
        )
        kinds = st.sampled_from(
            (HazardKind.AIRBAG, HazardKind.PRETENSIONER, HazardKind.HIGH_VOLTAGE)
        )
        for kind in draw(st.sets(kinds, max_size=1)):
            made = hazard(made, kind, segment.length, start + length / 2)
        segments.append(made)
        start += length
    wait = draw(st.sampled_from(("as it is", "none", "long", "unknown")))
    waits = {
        "as it is": old.restraints.wait,
        "none": _seconds(fit, 0.0),
        "long": _seconds(fit, 600.0),
        "unknown": Unknown(basis=old.supply.low.basis, where=old.supply.low.where),
    }
    fit = vehicle(
        fit,
        routes={
            **old.routes,
            fit.job.route: route.model_copy(update={"segments": tuple(segments)}),
        },
        restraints=old.restraints.model_copy(update={"wait": waits[wait]}),
        battery=old.battery.model_copy(update={"sensor": draw(st.sampled_from(YesNoUnknown))}),
    )
    fit = supply(fit, rest=draw(st.sampled_from((old.supply.rest.value, old.supply.low.value))))
    return job(
        fit,
        cue=draw(st.sampled_from(sorted(old.cues))),
        mount=draw(st.sampled_from(sorted(old.mounts))),
    )


def _seconds(fit, value):
    like = fit.vehicle.supply.low
    return replace(like, value=value, low=value, high=value, unit="s", written=f"{value:g} s")


@settings(max_examples=70)
@given(fit=vehicles())
def test_the_work_keeps_every_rule_on_any_vehicle(fit):
    made = work(fit)
    assume(made is not None)
    assert wrongs(*made) == set()


# ------------------------------------------------------------------ the model's own teeth

BY_THE_WALK_ALONE = {
    # Numbers, and what a step says of itself: no matter for the bench.
    "a number twice",
    "a need that is not true",
    "power that nobody announces",
}


@pytest.mark.parametrize(("code", "name", "what", "spoil"), SABOTAGE, ids=[s[2] for s in SABOTAGE])
def test_the_bench_meets_what_the_walk_meets(code, name, what, spoil):
    checked, guide = worked(name)
    found = wrongs(checked, (spoil or number_twice)(guide))
    # Not by what the steps say of themselves: by what is done to the circuit.
    found = {rule for rule, _ in found} - {"what_a_step_needs_is_true"}
    assert bool(found) != (what in BY_THE_WALK_ALONE), (code, what)


def test_every_rule_of_the_bench_is_broken_by_some_spoilt_guide():
    broken = set()
    for _, name, _, spoil in SABOTAGE:
        checked, guide = worked(name)
        broken |= {rule for rule, _ in wrongs(checked, (spoil or number_twice)(guide))}
    assert broken == {rule.__name__ for rule in RULES}


def test_the_fits_of_other_kinds_pass_too():
    for made in OTHERS.values():
        checked = check(made())
        assert wrongs(checked, compose(checked)) == set()
