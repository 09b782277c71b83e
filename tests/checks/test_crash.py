"""A profile that holds for the road and not for a crash is told, by direction."""

from dataclasses import replace

import pytest

from baybook.finding import Verdict
from checks.asking import design, found, word
from variants import quantity

J1 = "brunsall-tansy/j1"


def holding(**loads):
    one = design(J1)
    restraint = one.fit.shop.restraint
    stated = {name: quantity(restraint.forward, g) for name, g in loads.items()}
    shop = one.fit.shop.model_copy(update={"restraint": restraint.model_copy(update=stated)})
    return replace(one, fit=replace(one.fit, shop=shop))


@pytest.mark.parametrize(
    ("loads", "ways"),
    [
        ({}, []),  # the example: 20 g and 10 g
        ({"forward": 6.6, "other": 5.0}, []),
        ({"forward": 6.5}, ["forward"]),
        ({"other": 4.9}, ["sideways"]),
        ({"other": 0.5, "sideways": 8.0}, []),
        ({"forward": 0.8, "other": 0.5}, ["forward", "sideways"]),
    ],
)
def test_each_direction_is_held_against_the_lowest_crash_figure(loads, ways):
    faults = found("FX-14", holding(**loads))
    assert [word(fault.values["way"]) for fault in faults] == ways
    assert all(fault.verdict is Verdict.CAUTION for fault in faults)
